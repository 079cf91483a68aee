"""What a learner's answers to one exercise amount to: the same rules on the page and in marking."""

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from bitepoint.bank.corrections import withdrawal_of
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


Place = tuple[str, str, int]
"""Time, device and number: what lines of several devices are put in order by."""


def places_of(records: Iterable[Record]) -> dict[str, Place]:
    """Return the place of each line by its hash.

    Within one device and lesson the number orders, not the clock: a line counts as no earlier than any line before it,
    so that a clock set back turns no later answer into an earlier one.
    """
    latest: dict[tuple[str, str], str] = {}
    found: dict[str, Place] = {}
    for record in sorted(records, key=lambda r: (r.n, r.at)):
        chain = (record.device, record.book)
        latest[chain] = max(record.at, latest.get(chain, ""))
        found[record.hash] = (latest[chain], record.device, record.n)
    return found


def in_order(answers: Iterable[Marked]) -> list[Marked]:
    """Return answers in the order in which they were given, see `places_of`."""
    listed = list(answers)
    if len(listed) < 2:
        return listed
    places = places_of(a.record for a in listed)
    return sorted(listed, key=lambda a: places[a.record.hash])


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
    ordered = in_order(answers)
    places = places_of(a.record for a in ordered)
    groups: dict[tuple[int, str], list[Marked]] = {}
    for answer in ordered:
        groups.setdefault((answer.record.turn, answer.record.device), []).append(answer)
    shown = _first_shown(groups, places)

    def in_time(answer: Marked, turn: int) -> bool:
        time = places[answer.record.hash][0]
        return time <= shown.get(turn, time)

    counting = [
        _counts([a for a in _before_solution(group) if in_time(a, turn)]) for (turn, _), group in groups.items()
    ]
    valid = sorted((a for a in counting if a is not None), key=lambda a: (a.record.turn, places[a.record.hash]))
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


def _first_shown(groups: dict[tuple[int, str], list[Marked]], places: Mapping[str, Place]) -> dict[int, str]:
    """When the solution of each turn was first shown on any device: what comes later there or elsewhere is practice."""
    shown: dict[int, str] = {}
    for (turn, _), group in groups.items():
        before = _before_solution(group)
        if before and _solution_seen(group):
            time = places[before[-1].record.hash][0]
            shown[turn] = min(time, shown.get(turn, time))
    return shown


def _counts(answers: Sequence[Marked]) -> Marked | None:
    """Return the answer of one device and turn that counts: the right one, else the last."""
    if not answers:
        return None
    if any(a.record.score is None for a in answers):
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
