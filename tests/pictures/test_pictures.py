"""What holds for every drawing: style, alt text, the same text twice."""

import re
from xml.etree import ElementTree

import pytest

from bitepoint.errors import BadInput, OutOfRange
from bitepoint.pictures import draw, keys

NAMED = {
    "bolt-ring": ("round part", "6 bolts", "clockwise"),
    "star-patterns": ("4 bolts: 1, 3, 2, 4", "9 bolts: 1, 5, 9, 4, 8, 3, 7, 2, 6", "arrows"),
    "circle-against-star": ("out-of-balance", "2.6", "1.25", "star"),
    "preload-bars": ("bar chart", "percent of the target", "bolt 6"),
    "preload-story": ("weakest bolt 74 percent", "second round", "tilt 3.6"),
    "tilt-side": ("flywheel", "crankshaft", "gap", "exaggerated"),
    "stage-ladder": ("20 n·m", "65 n·m", "second round", "invented"),
    "bolt-stretch": ("spring", "snug", "torque", "angle"),
    "crow-foot": ("crow-foot", "lever", "400 mm", "60 mm", "grip mark"),
    "straight-bar": ("straight bar", "75 mm", "socket"),
    "wrench-grip": ("grip", "shaft", "head"),
    "paint-marks": ("paint mark", "bolt 3", "28 degrees"),
}
LINES = {"#000000", "#0072B2", "#D55E00", "#009E73", "#B8B8B8", "#FFFFFF", "none"}
FILLS_WITH_OUTLINE = {"#E69F00", "#56B4E9", "#F0E442"}


DRAWINGS = [key for key in keys() if key not in {"road-test", "slip-plot", "order-spectrum"}]
"""Every picture that is SVG text; the plots are PNG and are tested where they are made."""


def marks(key: str) -> list[ElementTree.Element]:
    """Return the marks of a drawing with its default parameters."""
    return list(ElementTree.fromstring(str(draw(key).content)))


@pytest.mark.parametrize("key", keys())
def test_every_picture_can_be_drawn_and_says_what_it_shows(key: str) -> None:
    """Drawn with its defaults, a picture has a caption and an alt text of its own."""
    drawing = draw(key)
    assert len(drawing.alt) >= 40
    assert drawing.caption not in ("", drawing.alt)
    start = "<svg" if isinstance(drawing.content, str) else b"\x89PNG"
    assert drawing.content.startswith(start)  # type: ignore[arg-type]


@pytest.mark.parametrize("key", sorted(NAMED))
def test_the_alt_text_names_what_is_drawn(key: str) -> None:
    """Someone who cannot see the picture is told its content."""
    alt = draw(key).alt.casefold()
    assert [word for word in NAMED[key] if word.casefold() not in alt] == []


@pytest.mark.parametrize("key", DRAWINGS)
def test_words_are_large_enough_to_read_from_the_back(key: str) -> None:
    """No words below 16 units of a 720 unit wide picture."""
    sizes = [float(m.attrib["font-size"]) for m in marks(key) if m.tag.endswith("text")]
    assert min(sizes, default=16) >= 16


@pytest.mark.parametrize("key", sorted(NAMED))
def test_lines_are_wide_and_dark_and_fills_have_an_outline(key: str) -> None:
    """Only colours with contrast draw lines; the pale ones only fill, inside a dark outline."""
    for mark in marks(key)[1:]:
        stroke, fill = mark.attrib.get("stroke", "none"), mark.attrib.get("fill", "none")
        assert stroke in LINES
        if fill in FILLS_WITH_OUTLINE:
            assert stroke == "#000000"
        if mark.tag.endswith(("line", "polyline")):
            assert float(mark.attrib["stroke-width"]) >= 2


@pytest.mark.parametrize("key", DRAWINGS)
def test_words_stay_inside_the_picture(key: str) -> None:
    """No label is cut off, reckoned with 0.5 of its size for each letter."""
    height = float(ElementTree.fromstring(str(draw(key).content)).attrib["height"])
    for mark in marks(key):
        if mark.tag.endswith("text") and "transform" not in mark.attrib:
            width = 0.5 * float(mark.attrib["font-size"]) * len(mark.text or "")
            x, y = float(mark.attrib["x"]), float(mark.attrib["y"])
            left = x - width * {"start": 0, "middle": 0.5, "end": 1}[mark.attrib["text-anchor"]]
            assert (left >= 0, left + width <= 720, 0 < y <= height) == (True, True, True), mark.text


@pytest.mark.parametrize("key", DRAWINGS)
def test_a_picture_is_the_same_twice_and_rounded(key: str) -> None:
    """Stored outputs can be compared: nothing random, no long decimals."""
    assert draw(key) == draw(key)
    assert re.findall(r"=\"[^\"]*\d\.\d{3,}", str(draw(key).content)) == []


