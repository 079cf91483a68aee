"""Blue, green, red and yellow mean one thing each: no style has a fifth colour, and yellow fills only where something should be."""

import re
from colorsys import rgb_to_hls
from pathlib import Path

import pytest

import bitepoint
from bitepoint.pictures import draw, keys
from bitepoint.pictures.canvas import YELLOW

LIB = Path(bitepoint.__file__).parent
MEANT = {"red": (10, 30), "green": (140, 170), "blue": (195, 215)}
"""Hues in degrees of what docs/architecture.md lists for cards, controls, bars and pages."""
GREY = 45
"""Steel and paper: channels that lie no further apart than this are no colour."""
DRAWN = "sweep.css"
"""The style of a drawing: it may use what drawings use."""
WHERE_IT_SHOULD_BE = {
    "clamp-load-and-wear": "the wear that is allowed",
    "clutch-in-motion": "the pedal travel in which the plate is free",
    "limit-zones": "keeps the limit",
    "look-first": "no place: the plug of an airbag is yellow on a car",
    "pedal-to-plate": "the travel that frees the plate",
    "run-out-readings": "the run-out that is allowed",
    "run-out-set": "the place to begin with",
    "run-out-sweep": "the place to begin with",
    "star-patterns": "the bolt to begin with",
    "two-leaves": "between what goes and what does not",
    "wrench-scale": "the usable part of the scale",
}


def _hue(colour: str) -> float | None:
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    if max(red, green, blue) - min(red, green, blue) <= GREY:
        return None
    return 360 * rgb_to_hls(red / 255, green / 255, blue / 255)[0]


@pytest.mark.parametrize(
    "path",
    [p for kind in ("*.css", "*.jinja") for p in sorted(LIB.rglob(kind)) if p.name != DRAWN],
    ids=lambda p: p.name,
)
def test_a_style_has_no_colour_of_its_own(path: Path) -> None:
    """Every colour in it is a grey or one of the three, in a light or a dark value."""
    found = set(re.findall(r"#[0-9a-fA-F]{6}\b", path.read_text(encoding="utf-8")))
    hues = {colour: hue for colour in found if (hue := _hue(colour)) is not None}
    assert {c: h for c, h in hues.items() if not any(low <= h <= high for low, high in MEANT.values())} == {}


def test_yellow_is_where_something_should_be() -> None:
    """The drawings that use it, each with what it means there."""
    found = {key for key in keys() if YELLOW in str(draw(key).content)}
    assert set(WHERE_IT_SHOULD_BE) == found
