"""Every calculator at the ends of its fields, with odd input, and as the page shows it."""

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bitepoint.errors import BitepointError, NotUnderstood
from bitepoint.page.calculating import result_html
from bitepoint.page.calculators import Calculator, WrongField, calculator_named, names
from bitepoint.pictures import draw
from bitepoint.pictures.registry import Drawing

ALL = names()


def shown(found: Calculator, typed: dict[str, object]) -> bool:
    """Work a calculator through to its drawn picture; False where it refuses in words."""
    try:
        result = found.answer(typed)
    except BitepointError as error:
        refusal = str(error)
    else:
        refusal = ""
    if refusal:
        assert (len(refusal) < 400, "\n" in refusal, refusal.endswith(".")) == (True, False, True)
        assert re.findall(r"\w_\w+|\d\.0*[1-9]\d{4,}|\de[+-]|^[^A-Z]", refusal) == []
        return False
    assert result.picture is not None
    drawn = draw(result.picture.key, **result.picture.parameters)
    assert odd_figures([*words_of(drawn), *(f for _, f in result.results), *result.working, *result.warnings]) == []
    return True


def words_of(drawn: Drawing) -> list[str]:
    """What can be read of a picture; a plot is PNG, whose bytes are no words, and its alt text tells its figures."""
    return [drawn.alt, drawn.caption, *([drawn.content] if isinstance(drawn.content, str) else [])]


def odd_figures(words: list[str]) -> list[str]:
    """What nobody in a workshop reads as a figure: nan, inf, 1e-05."""
    return re.findall(r"\b(?:nan|inf)\b|\de[+-]\d", " ".join(words))


def ends(found: Calculator) -> list[dict[str, object]]:
    """All fields at their low end, all at their high end, and each one alone at either end or choice."""
    numbers = [f for f in found.fields if not f.options]
    corners: list[dict[str, object]] = [{f.key: f.low for f in numbers}, {f.key: f.high for f in numbers}]
    for field in found.fields:
        corners += [{field.key: end} for end in (field.options or (field.low, field.high))]
    return corners


def test_an_odd_figure_is_found_in_words_and_drawings_and_never_in_the_bytes_of_a_plot() -> None:
    """In alt text and SVG it is; the same letters in a PNG are chance."""
    for odd in ("nan", "inf", "1e-05", "3.2e+16"):
        assert odd_figures(words_of(Drawing(content="<svg/>", alt=f"Load {odd} N.", caption=""))) != []
        assert odd_figures(words_of(Drawing(content=f"<svg><text x='1'>{odd}</text></svg>", alt="", caption=""))) != []
        assert odd_figures(words_of(Drawing(content=f"\x89PNG {odd} ".encode(), alt="Load 4 N.", caption=""))) == []


def test_there_are_enough_calculators_for_the_course() -> None:
    """The lessons name 22 of them."""
    assert len(ALL) >= 22


@pytest.mark.parametrize("name", ALL)
def test_the_ends_of_every_field_are_worked_or_refused_in_words(name: str) -> None:
    """No figure a field allows ends in a traceback, and most of them give a result."""
    worked = [shown(calculator_named(name), corner) for corner in ends(calculator_named(name))]
    assert sum(worked) > 0.6 * len(worked)


@pytest.mark.parametrize("name", ALL)
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_any_figures_inside_the_fields_are_worked_or_refused_in_words(name: str, data: st.DataObject) -> None:
    """Drawn at random over all fields at once."""
    found = calculator_named(name)
    typed: dict[str, object] = {
        f.key: data.draw(
            st.sampled_from(f.options)
            if f.options
            else st.sampled_from((f.low, f.high)) | st.floats(f.low, f.high).map(lambda figure: round(figure, 3))
        )
        for f in found.fields
    }
    assert shown(found, typed) in (True, False)