def test_an_unknown_picture_names_its_nearest() -> None:
    """A misspelt key says what was probably meant."""
    with pytest.raises(BadInput, match=r"There is no picture 'bolt-rings'. Did you mean 'bolt-ring'\?"):
        draw("bolt-rings")


def test_an_unknown_parameter_is_one_clear_line() -> None:
    """A parameter that the picture does not take is no traceback."""
    with pytest.raises(BadInput, match="'tilt-side' cannot be drawn so"):
        draw("tilt-side", colour="red")


def test_a_region_for_each_bolt() -> None:
    """Every bolt of a ring can be pointed at by its number."""
    drawing = draw("bolt-ring", angles_deg=[0, 52, 120, 180, 240, 300])
    assert [shape.key for shape in drawing.regions] == ["1", "2", "3", "4", "5", "6"]
    assert all(shape.shape == "circle" for shape in drawing.regions)


def test_a_ring_tells_dowel_and_order() -> None:
    """Alt text and marks of a ring carry the dowel and the order."""
    drawing = draw("bolt-ring", dowel_deg=30, order=(1, 4, 2, 5, 3, 6))
    assert "A dowel sits 30 degrees" in drawing.alt
    assert "order of tightening: 1, 4, 2, 5, 3, 6" in drawing.alt
    assert [f">{tag}<" in str(drawing.content) for tag in ("1st", "2nd", "3rd", "6th", "dowel")] == [True] * 5


def test_a_ring_numbered_the_other_way_round_says_so() -> None:
    """Alt text and caption follow the angles given, not a habit."""
    drawing = draw("bolt-ring", angles_deg=[60, 0, 300, 240, 180, 120])
    assert "numbered anticlockwise from bolt 1, which sits 60 degrees clockwise from the top" in drawing.alt
    assert drawing.caption == "6 bolts, numbered anticlockwise."


def test_only_a_flywheel_is_drawn_with_a_ring_gear() -> None:
    """A pump flange has no teeth, and the alt text never calls it a flywheel."""
    plain, flywheel = draw("bolt-ring"), draw("bolt-ring", part="flywheel")
    assert [str(d.content).count("stroke-dasharray") for d in (plain, flywheel)] == [0, 1]
    assert ["flywheel" in d.alt.casefold() for d in (plain, flywheel)] == [False, True]
    with pytest.raises(OutOfRange, match="part must be one of round part, flywheel"):
        draw("bolt-ring", part="hub")


def test_bolts_of_a_full_ring_do_not_touch() -> None:
    """Even 24 bolts keep apart and readable."""
    shapes = draw("bolt-ring", angles_deg=[15 * i for i in range(24)]).regions
    (x1, y1, r), (x2, y2, _) = shapes[0].points, shapes[1].points
    assert ((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5 > 2 * r


def test_an_order_with_a_bolt_that_is_not_there_is_refused() -> None:
    """Bolt 9 of six is named in one line."""
    with pytest.raises(OutOfRange, match="bolt number must be a whole number from 1 to 6, but you gave 9"):
        draw("bolt-ring", order=(1, 9))


def test_the_wrench_has_its_three_places() -> None:
    """The places of the wrench can be pointed at."""
    assert [shape.key for shape in draw("wrench-grip").regions] == ["grip", "shaft", "head"]


@pytest.mark.parametrize("angle", [0, 30, 90, 120, 180])
def test_a_crow_foot_stays_inside_its_picture(angle: float) -> None:
    """Bolt, drive and grip are drawn inside the frame at every angle."""
    root = ElementTree.fromstring(str(draw("crow-foot", lever_mm=160, offset_mm=140, angle_deg=angle).content))
    for circle in (m for m in root if m.tag.endswith("circle")):
        r = float(circle.attrib["r"])
        assert r <= float(circle.attrib["cx"]) <= 720 - r
        assert r <= float(circle.attrib["cy"]) <= float(root.attrib["height"]) - r


def test_preload_bars_refuse_what_is_no_preload() -> None:
    """A preload below zero, or a ring of one bolt, is refused in one line."""
    with pytest.raises(OutOfRange, match="preload must be between 0"):
        draw("preload-bars", preloads=[1, -1])
    with pytest.raises(OutOfRange, match="preloads must be 2 to 24 figures"):
        draw("preload-bars", preloads=[1])


def test_the_training_vehicle_stands_in_its_frame() -> None:
    """A picture with a training vehicle's figures says that they are invented."""
    assert "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR" in str(draw("stage-ladder").content)


def test_one_key_is_drawn_in_one_place_only() -> None:
    """A second module that takes a key is told so; otherwise whichever came later would win without a word."""
    from bitepoint.pictures.registry import picture

    with pytest.raises(ValueError, match="'bolt-ring' is drawn in two modules"):
        picture("bolt-ring")(lambda: draw("bolt-ring"))
