"""Flags that point at somebody else: a question drawn for another learner, and figures that are right for one."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from math import exp, factorial

from bitepoint import units
from bitepoint.errors import NotUnderstood
from bitepoint.logbook.record import Record
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.flagging.answers import CHANGED, quoted
from bitepoint.marking.line_marking import MarkedLine, digest_for, drawn_for
from bitepoint.marking.result import Flag
from bitepoint.marking.right_figures import Who, figures_for
from bitepoint.marking.roster import key_of, public_name
from bitepoint.questions.kinds import interaction
from bitepoint.workshop.vehicles import vehicles

OTHER_FIGURES = "fits another learner's figures"
COPIED = 3
CHANCE = 0.01
_MAX_CLASS = 500
MAX_COMPARED = 6_000
"""Questions drawn for others to find whose an answer was; counted, so that a learner's flags are the same everywhere."""
_SHOWN = 5

Classes = Mapping[str, Sequence[str]]
"""Learner ids by case-folded class word."""
SOMEBODY_DELETED = "a learner who was deleted on request"


def named(learner: str, gone: Collection[str] = ()) -> str:
    """Return a learner's public name; of one who was deleted on request (case-folded ids) only that."""
    return SOMEBODY_DELETED if key_of(learner) in gone else public_name(learner)


def question_changed(
    name: str, lines: Sequence[MarkedLine], classes: Classes, cars: ClassCars = ORDINARY, gone: Collection[str] = ()
) -> Iterator[Flag]:
    """Flag answers to a question that the bank does not draw for this learner (any more); those of another first.

    The other one is named, but not who was deleted on request (`gone`, case-folded ids).
    """
    yield from sorted(_changed(name, lines, classes, cars, gone), key=lambda flag: _OWNED not in flag.evidence)


_OWNED = "The question asked is the one drawn for"


def _changed(
    name: str, lines: Sequence[MarkedLine], classes: Classes, cars: ClassCars, gone: Collection[str]
) -> Iterator[Flag]:
    seen: set[tuple[str, int, str]] = set()
    left = MAX_COMPARED
    for line in lines:
        record = line.record
        key = (record.exercise, record.turn, record.facts)
        if line.status != CHANGED or key in seen:
            continue
        seen.add(key)
        others = list(_others(record, classes)) if left > 0 else []
        left -= len(others)
        owner = next((named(o, gone) for o in others if digest_for(record, cars, learner=o) == record.facts), "")
        evidence = (
            f"Turn {record.turn}: the question asked was {quoted(record.facts[:16])} (revision {record.revision}), "
            f"the bank now draws {quoted(line.now) if line.now else 'nothing'}."
        )
        if owner:
            evidence += f" {_OWNED} {owner}."
        evidence += _of_own_sheet(record.vehicle)
        yield Flag(kind=CHANGED, learner=name, exercise=record.exercise, evidence=evidence)


def _of_own_sheet(letter: str) -> str:
    """Say where an own sheet may be why: it is not there, or its figures are others than when the question was asked."""
    known = vehicles()
    if letter and letter not in known:
        return f" There is no sheet of vehicle {quoted(letter)} here: mark with the class file whose folder has it."
    if letter and known[letter].entered_by:
        return f" The learner's car is {letter}, an own sheet: its figures may have been others then."
    return ""


def _others(record: Record, classes: Classes) -> Iterator[str]:
    for other in classes.get(key_of(record.class_word), ())[:_MAX_CLASS]:
        if key_of(other) != key_of(record.learner):
            yield other


