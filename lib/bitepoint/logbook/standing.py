"""What a learner's answers to one exercise amount to: the same rules on the page and in marking."""

from collections.abc import Sequence

from msgspec import Struct

from bitepoint.logbook.record import Record
from bitepoint.questions.question import Verdict


class Marked(Struct, frozen=True):
    """One recorded answer with its verdict and the misses its question allows before the solution is shown."""

    record: Record
    verdict: Verdict
    tries_allowed: int


class Standing(Struct, frozen=True, kw_only=True):
    """Where a learner stands in one exercise.

    `first_score` is the score of the very first answer; `last_score` is what counts: 1 when some turn was answered
    right before its own solution was shown (the last such turn is `counted_turn`), else the last answer's score given
    before a solution.
    """

    first_score: float
    last_score: float
    counted: Marked
    tries: int
    turns: int
    solutions_seen: int


def order_of(record: Record) -> tuple[str, str, int]:
    """Return the key by which lines of several devices are put in order: time, device, number."""
    return (record.at, record.device, record.n)


def misses_before(answers: Sequence[Marked]) -> int:
    """Return the misses among answers of one device and turn."""
    return sum(not a.verdict.right for a in answers)


def is_closed(answers: Sequence[Marked]) -> bool:
    """Whether the answers of one device to one turn have led to its solution being shown (feedback at once)."""
    if not answers or any(a.record.score is None for a in answers):
        return False
    return not any(a.verdict.right for a in answers) and misses_before(answers) >= answers[0].tries_allowed


def _before_solution(answers: Sequence[Marked]) -> list[Marked]:
    """Answers of one device and turn that were given before its solution was shown."""
    kept: list[Marked] = []
    for answer in answers:
        if answer.record.solution_shown or is_closed(kept):
            break
        kept.append(answer)
    return kept


def _solution_seen(answers: Sequence[Marked]) -> bool:
    """Whether the solution of one device and turn was shown, also when answers follow it."""
    before = _before_solution(answers)
    return len(before) < len(answers) or is_closed(before)


def standing(answers: Sequence[Marked]) -> Standing:
    """Return where the learner stands.

    Parameters
    ----------
    answers : sequence of Marked
        All answers to one exercise, at least one, in any order.
    """
    ordered = sorted(answers, key=lambda a: order_of(a.record))
    groups: dict[tuple[int, str], list[Marked]] = {}
    for answer in ordered:
        groups.setdefault((answer.record.turn, answer.record.device), []).append(answer)
    shown = _first_shown(groups)
    counting = [
        _counts([a for a in _before_solution(group) if a.record.at <= shown.get(turn, a.record.at)])
        for (turn, _), group in groups.items()
    ]
    valid = sorted((a for a in counting if a is not None), key=lambda a: (a.record.turn, order_of(a.record)))
    rights = [a for a in valid if a.verdict.right]
    counted = rights[-1] if rights else valid[-1] if valid else ordered[-1]
    after_solution = not valid
    return Standing(
        first_score=ordered[0].verdict.score,
        last_score=0.0 if after_solution else counted.verdict.score,
        counted=counted,
        tries=len(ordered),
        turns=len({a.record.turn for a in ordered}),
        solutions_seen=sum(_solution_seen(group) for group in groups.values()),
    )


def _first_shown(groups: dict[tuple[int, str], list[Marked]]) -> dict[int, str]:
    """When the solution of each turn was first shown on any device: what comes later there or elsewhere is practice."""
    shown: dict[int, str] = {}
    for (turn, _), group in groups.items():
        before = _before_solution(group)
        if before and _solution_seen(group):
            shown[turn] = min(before[-1].record.at, shown.get(turn, before[-1].record.at))
    return shown


def _counts(answers: Sequence[Marked]) -> Marked | None:
    """Return the answer of one device and turn that counts: the right one, else the last."""
    if not answers:
        return None
    if any(a.record.score is None for a in answers):
        return answers[-1]
    return next((a for a in answers if a.verdict.right), answers[-1])
