"""The log reader: every log opens, the part asked for is what is drawn, and the plot stands on top."""

import pytest

from bitepoint.errors import BitepointError
from bitepoint.page.calculating import result_html
from bitepoint.page.calculators import calculator_named
from bitepoint.pictures import draw
from bitepoint.workshop.roadtests import road_test

READER = calculator_named("read-a-log")
VIEWS = next(f.options for f in READER.fields if f.key == "view")


def opened(**typed: object) -> dict[str, str]:
    """Return the results as a dictionary."""
    return dict(READER.answer(typed).results)


def test_a_stored_log_and_the_log_of_a_question_open_alike() -> None:
    """Letter and number name the log, whether a file holds it or not."""
    assert opened()["Log"] == "a-1"
    assert opened(car="training vehicle C", number="417")["Log"] == "c-417"
    assert (
        opened(car="training vehicle C", number="417")["Part"]
        == f"0 to {road_test('c-417').samples[-1].t_s:g} s, 698 lines"
    )


def test_the_two_ends_cut_the_part_that_is_drawn_and_read() -> None:
    """From 35 to 40 s: 51 lines, their range beside the plot, the first and the last among the five."""
    result = READER.answer({"from_s": "35", "to_s": "40"})
    part = [s for s in road_test("a-1").samples if 35 <= s.t_s <= 40]
    told = dict(result.results)
    assert told["Part"] == "35 to 40 s, 51 lines"
    assert told["Engine speed"] == f"{min(s.engine_rpm for s in part):g} to {max(s.engine_rpm for s in part):g} rpm"
    assert [line.split(":")[0] for line in result.working] == ["35 s", "36.2 s", "37.5 s", "38.8 s", "40 s"]
    assert result.picture is not None
    assert (result.picture.parameters["from_s"], result.picture.parameters["to_s"]) == (35, 40)


@pytest.mark.parametrize("view", VIEWS)
def test_the_plot_stands_above_its_figures(view: str) -> None:
    """Whatever is drawn, the picture comes first: it is what the two ends move."""
    result = READER.answer({"view": view})
    assert result.picture is not None
    assert draw(result.picture.key, **result.picture.parameters).alt
    page = result_html(READER, result)
    assert page.index("<img") < page.index("<table")
    assert "Five lines of this part" in page


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"from_s": "40", "to_s": "40"}, "From 40 s to 40 s holds no second of this log, which ends at 60.1 s."),
        ({"from_s": "70"}, "holds no second of this log"),
        ({"number": "2.5"}, "Number of the log must be a whole number, but you gave 2.5."),
        ({"number": "0"}, "Number of the log must be between 1 and 999"),
        ({"view": "engine against wheels", "to_s": "10"}, "In this part the pedal is never up in a gear."),
    ],
)
def test_a_part_that_holds_nothing_is_answered_in_one_line(typed: dict[str, object], told: str) -> None:
    """The line says what to change."""
    with pytest.raises(BitepointError, match=told.replace(".", r"\.")):
        READER.answer(typed)


def test_only_the_two_ends_can_be_dragged() -> None:
    """A slider for from and to; no other calculator's field has one by accident."""
    assert [f.key for f in READER.fields if f.slider] == ["from_s", "to_s"]
