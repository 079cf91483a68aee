"""Flags about one learner's lines: what a person should look at, each with its evidence."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime

from bitepoint import units
from bitepoint.errors import NotUnderstood
from bitepoint.logbook.record import Record
from bitepoint.marking.remark import MarkedLine, digest_for, drawn_for
from bitepoint.marking.result import Flag
from bitepoint.marking.roster import Enrolled, Roster, key_of, public_name
from bitepoint.questions.number import Number

CHAIN = "chain broken"
UNKNOWN = "unknown learner"
CLASS_WORD = "wrong class word"
CHANGED = "question changed"
OTHER_FIGURES = "fits another learner's figures"
FAST = "form answers faster than reading"
TWICE = "same hand-in twice"

FAST_SHARE = 1 / 3
FAST_COUNT = 5
_MAX_CLASS = 500
_SHOWN = 5

Classes = Mapping[str, Sequence[str]]
"""Learner ids by case-folded class word."""


def unknown_learner(name: str, ids: Iterable[str], enrolled: Enrolled | None, roster: Roster | None) -> Iterator[Flag]:
    """Flag someone who is not in the roster."""
    if roster is not None and enrolled is None:
        shown = ", ".join(sorted({repr(i[:40]) for i in ids}))
        yield Flag(kind=UNKNOWN, learner=name, evidence=f"The lines are of {shown}, who is not in the roster.")


def wrong_class_word(name: str, lines: Sequence[MarkedLine], class_word: str) -> Iterator[Flag]:
    """Flag lines under another class word than the learner's."""
    others: dict[str, int] = {}
    for line in lines:
        if class_word and key_of(line.record.class_word) != key_of(class_word):
            word = line.record.class_word[:40]
            others[word] = others.get(word, 0) + 1
    for word, count in sorted(others.items()):
        evidence = f"{count} lines under class word {word!r}; the class word of this learner is {class_word!r}."
        yield Flag(kind=CLASS_WORD, learner=name, evidence=evidence)


def question_changed(name: str, lines: Sequence[MarkedLine], classes: Classes) -> Iterator[Flag]:
    """Flag answers to a question that the bank does not draw for this learner (any more)."""
    seen: set[tuple[str, int, str]] = set()
    for line in lines:
        record = line.record
        key = (record.exercise, record.turn, record.question)
        if line.status != CHANGED or key in seen:
            continue
        seen.add(key)
        owner = _whose_question(record, classes)
        evidence = (
            f"Turn {record.turn}: the question asked was {record.question[:16]!r} (revision {record.revision}), "
            f"the bank now draws {line.now or 'none'!r}."
        )
        if owner:
            evidence += f" The question asked is the one drawn for {owner}."
        yield Flag(kind=CHANGED, learner=name, exercise=record.exercise, evidence=evidence)


def _whose_question(record: Record, classes: Classes) -> str:
    for other in _others(record, classes):
        if digest_for(record, learner=other) == record.question:
            return public_name(other)
    return ""


def _others(record: Record, classes: Classes) -> Iterator[str]:
    for other in classes.get(key_of(record.class_word), ())[:_MAX_CLASS]:
        if key_of(other) != key_of(record.learner):
            yield other


def other_figures(name: str, lines: Sequence[MarkedLine], classes: Classes) -> Iterator[Flag]:
    """Flag a number that is wrong for this learner, matches no known mistake, and is right for another of the class."""
    for line in lines:
        if line.kind != "number" or line.verdict is None or line.verdict.right or line.verdict.mistake:
            continue
        value = _typed(line.record.answer)
        if value is None:
            continue
        owners = [public_name(o) for o in _others(line.record, classes) if _is_right(line.record, o, value)]
        if owners:
            few = ", ".join(owners[:_SHOWN]) + (f" and {len(owners) - _SHOWN} more" if len(owners) > _SHOWN else "")
            evidence = f"Turn {line.record.turn}: answered {str(line.record.answer)[:40]!r}, right for {few}, not here."
            yield Flag(kind=OTHER_FIGURES, learner=name, exercise=line.record.exercise, evidence=evidence)


def _typed(answer: object) -> units.Quantity | None:
    try:
        return units.quantity(answer)
    except NotUnderstood:
        return None


def _is_right(record: Record, other: str, typed: units.Quantity) -> bool:
    question = drawn_for(record, learner=other)
    if not isinstance(question, Number):
        return False
    unit = question.unit if typed.unit is None else typed.unit
    if units.dimension_of(unit) != units.dimension_of(question.unit):
        return False
    value = units.convert(typed.value, unit, question.unit)
    return abs(value - question.answer) <= question.within.width(question.answer)


def fast_answers(name: str, lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag five or more form answers that came faster than a third of the time that reading the question takes."""
    fast = []
    for line in lines:
        taken = _seconds_open(line.record) if line.record.how == "form" else None
        if taken is not None and taken < line.reading_s * FAST_SHARE:
            fast.append((line.record.exercise, taken, line.reading_s))
    if len(fast) >= FAST_COUNT:
        few = "; ".join(f"{x}: {taken:.0f} s, reading takes {reading:.0f} s" for x, taken, reading in fast[:_SHOWN])
        evidence = f"{len(fast)} form answers came faster than a third of the reading time, such as {few}."
        yield Flag(kind=FAST, learner=name, evidence=evidence)


def _seconds_open(record: Record) -> float | None:
    try:
        opened, at = datetime.fromisoformat(record.opened), datetime.fromisoformat(record.at)
        taken = (at - opened).total_seconds()
    except (ValueError, TypeError, OverflowError):
        return None
    return taken if taken >= 0 else None