@pytest.mark.parametrize("name", ALL)
def test_out_of_range_is_one_line_that_names_the_field(name: str) -> None:
    """Beyond the end of each field, the message names the field and both ends."""
    found = calculator_named(name)
    for field in (f for f in found.fields if not f.options):
        with pytest.raises(NotUnderstood) as caught:
            found.answer({field.key: field.high + 1, **dict([field.only_for[:2]] if field.only_for else [])})
        assert str(caught.value).startswith(f"{field.label} must be between {field.low:g} and {field.high:g}")


UNREADABLE = ("", "   ", "abc", "1.2.3", "5 what", "7 kg", "7 mm", "1e400", "9" * 13)


@pytest.mark.parametrize("name", ALL)
def test_wrong_input_says_what_this_field_takes_in_its_own_unit(name: str) -> None:
    """Whatever is typed, the line names the field and its unit with an example, and asks for no torque but in a torque."""
    found = calculator_named(name)
    for field in (f for f in found.fields if not f.options):
        choice = dict([field.only_for[:2]] if field.only_for else [])
        for typed in (*UNREADABLE, f"{field.high + 1}"):
            told = found.wrong({field.key: typed, **choice}).get(field.key, "")
            if not told:
                assert field.unit in {typed.split()[-1], "cm", "in", "m", "µm", "°"}
                continue
            assert told.startswith(field.label)
            assert told.endswith(field.takes)
            assert f"for example {field.first_text} {field.unit}".strip() in told
            assert "N·m" in field.unit or "N·m" not in told


def test_a_field_says_what_it_takes_in_words() -> None:
    """Its kind of quantity, its unit, and its first figure as the example."""
    takes = {f.key: f.takes for f in calculator_named("slip-from-log").fields}
    assert takes["kmh"] == "This field takes a speed in km/h, for example 63 km/h."
    assert takes["gear"] == "This field takes a figure without a unit, for example 1.33."
    stiffness = next(f for f in calculator_named("torque-plus-angle").fields if f.key == "stiffness")
    assert stiffness.takes == "This field takes a figure in kN/mm, for example 236 kN/mm."
    angle = next(f for f in calculator_named("torque-plus-angle").fields if f.key == "angle")
    assert angle.takes == "This field takes an angle in °, for example 50 °."


def test_all_wrong_fields_are_told_at_once_and_one_that_does_not_apply_is_not() -> None:
    """Two bad figures are two lines; a figure put away by a choice is nobody's concern."""
    found = calculator_named("bolt-preload")
    typed: dict[str, object] = {"torque": "x", "d": "99", "ring": "y"}
    assert list(found.wrong(typed)) == ["torque", "d"]
    assert list(found.wrong({**typed, "way": "friction in thread and under head"})) == ["torque", "ring", "d"]


def test_figures_that_do_not_go_together_name_the_field_that_can_change() -> None:
    """What the mechanics refuse is said in the words of the fields, and belongs to one where one is to blame."""
    with pytest.raises(WrongField) as caught:
        calculator_named("clutch-capacity").answer({"inner": "189"})
    assert caught.value.key == "inner"
    assert str(caught.value).startswith(
        "Facing, inner diameter must be at least 2 mm less than “Facing, outer diameter” (190 mm), but you gave 189 mm."
    )
    with pytest.raises(WrongField) as caught:
        calculator_named("diaphragm-spring").answer({"outer": "80", "inner": "88"})
    assert (caught.value.key, str(caught.value)) == (
        "",
        "Outer ÷ inner diameter is then 0.9091, but must be between 1.05 and 10. Change one of the figures.",
    )


@pytest.mark.parametrize("name", ALL)
def test_three_fields_come_first_and_the_rest_is_folded(name: str) -> None:
    """More than five fields: the three that matter are named, each applies at once, and none gets lost or doubled."""
    found = calculator_named(name)
    shown_first, folded = found.shown_first(), found.folded()
    assert sorted(f.key for f in (*shown_first, *folded)) == sorted(f.key for f in found.fields)
    assert len(found.first) == (3 if len(found.fields) > 5 else 0)
    assert bool(folded) is (len(found.fields) > 5)
    assert all(found.applies(f, {}) for f in shown_first)
    assert len({f.group or f.key for f in shown_first}) == (3 if found.first else len(found.fields))


