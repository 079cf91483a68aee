"""What a learner's answers to one exercise amount to: the same rules on the page and in marking."""

from collections.abc import Iterable, Mapping, Sequence
from operator import attrgetter

from msgspec import Struct

from bitepoint.bank.corrections import withdrawal_of
from bitepoint.logbook.record import Record
from bitepoint.questions.question import Verdict


class Marked(Struct, frozen=True, gc=False):
    """One recorded answer with its verdict and the misses its question allows before the solution is shown."""

    record: Record
    verdict: Verdict
    tries_allowed: int


class Standing(Struct, frozen=True, kw_only=True, gc=False):
    """Where a learner stands in one exercise.

    `first` is the very first answer and `first_score` its score; `last_score` is what counts: 1 when some turn was answered
    right before its own solution was shown (the last such answer is `counted`), else the last answer's score given
    before a solution.
    """

    first: Marked
    first_score: float
    last_score: float
    counted: Marked
    tries: int
    turns: int
    solutions_seen: int


Place = tuple[str, str, int]
"""Time, device and number: what lines of several devices are put in order by."""
_number_and_time = attrgetter("n", "at")


def places_of(records: Iterable[Record]) -> dict[str, Place]:
    """Return the place of each line by its hash.

    Within one device and lesson the number orders, not the clock: a line counts as no earlier than any line before it,
    so that a clock set back turns no later answer into an earlier one.
    """
    latest: dict[tuple[str, str], str] = {}
    found: dict[str, Place] = {}
    for record in sorted(records, key=_number_and_time):
        chain = (record.device, record.book)
        time = latest[chain] = max(record.at, latest.get(chain, ""))
        found[record.hash] = (time, record.device, record.n)
    return found


def in_order(answers: Iterable[Marked]) -> Sequence[Marked]:
    """Return answers in the order in which they were given, see `places_of`."""
    return _placed(list(answers))[0]


def _placed(answers: Sequence[Marked]) -> tuple[Sequence[Marked], Mapping[str, Place]]:
    """Return answers in order, and the place of each; one by itself needs none."""
    if len(answers) < 2:
        return answers, {}
    places = places_of([a.record for a in answers])
    return sorted(answers, key=lambda a: places[a.record.hash]), places


def is_closed(answers: Sequence[Marked]) -> bool:
    """Whether the answers of one device to one turn have led to its solution being shown (feedback at once)."""
    return bool(answers) and len(answers) >= answers[0].tries_allowed and all(map(_is_miss, answers))


def _is_miss(answer: Marked) -> bool:
    """Whether the learner was told at once that an answer was wrong."""
    return answer.record.score is not None and not answer.verdict.right


_Tries = tuple[int, Sequence[Marked], bool]
"""A turn on one device: its number, the answers given before its solution was shown, and whether it was shown."""


def _tries(turn: int, answers: Sequence[Marked]) -> _Tries:
    """Part the answers of one device to one turn where its solution was shown, in one pass: see `is_closed`."""
    allowed, only_misses = answers[0].tries_allowed, True
    for given, answer in enumerate(answers, start=1):
        if answer.record.solution_shown:
            return turn, answers[: given - 1], True
        only_misses = only_misses and _is_miss(answer)
        if only_misses and given >= allowed:
            return turn, answers[:given], True
    return turn, answers, False


def _all_tries(ordered: Sequence[Marked]) -> list[_Tries]:
    """Return the tries of each turn on each device; most exercises have one answer, which needs no grouping."""
    if len(ordered) == 1:
        return [_tries(ordered[0].record.turn, ordered)]
    groups: dict[tuple[int, str], list[Marked]] = {}
    for answer in ordered:
        groups.setdefault((answer.record.turn, answer.record.device), []).append(answer)
    return [_tries(turn, group) for (turn, _), group in groups.items()]


def standing(answers: Sequence[Marked]) -> Standing:
    """Return where the learner stands.

    Parameters
    ----------
    answers : sequence of Marked
        All answers to one exercise, at least one, in any order.
    """
    ordered, places = _placed(answers)
    tries = _all_tries(ordered)
    valid = _valid(tries, places)
    rights = [a for a in valid if a.verdict.right] if len(valid) > 1 else valid
    counted = rights[-1] if rights else valid[-1] if valid else ordered[-1]
    return Standing(
        first=ordered[0],
        first_score=ordered[0].verdict.score,
        last_score=counted.verdict.score if valid else 0.0,
        counted=counted,
        tries=len(ordered),
        turns=len({turn for turn, _, _ in tries}),
        solutions_seen=sum(solution_seen for _, _, solution_seen in tries),
    )


def _valid(tries: Sequence[_Tries], places: Mapping[str, Place]) -> list[Marked]:
    """Return for each device and turn the answer that counts, those of a later turn after those of an earlier one."""
    found = []
    # What came after the solution on the same device is not in `before`: only another device's answers are left to compare.
    shown = _first_shown(tries, places) if len(tries) > 1 else {}
    for turn, before, _ in tries:
        if turn in shown:
            before = [a for a in before if places[a.record.hash][0] <= shown[turn]]
        if before:
            found.append(_counting(before))
    return sorted(found, key=lambda a: (a.record.turn, places[a.record.hash])) if len(found) > 1 else found


def _first_shown(tries: Sequence[_Tries], places: Mapping[str, Place]) -> dict[int, str]:
    """When the solution of each turn was first shown on any device: what comes later there or elsewhere is practice."""
    shown: dict[int, str] = {}
    for turn, before, solution_seen in tries:
        if before and solution_seen:
            time = places[before[-1].record.hash][0]
            shown[turn] = min(time, shown.get(turn, time))
    return shown


def _counting(answers: Sequence[Marked]) -> Marked:
    """Return the answer of one device and turn that counts: the right one, else the last; where no mark was shown, the last."""
    if len(answers) == 1 or any(a.record.score is None for a in answers):
        return answers[-1]
    return next((a for a in answers if a.verdict.right), answers[-1])


def dangers_left(answers: Iterable[Marked]) -> list[Marked]:
    """Return the answers with a critical mistake that was not put right, the oldest first.

    What puts it right is a later right answer to the same exercise, given before that turn's solution was shown; a merely
    wrong one does not. A critical mistake in a withdrawn question is none; right there, an answer still puts one right.
    """
    listed = list(answers)
    # Most exercises are answered without anything dangerous: there is nothing to put in order then.
    if not any(answer.verdict.critical for answer in listed):
        return []
    left: list[Marked] = []
    groups: dict[tuple[int, str], list[Marked]] = {}
    for answer in in_order(listed):
        group = groups.setdefault((answer.record.turn, answer.record.device), [])
        if answer.verdict.critical and not withdrawal_of(answer.record.exercise, answer.record.revision):
            left.append(answer)
        elif answer.verdict.right and not answer.record.solution_shown and not is_closed(group):
            left.clear()
        group.append(answer)
    return left


def critical_left(answers: Iterable[Marked]) -> bool:
    """Whether a critical mistake was not put right, see `dangers_left`."""
    return bool(dangers_left(answers))
