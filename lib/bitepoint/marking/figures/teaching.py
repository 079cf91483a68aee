"""What to teach again tomorrow, what a learner practises next, and what to ask a learner face to face."""

from collections.abc import Iterator, Sequence
from hashlib import blake2b
from itertools import islice

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.corrections import withdrawn_now
from bitepoint.marking.figures.counts import ExerciseCount
from bitepoint.marking.line_marking import Asked, drawn
from bitepoint.marking.result import Result, Row
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

_STUCK_SHARE = 0.6
_LONGEST = 700


class Reteach(Struct, frozen=True, kw_only=True):
    """One thing the class cannot do yet: the outcome, its share right at first try, and its commonest mistake."""

    outcome: str
    share: float
    exercises: tuple[str, ...]
    mistake: str
    times: int

    @property
    def words(self) -> str:
        """Say it in a sentence."""
        said = f"{100 * self.share:.0f} % right at first try"
        if self.mistake:
            many = "once" if self.times == 1 else f"{self.times} times"
            return f"{said}. Commonest mistake, made {many}: {self.mistake}. Begin with it: let someone say why it is tempting."
        return f"{said}, and no mistake stands out. Work one example through, figure by figure."


class Oral(Struct, frozen=True, kw_only=True):
    """One question to ask face to face: about which exercise, what the learner read, what to ask, what to listen for."""

    exercise: str
    asked: str
    ask: str
    listen: str


def reteach(counts: Sequence[ExerciseCount], most: int = 4) -> list[Reteach]:
    """Return the outcomes that fewer than 60 in 100 had right at first try, the lowest first."""
    groups: dict[str, list[ExerciseCount]] = {}
    for count in counts:
        if count.answered:
            groups.setdefault(count.outcome, []).append(count)
    found = []
    for outcome, group in groups.items():
        answered = sum(c.answered for c in group)
        share = sum(c.counts["right at first try"] for c in group) / answered
        mistakes = [(c.commonest[1], c.commonest[0]) for c in group if c.commonest[0]]
        times, mistake = max(mistakes, default=(0, ""))
        if share < _STUCK_SHARE:
            ids = tuple(c.id for c in sorted(group, key=lambda c: c.first_share))
            found.append(Reteach(outcome=outcome, share=share, exercises=ids, mistake=mistake, times=times))
    return sorted(found, key=lambda r: (r.share, r.outcome))[:most]


def next_practice(result: Result, most: int = 5) -> list[tuple[str, str]]:
    """Return (exercise, why) for what to practise next: critical first, then wrong, then not answered; nothing that is withdrawn."""
    gone = withdrawn_now()
    return list(islice((found for found in _to_practise(result) if found[0] not in gone), most))


def _to_practise(result: Result) -> Iterator[tuple[str, str]]:
    rows = {row.exercise: row for row in result.shown_rows}
    yield from ((id, "a critical mistake is still open") for id, r in rows.items() if r.critical_open)
    yield from ((id, _why(r)) for id, r in rows.items() if not r.critical_open and (r.mark or 0) < 1)
    yield from ((e.id, "not answered yet") for e in result.rules.wanted() if e.id not in rows)
    again = "right only after several tries: once more with new figures"
    yield from ((id, again) for id, r in rows.items() if _shaky(r))


def by_outcome(result: Result) -> list[tuple[str, int, int]]:
    """Return (outcome, exercises right, exercises under the pass rule) for one learner, in the order of the bank."""
    right = {row.exercise for row in result.shown_rows if (row.mark or 0) >= 1}
    return [(outcome, len(ids & right), len(ids)) for outcome, ids in result.rules.wanted_by_outcome().items()]


def _why(row: Row) -> str:
    if row.mark is None:
        return "not marked: the question has changed since"
    return f"not right yet: {row.mistake}" if row.mistake else "not right yet"


def _shaky(row: Row) -> bool:
    return (row.mark or 0) >= 1 and not row.critical_open and row.tries > 2


def oral_questions(result: Result) -> list[Oral]:
    """Return two questions from this learner's own figures: first what was answered right, else what was answered.

    Which ones is drawn from learner and exercise, so it is the same at each marking.
    """
    marked = [r for r in result.shown_rows if r.last_score is not None and not r.withdrawn]
    marked.sort(key=lambda r: (not _answered_right(r), blake2b(f"{result.name}/{r.exercise}".encode()).digest()))
    found = (oral for row in marked if (oral := _oral(result, row)))
    return list(islice(found, 2))


def _answered_right(row: Row) -> bool:
    """Whether the answer itself is right; a person's mark may say otherwise, for a reason that is not in the answer."""
    return (row.last_score or 0) >= 1


def question_of(result: Result, row: Row) -> Question | None:
    """Return the question that the mark of a row is about, drawn again; None when it cannot be drawn any more."""
    exercise = exercises()[row.exercise]
    return drawn(
        Asked(
            exercise=row.exercise,
            class_word=result.class_word,
            learner=result.name,
            turn=row.turn,
            sitting=row.sitting,
            revision=row.revision or exercise.revision,
            vehicle=row.vehicle,
            edition=row.edition,
            cars=row.class_cars,
        )
    )


def _oral(result: Result, row: Row) -> Oral | None:
    question = question_of(result, row)
    if question is None:
        return None
    if _answered_right(row):
        answered = kind_of(question).aloud(row.answer)
        ask = f"You answered “{answered[:200]}”. Explain why that is right, and what would happen on a car if you did otherwise."
        listen = question.why
    else:
        ask = f"You answered “{row.answer[:200]}”. Tell me how you would answer now, and why."
        listen = question.solution or question.why
    return Oral(exercise=row.exercise, asked=question.ask[:_LONGEST], ask=ask, listen=listen)
