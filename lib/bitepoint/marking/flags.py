"""Flags about one learner's lines: what a person should look at, each with its evidence."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import datetime

from bitepoint import units
from bitepoint.errors import BadInput, NotUnderstood
from bitepoint.logbook.identity import checked_name
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


def quoted(text: object) -> str:
    """Return the first 40 characters of a learner's text in quotation marks, only what can be printed."""
    return "“" + "".join(c if c.isprintable() else "�" for c in str(text)[:40]) + "”"


def unknown_learner(name: str, ids: Iterable[str], enrolled: Enrolled | None, roster: Roster | None) -> Iterator[Flag]:
    """Flag someone who is not in the roster."""
    if roster is not None and enrolled is None:
        shown = ", ".join(sorted({quoted(i) for i in ids}))
        yield Flag(kind=UNKNOWN, learner=name, evidence=f"The lines are of {shown}, who is not in the roster.")


def wrong_class_word(
    name: str, lines: Sequence[MarkedLine], class_word: str, roster_words: Collection[str]
) -> Iterator[Flag]:
    """Flag lines under another class word than the learner's, or under one that the roster does not have.

    `roster_words` holds the case-folded class words of the roster, none when it has no such column.
    """
    counts = Counter(line.record.class_word for line in lines)
    for word, count in sorted(counts.items()):
        many = "1 line" if count == 1 else f"{count} lines"
        if key_of(word) != key_of(class_word):
            evidence = (
                f"{many} under class word {quoted(word)}; the class word of this learner is {quoted(class_word)}."
            )
        elif roster_words and key_of(word) not in roster_words:
            evidence = f"{many} under class word {quoted(word)}, which is not in the roster."
        elif not _usable(word):
            evidence = f"{many} under {quoted(word)}, which cannot be a class word."
        else:
            continue
        yield Flag(kind=CLASS_WORD, learner=name, evidence=evidence)


def _usable(word: str) -> bool:
    try:
        return bool(checked_name(word, "The class word"))
    except BadInput:
        return False


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
            f"Turn {record.turn}: the question asked was {quoted(record.question[:16])} (revision {record.revision}), "
            f"the bank now draws {quoted(line.now) if line.now else 'nothing'}."
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
    """Flag a number that is wrong here, matches no known mistake, and is right for another of the class."""
    seen: set[tuple[str, int, str]] = set()
    for line in lines:
        record = line.record
        key = (record.exercise, record.turn, str(record.answer))
        if key in seen or line.kind != "number" or line.verdict is None or line.verdict.right or line.verdict.mistake:
            continue
        seen.add(key)
        value = _typed(record.answer)
        owners = [public_name(o) for o in _others(record, classes) if value and _is_right(record, o, value)]
        if owners:
            few = ", ".join(owners[:_SHOWN]) + (f" and {len(owners) - _SHOWN} more" if len(owners) > _SHOWN else "")
            evidence = f"Turn {record.turn}: answered {quoted(record.answer)}, wrong here and right for {few}."
            yield Flag(kind=OTHER_FIGURES, learner=name, exercise=record.exercise, evidence=evidence)


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
    """Flag five or more form answers that came faster than a third of the time that reading takes."""
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
