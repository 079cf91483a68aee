"""Findings on the bench: each sound and damaged, told apart, with the place to look at."""

import pytest

from bitepoint.errors import OutOfRange
from bitepoint.pictures import draw
from bitepoint.pictures.damage import FINDINGS


@pytest.mark.parametrize("what", sorted(FINDINGS))
def test_sound_and_damaged_differ_in_picture_and_words(what: str) -> None:
    """The same part, two drawings, two alt texts; the words in the picture are the same and do not tell."""
    sound, damaged = draw("damage", what=what, ok=True), draw("damage", what=what)
    assert sound.content != damaged.content
    assert (FINDINGS[what][2] in sound.alt, FINDINGS[what][3] in damaged.alt) == (True, True)
    words = [
        [line.split(">")[1].split("<")[0] for line in str(d.content).splitlines() if line.startswith("<text")]
        for d in (sound, damaged)
    ]
    assert words[0] == words[1]


@pytest.mark.parametrize("what", sorted(FINDINGS))
def test_the_place_to_look_at_is_a_region_inside_the_picture(what: str) -> None:
    """One region, its key the finding's, inside the picture."""
    (region,) = draw("damage", what=what).regions
    x, y, width, height = region.points
    assert region.key == what
    assert (x >= 0, y >= 0, x + width <= 720, y + height <= 430) == (True, True, True, True)


def test_a_finding_that_is_not_there_is_refused() -> None:
    """An unknown finding is one line with those that exist."""
    with pytest.raises(OutOfRange, match="what must be one of hot-spots, heat-cracks, .*, but you gave rust"):
        draw("damage", what="rust")
