"""Pictures of the calculators: style, alt text with the figures, and words that stay inside, at the first figures and far from them."""

from xml.etree import ElementTree

import pytest

from bitepoint.errors import BitepointError
from bitepoint.page.calculators import calculator_named, names
from bitepoint.pictures import Drawing, draw
from bitepoint.pictures.axes import figure, round_up, ticks

# picture, parameters away from the default, words of the alt text
NAMED: list[tuple[str, dict[str, object], tuple[str, ...]]] = [
    ("double-scale", {}, ("65 N·m", "47.94 lbf·ft", "Two scales")),
    ("double-scale", {"value": 2.5, "unit": "bar", "other": "psi"}, ("2.5 bar", "36.26 psi")),
    ("run-out-readings", {}, ("8 dial gauge readings", "0.070 mm", "limit of 0.08 mm", "within")),
    ("run-out-readings", {"limit": 0.06}, ("above",)),
    ("limit-zones", {}, ("0.08 max", "guard band of 0.01645 mm", "stop and ask")),
    ("limit-zones", {"uncertainty": 0}, ("keeps the limit",)),
    ("limit-zones", {"kind": "min", "measured": 0.01}, ("0.08 min", "breaks the limit")),
    ("wrench-scale", {}, ("100 N·m", "20 to 100 N·m", "65 N·m wanted", "+1.50 percent")),
    ("clutch-capacity", {}, ("190 mm outside", "132 mm inside", "engine 95", "147", "149")),
    ("clamp-load-and-wear", {}, ("3.05 kN when new", "Slip load 1.97 kN", "1.4 mm", "Coil springs")),
    ("diaphragm-curve", {}, ("flat at 3.98 mm", "greatest load", "least load", "4.4 mm")),
    ("diaphragm-curve", {"height_ratio": 1.0}, ("The load only rises",)),
    ("take-up", {}, ("1500 rpm", "1.2 s", "5 kJ", "2 K")),
    ("pedal-to-plate", {}, ("140 mm", "18 mm free play", "13.34", "8.23 mm", "1.96 mm", "109 N")),
    ("stroke-with-air", {}, ("140 mm stroke", "1 ml of air", "33.7 mm", "beyond the end")),
    ("stroke-with-air", {"lost_mm": 5, "air_ml": 0.2}, ("still reached",)),
    ("gear-lines", {}, ("gear 1", "gear 5", "3600 rpm", "68 km/h", "gear 3 fits")),
    ("gear-lines", {"gear": None}, ("no gear fits",)),
    ("slip-interval", {}, ("engine 3600 rpm", "3310 rpm", "8.1 plus or minus 3.2")),
    (
        "firing-and-resonance",
        {},
        ("4 cylinders", "idle 820 rpm", "42.7 Hz at 1281 rpm", "13.1 Hz at 393 rpm"),
    ),
    ("lifting-limit", {}, ("best lift 23.0", "grip 7.4", "33 kg")),
    ("lifting-limit", {"refused": "Ask\nfirst."}, ("crossed out", "Ask first.")),
    ("axle-loads", {}, ("555 kg, 521 kg", "350 kg, then 351 kg", "from 905 to 941 mm")),
    ("thread-and-load", {}, ("M10×1.25", "61.2 mm²", "38.2 kN", "50.8 kN", "75 percent")),
    ("preload-and-angle", {}, ("Snug 12.5 kN", "50 degrees 45.3 kN", "second time 78.1 kN", "53.5 kN")),
    ("bolt-in-hole", {}, ("34 mm long", "20 mm clamped", "18 mm deep", "has 4 mm of room")),
    ("bolt-in-hole", {"length_mm": 45}, ("25 mm would engage", "bottoms")),
    ("bolt-in-hole", {"length_mm": 18}, ("does not reach",)),
    ("torque-bar", {}, ("65 N·m", "15 percent stretches", "38 percent", "47 percent")),
]
LINES = {"#000000", "#0072B2", "#D55E00", "#009E73", "#B8B8B8", "#FFFFFF", "none"}
FILLS_WITH_OUTLINE = {"#E69F00", "#56B4E9", "#F0E442"}


def marks(drawing: Drawing) -> list[ElementTree.Element]:
    """Return the marks of a drawing behind its white ground."""
    return list(ElementTree.fromstring(str(drawing.content)))[1:]


def calculator_drawings() -> list[Drawing]:
    """Return what the calculators draw at their first figures and with each field alone at both ends."""
    drawn = []
    for name in names():
        found = calculator_named(name)
        corners: list[dict[str, object]] = [{}]
        for field in found.fields:
            corners += [{field.key: end} for end in (field.options or (field.low, field.high))]
        for corner in corners:
            try:
                picture = found.answer(corner).picture
            except BitepointError:
                continue
            if picture is not None:
                drawn.append(draw(picture.key, **picture.parameters))
    # A plot of dots has no marks to measure; tests/pictures/test_plotting.py looks into those.
    return [drawing for drawing in drawn if isinstance(drawing.content, str)]


