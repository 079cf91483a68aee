"""The clutch in section: what is drawn, what moves, what can be pointed at."""

from itertools import combinations
from xml.etree import ElementTree

import pytest

from bitepoint.errors import BadData, OutOfRange
from bitepoint.pictures import draw
from bitepoint.pictures.clutch.names import names
from bitepoint.pictures.clutch.parts import parts
from bitepoint.pictures.clutch.sizes import sizes
from bitepoint.pictures.clutch.view import SectionView
from bitepoint.workshop.vehicles import vehicle, vehicles

LETTERS = list(vehicles())


@pytest.mark.parametrize("letter", LETTERS)
def test_every_part_is_named_and_can_be_pointed_at(letter: str) -> None:
    """Alt text and regions hold every part that is drawn."""
    drawing = draw("clutch-section", vehicle=letter)
    found = parts(vehicle(letter), 0)
    assert {p.key for p in found} == {r.key for r in drawing.regions}
    assert [p.label for p in found if p.label not in drawing.alt] == []


def test_each_release_system_has_its_own_parts() -> None:
    """A concentric slave has no fork, a fork no ring piston."""
    keys = {letter: {r.key for r in draw("clutch-section", vehicle=letter).regions} for letter in "AB"}
    assert ("fork" in keys["A"], "piston" in keys["A"]) == (True, False)
    assert ("fork" in keys["B"], "piston" in keys["B"]) == (False, True)


def test_only_the_car_with_a_pilot_bearing_shows_one() -> None:
    """Vehicle D has a pilot bearing, the others none."""
    assert ["pilot bearing" in draw("clutch-section", vehicle=letter).alt for letter in "ABCD"] == [
        False,
        False,
        False,
        True,
    ]


@pytest.mark.parametrize("letter", LETTERS)
def test_the_lever_ratio_of_the_sheet_is_drawn(letter: str) -> None:
    """The pivot divides the diaphragm spring as the data sheet says."""
    s = sizes(vehicle(letter), 0)
    assert (s.pivot - s.finger) / (s.push - s.pivot) == pytest.approx(vehicle(letter).clutch.lever_ratio)


def test_the_gap_opens_with_the_pedal_and_says_that_it_is_scaled() -> None:
    """Pedal down: a gap of the sheet's lift, three times too wide, and the words for it."""
    up, down = sizes(vehicle("A"), 0), sizes(vehicle("A"), 1)
    assert (up.opened, down.opened) == (0, 3 * vehicle("A").clutch.plate_lift_required_mm)
    assert down.travel == pytest.approx(1.5 * 3.8)
    drawing = draw("clutch-section", pedal=1)
    assert ("gap (drawn 3 × too wide)" in str(drawing.content), "3 times too wide" in drawing.alt) == (True, True)


@pytest.mark.parametrize("letter", LETTERS)
@pytest.mark.parametrize("pedal", [0, 0.5, 1])
def test_the_section_stays_inside_its_picture(letter: str, pedal: float) -> None:
    """Every outline lies between the edges, above the frame."""
    root = ElementTree.fromstring(str(draw("clutch-section", vehicle=letter, pedal=pedal).content))
    for mark in root.iter("{http://www.w3.org/2000/svg}polygon"):
        for pair in mark.attrib["points"].split():
            x, y = map(float, pair.split(","))
            assert (0 <= x <= 720, 60 <= y <= 600) == (True, True)


def test_a_pedal_or_vehicle_that_is_not_there_is_one_line() -> None:
    """A pedal pressed twice as far, or a vehicle Z, is refused."""
    with pytest.raises(OutOfRange, match=r"pedal must be between 0 \(pedal up\) and 1 \(pedal down\), but you gave 2"):
        draw("clutch-section", pedal=2)
    with pytest.raises(BadData, match="no training vehicle 'Z'"):
        draw("clutch-section", vehicle="Z")


def test_the_torque_takes_both_ways() -> None:
    """Half over the flywheel, half over the cover: both are told."""
    alt = draw("torque-path").alt
    assert [
        w
        for w in ("crankshaft", "flywheel", "straps", "pressure plate", "damper", "hub", "input shaft", "half")
        if w not in alt
    ] == []


def test_a_car_that_came_with_a_dual_mass_flywheel_is_drawn_with_its_kit() -> None:
    """B and C are drawn with the rigid flywheel, and the alt text says so."""
    assert ["rigid flywheel of the kit" in draw("clutch-section", vehicle=letter).alt for letter in "ABCD"] == [
        False,
        True,
        True,
        False,
    ]


@pytest.mark.parametrize("letter", LETTERS)
def test_bolts_are_straight_and_as_thick_and_long_as_on_the_sheet(letter: str) -> None:
    """The shank keeps the thread's diameter from head to chamfer; below the head the bolt has its length."""
    v = vehicle(letter)
    found = {p.key: p.outlines[0] for p in parts(v, 0)}
    for key, middle, d, length in (
        ("flywheel-bolt", v.flywheel.pcd_mm / 2, v.flywheel.bolt.d_mm, v.flywheel.bolt.length_mm),
        ("cover-bolt", v.clutch.cover.pcd_mm / 2, 8, 17),
    ):
        seat = found[key][3][0]
        shank = {round(abs(r - middle), 6) for x, r in found[key] if seat - length + 1 < x < seat}
        assert {d / 2} == shank
        assert seat - length == pytest.approx(min(x for x, _ in found[key]))


@pytest.mark.parametrize("letter", LETTERS)
def test_the_ring_gear_lies_outside_the_cover_bolts(letter: str) -> None:
    """A cover bolt is screwed into the rim of the flywheel, never into the teeth."""
    found = {p.key: p.outlines[0] for p in parts(vehicle(letter), 0)}
    assert max(r for _, r in found["cover-bolt"]) < min(r for _, r in found["ring-gear"])


@pytest.mark.parametrize("letter", LETTERS)
def test_the_lines_to_the_parts_do_not_cross(letter: str) -> None:
    """Piston, bearing and slave: from the highest name to the lowest, the lines keep apart."""
    v = vehicle(letter)
    s = sizes(v, 0)
    lines = [
        (n.at, n.to)
        for n in names(SectionView(s), v, s)
        if n.key in ("piston", "fork", "release-bearing", "concentric-slave", "guide-tube")
    ]

    def side(a, b, c):
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    for (a, b), (c, d) in combinations(lines, 2):
        assert not (side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0)
