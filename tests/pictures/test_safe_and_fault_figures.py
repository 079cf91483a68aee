"""Figures of working safely and finding the fault: what is drawn is what the workshop's data say."""

import re

import pytest

from bitepoint.errors import OutOfRange
from bitepoint.pictures.registry import draw
from bitepoint.workshop.damage import damage
from bitepoint.workshop.noises import noisy_parts
from bitepoint.workshop.pedal_motion import moved
from bitepoint.workshop.vehicles import vehicle


@pytest.mark.parametrize("letter", "ABCD")
def test_the_table_of_noises_holds_what_is_heard_of_each_part_of_that_car(letter: str) -> None:
    """Every part of the car has its row, every sound of the data stands in the alternative text, and no sign is missing."""
    drawing = draw("noise-table", cars=[letter])

    for part in noisy_parts(vehicle(letter)):
        assert all(sound in drawing.alt for sound in part.heard.values())
        assert part.text.partition(":")[0] in drawing.alt
    assert str(drawing.content).count("<circle") >= 8 * len(noisy_parts(vehicle(letter))) - 4


def test_a_table_of_two_cars_has_a_row_that_differs_once_for_each() -> None:
    """The release bearing by cable and by fluid stand below each other, every other part once."""
    told = draw("noise-table", cars=["A", "B"]).alt

    assert "Release bearing, cable: Standing in neutral, engine idling, pedal up: quiet" in told
    assert "Release bearing, fluid: Standing in neutral, engine idling, pedal up: noise" in told
    ids = {part.id for letter in "AB" for part in noisy_parts(vehicle(letter))}
    assert 8 * len(ids) == told.count(";") + len(ids)


@pytest.mark.parametrize(("cars", "message"), [([], "one or two different"), (["A", "A"], "A, A"), (["Z"], "one of A")])
def test_cars_that_have_no_table_of_noises_are_named(cars: list[str], message: str) -> None:
    """One clear line for none, a car twice, or one that there is not."""
    with pytest.raises(OutOfRange, match=message):
        draw("noise-table", cars=cars)


def test_only_the_bearing_of_a_cable_is_drawn_with_a_gap() -> None:
    """The figure of the bearing at the fingers says the same as the motion of the pedal."""
    told = draw("bearing-at-fingers").alt

    assert "Cable, free play: gap" in told
    assert moved(vehicle("A"), 0).clear > 0
    assert "Fluid: it touches" in told
    assert [moved(vehicle(letter), 0).clear for letter in "BCD"] == [0, 0, 0]


def test_sound_stands_beside_damaged() -> None:
    """Each part is told twice in the words of the workshop's data."""
    told = draw("sound-beside-damaged", parts=["torn-mount", "hot-spots"]).alt

    for id in ("torn-mount", "hot-spots"):
        assert f"sound, {damage()[id].sound}; damaged, {damage()[id].damaged}" in told


def test_three_parts_stand_as_columns_and_two_as_rows() -> None:
    """So that three pairs take less than half a screen's height more than one pair."""
    three, one = (
        draw("sound-beside-damaged", parts=p) for p in (["torn-mount", "oil-on-facing", "hot-spots"], ["torn-mount"])
    )

    assert "sound above, damaged below" in three.alt
    assert "sound on the left, damaged on the right" in one.alt
    high = [float(re.search(r'height="([\d.]+)"', str(d.content))[1]) for d in (three, one)]  # type: ignore[index]
    assert high[0] < 2 * high[1]


@pytest.mark.parametrize(
    ("parts", "message"),
    [
        ([], "one to three different ones"),
        (["hot-spots"] * 2, "one to three different"),
        (["wheel"], "one of hot-spots"),
    ],
)
def test_parts_that_cannot_be_shown_are_named(parts: list[str], message: str) -> None:
    """One clear line for none, a part twice, or one that is not drawn."""
    with pytest.raises(OutOfRange, match=message):
        draw("sound-beside-damaged", parts=parts)


def test_nothing_but_a_look_is_shown_for_what_is_not_for_the_learner() -> None:
    """Orange cable, 48 V and airbag: keep off, stop and ask; the steps are those of a car with 12 V alone."""
    first, dead = draw("look-first"), draw("make-it-dead")

    assert first.alt.count("stop and ask") == 2
    assert "leave it shut, no meter" in first.alt
    assert "nothing but a 12 V battery" in dead.alt
    steps = [dead.alt.index(word) for word in ("Look", "Ignition off", "Wait", "Negative lead off", "Starter cable")]
    assert steps == sorted(steps)


@pytest.mark.parametrize(("letter", "seen"), [("A", "across the car"), ("D", "along the car")])
def test_the_gearbox_on_its_jack_is_that_of_the_car(letter: str, seen: str) -> None:
    """An engine across the car has its final drive in the gearbox; one along the car has not."""
    drawing = draw("gearbox-on-jack", car=letter)

    assert seen in drawing.alt
    assert ("final drive" in str(drawing.content)) == (letter == "A")
