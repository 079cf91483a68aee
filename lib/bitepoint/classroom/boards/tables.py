"""The board's tables: where the class stands (no learner in them), and who is where."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from datetime import UTC, datetime, timedelta

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.classroom.boards.cells import Cell, ClassBoard, Person

AT_IT = timedelta(minutes=5)
FEWEST = 2
"""Learners who must have made a mistake before the wall names it: one alone would know who is meant, and so might others."""
MOST = 25


class WallRow(Struct, frozen=True, kw_only=True):
    """One exercise over the class, in numbers of learners; `withheld`: nothing but the answers given may be shown."""

    id: str
    title: str
    beyond: bool
    answered: int
    first: int
    right: int
    stuck: int
    mistake: str
    made_by: int
    withheld: bool

    @property
    def parts(self) -> tuple[tuple[str, int], ...]:
        """The bar: (what, learners), together everyone who answered."""
        if self.withheld:
            return (("answered", self.answered),)
        not_yet = self.answered - self.right - self.stuck
        later = max(self.right - self.first, 0)
        return (
            ("right at first", self.right - later),
            ("right later", later),
            ("not right yet", not_yet),
            ("stuck", self.stuck),
        )


class Wall(Struct, frozen=True, kw_only=True):
    """One lesson on the wall; `later` holds the titles that nobody answered yet."""

    key: str
    title: str
    rows: tuple[WallRow, ...]
    later: tuple[str, ...]

    @property
    def most_stuck(self) -> tuple[WallRow, ...]:
        """The exercises where most are stuck, at most three."""
        found = sorted((r for r in self.rows if r.stuck and not r.withheld), key=lambda r: -r.stuck)
        return tuple(found[:3])


class Now(Struct, frozen=True, kw_only=True):
    """The class in a few figures."""

    learners: int
    at_it: int
    answered: int


class Where(Struct, frozen=True, kw_only=True):
    """One learner's line: where, since how many minutes, what came of it."""

    learner: str
    lesson: str
    title: str
    exercise: str
    minutes: int | None
    answered: int
    right: int
    stuck: int
    critical: int


class Trouble(Struct, frozen=True, kw_only=True):
    """One learner in one exercise that needs somebody."""

    learner: str
    exercise: str
    title: str
    misses: int
    says: str
    minutes: int | None


class Names(Struct, frozen=True, kw_only=True):
    """Who is where, and who needs somebody; the troubles newest first, at most 25 of each kind."""

    where: tuple[Where, ...]
    critical: tuple[Trouble, ...]
    critical_count: int
    stuck: tuple[Trouble, ...]
    stuck_count: int
    not_begun: tuple[str, ...]


def lesson_keys(lessons: Sequence[str] = ()) -> list[str]:
    """Return the keys of the lessons, in their order; of those named, if any are."""
    known = dict.fromkeys(e.lesson for e in exercises().values())
    return [key for key in known if not lessons or key in lessons]


def title_of(lesson: str) -> str:
    """Return a lesson's title."""
    known = lessons_in_use().get(lesson)
    return known.title if known else lesson


def current_lesson(board: ClassBoard, lessons: Sequence[str]) -> str:
    """Return the lesson in which most learners gave their last answer; the first of the course when there is none."""
    counts = Counter(p.exercise.partition(".")[0] for p in board.people.values())
    return max(lessons, key=lambda key: (counts[key], -lessons.index(key)))


def wall(board: ClassBoard, lesson: str, *, left_out: Collection[str] = ()) -> Wall:
    """Return one lesson's counts; nothing in them says who. What no car of the class can serve is not to come."""
    rows, later = [], []
    for exercise in exercises().values():
        if exercise.lesson != lesson:
            continue
        cells = [found for of in board.cells.values() if (found := of.get(exercise.id))]
        if not cells:
            later += [exercise.title] if exercise.id not in left_out else []
            continue
        rows.append(_row(exercise.id, exercise.title, exercise.beyond, cells))
    return Wall(key=lesson, title=title_of(lesson), rows=tuple(rows), later=tuple(later))


