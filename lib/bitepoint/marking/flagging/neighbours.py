"""Flags that point at somebody else: a question drawn for another learner, and figures that are right for one."""

from collections.abc import Collection, Iterator, Sequence
from math import exp, lgamma, log

from bitepoint import units
from bitepoint.errors import NotUnderstood
from bitepoint.marking.flagging.answers import CHANGED, quoted
from bitepoint.marking.flagging.classmates import Classmates
from bitepoint.marking.line_marking import MarkedLine, digest_for, drawn_for
from bitepoint.marking.result import Flag
from bitepoint.marking.roster import key_of, public_name
from bitepoint.questions.kinds import interaction
from bitepoint.workshop.vehicles import vehicles

OTHER_FIGURES = "fits another learner's figures"
COPIED = 3
CHANCE = 0.01
MAX_COMPARED = 6_000
"""Questions drawn for others to find whose an answer was; counted, so that a learner's flags are the same everywhere."""
_SHOWN = 5

SOMEBODY_DELETED = "a learner who was deleted on request"


def named(learner: str, gone: Collection[str] = ()) -> str:
    """Return a learner's public name; of one who was deleted on request (case-folded ids) only that."""
    return SOMEBODY_DELETED if key_of(learner) in gone else public_name(learner)


def question_changed(name: str, lines: Sequence[MarkedLine], classmates: Classmates) -> Iterator[Flag]:
    """Flag answers to a question that the bank does not draw for this learner (any more); those of another first.

    The other one is named, but not who was deleted on request.
    """
    yield from sorted(_changed(name, lines, classmates), key=lambda flag: _OWNED not in flag.evidence)


_OWNED = "The question asked is the one drawn for"


def _changed(name: str, lines: Sequence[MarkedLine], classmates: Classmates) -> Iterator[Flag]:
    seen: set[tuple[str, int, str]] = set()
    left = MAX_COMPARED
    for line in lines:
        if line.status != CHANGED:
            continue
        record = line.record
        key = (record.exercise, record.turn, record.facts)
        if key in seen:
            continue
        seen.add(key)
        others = classmates.others(record.class_word, record.learner) if left > 0 else []
        left -= len(others)
        drawn_so = (o for o in others if digest_for(record, classmates.cars, learner=o) == record.facts)
        owner = next((named(o, classmates.gone) for o in drawn_so), "")
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


def other_figures(name: str, lines: Sequence[MarkedLine], classmates: Classmates) -> Iterator[Flag]:
    """Flag numbers that are wrong here, match no known mistake, and are right for one and the same other.

    In a class some wrong figures are right for somebody by chance. So at least three must fit the same learner, and
    so many that chance would bring it about in fewer than one class in a hundred: each figure's chance is the share
    of the other learners whom it fits, and the number of pairs in the class is allowed for. Who was deleted on request
    stays one of them, unnamed: else a copy would become honest by it.
    """
    unexplained = unexplained_figures(lines)
    most_others = classmates.most({line.record.class_word for line in unexplained})
    compared = unexplained[: max(COPIED, MAX_COMPARED // max(1, most_others))]
    owners: dict[str, list[MarkedLine]] = {}
    fits: list[set[str]] = []
    for line in compared:
        value = typed_quantity(line.record.answer)
        fits.append(classmates.fitting(line.record, value) if value else set())
        for other in fits[-1]:
            owners.setdefault(other, []).append(line)
    likely = [(other, fitting) for other, fitting in owners.items() if len(fitting) >= COPIED]
    if not likely:
        return
    asked = {(line.record.class_word, line.record.learner) for line in compared}
    others = len({other for word, learner in asked for other in classmates.others(word, learner)})
    limit = CHANCE / max(1, others * (others + 1))
    for other, fitting in sorted(likely, key=lambda item: (-len(item[1]), item[0])):
        expected = sum((len(found) - (other in found) + 0.5) / others for found in fits)
        if at_least(len(fitting), expected) < limit:
            yield _copied_flag(name, other, fitting, len(compared), expected, classmates)


def at_least(count: int, expected: float) -> float:
    """Return the chance of `count` or more where so many are expected (Poisson), small tails without cancellation."""
    term = exp(count * log(expected) - expected - lgamma(count + 1))
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
    classmates: Classmates,
) -> Flag:
    cars, gone = classmates.cars, classmates.gone
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
