"""What stands written in a picture is sampled too: numbers and names of places as facts, every other word as words."""

import msgspec
import pytest

from bitepoint.pictures.registry import Drawing, Shape
from bitepoint.releases import samples

PLAIN = Drawing(
    content='<svg><g id="one"><text x="1" y="2">1</text><text x="3" y="2">b</text><text x="5" y="2">grip mark</text></g></svg>',
    alt="Two places on a wrench.",
    caption="A wrench",
    regions=(Shape("b", "place b", "circle", (3.0, 2.0, 1.0)),),
)


def digests(drawing: Drawing, monkeypatch: pytest.MonkeyPatch) -> tuple[str, str]:
    """Return what a sample holds of the picture: geometry and words."""
    monkeypatch.setattr(samples, "draw_picture", lambda key, **_: drawing)
    samples._sampled_picture.cache_clear()
    return samples._sampled_picture("wrench", "{}")


@pytest.mark.parametrize(
    ("old", "new", "geometry", "words"),
    [
        (">1<", ">2<", True, True),
        (">b<", ">c<", True, True),
        ('x="5"', 'x="6"', True, False),
        (">grip mark<", ">mark on the grip<", False, True),
    ],
    ids=["number", "name of a place", "place", "word"],
)
def test_each_text_of_a_picture_is_held(
    old: str, new: str, geometry: bool, words: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A number or a place's name that is another is a fact; a word that is another asks for a look."""
    before = digests(PLAIN, monkeypatch)
    after = digests(msgspec.structs.replace(PLAIN, content=str(PLAIN.content).replace(old, new)), monkeypatch)
    assert (geometry, words) == (before[0] != after[0], before[1] != after[1])


def test_what_a_picture_is_said_to_show_is_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """Alt text and caption are read in place of the picture."""
    before = digests(PLAIN, monkeypatch)
    for changed in (msgspec.structs.replace(PLAIN, alt="Three."), msgspec.structs.replace(PLAIN, caption="Tool")):
        after = digests(changed, monkeypatch)
        assert (before[0], False) == (after[0], before[1] == after[1])
    samples._sampled_picture.cache_clear()
