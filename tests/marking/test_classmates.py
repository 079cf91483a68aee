"""For whom a typed figure is right: gathered once for each question of a class, and the same as marking it for each."""

import sys

import pytest
from test_flags import OAK, ONE, TWO, marked, number_turns

from bitepoint import units
from bitepoint.bank import exercises
from bitepoint.logbook.identity import learner_id
from bitepoint.logbook.record import Record
from bitepoint.marking.flagging import classmates
from bitepoint.marking.flagging.classmates import Classmates
from bitepoint.marking.flagging.neighbours import typed_quantity
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.questions.number import Number

GROUP = [learner_id(OAK, n) for n in range(1, 21)]


def fitting(group: Classmates, line: MarkedLine) -> set[str]:
    """Return for whom of a class the figure of a line is right."""
    typed = typed_quantity(line.record.answer)
    assert typed is not None
    return group.fitting(line.record, typed)


def asked(record: Record) -> Number:
    """Return the question in the place of a line, as ONE was asked it."""
    question = exercises()[record.exercise].draw(class_word=OAK, learner=ONE, turn=record.turn)
    assert isinstance(question, Number)
    return question


def copied_lines() -> list[MarkedLine]:
    """Return lines of ONE in which the right figures of TWO stand, in several exercises and turns."""
    return [
        marked(e, exercises()[e].draw(class_word=OAK, learner=TWO, turn=t).right_answer(), turn=t)
        for e, t in number_turns(12)
    ]


def test_a_figure_fits_those_for_whom_it_would_be_marked_right() -> None:
    """Each of the class but the learner is marked with the same answer."""
    group = Classmates({OAK: GROUP})
    for line in copied_lines():
        record = line.record
        drawn = {o: exercises()[record.exercise].draw(class_word=OAK, learner=o, turn=record.turn) for o in GROUP}
        right = {o for o, question in drawn.items() if question.mark(record.answer).right}
        assert TWO in right
        assert right - {ONE} == fitting(group, line)


def test_nobody_is_a_classmate_of_oneself_in_other_capitals() -> None:
    """The learner's own figure is no copy, and who is compared is not counted among the others."""
    group = Classmates({OAK: [ONE.lower(), TWO]})
    line = copied_lines()[0]
    own = marked(line.record.exercise, turn=line.record.turn)

    assert ONE.lower() not in fitting(group, own)
    assert [TWO] == group.others(OAK.upper(), ONE)


@pytest.mark.parametrize("kept", [1, 3, 256])
def test_what_is_kept_of_a_class_is_bounded_and_changes_nothing(kept: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Questions in turn, twice: the same figures fit whether they were kept or gathered again."""
    monkeypatch.setattr(classmates, "_MOST_QUESTIONS", kept)
    group, lines = Classmates({OAK: GROUP}), copied_lines()
    once = [fitting(Classmates({OAK: GROUP}), line) for line in lines]

    assert once * 2 == [fitting(group, line) for line in (*lines, *lines)]
    assert len(group._right) <= kept


@pytest.mark.parametrize("group", [[ONE], [ONE, TWO]], ids=["alone", "two"])
def test_a_figure_too_large_for_a_unit_is_right_for_nobody(group: list[str]) -> None:
    """Nothing overflows in who is alone in the class either, though the class's figures are gathered as a whole."""
    record = copied_lines()[0].record
    for unit in units.units_of(units.dimension_of(asked(record).unit)):
        huge = units.Quantity(sys.float_info.max, unit)
        assert set() == Classmates({OAK: group}).fitting(record, huge)
