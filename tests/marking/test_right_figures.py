"""Right figures that others' answers are compared with: drawn once, known elsewhere, never those of other data files."""

from collections.abc import Iterator

import pytest

from bitepoint import places
from bitepoint.bank import exercises
from bitepoint.logbook.record import Record, read_line, write_line
from bitepoint.marking import right_figures
from bitepoint.marking.class_cars import ORDINARY
from bitepoint.marking.line_marking import mark_line
from bitepoint.marking.right_figures import Figures, figures_for, figures_known, figures_of, keep_figures
from bitepoint.questions.number import Number
from bitepoint.workshop.datafiles import DataFiles, using

OAK, ONE, TWO = "Oak-2026", "L01-X", "L02-X"


@pytest.fixture(autouse=True)
def nothing_known() -> Iterator[None]:
    """No figure is known before, none of these afterwards."""
    right_figures._figures.clear()
    yield
    right_figures._figures.clear()


def answered() -> tuple[Record, Number, Figures]:
    """Return a learner's line to an exercise that asks for a figure, its question, and the figures of that hand-in."""
    for found in exercises().values():
        question = found.draw(class_word=OAK, learner=ONE)
        if type(question) is Number:
            fields = {
                "at": "2026-04-14T08:00:30.000Z",
                "learner": ONE,
                "class": OAK,
                "device": "0a1b2c3d",
                "exercise": found.id,
                "revision": found.revision,
                "turn": 1,
                "facts": question.facts_digest(),
                "how": "form",
                "answer": question.right_answer(),
            }
            line = read_line(write_line(fields, n=1, prev="").encode("ascii"))
            assert line.record
            return line.record, question, figures_of([mark_line(line)], ORDINARY)
    raise AssertionError("the bank has no exercise that asks for a figure")


def refused(*_: object) -> None:
    raise AssertionError("a question was drawn")


def test_a_figure_of_a_hand_in_need_not_be_drawn_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """Marking a hand-in keeps its right figures for the comparison."""
    record, question, figures = answered()
    monkeypatch.setattr(right_figures, "drawn_once", refused)

    (found,) = figures_for(record, ORDINARY, [(ONE, "")])

    assert found
    assert (found.answer, found.unit) == (question.answer, question.unit)
    assert [rights[ONE, ""] for rights in figures.values()] == [found]


def test_a_figure_from_another_process_need_not_be_drawn_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is not known here is drawn, and no more once another process has sent it."""
    record, _, figures = answered()
    right_figures._figures.clear()
    monkeypatch.setattr(right_figures, "drawn_once", refused)

    with pytest.raises(AssertionError, match="was drawn"):
        figures_for(record, ORDINARY, [(ONE, "")])
    keep_figures(figures)

    assert figures_for(record, ORDINARY, [(ONE, "")]) == [rights[ONE, ""] for rights in figures.values()]


def test_figures_are_those_of_the_class_and_of_the_data_files_in_use() -> None:
    """Neither another class's figures nor those drawn from other data files are sent along."""
    _, _, figures = answered()

    assert figures_known({"oak-2026"}) == figures
    assert figures_known({"elm-2026"}) == {}
    with using(DataFiles(places.assets())):
        assert figures_known({"oak-2026"}) == {}


def test_no_more_figures_are_kept_than_there_is_room_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """The table begins anew when it is full."""
    monkeypatch.setattr(right_figures, "_MOST_FIGURES", 1)
    record, _, _ = answered()

    figures_for(record, ORDINARY, [(TWO, "")])

    assert right_figures._figures.count == 1
    assert figures_known({"oak-2026"})


def test_a_figure_that_an_error_gets_in_the_way_of_costs_no_hand_in(monkeypatch: pytest.MonkeyPatch) -> None:
    """Marks rest on verdicts; the figure is for a comparison, and is looked for again when that is made."""

    def broken(_: object) -> None:
        raise TypeError

    with monkeypatch.context() as patch:
        patch.setattr(right_figures, "figure_in", broken)
        record, question, figures = answered()
    assert [{}] == list(figures.values())
    (found,) = figures_for(record, ORDINARY, [(ONE, "")])
    assert found
    assert found.answer == question.answer