def test_fields_of_one_group_stay_together_and_share_unit_and_range() -> None:
    """The readings of a run-out are one thing with one line over it, each short label its own."""
    group = [f for f in calculator_named("run-out").shown_first() if f.group]
    assert [f.short for f in group] == ["0°", "45°", "90°", "135°", "180°", "225°", "270°", "315°", "0° again"]
    assert {(f.unit, f.low, f.high) for f in group} == {("mm", -2, 2)}


@pytest.mark.parametrize("name", ALL)
def test_a_decimal_comma_and_the_fields_own_unit_may_be_typed(name: str) -> None:
    """What stands beside the field may be typed into it, with a comma."""
    found = calculator_named(name)
    typed = {f.key: f"{f.default:g} {f.unit}".replace(".", ",").strip() for f in found.fields if not f.options}
    typed = {key: text for key, text in typed.items() if not re.search(r"[1-9]\d{0,2},\d{3}\b", text)}
    assert found.answer(dict(typed)) == found.answer({})


@pytest.mark.parametrize("name", ALL)
def test_a_default_lies_on_a_figure_the_steps_reach_and_inside_its_range(name: str) -> None:
    """The first figure is inside the range, the range is a range, the label says something."""
    for field in calculator_named(name).fields:
        assert field.label
        if field.options:
            assert field.default in field.options
        else:
            assert field.low <= float(field.default) <= field.high
            assert 0 < field.step <= field.high - field.low


@pytest.mark.parametrize("name", ALL)
def test_the_page_shows_results_working_and_a_picture_with_its_alt_text(name: str) -> None:
    """As HTML: every result, every step, every warning, and an image whose alt text names a figure."""
    found = calculator_named(name)
    result = found.answer({})
    page = result_html(found, result)
    assert page.count("<img alt=") == 1
    assert page.count(f"<b>{result.working_head}</b>") == 1
    assert page.count("Take care.") == len(result.warnings)
    assert [page.count(f'class="bp-{part}"') for part in ("answer", "drawn", "worked")] == [1, 1, 1]
    alt = re.search(r'<img alt="([^"]+)"', page)
    assert alt is not None
    assert re.search(r"\d", alt[1]) is not None or name == "bolt-preload"


def test_a_plain_figure_with_a_unit_is_asked_back() -> None:
    """A friction has no unit: the message says so instead of converting."""
    with pytest.raises(NotUnderstood, match="Friction of the facing: write the figure alone, without a unit."):
        calculator_named("clutch-capacity").answer({"mu": "0,3 mm"})


def test_another_unit_of_the_same_dimension_is_converted() -> None:
    """Inches, mph and pounds go in where millimetres, km/h and kilograms are asked."""
    log = calculator_named("slip-from-log")
    assert log.answer({"kmh": "39,1464 mph"}).results == log.answer({"kmh": 63}).results
    ring = calculator_named("clutch-capacity")
    assert ring.answer({"outer": "7,4803 in"}).results == ring.answer({}).results
    with pytest.raises(NotUnderstood, match="Road speed: kg measures mass, but km/h measures speed"):
        log.answer({"kmh": "63 kg"})


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        (
            "wear-until-slip",
            {
                "load": 500,
                "engine": 20,
                "outer": 120,
                "inner": 60,
                "mu": 0.05,
                "wear": 0,
                "cone": 4.767,
                "new": 1.5,
            },
        ),
        ("axle-load-shift", {"front": 2000, "base": 2923.427, "part": 400, "place": 2552.49}),
    ],
)
def test_figures_that_once_failed_are_worked(name: str, typed: dict[str, object]) -> None:
    """A spring just free by a last digit, and an axle left with less than a kilogram."""
    assert shown(calculator_named(name), typed)
