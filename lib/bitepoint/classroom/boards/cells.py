"""What the logbooks amount to so far: a cell for each learner and exercise, worked out again only where a line is new."""

from collections import Counter
from collections.abc import Iterable, Sequence
from functools import lru_cache
from sys import intern

import msgspec
from msgspec import Struct

from bitepoint.bank.corrections import withdrawal_of
from bitepoint.classroom.boards.files import News
from bitepoint.classroom.boards.recall_cells import RecallCell, recall_cell
from bitepoint.logbook.record import Line
from bitepoint.logbook.standing import Marked, critical_left, in_order, standing
from bitepoint.marking.line_marking import mark_line
from bitepoint.marking.roster import key_of, public_name
from bitepoint.questions.question import Verdict

MISSES = 3

Key = tuple[str, str]
"""Case-folded learner id, exercise."""


class Cell(Struct, frozen=True, kw_only=True):
    """One learner in one exercise.

    `stuck`: not right now, and three misses or the solution shown. `withheld`: feedback comes after the hand-in.
    `critical` says what was done, "" when nothing critical is open.
    """

    first: bool
    right: bool
    stuck: bool
    withheld: bool
    misses: int
    mistakes: tuple[str, ...]
    critical: str
    at: str


class Person(Struct, frozen=True, kw_only=True):
    """One learner: where the last answer was given and what came of all of them."""

    name: str
    exercise: str
    at: str
    answered: int
    right: int
    stuck: tuple[str, ...]
    critical: tuple[str, ...]
    folders: tuple[str, ...]


class File:
    """The lines of one file: every hash in order, and the marked answers by learner and exercise."""

    def __init__(self, folder: str) -> None:
        self.folder = folder
        self.lines: dict[str, Marked | None] = {}
        self.answers: dict[Key, list[Marked]] = {}
        self.recalled: dict[Key, list[Marked]] = {}
        self.before: dict[str, Marked | None] = {}
        self.lost = 0
        self.last: tuple[str, str, str] | None = None
        """Learner, lesson (or recall's book) and hash of the last line that is as it was written."""
        self.broken = self.unread = self.other_word = 0
        self.unmarked: Counter[str] = Counter()
        self._end = ""

    def begin_again(self) -> set[Key]:
        """Forget the lines, keeping them aside for comparison; return whose cells change."""
        dirty = {*self.answers, *self.recalled}
        self.before |= self.lines
        self.lines, self.answers, self.recalled, self.last, self._end = {}, {}, {}, None, ""
        self.broken = self.unread = self.other_word = 0
        self.unmarked.clear()
        return dirty

    def settle(self) -> None:
        """After a whole reading: count the lines that were there before and are gone."""
        self.lost += sum(hash not in self.lines for hash in self.before)
        self.before = {}

    def keep(self, line: Line, class_word: str, *, chained: bool) -> Key | None:
        """Keep one line; return whose cell changes, if one does."""
        record = line.record
        if record is None:
            self.unread += 1
            self._end = "?"
            return None
        follows = not chained or self._end in ("?", record.prev)
        self.broken += bool(line.problem) or not follows
        self._end = record.hash
        if class_word and key_of(record.class_word) != key_of(class_word):
            self.other_word += 1
            return None
        if record.hash in self.lines:
            return None
        again = self.before.get(record.hash) if not line.problem else None
        marked = self.lines[record.hash] = again or _slim(line)
        if not line.problem:
            self.last = (record.learner, record.book, record.hash)
        if record.in_own_words:
            return None
        if marked is None:
            self.unmarked[key_of(record.learner)] += 1
            return None
        key = (intern(key_of(record.learner)), intern(record.exercise))
        (self.recalled if record.is_recall else self.answers).setdefault(key, []).append(marked)
        return key