def _row(id: str, title: str, beyond: bool, cells: list[Cell]) -> WallRow:
    made = Counter(mistake for cell in cells for mistake in cell.mistakes)
    mistake, count = min(made.items(), key=lambda item: (-item[1], item[0])) if made else ("", 0)
    withheld = any(c.withheld for c in cells)
    named = count >= FEWEST and not withheld
    return WallRow(
        id=id,
        title=title,
        beyond=beyond,
        answered=len(cells),
        first=sum(c.first for c in cells),
        right=sum(c.right for c in cells),
        stuck=sum(c.stuck for c in cells),
        mistake=mistake if named else "",
        made_by=count if named else 0,
        withheld=withheld,
    )


def now_of(board: ClassBoard, now: datetime, roster: Sequence[str] = ()) -> Now:
    """Return how many learners there are (roster and logbooks together), how many are at it, how much is answered."""
    people = board.people.values()
    everyone = {who.casefold() for who in roster} | board.people.keys()
    recent = [p for p in people if (at := _time(p.at)) and now - AT_IT <= at <= now + AT_IT]
    return Now(learners=len(everyone), at_it=len(recent), answered=sum(p.answered for p in people))


def names(
    board: ClassBoard,
    now: datetime,
    *,
    shown: Mapping[str, str],
    roster: Sequence[str] = (),
    in_workbooks: Sequence[str] = (),
) -> Names:
    """Return who is where.

    Parameters
    ----------
    board : ClassBoard
        The class so far.
    now : datetime
        The time by which minutes are counted.
    shown : mapping
        Display names by case-folded learner id; empty: ids alone.
    roster, in_workbooks : sequence of str
        Who is expected, and whose workbook there is.
    """
    titles = {e.id: e.title for e in exercises().values()}

    def called(name: str) -> str:
        more = shown.get(name.casefold(), "")
        return f"{name} · {more}" if more else name

    def trouble(key: str, person: Person, exercise: str, *, critical: bool) -> Trouble:
        cell = board.cells[key][exercise]
        mistake = cell.mistakes[-1] if cell.mistakes else ""
        return Trouble(
            learner=called(person.name),
            exercise=exercise,
            title=titles.get(exercise, exercise),
            misses=cell.misses,
            says=cell.critical if critical else mistake,
            minutes=minutes_since(cell.at, now),
        )

    people = sorted(board.people.items(), key=lambda item: item[1].name.casefold())
    critical = _newest(board, [(k, p, e) for k, p in people for e in p.critical])
    stuck = _newest(board, [(k, p, e) for k, p in people for e in p.stuck])
    expected = dict.fromkeys([*roster, *in_workbooks])
    return Names(
        where=tuple(_where(p, called(p.name), titles, now) for _, p in people),
        critical=tuple(trouble(*item, critical=True) for item in critical[:MOST]),
        critical_count=len(critical),
        stuck=tuple(trouble(*item, critical=False) for item in stuck[:MOST]),
        stuck_count=len(stuck),
        not_begun=tuple(called(who) for who in expected if who.casefold() not in board.people),
    )


def _newest(board: ClassBoard, found: list[tuple[str, Person, str]]) -> list[tuple[str, Person, str]]:
    return sorted(found, key=lambda item: board.cells[item[0]][item[2]].at, reverse=True)


def _where(person: Person, called: str, titles: Mapping[str, str], now: datetime) -> Where:
    lesson = person.exercise.partition(".")[0]
    return Where(
        learner=called,
        lesson=title_of(lesson),
        title=titles.get(person.exercise, person.exercise),
        exercise=person.exercise,
        minutes=minutes_since(person.at, now),
        answered=person.answered,
        right=person.right,
        stuck=len(person.stuck),
        critical=len(person.critical),
    )


def _time(text: str) -> datetime | None:
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        return None
    return found if found.tzinfo else found.replace(tzinfo=UTC)


def minutes_since(at: str, now: datetime) -> int | None:
    """Return the whole minutes since a time; None when it cannot be read or lies ahead (a clock is wrong)."""
    found = _time(at)
    if found is None or found > now + AT_IT:
        return None
    return max(0, int((now - found).total_seconds() // 60))
