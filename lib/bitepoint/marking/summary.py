"""The class in figures: outcomes, where it is stuck, what is still critical."""

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.marking.figures.counts import ExerciseCount
from bitepoint.marking.figures.forgetting import Forgetting, RecallCount, RecallDanger, recall_counts, recall_dangers
from bitepoint.marking.figures.items import ItemStatistics
from bitepoint.marking.figures.sampling import Candidate, candidate
from bitepoint.marking.flagging.clocks import first_and_last, read_times
from bitepoint.marking.moderation.agreement import Compared, compared
from bitepoint.marking.passing import UNSUPERVISED, Counted, is_supervised
from bitepoint.marking.result import OUTCOMES, RIGHT_AT_FIRST, Flag, Result, Row


class Figures(Struct, frozen=True, kw_only=True):
    """What the class table says of one learner's practice, or of the sitting that counts."""

    right: int
    needed: int
    first: int
    critical: int


class LearnerLine(Struct, frozen=True, kw_only=True):
    """One learner in the class table; `practice` and `sat` are None where nothing was answered there.

    `counts` are of practice; of who handed in none, of the sitting that counts.
    """

    name: str
    class_word: str
    flags: int
    evidence: str
    nothing: str = ""
    practice: Figures | None = None
    sat: Figures | None = None
    sitting: str = UNSUPERVISED
    observation: str = ""
    counts: dict[str, int] = {}


class RowCount(Struct, frozen=True, gc=False):
    """What the class is counted from in one row."""

    exercise: str
    outcome: str
    mistakes_made: tuple[str, ...]
    first_score: float | None
    seconds: float | None


class Counts(Struct, frozen=True, kw_only=True):
    """What one learner adds to the class: small, so that it goes from one process to another."""

    rows: tuple[RowCount, ...]
    critical: tuple[Row, ...]
    flags: tuple[Flag, ...]
    first_at: str
    last_at: str
    line: LearnerLine
    compared: tuple[Compared, ...]
    candidate: Candidate | None
    recalled: tuple[RecallCount, ...] = ()
    recall_dangers: tuple[RecallDanger, ...] = ()


def counts_of(result: Result) -> Counts:
    """Return what one learner adds to the class."""
    rows = [RowCount(r.exercise, r.outcome, r.mistakes_made, r.first_score, r.seconds) for r in result.shown_rows]
    return Counts(
        rows=tuple(rows),
        critical=tuple(row for row in (*result.rows, *result.sitting_rows) if row.critical_open),
        flags=result.flags,
        first_at=result.first_at,
        last_at=result.last_at,
        line=_line(result, outcome_counts(rows)),
        compared=tuple(compared(result)),
        candidate=None if result.nothing else candidate(result),
        recalled=recall_counts(result.recalled),
        recall_dangers=recall_dangers(result.name, result.recalled),
    )


class ClassSummary:
    """Counts results as they come, so that only the counts are held."""

    def __init__(self) -> None:
        self.exercises = {e.id: ExerciseCount(id=e.id, title=e.title, outcome=e.outcome) for e in exercises().values()}
        self.learners: list[LearnerLine] = []
        self.critical: list[Row] = []
        self.flags: list[Flag] = []
        self.first_at = self.last_at = ""
        self.items = ItemStatistics()
        self.candidates: list[Candidate] = []
        self.compared: list[Compared] = []
        self.forgetting = Forgetting()
        self.recall_dangers: list[RecallDanger] = []

    def add(self, result: Result) -> None:
        """Count one learner."""
        self.count(counts_of(result))

    def count(self, found: Counts) -> None:
        """Count what one learner adds."""
        for row in found.rows:
            count = self.exercises[row.exercise]
            count.counts[row.outcome] += 1
            for mistake in row.mistakes_made:
                count.mistakes[mistake] += 1
        self.critical += found.critical
        self.flags += found.flags
        times = (self.first_at, self.last_at, found.first_at, found.last_at)
        self.first_at, self.last_at = first_and_last(read_times(times))
        self.learners.append(found.line)
        self.compared += found.compared
        self.forgetting.add(found.recalled)
        self.recall_dangers += found.recall_dangers
        self.items.add(found.rows, [c.pair for c in found.compared if c.pair])
        if found.candidate:
            self.candidates.append(found.candidate)

    def answered_exercises(self) -> list[ExerciseCount]:
        """Return the exercises that someone has a mark in, in the order of the bank."""
        return [e for e in self.exercises.values() if sum(e.counts.values())]

    def stuck(self, most: int = 5) -> list[ExerciseCount]:
        """Return the exercises with the lowest share right at first try, lowest first."""
        found = [e for e in self.exercises.values() if e.answered and e.first_share < 1]
        return sorted(found, key=lambda e: (e.first_share, -e.answered, e.id))[:most]

    def supervised(self) -> int:
        """Return how many learners who handed in gave answers in a supervised sitting, their time confirmed."""
        return sum(not x.nothing and is_supervised(x.sitting) for x in self.learners)

    def sat(self) -> bool:
        """Whether anybody has figures of a sitting."""
        return any(x.sat for x in self.learners)

    def missing(self) -> dict[str, list[str]]:
        """Return by why it is so whom no answer counts of."""
        found: dict[str, list[str]] = {}
        for line in self.learners:
            if line.nothing:
                found.setdefault(line.nothing, []).append(line.name)
        return found


def outcome_counts(rows: Iterable[Row | RowCount]) -> dict[str, int]:
    """Return how many of a learner's exercises stand where, by outcome."""
    found = dict.fromkeys(OUTCOMES, 0)
    for row in rows:
        found[row.outcome] += 1
    return found


def _line(result: Result, counts: dict[str, int]) -> LearnerLine:
    return LearnerLine(
        name=result.name,
        class_word=result.class_word,
        flags=len(result.flags),
        evidence=result.evidence,
        nothing=result.nothing,
        practice=_figures(result.rows, result.counted, counts) if result.rows else None,
        sat=(
            _figures(result.sitting_rows, result.sat.counted, outcome_counts(result.sitting_rows))
            if result.sat
            else None
        ),
        sitting=result.sitting,
        observation=result.observation,
        counts=counts,
    )


def _figures(rows: Sequence[Row], counted: Counted, counts: Mapping[str, int]) -> Figures:
    return Figures(
        right=counted.right,
        needed=counted.needed,
        first=counts[RIGHT_AT_FIRST],
        critical=sum(r.critical_open for r in rows),
    )
