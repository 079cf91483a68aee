"""What a class is forgetting: the share right in recall about one, two, four and eight weeks after an exercise was last answered.

The answers of one learner hang together, so the intervals count learners and not answers; where fewer than five
answered, no figure is given.
"""

from array import array
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.marking.figures.clustered import clustered_between
from bitepoint.marking.figures.counts import ExerciseCount
from bitepoint.marking.recalled import Recalled

FEWEST = 5
"""Learners who must have answered before a share is given (our choice)."""
TOO_FEW = "too few to say"


class Band(NamedTuple):
    """A stretch of time since the exercise was last answered, from `begins` days to before `ends`."""

    name: str
    begins: int
    ends: int

    @property
    def says(self) -> str:
        """The days that belong to it, in words."""
        return f"{self.begins} to {self.ends - 1} days"


BANDS = (
    Band("about 1 week", 4, 11),
    Band("about 2 weeks", 11, 21),
    Band("about 4 weeks", 21, 42),
    Band("about 8 weeks", 42, 85),
)


class RecallCount(NamedTuple):
    """What the class is counted from in one answer in recall."""

    exercise: str
    days: float | None
    right: bool
    mistake: str


class RecallDanger(Struct, frozen=True, kw_only=True):
    """One dangerous answer in recall: whose, where, what was dangerous, on which day, and whether a right one followed."""

    learner: str
    exercise: str
    mistake: str
    says: str
    day: str
    put_right: bool


class RecallShare(Struct, frozen=True, kw_only=True):
    """A share right with its 95 % interval and what stands behind it; no figure where too few learners answered."""

    answers: int = 0
    learners: int = 0
    right: float | None = None
    least: float = 0.0
    most: float = 1.0

    @property
    def told(self) -> str:
        """The share and between which values it may lie, in hundredths; or that too few answered."""
        if self.right is None:
            return TOO_FEW
        return f"{100 * self.right:.0f} % ({100 * self.least:.0f} to {100 * self.most:.0f})"


class Forgotten(Struct, frozen=True, kw_only=True):
    """One outcome: right in its lessons in the end, right in recall by band and over all bands, and what to do about it.

    `exercises` are those asked in recall, the one with the lowest share first; `mistake` the one made most often there.
    """

    outcome: str
    in_lesson: float | None
    bands: tuple[RecallShare, ...]
    together: RecallShare
    exercises: tuple[str, ...]
    mistake: str
    times: int

    @property
    def fell(self) -> float | None:
        """By how much recall is below the lesson at least, None where one of both is not known."""
        if self.in_lesson is None or self.together.right is None:
            return None
        return self.in_lesson - self.together.most

    @property
    def words(self) -> str:
        """Say what to do again tomorrow."""
        title = exercises()[self.exercises[0]].title
        if self.mistake:
            many = "once" if self.times == 1 else f"{self.times} times"
            return f"Begin with “{title}”. Tempting, made {many}: {self.mistake}."
        return f"Begin with “{title}”. No mistake stands out: work one example through, with new figures."


def recall_counts(recalled: Sequence[Recalled]) -> tuple[RecallCount, ...]:
    """Return what one learner's answers in recall add to the class."""
    return tuple(RecallCount(r.exercise, r.days, r.right, r.mistake) for r in recalled)


def recall_dangers(name: str, recalled: Sequence[Recalled]) -> tuple[RecallDanger, ...]:
    """Return a learner's dangerous answers in recall, newest first."""
    return tuple(
        RecallDanger(
            learner=name,
            exercise=r.exercise,
            mistake=r.mistake,
            says=r.says,
            day=r.at.date().isoformat(),
            put_right=r.put_right,
        )
        for r in reversed(recalled)
        if r.critical
    )


def share_of(pairs: Sequence[tuple[int, int]]) -> RecallShare:
    """Return the share of right answers of learners, given as (right, answered)."""
    answers = sum(n for _, n in pairs)
    if len(pairs) < FEWEST:
        return RecallShare(answers=answers, learners=len(pairs))
    least, most = clustered_between(pairs)
    right = sum(x for x, _ in pairs) / answers
    return RecallShare(answers=answers, learners=len(pairs), right=right, least=least, most=most)