DRAWN = [draw(key, **parameters) for key, parameters, _ in NAMED]


@pytest.mark.parametrize(("key", "parameters", "words"), NAMED)
def test_the_alt_text_names_what_is_drawn_and_its_figures(
    key: str, parameters: dict[str, object], words: tuple[str, ...]
) -> None:
    """Someone who cannot see the picture is told the same figures."""
    alt = draw(key, **parameters).alt
    assert [word for word in words if word not in alt] == []


@pytest.mark.parametrize("drawing", DRAWN, ids=[f"{key}-{i}" for i, (key, _, _) in enumerate(NAMED)])
def test_words_and_lines_can_be_seen_from_the_back(drawing: Drawing) -> None:
    """Words from 16 units, lines from 2, pale colours only as fills with a dark outline."""
    sizes = [float(m.attrib["font-size"]) for m in marks(drawing) if m.tag.endswith("text")]
    assert min(sizes) >= 16
    for mark in marks(drawing):
        stroke = mark.attrib.get("stroke", "none")
        assert stroke in LINES
        if mark.attrib.get("fill", "none") in FILLS_WITH_OUTLINE:
            assert stroke == "#000000"
        if mark.tag.endswith(("line", "polyline")):
            assert float(mark.attrib["stroke-width"]) >= 2


def test_words_and_marks_stay_inside_every_picture_a_calculator_draws() -> None:
    """Reckoned with half the size for each letter; lines, bars and dots within the 720 units."""
    drawings = [*DRAWN, *calculator_drawings()]
    assert len(drawings) > 250
    outside = set()
    for drawing in drawings:
        height = float(ElementTree.fromstring(str(drawing.content)).attrib["height"])
        for mark in marks(drawing):
            left, right, top, bottom = extent(mark)
            if left < -1 or right > 721 or top < -1 or bottom > height + 1:
                outside.add(
                    (
                        drawing.alt[:60],
                        mark.tag[-8:],
                        mark.text,
                        round(left),
                        round(right),
                        round(top),
                        round(bottom),
                    )
                )
    assert sorted(outside, key=str) == []


def extent(mark: ElementTree.Element) -> tuple[float, float, float, float]:
    """Return left, right, top and bottom of a mark."""
    at = {
        k: float(v)
        for k, v in mark.attrib.items()
        if k in {"x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "r", "width", "height"}
    }
    tag = mark.tag.rpartition("}")[2]
    if tag == "text":
        if "transform" in mark.attrib:
            return at["x"], at["x"], at["y"], at["y"]
        width = 0.5 * float(mark.attrib["font-size"]) * len(mark.text or "")
        left = at["x"] - width * {"start": 0, "middle": 0.5, "end": 1}[mark.attrib["text-anchor"]]
        return left, left + width, at["y"], at["y"]
    if tag == "rect":
        return at["x"], at["x"] + at["width"], at["y"], at["y"] + at["height"]
    if tag == "circle":
        return at["cx"] - at["r"], at["cx"] + at["r"], at["cy"] - at["r"], at["cy"] + at["r"]
    if tag == "line":
        return (
            min(at["x1"], at["x2"]),
            max(at["x1"], at["x2"]),
            min(at["y1"], at["y2"]),
            max(at["y1"], at["y2"]),
        )
    points = [tuple(map(float, pair.split(","))) for pair in mark.attrib["points"].split()]
    across, down = [p[0] for p in points], [p[1] for p in points]
    return min(across), max(across), min(down), max(down)


@pytest.mark.parametrize("key", sorted({key for key, _, _ in NAMED}))
def test_a_picture_is_the_same_twice(key: str) -> None:
    """Stored outputs can be compared."""
    assert draw(key) == draw(key)


@pytest.mark.parametrize(
    ("value", "shown"),
    [(38235.3, "38235"), (0.064849, "0.0648"), (1.5, "1.5"), (0, "0"), (-0.0001, "-0.0001"), (99.96, "100")],
)
def test_a_figure_is_written_short_and_without_an_exponent(value: float, shown: str) -> None:
    """Three digits, no trailing zeros, whole numbers whole."""
    assert shown == figure(value)


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (0, 100, (0, 20, 40, 60, 80, 100)),
        (-4, 4, (-4, -2, 0, 2, 4)),
        (0, 0.25, (0, 0.05, 0.1, 0.15, 0.2, 0.25)),
    ],
)
def test_ticks_are_round_figures(low: float, high: float, expected: tuple[float, ...]) -> None:
    """Steps of 1, 2 or 5, never more than seven of them."""
    assert ticks(low, high) == expected


@pytest.mark.parametrize(("value", "end"), [(95, 100), (104, 120), (0.07, 0.08), (0, 1)])
def test_a_scale_ends_on_a_tick_above_its_figure(value: float, end: float) -> None:
    """The figure always fits on the scale."""
    assert round_up(value) == pytest.approx(end)
