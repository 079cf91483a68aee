"""The calculators a lesson shows: figures, working, warnings, and what is typed."""

import re

import pytest

from bitepoint.errors import BadInput, BitepointError, NotUnderstood
from bitepoint.page.calculators import calculator_named, names
from bitepoint.pictures import draw
from bitepoint.sources import SOURCES


def results(name: str, **typed: object) -> dict[str, str]:
    """Return the results of a calculator by their labels."""
    return dict(calculator_named(name).answer(typed).results)


@pytest.mark.parametrize("name", names())
def test_every_calculator_works_with_its_first_figures(name: str) -> None:
    """Opened and not touched, a calculator shows results, working and a picture that can be drawn."""
    found = calculator_named(name)
    shown = found.answer({})
    assert found.source in SOURCES
    assert (bool(shown.results), bool(shown.working)) == (True, True)
    assert shown.picture is not None
    assert draw(shown.picture.key, **shown.picture.parameters).alt != ""


@pytest.mark.parametrize("name", names())
def test_every_calculator_reads_its_own_defaults_as_typed_text(name: str) -> None:
    """The text a field starts with gives the same answer as no text at all."""
    found = calculator_named(name)
    assert found.answer(dict(found.defaults())) == found.answer({})


def test_an_unknown_calculator_names_its_nearest() -> None:
    """A misspelt name says what was probably meant."""
    with pytest.raises(BadInput, match="Did you mean 'bolt-preload'"):
        calculator_named("bolt-preloads")


def test_preload_of_the_flywheel_bolt_of_training_vehicle_a() -> None:
    """65 N·m on M10×1.25 10.9 with K 0.17 gives 38.2 kN, 75 % of proof."""
    assert results("bolt-preload") == {
        "Preload": "38.2 kN",
        "Proof load of the bolt": "50.8 kN",
        "Preload in percent of proof": "75 %",
    }


def test_a_decimal_comma_and_another_unit_are_understood() -> None:
    """What a learner types in the trade's ways is read as meant."""
    assert results("bolt-preload", k="0,17", torque="47,94 lbf·ft")["Preload"] == "38.2 kN"


def test_the_friction_form_agrees_with_the_nut_factor_it_stands_for() -> None:
    """Friction 0.12 on M10×1.5 is K 0.1633: both forms give the same preload."""
    friction = {"way": "friction in thread and under head", "ring": "12.815"}
    assert results("bolt-preload", torque=48.34, pitch=1.5, **friction)["Preload"] == "29.6 kN"
    assert results("bolt-preload", torque=48.34, pitch=1.5, k=0.1633)["Preload"] == "29.6 kN"


@pytest.mark.parametrize(
    ("torque", "words"), [(65, ()), (80, ("Above 90 %",)), (90, ("Above 100 % of proof nobody guarantees",))]
)
def test_preload_near_proof_is_warned_in_words(torque: float, words: tuple[str, ...]) -> None:
    """The warning rises in two steps, at 90 and at 100 % of proof."""
    warnings = calculator_named("bolt-preload").answer({"torque": torque}).warnings
    assert len(warnings) == len(words)
    assert all(warning.startswith(start) for warning, start in zip(warnings, words, strict=True))


def test_a_field_out_of_range_is_named() -> None:
    """The message names the field, its range and what was given."""
    with pytest.raises(NotUnderstood, match="Torque must be between 1 and 500 N·m, but you gave 5000 N·m."):
        results("bolt-preload", torque=5000)
    with pytest.raises(NotUnderstood, match="Property class: choose one of 8.8, 10.9, 12.9."):
        results("bolt-preload", **{"class": "4.6"})


def test_a_pitch_no_thread_has_is_one_clear_line() -> None:
    """A pitch too coarse for the diameter is refused by the mechanics, in words."""
    with pytest.raises(BitepointError, match="Pitch must be between"):
        results("bolt-preload", d=6, pitch=4)


def test_a_crow_foot_changes_the_setting() -> None:
    """100 with a 304.8 mm lever and a 152.4 mm adaptor is set as 66.7, as in the printed manual."""
    shown = results("wrench-with-crow-foot", target=100, lever=304.8, offset=152.4)
    assert shown == {"Set on the wrench": "66.7 N·m", "At the bolt, if you forgot the crow-foot": "150.0 N·m, +50 %"}


@pytest.mark.parametrize("fitted", ["nothing", "straight bar"])
@pytest.mark.parametrize("length", [0, 75, 300])
def test_a_straight_bar_changes_nothing(fitted: str, length: float) -> None:
    """Whatever the length, the setting is the torque of the sheet."""
    assert results("wrench-with-crow-foot", fitted=fitted, offset=length)["Set on the wrench"] == "65.0 N·m"


def test_correcting_for_a_straight_bar_is_shown_as_too_low() -> None:
    """75 mm on a 410 mm lever would leave the bolt 15 % low."""
    working = calculator_named("wrench-with-crow-foot").answer({"fitted": "straight bar", "offset": 75}).working
    assert working[-1] == "Whoever corrects for 75 mm sets 54.9 N·m: the bolt ends 15 % too low."


def test_the_working_of_a_crow_foot_holds_the_learners_figures() -> None:
    """Step by step with what was typed, and the picture drawn for it."""
    shown = calculator_named("wrench-with-crow-foot").answer({"angle": "60", "offset": "120"})
    assert shown.working[0] == "From grip to bolt, along the handle: 410 + 120 × cos 60° = 470 mm"
    assert shown.working[1] == "Setting = torque × L ÷ that = 65 × 410 ÷ 470 = 56.7 N·m"
    assert shown.picture is not None
    assert shown.picture.parameters == {"lever_mm": 410.0, "offset_mm": 120.0, "angle_deg": 60.0}


