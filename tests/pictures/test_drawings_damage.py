"""Findings on the bench: each sound and damaged, told apart, with the place to look at; several side by side."""

import re

import pytest

from bitepoint.errors import BadInput, OutOfRange
from bitepoint.pictures import draw
from bitepoint.pictures.damage.bench import DRAWN
from bitepoint.workshop.damage import damage


def words(content: object) -> list[str]:
    """What is written in a drawing."""
    return re.findall(r"<text[^>]*>([^<]+)", str(content))


def test_each_kind_of_damage_is_drawn() -> None:
    """Data and drawings name the same ten."""
    assert list(DRAWN) == list(damage())


@pytest.mark.parametrize("what", sorted(DRAWN))
def test_sound_and_damaged_differ_in_picture_and_words(what: str) -> None:
    """The same part, two drawings, two alt texts; the words in the picture are the same and do not tell."""
    sound, damaged = draw("damage", what=what, ok=True), draw("damage", what=what)
    assert sound.content != damaged.content
    assert (damage()[what].sound in sound.alt, damage()[what].damaged in damaged.alt) == (True, True)
    assert words(sound.content) == words(damaged.content)


@pytest.mark.parametrize("what", sorted(DRAWN))
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


@pytest.mark.parametrize("size", [2, 4, 5, 6])
def test_a_bench_letters_its_parts(size: int) -> None:
    """One region a part, in the order of the letters, inside the picture; only letters and names are written."""
    parts = list(damage())[1 : size + 1]
    drawing = draw("parts-bench", parts=parts, damaged=parts[:1])
    assert [r.key for r in drawing.regions] == list("abcdef"[:size])
    assert [r.label for r in drawing.regions] == [damage()[id].name for id in parts]
    assert words(drawing.content) == [w for i, id in enumerate(parts) for w in ("ABCDEF"[i], damage()[id].name)]
    height = float(re.search(r'viewBox="0 0 720 ([\d.]+)"', str(drawing.content))[1])  # type: ignore[index]
    for region in drawing.regions:
        x, y, width, high = region.points
        assert (x >= 0, y >= 0, x + width <= 720, y + high <= height) == (True, True, True, True)


@pytest.mark.parametrize("what", sorted(DRAWN))
def test_damage_on_the_bench_changes_picture_and_alt_text_only(what: str) -> None:
    """The words in the picture do not tell which part is damaged; the alt text tells what is seen."""
    other = "torn-mount" if what != "torn-mount" else "bent-dowel"
    sound, damaged = draw("parts-bench", parts=[what, other]), draw("parts-bench", parts=[what, other], damaged=[what])
    assert sound.content != damaged.content
    assert words(sound.content) == words(damaged.content)
    assert damaged.alt == sound.alt.replace(damage()[what].seen(damaged=False), damage()[what].seen(damaged=True))


def test_a_bench_with_damage_on_a_part_that_is_not_there_is_refused() -> None:
    """One line, no drawing."""
    with pytest.raises(BadInput, match="'bent-dowel' is not on this bench"):
        draw("parts-bench", parts=["hot-spots", "torn-mount"], damaged=["bent-dowel"])
