"""Gearbox, lift and set-ups at the flywheel: what is told, and that figures come from the sheet."""

import pytest

from bitepoint.pictures import draw
from bitepoint.pictures.lifts.pads import balance
from bitepoint.workshop.vehicles import vehicle

NAMED = {
    "gearbox-on-jack": ("Right", "beam", "strapped", "gearbox jack", "guide studs", "by hand only"),
    "gearbox-hanging": ("Wrong", "no jack", "input shaft", "dished", "bent hub"),
    "lift-arm-points": ("four pads", "Centre of gravity", "further back"),
    "run-out-setup": ("dial gauge", "stand", "radius of 90 mm", "end float", "Eight places", "0.08 mm"),
    "flywheel-lock": ("ring gear", "run-out check, turned by hand, lock out", "cover bolts tightened, lock in"),
    "centring-tool": ("centring tool", "hub", "plate hangs low", "slides by hand"),
}


@pytest.mark.parametrize("key", sorted(NAMED))
def test_the_alt_text_names_what_is_drawn(key: str) -> None:
    """Someone who cannot see the picture is told its content."""
    alt = draw(key).alt
    assert [word for word in NAMED[key] if word not in alt] == []


def test_taking_off_needs_the_lock_until_the_last_flywheel_bolt() -> None:
    """Cover, free angle and flywheel bolts with the lock in, in that order; it comes out with the flywheel."""
    alt = draw("flywheel-lock", job="off").alt
    order = (
        "cover bolts slackened, lock in",
        "free angle, lock in",
        "flywheel bolts slackened, lock in",
        "bare, lock out",
    )
    places = [alt.index(words) for words in order]
    assert places == sorted(places)
    assert "run-out" not in alt


@pytest.mark.parametrize(("letter", "shift"), [("A", 37), ("B", 39), ("C", 43), ("D", 13)])
def test_the_balance_moves_back_by_moments(letter: str, shift: int) -> None:
    """Moments about the front axle of the car with and without its gearbox balance."""
    m = vehicle(letter).masses
    whole, without = balance(vehicle(letter))
    assert (
        m.vehicle_kg - m.gearbox_kg
    ) * without - m.gearbox_kg * m.gearbox_cg_ahead_of_front_axle_mm == pytest.approx(m.vehicle_kg * whole)
    assert round(without - whole) == shift
    assert f"{shift} mm further back" in draw("lift-arm-points", vehicle=letter).alt


def test_wrong_is_said_in_words_too() -> None:
    """Right and wrong never rest on colour: the word stands in the picture."""
    assert "RIGHT: " in str(draw("gearbox-on-jack").content)
    assert "WRONG: " in str(draw("gearbox-hanging").content)


@pytest.mark.parametrize("letter", "ABCD")
def test_the_gauge_stands_at_the_radius_of_the_sheet(letter: str) -> None:
    """Radius and limit are the vehicle's own."""
    f = vehicle(letter).flywheel
    content = str(draw("run-out-setup", vehicle=letter).content)
    assert (f"radius {f.runout_radius_mm:g} mm" in content, f"at most {f.face_runout_limit_mm:.2f} mm" in content) == (
        True,
        True,
    )


def test_the_covers_that_are_counted_fit_as_often_as_the_picture_says():
    """Four even dowels are home four times a turn, with one moved only once; no training vehicle is shown."""
    drawing = draw("cover-on-dowels")
    assert "four positions" in str(drawing.content)
    assert "one position<" in str(drawing.content)
    assert "vehicle" not in drawing.alt + drawing.caption