@pytest.mark.parametrize(("angle", "warned"), [(0, False), (90, False), (120, True)])
def test_a_crow_foot_that_points_back_is_told(angle: float, warned: bool) -> None:
    """Past a right angle the setting lies above the torque of the sheet."""
    assert bool(calculator_named("wrench-with-crow-foot").answer({"angle": angle}).warnings) is warned


def test_every_corner_of_the_crow_foot_fields_is_drawn_or_refused_in_words() -> None:
    """No setting that the fields allow ends in a traceback."""
    found = calculator_named("wrench-with-crow-foot")
    drawn = 0
    for lever in (150, 1200):
        for offset in (0, 300):
            for angle in (0, 90, 180):
                try:
                    shown = found.answer({"lever": lever, "offset": offset, "angle": angle})
                except BitepointError:
                    continue
                assert shown.picture is not None
                drawn += draw(shown.picture.key, **shown.picture.parameters).width_px > 0
    assert drawn == 11  # a 300 mm adaptor turned back on a 150 mm lever is refused


def test_one_pass_in_the_star_lifts_neither_mean_nor_weakest_bolt() -> None:
    """The star takes the tilt away, nothing else; the calculator shows that truth."""
    ring, star = results("tightening-order"), results("tightening-order", order="star")
    assert ring["Mean of all bolts"] == star["Mean of all bolts"] == "87 % of target"
    assert ring["Weakest bolt at the end"] == star["Weakest bolt at the end"] == "bolt 1, 74 % of target"
    assert (ring["Tilt at the end"], star["Tilt at the end"]) == ("3.6 %", "0.0 %")


def test_stages_and_second_round_lift_the_weakest_bolt() -> None:
    """74 % in one stage, 89 % in three, 99 % after the second round."""
    three = {"order": "star", "stages": "3 stages (30, 70, 100 %)"}
    found = [
        results("tightening-order", **way)["Weakest bolt at the end"] for way in ({}, three, {**three, "second": "yes"})
    ]
    assert [text.partition(", ")[2] for text in found] == ["74 % of target", "89 % of target", "99 % of target"]


@pytest.mark.parametrize("bolts", range(4, 13))
@pytest.mark.parametrize("order", ["star", "round the circle", "one half first"])
def test_every_order_names_each_bolt_once_and_only_the_star_is_free_of_warnings(bolts: int, order: str) -> None:
    """The orders offered are whole, and a one-sided one says what it does to the part."""
    shown = calculator_named("tightening-order").answer({"bolts": str(bolts), "order": order})
    assert sorted(shown.working[0].removeprefix("Order: ").split(), key=int) == [str(n) for n in range(1, bolts + 1)]
    assert (shown.warnings == ()) is (order == "star")


def test_a_forgotten_bolt_carries_nothing_and_is_told() -> None:
    """The forgotten bolt is the weakest, and the warning says what happens on a car."""
    shown = calculator_named("tightening-order").answer({"order": "star, last bolt forgotten"})
    assert dict(shown.results)["Weakest bolt at the end"] == "bolt 6, 0 % of target"
    assert shown.warnings == (
        "Bolt 6 was never tightened. On a car it works loose and the others carry its load until they break.",
    )


CONDITIONAL = [(name, f.key) for name in names() for f in calculator_named(name).fields if f.only_for]


@pytest.mark.parametrize(("name", "key"), CONDITIONAL)
def test_a_field_that_does_not_apply_changes_and_refuses_nothing(name: str, key: str) -> None:
    """Where the choice made gives it no meaning, whatever stands in it is the same; where it does, it is read."""
    found = calculator_named(name)
    field = next(f for f in found.fields if f.key == key)
    choice, *options = field.only_for
    offered = next(f for f in found.fields if f.key == choice).options
    assert set(options) < set(offered)
    for option in offered:
        if option not in options:
            plain = found.answer({choice: option})
            assert plain == found.answer({choice: option, key: "nonsense"})
        else:
            with pytest.raises(NotUnderstood, match=re.escape(field.label)):
                found.answer({choice: option, key: "nonsense"})


@pytest.mark.parametrize(
    ("fitted", "asked"),
    [("nothing", []), ("straight bar", ["offset", "lever"]), ("crow-foot", ["offset", "lever", "angle"])],
)
def test_the_wrench_asks_only_for_what_changes_its_answer(fitted: str, asked: list[str]) -> None:
    """Lever, offset and angle are there where what is fitted needs them."""
    found = calculator_named("wrench-with-crow-foot")
    fields = [f for f in found.fields if f.key in {"lever", "offset", "angle"}]
    assert set(asked) == {f.key for f in fields if found.applies(f, {"fitted": fitted})}


@pytest.mark.parametrize(("angle", "words"), [(0, "less"), (45, "less"), (90, "stays"), (120, "more"), (180, "more")])
def test_the_words_under_a_crow_foot_are_true_at_its_angle(angle: float, words: str) -> None:
    """Away from the hand the setting goes down, square it stays, back to the hand it goes up, as the calculator works it out."""
    setting = float(results("wrench-with-crow-foot", angle=str(angle))["Set on the wrench"].split()[0])
    sheet = float(calculator_named("wrench-with-crow-foot").defaults()["target"])
    assert words == ("less" if setting < sheet else "more" if setting > sheet else "stays")
    assert words in draw("crow-foot", angle_deg=angle).caption
    assert "stays" in draw("crow-foot", angle_deg=angle, offset_mm=0).caption