class ClassBoard:
    """Takes news file by file; the same lines always give the same board, in whatever order they came.

    With a class word, answers under another one are counted apart.
    """

    def __init__(self, class_word: str = "") -> None:
        self.class_word = class_word
        self.files: dict[str, File] = {}
        self.cells: dict[str, dict[str, Cell]] = {}
        self.recalled: dict[str, dict[str, RecallCell]] = {}
        self.people: dict[str, Person] = {}
        self.changed = 0
        self._names: dict[str, str] = {}
        self._where: dict[Key, set[str]] = {}

    def take(self, news: News) -> None:
        """Take new lines of one file."""
        file = self.files.setdefault(news.file, File(news.folder))
        dirty = file.begin_again() if news.afresh else set()
        for each in dirty:
            self._where[each].discard(news.file)
        for line in news.lines:
            if (key := file.keep(line, self.class_word, chained=news.chained)) is not None:
                self._names.setdefault(key[0], line.record.learner if line.record else "")
                self._where.setdefault(key, set()).add(news.file)
                dirty.add(key)
        if news.complete:
            file.settle()
        for each in dirty:
            self._work_out(each)
        for learner in {who for who, _ in dirty}:
            self._sum_up(learner)
        self.changed += bool(news.lines or news.afresh)

    def _work_out(self, key: Key) -> None:
        learner, exercise = key
        there = [self.files[name] for name in self._where.get(key, ())]
        found = {a.record.hash: a for file in there for a in file.answers.get(key, ())}
        again = {a.record.hash: a for file in there for a in file.recalled.get(key, ())}
        if again:
            cell = recall_cell(exercise, list(found.values()), list(again.values()))
            self.recalled.setdefault(learner, {})[exercise] = cell
        else:
            self.recalled.get(learner, {}).pop(exercise, None)
        if found:
            self.cells.setdefault(learner, {})[exercise] = _cell(list(found.values()))
        else:
            self.cells.get(learner, {}).pop(exercise, None)

    def _sum_up(self, learner: str) -> None:
        cells = self.cells.get(learner)
        if not cells:
            self.people.pop(learner, None)
            return
        last = max(cells, key=lambda e: cells[e].at)
        stuck = [e for e, c in cells.items() if c.stuck]
        critical = [e for e, c in cells.items() if c.critical]
        self.people[learner] = Person(
            name=public_name(self._names[learner]),
            exercise=last,
            at=cells[last].at,
            answered=len(cells),
            right=sum(c.right for c in cells.values()),
            stuck=tuple(sorted(stuck, key=lambda e: cells[e].at, reverse=True)),
            critical=tuple(sorted(critical, key=lambda e: cells[e].at, reverse=True)),
            folders=tuple(sorted({self.files[f].folder for e in cells for f in self._where[learner, e]})),
        )

    def name_of(self, learner: str) -> str:
        """Return the public name behind a case-folded id."""
        return public_name(self._names.get(learner, learner))

    def said(self) -> list[str]:
        """Return what a person should look at, one sentence each; they name learners and folders."""
        found = []
        for name, file in self.files.items():
            if file.lost:
                found.append(f"{name}: was rewritten or cut; {file.lost} lines that were there before are gone.")
            if file.broken:
                found.append(f"{name}: the chain does not hold in {file.broken} places.")
            if file.unread:
                found.append(f"{name}: {file.unread} lines cannot be read.")
            if file.other_word:
                found.append(f"{name}: {file.other_word} answers under another class word do not count.")
            for learner, count in file.unmarked.items():
                who = public_name(self._names.get(learner, learner))
                found.append(
                    f"{name}: {count} answers of {who} belong to no question of this version and do not count."
                )
        for person in self.people.values():
            if len(person.folders) > 1:
                found.append(
                    f"{person.name}: answers lie in {len(person.folders)} folders: {', '.join(person.folders[:5])}."
                )
        return found


@lru_cache(maxsize=4096)
def _danger(verdict: Verdict) -> str:
    """Return what was dangerous: the mistake's name, unless the course begins with it, and what the course says to it."""
    name = verdict.mistake or ""
    said = name and verdict.feedback.startswith(name.partition("”")[0])
    return (verdict.feedback if said else f"{name}: {verdict.feedback}")[:400]


def _verdict(score: float, reason: str, mistakes: tuple[str, ...], critical: bool) -> Verdict:
    return Verdict(score, "", "", reason, mistakes, critical)


def _slim(line: Line) -> Marked | None:
    """Mark a line and keep only what the board needs of it; None where it has no mark."""
    found = mark_line(line)
    if found.verdict is None:
        return None
    record, verdict = found.record, found.verdict
    kept = msgspec.structs.replace(
        record,
        at=record.at[:40],
        learner="",
        class_word="",
        device=intern(record.device[:80]),
        exercise="",
        facts="",
        words="",
        bank="",
        how="",
        answer="",
        prev="",
        mistake=None,
        opened="",
        tool="",
        sitting="",
    )
    # A critical mistake in a question that was withdrawn counts against nobody, here as in marking.
    critical = verdict.critical and withdrawal_of(record.exercise, record.revision) is None
    reason = _danger(verdict) if critical else ""
    return Marked(kept, _verdict(verdict.score, reason, verdict.mistakes, critical), found.tries_allowed)


def _cell(answers: Sequence[Marked]) -> Cell:
    stands = standing(answers)
    ordered = in_order(answers)
    misses = sum(not a.verdict.right for a in ordered)
    right = stands.last_score >= 1
    critical = critical_left(ordered)
    return Cell(
        first=stands.first_score >= 1,
        right=right,
        stuck=not right and (misses >= MISSES or stands.solutions_seen > 0),
        withheld=any(a.record.score is None for a in ordered),
        misses=misses,
        mistakes=tuple(_each_once(m for a in ordered for m in a.verdict.mistakes[:1])),
        critical=[a for a in ordered if a.verdict.critical][-1].verdict.reason if critical else "",
        at=ordered[-1].record.at,
    )


def _each_once(names: Iterable[str]) -> Iterable[str]:
    return dict.fromkeys(names)
