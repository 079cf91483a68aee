"""Instruments are drawn exactly: the value is recovered from the drawing's geometry, and the alt text lets it be read."""

import re
from math import degrees
from random import Random
from typing import Any

import pytest

from bitepoint import units
from bitepoint.errors import OutOfRange
from bitepoint.pictures import draw
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, VERMILLION, WHITE
from bitepoint.pictures.measuring import calipers, dials, dual_mass, gauges, wrench_scales
from bitepoint.workshop.tools import FEELER_LEAVES_MM

from . import seen as recovered
from .seen import Seen, on_scale, tip, turned

DRAWN = 500


@pytest.mark.parametrize("resolution", [0.02, 0.05])
def test_a_vernier_is_read_back_from_its_zero_and_from_its_meeting_line(resolution: float) -> None:
    """Zero against the main scale gives the value, the line that meets gives it again, and only one line meets."""
    rng = Random(f"vernier {resolution}")
    lens = calipers.LENS_EDGE
    for _ in range(DRAWN):
        steps = rng.randrange(round(150 / resolution))
        seen = Seen("vernier", value_mm=steps * resolution, resolution=resolution)
        assert recovered.vernier(seen) == pytest.approx(steps * resolution, abs=resolution / 2)
        above = [x for x, y, _, y2 in seen.lines() if y == lens and y2 < lens]
        below = [x for x, y, _, y2 in seen.lines() if y == lens and y2 > lens]
        numbers = [(v, x) for v, x, y in seen.figures() if y == lens + 34 + 18]
        apart = {x: min(abs(x - a) for a in above) for x in below}
        meeting = [x for x in below if apart[x] < 0.1]
        pitch = (below[-1] - below[0]) / (len(below) - 1)
        value, at = numbers[0]
        lines = {round(value * round(0.1 / resolution) + (x - at) / pitch) % round(1 / resolution) for x in meeting}
        assert lines == {steps % round(1 / resolution)}
        assert min(d for x, d in apart.items() if x not in meeting) > 0.9


def test_a_micrometer_is_read_back_from_edge_and_thimble() -> None:
    """The edge on the sleeve gives half millimetres, the thimble hundredths; the half line is drawn where it is uncovered."""
    rng = Random("micrometer")
    for _ in range(DRAWN):
        hundredths = rng.randrange(2501)
        seen = Seen("micrometer", value_mm=hundredths / 100)
        sleeve = [
            (x - calipers.SLEEVE_LEFT) / calipers.SLEEVE_MM
            for x, y, _, y2 in seen.lines()
            if y == calipers.DATUM and y2 != y
        ]
        marks = [(v, y) for v, x, y in seen.figures(font_size="20")]
        datum = [(v, y) for v, y in marks if abs(y - 7 - calipers.DATUM) <= 5 * calipers.MARK]
        mark = min(round(v + (y - 7 - calipers.DATUM) / calipers.MARK) for v, y in datum[:1]) % 50
        assert recovered.micrometer(seen) == pytest.approx(hundredths / 100, abs=0.005)
        assert mark == hundredths % 50
        assert len({round(x * 2) for x in sleeve}) == hundredths // 50 - 2 * max(0, hundredths // 100 - 9) + 1


def test_a_dial_gauge_is_read_back_from_its_hands_and_its_set_marks() -> None:
    """Both hands less both marks give the movement; the dial's zero stands where `zero_lines` puts it."""
    rng = Random("dial")
    for _ in range(DRAWN):
        preload = rng.randrange(50, 400) / 100
        reading = rng.randrange(round(-100 * preload), 480) / 100
        zero_lines = rng.choice([0, rng.randrange(100)])
        seen = Seen("dial-gauge", reading_mm=reading, preload_mm=preload, zero_lines=zero_lines)
        big = tip(seen.of("polygon", fill=BLUE)[0])
        assert recovered.dial_gauge(seen) == pytest.approx(reading, abs=0.005)
        ((_, zx, zy),) = [f for f in seen.figures(font_size="22") if f[0] == 0]
        lines = (turned(dials.CENTRE, *big) - turned(dials.CENTRE, zx, zy - 22 * 0.36)) / 3.6 % 100
        assert min(abs(lines - zero_lines), 100 - abs(lines - zero_lines)) < 0.5