def band_of(days: float | None) -> int | None:
    """Return the number of the band that a pause falls into, None where it falls into none."""
    return next((n for n, b in enumerate(BANDS) if days is not None and b.begins <= days < b.ends), None)


_Cell = tuple[str, int | None]
"""An outcome ("" for all) and the number of a band (None for all)."""


class Forgetting:
    """Takes learner by learner and keeps two small numbers for each outcome and band."""

    def __init__(self) -> None:
        self.learners = self.answers = self.in_no_band = 0
        self._cells: dict[_Cell, array[int]] = {}
        self._mistakes: dict[str, Counter[str]] = {}
        self._by_exercise: dict[str, list[int]] = {}

    def add(self, counts: Iterable[RecallCount]) -> None:
        """Take the answers in recall of one learner."""
        own: dict[_Cell, list[int]] = {}
        for count in counts:
            self.answers += 1
            band = band_of(count.days)
            if count.exercise not in exercises() or band is None:
                self.in_no_band += 1
                continue
            self._keep(count, band, own)
        self.learners += bool(own)
        for cell, pair in own.items():
            self._cells.setdefault(cell, array("l")).extend(pair)

    def _keep(self, count: RecallCount, band: int, own: dict[_Cell, list[int]]) -> None:
        outcome = exercises()[count.exercise].outcome
        pairs = [own.setdefault((o, b), [0, 0]) for o in (outcome, "") for b in (band, None)]
        for pair in (*pairs, self._by_exercise.setdefault(count.exercise, [0, 0])):
            pair[0] += count.right
            pair[1] += 1
        if count.mistake:
            self._mistakes.setdefault(outcome, Counter())[count.mistake] += 1

    def over_all(self) -> tuple[RecallShare, ...]:
        """Return the share of each band over all outcomes, and after them that of all bands together."""
        return tuple(self._share("", band) for band in (*range(len(BANDS)), None))

    def outcomes(self, lessons: Sequence[ExerciseCount]) -> list[Forgotten]:
        """Return the outcomes that were asked again, the one that surely fell most first; those with too few answers last.

        `lessons` say how many were right in the lesson in the end.
        """
        asked: dict[str, list[str]] = {}
        for id, _, _ in self.weakest():
            asked.setdefault(exercises()[id].outcome, []).append(id)
        found = [self._forgotten(outcome, tuple(ids), lessons) for outcome, ids in asked.items()]
        return sorted(found, key=lambda f: (f.fell is None, -(f.fell or 0), f.outcome))

    def weakest(self) -> list[tuple[str, int, int]]:
        """Return (exercise, right, answers) of what was asked again, the one forgotten most first.

        One answer more on either side is added before shares are compared, so that a single miss does not come first.
        """
        found = [(id, right, answers) for id, (right, answers) in self._by_exercise.items()]
        return sorted(found, key=lambda x: ((x[1] + 1) / (x[2] + 2), x[0]))

    def _share(self, outcome: str, band: int | None) -> RecallShare:
        flat = self._cells.get((outcome, band), array("l"))
        return share_of(list(zip(flat[::2], flat[1::2], strict=True)))

    def _forgotten(self, outcome: str, asked: tuple[str, ...], lessons: Sequence[ExerciseCount]) -> Forgotten:
        mistake, times = _commonest(self._mistakes.get(outcome, Counter()))
        return Forgotten(
            outcome=outcome,
            in_lesson=_right_in_the_end([count for count in lessons if count.id in asked]),
            bands=tuple(self._share(outcome, band) for band in range(len(BANDS))),
            together=self._share(outcome, None),
            exercises=asked,
            mistake=mistake,
            times=times,
        )


def _commonest(mistakes: Counter[str]) -> tuple[str, int]:
    return min(mistakes.items(), key=lambda item: (-item[1], item[0])) if mistakes else ("", 0)


def _right_in_the_end(counts: Sequence[ExerciseCount]) -> float | None:
    answered = sum(count.answered for count in counts)
    if not answered:
        return None
    return sum(count.counts["right at first try"] + count.counts["right later"] for count in counts) / answered
