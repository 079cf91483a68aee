"""Plots of road-test logs: what the strips draw, what each alt text tells, light, refused in one line."""

import re
from base64 import b64encode
from typing import Any

import pytest

from bitepoint.errors import BadData, OutOfRange
from bitepoint.pictures import draw
from bitepoint.pictures.logs.channels import CHANNELS
from bitepoint.workshop.roadtests import log_with, recipe, road_test
from bitepoint.workshop.simulator import FAULTS
from bitepoint.workshop.vehicles import FRAME

KEYS = ("road-test", "slip-plot", "order-spectrum")
WIDEST = {
    "road-test": {"channels": list(CHANNELS)[:5], "marks": [1, 15, 30, 45]},
    "slip-plot": {"name": "b-2"},
    "order-spectrum": {"references": ["time", "slip"]},
}
"""Each plot with as much in it as it takes."""
DRAWN = pytest.mark.parametrize("key", ["road-test"])
NUMBER = r"-?\d+(?:\.\d+)?"


def polylines(svg: str) -> list[list[tuple[float, float]]]:
    """Return the points of every chain of lines in a drawing."""
    found = re.findall(r'<polyline points="([^"]*)"', svg)
    return [[(float(x), float(y)) for x, y in re.findall(rf"({NUMBER}),({NUMBER})", chain)] for chain in found]


def words(svg: str) -> list[str]:
    """Return the words of a drawing in their order."""
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


@DRAWN
def test_a_plot_is_the_same_text_twice_and_carries_the_frame(key: str) -> None:
    """Deterministic, 720 wide, with the training vehicle's frame in the picture."""
    drawing = draw(key, **WIDEST[key])
    assert drawing == draw(key, **WIDEST[key])
    assert 'viewBox="0 0 720 ' in drawing.content
    assert FRAME in words(drawing.content)


@DRAWN
def test_words_are_large_and_every_scale_names_its_unit(key: str) -> None:
    """At least 18 of 720 across; each axis says what it shows and in what."""
    svg = draw(key, **WIDEST[key]).content
    assert min(float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)) >= 17
    wanted = [", ".join(CHANNELS[c]) for c in list(CHANNELS)[:5]] + ["time, s"]
    assert [text for text in wanted if text not in words(svg)] == []


@DRAWN
def test_words_keep_clear_of_each_other(key: str) -> None:
    """No two words of a plot lie on top of each other, whatever vehicle and window."""
    for name in ("a-1", "b-5", "c-4", "d-2"):
        svg = draw(key, **WIDEST[key] | {"name": name}).content
        boxes = []
        for x, y, size, anchor, text in re.findall(
            rf'<text x="({NUMBER})" y="({NUMBER})" font-size="({NUMBER})" text-anchor="(\w+)"(?![^>]*transform)[^>]*>([^<]*)<',
            svg,
        ):
            wide, high = 0.52 * float(size) * len(text), 0.75 * float(size)
            left = float(x) - wide * {"start": 0, "middle": 0.5, "end": 1}[anchor]
            boxes.append((left, left + wide, float(y) - high, float(y), text))
        for i, (l1, r1, t1, b1, one) in enumerate(boxes):
            assert (l1 > -2, r1 < 722) == (True, True), one
            for l2, r2, t2, b2, other in boxes[i + 1 :]:
                assert not (l1 < r2 and l2 < r1 and t1 < b2 and t2 < b1), (name, one, other)


def test_the_log_itself_is_drawn() -> None:
    """Each channel's line holds the samples of the part asked for, read back from the drawing by its scale."""
    channels = ("engine_rpm", "driven_wheel_km_h", "pedal_pct")
    drawing = draw("road-test", name="b-2", from_s=14, to_s=28, channels=channels)
    part = [s for s in road_test("b-2").samples if 14 <= s.t_s <= 28]
    lines = polylines(drawing.content)
    assert len(lines) == len(channels)
    for channel, line in zip(channels, lines, strict=True):
        values = [getattr(s, channel) for s in part]
        low, high = values.index(min(values)), values.index(max(values))
        per_unit = (line[high][1] - line[low][1]) / (values[high] - values[low])
        read = [values[low] + (y - line[low][1]) / per_unit for _, y in line]
        assert read == pytest.approx(values, abs=0.01 * (values[high] - values[low]))
    highest = max(s.engine_rpm for s in part)
    assert f"to {highest:g}; speed of the driven wheels (km/h)" in drawing.alt
    assert "14 to 28 s" in drawing.alt


