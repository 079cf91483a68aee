"""The section that follows the pedal: each place of the slider is the drawing of that place."""

import json
import re
from xml.etree import ElementTree

import pytest

from bitepoint import pictures
from bitepoint.page.widgets import slide_spec
from bitepoint.workshop.pedal_motion import moved
from bitepoint.workshop.vehicles import vehicle, vehicles

LETTERS = list(vehicles())
SVG = "{http://www.w3.org/2000/svg}"


def corners(svg: str, name: str) -> list[tuple[float, float]]:
    """Return the corners of a group's polygons."""
    found = []
    for group in ElementTree.fromstring(svg).iter(f"{SVG}g"):
        if group.attrib["class"] == f"bp-part-{name}":
            for polygon in group.iter(f"{SVG}polygon"):
                found += [tuple(map(float, pair.split(","))) for pair in polygon.attrib["points"].split()]
    return found


@pytest.mark.parametrize("letter", LETTERS)
def test_a_frame_is_the_drawing_of_its_place(letter: str) -> None:
    """The first drawing with its groups shifted equals the drawing made at that place, to a hundredth of a unit."""
    motion = pictures.motion("clutch-in-motion", vehicle=letter)
    assert motion is not None
    for frame in motion.frames[:: len(motion.frames) // 4]:
        there = str(pictures.draw("clutch-in-motion", vehicle=letter, pedal_mm=frame.at).content)
        for name in ("facings", "hub", "pressure-plate", "release-bearing", "lens-pressure"):
            moved_there = [(x + frame.shift[name], y) for x, y in corners(str(motion.drawing.content), name)]
            assert corners(there, name) == [pytest.approx(point, abs=0.021) for point in moved_there]
        for name, points in frame.shapes.items():
            assert points in there, name


def test_what_bolts_down_stands_still() -> None:
    """Flywheel, cover, bolts and shaft have no shift in any frame."""
    motion = pictures.motion("clutch-in-motion")
    assert motion is not None
    still = {"crankshaft", "flywheel", "cover", "cover-bolt", "flywheel-bolt", "input-shaft", "guide-tube", "pivot"}
    assert not still & {key for f in motion.frames for key in (*f.shift, *f.turn, *f.shapes)}


@pytest.mark.parametrize("letter", LETTERS)
def test_the_enlarged_gap_is_the_gap_of_the_sheet(letter: str) -> None:
    """Pedal down, the pressure plate of the strip has moved by the lift times the strip's enlargement."""
    v = vehicle(letter)
    motion = pictures.motion("clutch-in-motion", vehicle=letter)
    assert motion is not None
    last = motion.frames[-1]
    lift = moved(v, last.at).lift
    assert v.release.pedal_travel_mm - last.at < motion.step
    assert last.shift["lens-pressure"] / last.shift["pressure-plate"] == pytest.approx(
        last.shift["lens-plate"] / last.shift["facings"], rel=0.01
    )
    assert last.shift["lens-plate"] * 2 == pytest.approx(last.shift["lens-pressure"], abs=0.02)
    assert last.shift["lens-pressure"] == pytest.approx(13 * lift, abs=0.01)


@pytest.mark.parametrize("letter", LETTERS)
def test_the_enlarged_strip_stays_in_its_frame_and_figures_stay_apart(letter: str) -> None:
    """Pedal down, the pressure plate of the strip is inside it; the two travels under the bar do not touch."""
    svg = str(pictures.draw("clutch-in-motion", vehicle=letter).content)
    assert max(x for x, _ in corners(svg, "lens-pressure")) < 462 + 238 - 3
    ends = [float(x) for x in re.findall(r'<text x="([\d.]+)" y="642" font-size="16" text-anchor="end"', svg)]
    assert len(ends) == 2
    assert ends[1] - ends[0] > 64


def test_each_place_is_said_in_words() -> None:
    """A screen reader hears travel, state and gap; the words in the picture agree."""
    motion = pictures.motion("clutch-in-motion")
    assert motion is not None
    says = {f.at: f.says for f in motion.frames}
    assert "0 mm: plate clamped" == says[0]
    assert "10 mm: free play, plate clamped" == says[10]
    assert "24 mm: parts bend, plate still clamped" == says[24]
    assert "60 mm: gap opens, plate may still drag, gap 0.3 mm on each side" == says[60]
    assert "140 mm: plate free, gap 1.0 mm on each side" == says[140]
    assert all(f.words["state"] == "Pedal " + re.split(", gap \\d", f.says)[0] for f in motion.frames)


@pytest.mark.parametrize("letter", LETTERS)
def test_all_places_together_are_light(letter: str) -> None:
    """Drawing and frames travel once, together under 120 kB."""
    motion = pictures.motion("clutch-in-motion", vehicle=letter)
    assert motion is not None
    assert len(json.dumps(slide_spec(motion))) < 120_000


def test_the_alt_text_names_what_is_drawn_and_where_the_pedal_is() -> None:
    """Someone who cannot see it is told the parts, the state and the figures."""
    alt = pictures.draw("clutch-in-motion", pedal_mm=60).alt
    words = (
        "pedal",
        "release bearing",
        "diaphragm spring",
        "straps",
        "pressure plate",
        "flywheel",
        "gap",
        "free play",
        "lift 0.54 mm",
    )
    assert [w for w in words if w not in alt] == []


def test_a_picture_that_stands_still_has_no_motion() -> None:
    """Only pictures registered as moving follow a slider."""
    assert pictures.motion("clutch-section") is None
