"""Release systems and bleeding: named, to the sheet's ratios, moving."""

import re

import pytest

from bitepoint.errors import OutOfRange
from bitepoint.pictures import draw

NAMED = {
    "release-cable-fork": (
        "pedal",
        "cable",
        "release lever",
        "fork",
        "release bearing",
        "guide tube",
        "diaphragm spring",
    ),
    "release-external-slave": (
        "master cylinder",
        "pipe",
        "external slave cylinder",
        "push-rod",
        "ball pivot",
        "release bearing",
    ),
    "release-concentric-slave": (
        "master cylinder",
        "connector",
        "bleed nipple",
        "ring piston",
        "release bearing",
        "no fork",
    ),
}


@pytest.mark.parametrize("key", sorted(NAMED))
def test_a_release_system_tells_its_parts_and_its_pedal(key: str) -> None:
    """Alt text names every part, and says whether the pedal is up or down."""
    up, down = draw(key), draw(key, pedal=1)
    assert [word for word in NAMED[key] if word not in up.alt] == []
    assert ("Pedal up" in up.alt, "Pedal 100 percent down" in down.alt) == (True, True)
    assert "TRAINING VEHICLE" in str(up.content)


@pytest.mark.parametrize("key", sorted(NAMED))
def test_the_bearing_moves_towards_the_clutch(key: str) -> None:
    """Pedal down: the bearing stands further left, by the travel drawn."""
    places = [{r.key: r.points for r in draw(key, pedal=p).regions}["release-bearing"][0] for p in (0, 0.5, 1)]
    assert (places[0] - places[1], places[0] - places[2]) == (13, 26)


def test_the_figures_are_those_of_the_sheet() -> None:
    """Vehicle C's pedal travel and its bearing travel stand in the picture."""
    content = str(draw("release-external-slave", vehicle="C").content)
    assert ("Pedal travel 145 mm, free play 4 to 10 mm" in content, "Bearing travel needed 7.9 mm" in content) == (
        True,
        True,
    )


@pytest.mark.parametrize(("step", "nipple"), [(1, "closed"), (2, "open"), (3, "closed"), (4, "closed"), (5, "closed")])
def test_the_nipple_is_open_only_while_the_pedal_goes_down(step: int, nipple: str) -> None:
    """Each step tells how the nipple stands."""
    assert f"bleed nipple {nipple}" in draw("bleeding", step=step).alt


def test_there_is_no_sixth_step() -> None:
    """A step that is not there is refused in one line."""
    with pytest.raises(OutOfRange, match="step must be one of 1, 2, 3, 4, 5, but you gave 6"):
        draw("bleeding", step=6)


def test_a_pedal_above_its_stop_is_refused() -> None:
    """A pedal below 0 is refused."""
    with pytest.raises(OutOfRange, match="pedal must be between 0"):
        draw("release-cable-fork", pedal=-0.1)


def test_no_fluid_is_drawn_behind_the_piston_of_the_master_cylinder() -> None:
    """Pressed, the side of the push-rod is dry: fluid there would be a leak."""
    svg = str(draw("bleeding", step=2).content)
    piston = [float(x) for x in re.findall(r'<rect x="([\d.]+)" y="[\d.]+" width="26" height="28"', svg)]
    dry = re.findall(r'<rect x="206" y="[\d.]+" width="([\d.]+)" height="28" rx="0" fill="#FFFFFF"', svg)
    assert [206 + float(wide) for wide in dry] == piston[: len(dry)] != []


def test_bleeding_in_five_small_pictures_names_each_step_and_when_the_nipple_is_open():
    """The nipple is open in the second step alone, and the caution stands whole in the picture."""
    drawing = draw("bleeding-steps")
    assert 1 == drawing.alt.count("nipple open")
    assert 4 == drawing.alt.count("nipple closed")
    assert "water at hand." in str(drawing.content)