def other_figures(
    name: str, lines: Sequence[MarkedLine], classes: Classes, cars: ClassCars = ORDINARY, gone: Collection[str] = ()
) -> Iterator[Flag]:
    """Flag numbers that are wrong here, match no known mistake, and are right for one and the same other.

    In a class some wrong figures are right for somebody by chance. So at least three must fit the same learner, and
    so many that chance would bring it about in fewer than one class in a hundred: each figure's chance is the share
    of the other learners whom it fits, and the number of pairs in the class is allowed for. Who was deleted on request
    (`gone`, case-folded ids) stays one of them, unnamed: else a copy would become honest by it.
    """
    unexplained = unexplained_figures(lines)
    compared = unexplained[: max(COPIED, MAX_COMPARED // max(1, _most_others(unexplained, classes)))]
    owners: dict[str, list[MarkedLine]] = {}
    fits: list[set[str]] = []
    others: set[str] = set()
    neighbours: dict[tuple[str, str], list[Who]] = {}
    for line in compared:
        record, value = line.record, typed_quantity(line.record.answer)
        key = (record.class_word, record.learner)
        if key not in neighbours:
            neighbours[key] = [(other, cars.of(other)) for other in _others(record, classes)]
            others.update(other for other, _ in neighbours[key])
        fits.append(_whom_it_fits(record, neighbours[key], value, cars) if value else set())
        for other in fits[-1]:
            owners.setdefault(other, []).append(line)
    limit = CHANCE / max(1, len(others) * (len(others) + 1))
    for other, fitting in sorted(owners.items(), key=lambda item: (-len(item[1]), item[0])):
        expected = sum((len(found - {other}) + 0.5) / len(others) for found in fits)
        if len(fitting) >= COPIED and at_least(len(fitting), expected) < limit:
            yield _copied_flag(name, other, fitting, len(compared), expected, cars, gone)


def _most_others(lines: Sequence[MarkedLine], classes: Classes) -> int:
    words = {key_of(line.record.class_word) for line in lines}
    return max((min(_MAX_CLASS, len(classes.get(word, ()))) for word in words), default=0)


def at_least(count: int, expected: float) -> float:
    """Return the chance of `count` or more where so many are expected (Poisson), small tails without cancellation."""
    term = exp(-expected) * expected**count / factorial(count)
    total, k = term, count
    while term > total * 1e-12:
        k += 1
        term *= expected / k
        total += term
    return total


def unexplained_figures(lines: Sequence[MarkedLine]) -> list[MarkedLine]:
    """Return the answers that are wrong figures of no known mistake, each once."""
    seen: dict[tuple[str, int, str], MarkedLine] = {}
    for line in lines:
        if interaction(line.kind) == "numeric" and line.verdict and not line.verdict.right and not line.verdict.mistake:
            seen.setdefault((line.record.exercise, line.record.turn, str(line.record.answer)), line)
    return list(seen.values())


def _copied_flag(
    name: str,
    other: str,
    fitting: Sequence[MarkedLine],
    unexplained: int,
    expected: float,
    cars: ClassCars,
    gone: Collection[str],
) -> Flag:
    owner = named(other, gone)
    whom = name if key_of(other) in gone else "both"
    sides = []
    for line in fitting[:_SHOWN]:
        mine, theirs = drawn_for(line.record, cars), drawn_for(line.record, cars, learner=other)
        if mine and theirs:
            where = f"{line.record.exercise}, turn {line.record.turn}"
            sides.append((f"{where}: answered by {name}", f"{line.record.answer} (right here: {mine.right_answer()})"))
            sides.append((f"{where}: right for {owner}", str(theirs.right_answer())))
    evidence = (
        f"{len(fitting)} of {unexplained} wrong figures that no known mistake explains are right for {owner}; "
        f"by chance about {expected:.1f} would be. Ask {whom} to work one through."
    )
    matched = "" if key_of(other) in gone else owner
    return Flag(kind=OTHER_FIGURES, learner=name, evidence=evidence, beside=tuple(sides), matched=matched)


def typed_quantity(answer: object) -> units.Quantity | None:
    """Return a recorded answer as figure and unit, None where it is none."""
    try:
        return units.quantity(answer)
    except NotUnderstood:
        return None


def _whom_it_fits(record: Record, others: Sequence[Who], typed: units.Quantity, cars: ClassCars) -> set[str]:
    """Return the learners for whom a figure is right that somebody else gave."""
    values: dict[str, float | None] = {}
    found = set()
    for (other, _), right in zip(others, figures_for(record, cars, others), strict=True):
        if right is None:
            continue
        if right.unit not in values:
            values[right.unit] = _in_unit(typed, right.unit)
        value = values[right.unit]
        if value is not None and abs(value - right.answer) <= right.width:
            found.add(other)
    return found


def _in_unit(typed: units.Quantity, wanted: str) -> float | None:
    """Return a figure in another unit, None where that is of something else; typed without one it is in that unit."""
    unit = wanted if typed.unit is None else typed.unit
    if units.dimension_of(unit) != units.dimension_of(wanted):
        return None
    return units.convert(typed.value, unit, wanted)
