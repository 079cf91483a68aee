"""Workshop bays: every place told twice or once, decidable, and a bad file named in one line."""

from pathlib import Path

import pytest

from bitepoint import places as files
from bitepoint.errors import BadData, BadInput
from bitepoint.workshop import scenes as scenes_module
from bitepoint.workshop.scenes import Scene, scenes

EVERY = pytest.mark.parametrize("scene", scenes().values(), ids=lambda scene: scene.id)


def test_three_bays_of_the_job() -> None:
    """Lifting, strip-down, engine running."""
    assert list(scenes()) == ["bay-lifting", "bay-strip-down", "bay-engine-running"]


@EVERY
def test_a_bay_has_places_that_vary_and_places_that_are_always_right(scene: Scene) -> None:
    """Five or more can be hazards, so that three to five of them change from turn to turn; some are never."""
    assert 5 <= len(scene.can_be_bad()) < len(scene.places) == 8


@EVERY
def test_each_place_has_its_words(scene: Scene) -> None:
    """What is seen differs between good and bad; who marks a good place reads a sentence of its own."""
    for place in scene.places:
        assert place.good != place.bad
        assert place.fine.endswith(".")
        if place.can_be_bad:
            assert not place.danger.endswith(".")
            assert place.danger[0].islower()


@EVERY
def test_what_is_seen_is_told_and_not_judged(scene: Scene) -> None:
    """The alt text says what is seen at each letter and calls nothing wrong, right, missing or dangerous."""
    for wrong in ((), scene.can_be_bad()):
        told = scene.alt(wrong)
        assert [f"{'ABCDEFGH'[i]}, {p.name}: " in told for i, p in enumerate(scene.places)] == [True] * 8
        words = ("hazard", "danger", "wrong", "missing", "unsafe", "correct", "should")
        assert [word for word in words if word in told.casefold()] == []


def test_the_letter_of_a_place() -> None:
    """Places are lettered in their order."""
    assert scenes()["bay-lifting"].letter("tag") == "a"
    assert scenes()["bay-lifting"].letter("bin") == "h"


@pytest.mark.parametrize("id", ["operator", "dragon"])
def test_a_place_that_cannot_be_wrong_is_refused(id: str) -> None:
    """One line with the place and those that can be."""
    with pytest.raises(BadInput, match=rf"'{id}' cannot be wrong in bay-lifting\. Choose from tag, front-pad"):
        scenes()["bay-lifting"].check([id])


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('id = "bay-strip-down"', 'id = "bay-lifting"', r"id: 'bay-lifting' stands twice"),
        ('{ id = "rear-pad"', '{ id = "front-pad"', r"bay-lifting id: 'front-pad' stands twice"),
        ('source = "hse-mvr-exhaust"', 'source = "rumour"', r"bay-engine-running source: 'rumour' is not in the list"),
        ('overlooks = "overlooks the air-line", ', "", r"bay-strip-down air-line: bad, danger and overlooks belong together"),
        ('{ id = "bin", ', '{ id = "bin", hurts = true, ', r"bay-lifting bin: hurts only where it can be a hazard"),
    ],
)  # fmt: skip
def test_a_bad_file_names_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A file of bays that breaks a rule says in one line which key and which rule."""
    text = (files.assets() / "scenes.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "scenes.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadData, match=message) as caught:
        scenes_module.read_scenes(path)
    assert str(caught.value).startswith("scenes.toml: ")
