"""The live fields of a calculator: what the kernel answers to what is typed."""

import pytest

from bitepoint.errors import NotUnderstood
from bitepoint.page.calculating import fields_form, result_html
from bitepoint.page.calculators import calculator_named, names
from bitepoint.page.calculators.fields import Field, number


@pytest.mark.parametrize("name", names())
def test_the_form_has_every_field_once_with_the_first_ones_on_top(name: str) -> None:
    """In the order of the calculator, the folded ones last and marked."""
    found = calculator_named(name)
    fields = fields_form(found).spec["fields"]
    assert [f["key"] for f in fields] == [f.key for f in (*found.shown_first(), *found.folded())]
    assert [f["key"] for f in fields if f.get("folded")] == [f.key for f in found.folded()]


def test_wrong_input_keeps_the_result_before_and_names_its_field() -> None:
    """Nothing is lost: neither what was typed nor what was shown; put right, the new result comes."""
    form = fields_form(calculator_named("slip-from-log"))
    before, first = form.shown, dict(form.values)
    form.values = {**first, "kmh": "60 N·m"}
    assert form.shown == before
    assert form.wrong == {
        "kmh": "Road speed: N·m measures torque, but km/h measures speed. "
        "This field takes a speed in km/h, for example 63 km/h."
    }
    form.values = {**first, "kmh": "60"}
    assert form.wrong == {}
    assert "12.5 %" in form.shown


def test_each_answer_counts_even_where_it_changes_nothing() -> None:
    """The page hears of it, so that it does not wait for ever."""
    form = fields_form(calculator_named("slip-from-log"))
    form.values = {**form.values, "kmh": "63.0"}
    form.values = {**form.values, "kmh": "x"}
    form.values = {**form.values, "kmh": "xx"}
    assert form.answered == 3


def test_figures_that_do_not_go_together_are_told_without_a_field_to_blame() -> None:
    """Where several could be changed, the line stands over the old result."""
    form = fields_form(calculator_named("diaphragm-spring"))
    form.values = {**form.values, "outer": "80", "inner": "88"}
    assert list(form.wrong) == [""]
    form = fields_form(calculator_named("read-a-log"))
    form.values = {**form.values, "view": "engine against wheels", "to_s": "10"}
    assert list(form.wrong) == [""]
    form.values = {**form.values, "from_s": "70", "to_s": "90"}
    assert list(form.wrong) == ["from_s"]


def test_negative_figures_have_a_minus_and_words_keep_their_hyphen() -> None:
    """−15 % in the results; a crow-foot stays one word."""
    found = calculator_named("wrench-with-crow-foot")
    shown = str(result_html(found, found.answer({"angle": "180"})))
    assert "−15 %" in shown
    assert "crow-foot" in shown


def test_a_folded_calculator_waits_behind_its_button_and_any_other_is_open() -> None:
    """The lesson says which; the figures are worked in either case."""
    found = calculator_named("slip-from-log")
    folded, plain = fields_form(found, folded=True), fields_form(found)
    assert (folded.spec["folds"], folded.opened) == (True, False)
    assert (plain.spec["folds"], plain.opened) == (False, True)
    assert folded.shown == plain.shown


def test_a_figure_with_one_reading_in_the_range_of_its_field_is_not_asked_back() -> None:
    """A gear ratio of 1.375 cannot be 1375; where both readings lie in the range, both are asked back."""
    ratio = Field(key="gear", label="Gear ratio", default=3.5, low=0.4, high=6)
    assert number(ratio, "1,375") == 1.375
    force = Field(key="load", label="Load", unit="N", default=500, low=0, high=9000)
    with pytest.raises(
        NotUnderstood, match=r"^Load: 1\.200 can mean 1200 or 1\.200\. Write 1200, or 1\.2\. This field"
    ):
        number(force, "1.200")
    assert number(force, "1.2000 kN") == 1200
    assert number(force, "1.200 kN") == 1200
    with pytest.raises(NotUnderstood, match="write the figure alone"):
        number(ratio, "1,375 mm")