def test_a_mark_stands_at_its_moment_and_is_read_in_the_alt_text() -> None:
    """Two upright lines with their letters; the alt text gives the log's own line there."""
    drawing = draw("road-test", name="b-5", from_s=42, to_s=52, channels=["engine_rpm"], marks=[44, 50])
    line = next(s for s in road_test("b-5").samples if s.t_s == 50)
    assert {"P", "Q"} <= set(words(drawing.content))
    assert drawing.content.count('stroke-dasharray="9 6"') == 2
    assert f"Q at 50 s: engine speed {line.engine_rpm:g}." in drawing.alt


def test_a_logger_set_for_another_tyre_moves_every_point() -> None:
    """A dial of 1.08 writes 8 % more for the wheels, whatever the throttle; 1 is not to be told from none."""
    plain, more = draw("slip-plot", name="b-4"), draw("slip-plot", name="b-4", dial=1.08)
    assert plain == draw("slip-plot", name="b-4", dial=1.0)
    read = [[float(kmh) for kmh in re.findall(r"with ([\d.]+) km/h", d.alt)] for d in (plain, more)]
    assert len(read[0]) > 10
    assert read[1] == pytest.approx([1.08 * kmh for kmh in read[0]], abs=0.12)


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("name", ["a-1", "a-2", "b-1", "b-2", "b-3", "b-7"])
def test_no_plot_says_what_is_wrong(key: str, name: str) -> None:
    """Alt text and caption read the plot; the fault is for the learner to find."""
    drawing = draw(key, **WIDEST[key] | {"name": name})
    told = f"{drawing.alt} {drawing.caption}".casefold().replace("turn of slip", "").replace("if nothing slips", "")
    assert recipe(name)[1] not in told
    assert re.findall(r"judder|slip|drag|spin|rattle|mount|healthy|worn", told) == []


@pytest.mark.parametrize("key", KEYS)
def test_a_plot_is_light(key: str) -> None:
    """As stored in a notebook under 120 kB, with as much in it as it takes."""
    content = draw(key, **WIDEST[key]).content
    assert len(b64encode(content if isinstance(content, bytes) else content.encode())) < 120_000


@pytest.mark.parametrize("letter", "ABCD")
def test_every_plot_takes_every_vehicle_and_fault(letter: str) -> None:
    """No log makes a scale fail: 8 faults, three plots."""
    for fault in FAULTS:
        for key in KEYS:
            assert draw(key, name=log_with(letter, fault, 0)).alt


@pytest.mark.parametrize(
    ("key", "parameters", "told"),
    [
        ("road-test", {"channels": ["colour"]}, "channel must be one of engine_rpm, speed_km_h"),
        ("road-test", {"channels": []}, "channels must be 1 to 5 different columns, but you gave none"),
        ("road-test", {"channels": ["gear", "gear"]}, "1 to 5 different columns, but you gave gear, gear"),
        ("road-test", {"from_s": 20, "to_s": 20}, "to_s must be at least 1 s after from_s"),
        ("road-test", {"from_s": -1}, "from_s must be between 0 and 600 s"),
        ("road-test", {"to_s": 20, "marks": [30]}, "mark must be between 0 and 20 s"),
        ("road-test", {"marks": [1, 2, 3, 4, 5]}, "marks must be at most 4 moments, but you gave 5"),
        ("slip-plot", {"from_s": 0, "to_s": 5}, "where the car is driven with the pedal up"),
        ("slip-plot", {"dial": 2}, "dial must be between 0.8 and 1.2"),
        ("order-spectrum", {"references": ["wheel"]}, "reference must be one of time, slip, engine, input"),
        ("order-spectrum", {"references": []}, "references must be one or two different ones, but you gave none"),
    ],
)
def test_what_cannot_be_plotted_is_refused_in_one_line(key: str, parameters: dict[str, Any], told: str) -> None:
    """The message names the parameter and the rule."""
    with pytest.raises(OutOfRange, match=told):
        draw(key, **parameters)


def test_an_unknown_log_is_named() -> None:
    """The names there are stand in the message."""
    with pytest.raises(BadData, match="There is no road test 'z-1'"):
        draw("road-test", name="z-1")
