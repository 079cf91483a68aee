"""Kit, plate, flywheels, grease, faces: what is named, and that it is the sheet's."""

import pytest

from bitepoint.errors import BadInput
from bitepoint.pictures import draw
from bitepoint.pictures.clutch.plate import marked
from bitepoint.workshop.vehicles import vehicle, vehicles

NAMED = {
    "kit-exploded": (
        "rigid flywheel",
        "long-travel damper",
        "cover",
        "concentric slave",
        "flywheel bolts",
        "grease",
        "label",
        "sheet",
    ),
    "plate-sides": ("flat", "spring cage", "ENGINE SIDE"),
    "flywheels-compared": (
        "primary mass",
        "arc springs",
        "secondary mass",
        "bolt 45 mm",
        "bolt 34 mm",
        "long-travel damper",
    ),
    "grease-right-wrong": ("splines", "ball pivot", "never", "facing", "concentric slave", "locking patch"),
    "dowels-and-faces": ("dowels straight", "bent", "loom", "Never pull"),
    "straight-edge": ("straight-edge", "feeler gauge", "three directions", "0.06 mm"),
}


@pytest.mark.parametrize("key", sorted(NAMED))
def test_the_alt_text_names_what_is_drawn(key: str) -> None:
    """Someone who cannot see the picture is told its parts."""
    alt = draw(key).alt
    assert [word for word in NAMED[key] if word not in alt] == []


@pytest.mark.parametrize("letter", list(vehicles()))
def test_the_kit_holds_the_bolts_of_the_sheet(letter: str) -> None:
    """Count, thread and length of the flywheel bolts stand in picture and alt text."""
    v = vehicle(letter)
    drawing = draw("kit-exploded", vehicle=letter)
    bolt = v.flywheel.bolt
    assert f"{v.flywheel.bolt_count} flywheel bolts {bolt.thread} by {bolt.length_mm:g}" in drawing.alt
    assert f"{bolt.thread} × {bolt.length_mm:g}" in str(drawing.content)
    assert len(drawing.regions) == 9


def test_only_the_kit_that_has_a_concentric_slave_shows_one() -> None:
    """Vehicle B gets a slave cylinder, the others a release bearing."""
    keys = [
        "slave" if "slave" in {r.key for r in draw("kit-exploded", vehicle=letter).regions} else "bearing"
        for letter in "ABCD"
    ]
    assert keys == ["bearing", "slave", "bearing", "bearing"]


@pytest.mark.parametrize(
    ("letter", "words", "on_flat"),
    [
        ("A", "ENGINE SIDE", True),
        ("B", "GEARBOX SIDE", False),
        ("C", "GEARBOX SIDE", False),
        ("D", "FLYWHEEL SIDE", True),
    ],
)
def test_the_words_stand_on_the_side_of_the_sheet(letter: str, words: str, on_flat: bool) -> None:
    """The stamp is on the side that the sheet says, left picture for the flywheel's side."""
    assert marked(vehicle(letter)) == (words, on_flat)
    drawing = draw("plate-sides", vehicle=letter)
    stamp = next(line for line in str(drawing.content).splitlines() if f">{words}<" in line)
    assert ('x="184"' in stamp) == on_flat


def test_a_car_without_a_dual_mass_flywheel_is_not_compared() -> None:
    """Vehicle A never had one: one clear line."""
    with pytest.raises(BadInput, match="Training vehicle A has no dual-mass flywheel. Choose B or C."):
        draw("flywheels-compared", vehicle="A")