def test_a_sweep_shows_the_reading_of_the_place_under_the_stylus() -> None:
    """Hand and place are read back; the push is drawn only when the crankshaft is held."""
    rng = Random("sweep")
    for _ in range(DRAWN):
        readings, place, held = [rng.randrange(-45, 46) / 100 for _ in range(8)], rng.randint(1, 8), rng.random() < 0.5
        seen = Seen("run-out-sweep", position=place, readings=readings, held=held)
        ((_, _, x, y),) = seen.lines(stroke=VERMILLION, stroke_width="5")
        shown = (turned((528.0, 196.0), x, y) / 360 + 0.5) % 1 - 0.5
        assert shown == pytest.approx(readings[place - 1], abs=0.005)
        top = min((f for f in seen.figures() if f[1] < 320), key=lambda f: f[2])
        assert (top[0], top[1]) == (place, 170)
        assert bool(seen.lines(stroke=VERMILLION, stroke_width="8")) is held


def test_all_nine_dials_of_a_sweep_are_read_back() -> None:
    """Every hand of the set stands where its reading puts it, place after place."""
    rng = Random("set")
    for _ in range(DRAWN // 9):
        readings = [rng.randrange(-25, 26) / 100 for _ in range(9)]
        assert recovered.sweep(Seen("run-out-set", readings=readings)) == pytest.approx(readings, abs=0.005)


def test_a_torque_wrench_is_read_back_on_both_scales() -> None:
    """Edge and ring give N·m to half a half line; the other scale gives the same torque in lbf·ft."""
    rng = Random("wrench")
    for _ in range(DRAWN):
        setting = rng.randrange(40, 401) / 2
        seen = Seen("torque-wrench-scale", setting_nm=setting)
        ring = {v + (y - 8 - wrench_scales.MIDDLE) / wrench_scales.MARK for v, _, y in seen.figures(font_size="22")}
        assert min(abs((r - setting + 5) % 10 - 5) for r in ring) < 0.01
        assert recovered.torque_wrench(seen) == pytest.approx(setting, abs=0.25)
        assert recovered.torque_wrench_feet(seen) == pytest.approx(units.convert(setting, "N·m", "lbf·ft"), abs=0.25)
        edge = float(seen.of("rect", fill=WHITE, width="92")[0]["x"])
        cut = [
            f for f in (*seen.figures(font_weight="bold", font_size="20"), *seen.figures(fill=BLUE)) if f[1] + 6 > edge
        ]
        assert cut == []


def test_an_angle_gauge_is_read_back_from_disc_and_strips() -> None:
    """Both pointers, on the disc and enlarged, give start and end."""
    rng = Random("angle")
    for _ in range(DRAWN):
        both = {BLUE: rng.randrange(3600) / 10, VERMILLION: rng.randrange(3600) / 10}
        seen = Seen("angle-gauge", start_deg=both[BLUE], end_deg=both[VERMILLION])
        for (colour, value), base in zip(both.items(), (176.0, 330.0), strict=True):
            (hand,) = seen.lines(stroke=colour, stroke_width="4" if colour == BLUE else "6")
            assert abs((turned(wrench_scales.DISC, *hand[2:]) - value + 180) % 360 - 180) < 0.5
            (pointer,) = [tip(p) for p in seen.of("polygon", fill=colour)]
            shown, x, _ = next(f for f in seen.figures(font_size="18") if f[2] == base + 20)
            degree = (704 - 392) / wrench_scales.STRIP_DEG
            assert abs((shown + (pointer[0] - x) / degree - value + 180) % 360 - 180) < 0.5
            assert 392 <= pointer[0] <= 704


def test_the_thickest_leaf_that_goes_is_read_back() -> None:
    """Leaves under the edge reach past it; the gap lies between the last that goes and the first that stops."""
    for goes in FEELER_LEAVES_MM[:-1]:
        seen = Seen("feeler-and-straight-edge", goes_mm=goes)
        leaves = seen.of("rect", fill=ORANGE)
        assert recovered.feeler(seen, list(FEELER_LEAVES_MM))[0] == goes
        assert [float(a["height"]) / gauges.PER_MM for a in leaves] == pytest.approx(FEELER_LEAVES_MM, abs=1e-4)
        gap = (188 - (float(seen.of("rect", height="76")[0]["y"]) + 76)) / gauges.PER_MM
        assert goes < gap < min(leaf for leaf in FEELER_LEAVES_MM if leaf > goes)


@pytest.mark.parametrize("first", [1, 3, 5])
def test_teeth_are_read_back_and_marks_stand_on_teeth(first: int) -> None:
    """Angle between both marks over the angle of a tooth; a numbered tooth stands where its number says."""
    tooth = degrees(dual_mass.TOOTH / dual_mass.WHEEL_RADIUS)
    for teeth in range(15):
        seen = Seen("flywheel-teeth", teeth=teeth, first=first)
        ((x, y, _, _),) = seen.lines(stroke=VERMILLION, stroke_width="9")
        assert recovered.teeth(seen) == pytest.approx(teeth, abs=0.05)
        number, nx, ny = seen.figures()[0]
        assert (
            (turned(dual_mass.WHEEL, x, y) - turned(dual_mass.WHEEL, nx, ny) + 180) % 360 - 180
        ) / tooth == pytest.approx(first - number, abs=0.05)
        outline = [tuple(map(float, p.split(","))) for p in seen.of("polygon", fill=METAL)[0]["points"].split()]
        crests = [turned(dual_mass.WHEEL, *p) for p in outline if turned_radius(p) > dual_mass.WHEEL_RADIUS - 1]
        middle = turned(dual_mass.WHEEL, x, y)
        assert min(abs((c - middle + 180) % 360 - 180) for c in crests) / tooth == pytest.approx(0.2, abs=0.02)


def turned_radius(point: tuple[float, ...]) -> float:
    """Distance from the flywheel's centre."""
    return float(((point[0] - dual_mass.WHEEL[0]) ** 2 + (point[1] - dual_mass.WHEEL[1]) ** 2) ** 0.5)


def test_a_pedal_rule_is_read_back_from_the_rule_and_from_its_strips() -> None:
    """Rest, free play and travel from the whole rule and, finer, from the three strips."""
    rng = Random("pedal")
    for _ in range(DRAWN):
        rest, play, travel = rng.randrange(400) / 10, rng.randrange(600) / 10, rng.randrange(600, 1600) / 10
        seen = Seen("pedal-rule", rest_mm=rest, play_mm=play, travel_mm=travel)
        whole_rule = [(v, x) for v, x, y in seen.figures(font_size="18") if y == 190]
        pads = [seen.of("rect", fill=fill)[0] for fill in (BLUE, ORANGE, VERMILLION)]
        pointers = [tip(p) for p in seen.of("polygon", fill=INK)]
        for i, value in enumerate((rest, rest + play, rest + travel), start=1):
            assert on_scale(whole_rule, float(pads[i - 1]["x"]) + 7) == pytest.approx(value, abs=0.5)
            assert recovered.pedal(seen)[i - 1] == pytest.approx(value, abs=0.05)
            assert 60 <= pointers[i - 1][0] <= 680


def told(key: str, **parameters: Any) -> str:
    """Everything about a picture that can be read as words: alt, caption, words in it."""
    drawing = draw(key, **parameters)
    return " ".join([drawing.alt, drawing.caption, *re.findall(r">([^<>\n]+)<", str(drawing.content))])


@pytest.mark.parametrize(
    ("key", "parameters", "result"),
    [
        ("vernier", {"value_mm": 37.46}, "37.46"),
        ("micrometer", {"value_mm": 13.87}, "13.87"),
        ("dial-gauge", {"reading_mm": -0.37}, "0.37"),
        ("run-out-sweep", {"position": 2, "readings": [0, -0.33, 0, 0, 0.1, 0, 0, 0]}, "0.33"),
        ("torque-wrench-scale", {"setting_nm": 87.5}, "87.5"),
        ("angle-gauge", {"start_deg": 17, "end_deg": 88}, "71"),
        ("flywheel-teeth", {"teeth": 9, "first": 3}, "9"),
        ("pedal-rule", {"rest_mm": 13, "play_mm": 21, "travel_mm": 141}, "21"),
        ("pedal-rule", {"rest_mm": 13, "play_mm": 21, "travel_mm": 141}, "141"),
    ],
)
def test_no_words_state_the_result(key: str, parameters: dict[str, Any], result: str) -> None:
    """What is to be read stands nowhere in words."""
    assert re.findall(rf"(?<![\d.]){re.escape(result)}(?![\d.]*\d)", told(key, **parameters)) == []


@pytest.mark.parametrize(
    ("key", "parameters", "words"),
    [
        ("vernier", {"value_mm": 37.46}, ("between the 37 and 38 mm marks", "line 23 of the vernier")),
        ("vernier", {"value_mm": 8.0, "resolution": 0.05}, ("exactly on the 8 mm mark", "the zero line of the vernier meets")),
        ("micrometer", {"value_mm": 13.87}, ("sleeve is 10", "3 more whole-millimetre lines", "line after it uncovered", "Mark 37")),
        ("micrometer", {"value_mm": 4.2}, ("sleeve is 0", "4 more", "no half-millimetre line", "Mark 20")),
        ("dial-gauge", {"reading_mm": -0.37}, ("between 0 and 1", "on line 63 of the outer scale", "on line 37 of the inner", "small hand on 1")),
        ("run-out-set", {"readings": [0.04, -0.04, *[0] * 7]}, ("place 1, on line 4", "place 2, on line 96", "place 1 again, on line 0")),
        ("run-out-sweep", {"held": False}, ("place 3 stands under the stylus", "on line 4", "nobody pushes")),
        ("torque-wrench-scale", {"setting_nm": 87.5}, ("80 on the upper", "60 on the lower", "stands on 7.5")),
        ("angle-gauge", {"start_deg": 17, "end_deg": 88.4}, ("on 17 degrees", "between 88 and 89 degrees")),
        ("feeler-and-straight-edge", {}, ("0.06 reaches under it", "0.07 stops at its edge")),
        ("flywheel-teeth", {"teeth": 9, "first": 3}, ("end A on tooth 3", "end B on tooth 12")),
        ("pedal-rule", {"rest_mm": 13, "play_mm": 21}, ("at rest on 13 mm", "resistance begins on 34 mm")),
    ],
)  # fmt: skip
def test_the_alt_text_lets_it_be_read_unseen(key: str, parameters: dict[str, Any], words: tuple[str, ...]) -> None:
    """It says which marks stand where, as one would see them."""
    alt = draw(key, **parameters).alt
    assert [w for w in words if w not in alt] == []


@pytest.mark.parametrize(
    ("key", "parameters", "words"),
    [
        ("vernier", {"value_mm": 151}, "value_mm must be between 0 and 150 mm"),
        ("vernier", {"resolution": 0.1}, "least_count_mm must be 0.02 or 0.05 mm"),
        ("micrometer", {"value_mm": -0.01}, "value_mm must be between 0 and 25 mm"),
        ("dial-gauge", {"reading_mm": -1.2}, "reading_mm must be between -1 and 9.999 mm"),
        ("dial-gauge", {"zero_lines": 100}, "zero_lines must be between 0 and 99.99 lines"),
        ("run-out-sweep", {"position": 9}, "position must be a whole number from 1 to 8"),
        ("run-out-sweep", {"readings": [0.0]}, "readings must be 8 figures, one a place, but you gave 1"),
        ("torque-wrench-scale", {"setting_nm": 10}, "setting_nm must be between 20 and 200 N·m"),
        ("angle-gauge", {"end_deg": 360}, "end_deg must be between 0 and 359.99 °"),
        ("feeler-and-straight-edge", {"goes_mm": 0.1}, "goes_mm must be one of leaves_mm"),
        ("flywheel-teeth", {"teeth": 15}, "teeth must be a whole number from 0 to 14"),
        (
            "run-out-set",
            {"readings": [0.0]},
            "readings must be 9 figures, one a place and place 1 once more, but you gave 1",
        ),
        ("run-out-set", {"readings": [0.26] * 9}, "reading 1 must be between -0.25 and 0.25 mm"),
        ("pedal-rule", {"travel_mm": 20}, "travel_mm must be between 60 and 160 mm"),
    ],
)
def test_what_the_instrument_cannot_show_is_refused(key: str, parameters: dict[str, Any], words: str) -> None:
    """One line that names the figure and its range."""
    with pytest.raises(OutOfRange, match=words):
        draw(key, **parameters)
