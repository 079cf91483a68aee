"""The strip of a sound shows the very beats that are heard, and both are those of the tone."""

from xml.etree import ElementTree

import pytest

from bitepoint.errors import BadInput, OutOfRange
from bitepoint.pictures import draw, keys, sound
from bitepoint.workshop.listening import pieces
from bitepoint.workshop.noises import noisy_parts
from bitepoint.workshop.tones import beats
from bitepoint.workshop.vehicles import vehicle, vehicles

CASES = [(car, part.id) for car in vehicles() for part in noisy_parts(vehicle(car)) if part.shaft]
BEAT = "2.5"
"""Width of the line that is one beat."""


@pytest.mark.parametrize(("car", "part"), CASES)
def test_each_beat_that_is_heard_is_a_bar_of_the_strip(car: str, part: str) -> None:
    """As many bars as beats, a loud one higher than a faint one."""
    marks = ElementTree.fromstring(str(draw("sound-strip", car=car, part=part).content))
    bars = [m.attrib for m in marks if m.tag.endswith("}line") and m.attrib["stroke-width"] == BEAT]
    heard = sound("sound-strip", car=car, part=part)
    assert heard is not None
    assert len(bars) == len(heard.beats)
    high = [float(bar["y1"]) - float(bar["y2"]) for bar in bars]
    assert high == pytest.approx([36 * level for _, _, level in heard.beats], abs=0.02)


def test_what_is_told_while_it_plays_begins_with_its_piece() -> None:
    """Eight lines, each at the moment at which its piece begins; the beats lie inside the seconds."""
    heard = sound("sound-strip", car="D", part="pilot-bearing")
    assert heard is not None
    assert [told.partition(":")[0] for _, told in heard.told] == [f"{n} of 8" for n in range(1, 9)]
    noisy = next(part for part in noisy_parts(vehicle("D")) if part.id == "pilot-bearing")
    for (begin, _), piece in zip(heard.told, pieces(vehicle("D")), strict=True):
        inside = [at for at, _, _ in heard.beats if begin <= at < begin + piece.seconds]
        assert len(inside) == len(beats(noisy, piece))
    assert all(0 <= at < heard.seconds for at, _, _ in heard.beats)


def test_only_the_strip_has_a_sound() -> None:
    """Every other picture is silent."""
    assert [key for key in keys() if sound(key)] == ["sound-strip"]


def test_another_part_or_car_is_one_line() -> None:
    """What has no steady tone cannot be drawn as one."""
    with pytest.raises((BadInput, OutOfRange), match="gear-rattle"):
        draw("sound-strip", part="gear-rattle")
    with pytest.raises((BadInput, OutOfRange), match="Z"):
        draw("sound-strip", car="Z")
