"""Damage on the bench: ten parts, decided as the criteria decide, told without a judgement."""

from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData, BadInput
from bitepoint.workshop import damage as damage_module
from bitepoint.workshop.damage import Damage, check_bench, damage

EVERY = pytest.mark.parametrize("part", damage().values(), ids=lambda part: part.id)


def test_ten_kinds_of_damage() -> None:
    """Flywheel, plate, cover, shaft, seal, mount, guide tube and dowel."""
    assert len(damage()) == 10
    assert {part.decision for part in damage().values()} == {"replace", "stop and ask"}


@EVERY
def test_what_is_seen_is_told_and_not_judged(part: Damage) -> None:
    """Sound and damaged are told differently, and neither is called so."""
    assert part.seen(damaged=True) != part.seen(damaged=False)
    for told in (part.seen(damaged=True), part.seen(damaged=False)):
        assert [word for word in ("damage", "wrong", "bad", "sound", "faulty", "good") if word in told.casefold()] == []


def test_only_a_crack_could_hurt_somebody() -> None:
    """The others bring the job back."""
    assert [part.id for part in damage().values() if part.weight == 3] == ["heat-cracks"]


@pytest.mark.parametrize(
    ("parts", "damaged", "message"),
    [
        (["torn-mount"], [], "A bench holds 2 to 6 different parts, but you gave torn-mount"),
        (["torn-mount", "torn-mount"], [], "A bench holds 2 to 6 different parts"),
        (["torn-mount", "rust"], [], r"'rust' is no part of the bench\. Choose from hot-spots, heat-cracks"),
        (["torn-mount", "hot-spots"], ["bent-dowel"], r"'bent-dowel' is not on this bench\. Damaged can be only torn-mount"),
    ],
)  # fmt: skip
def test_a_bench_that_cannot_be_is_refused(parts: list[str], damaged: list[str], message: str) -> None:
    """One line with what was given and what can be."""
    with pytest.raises(BadInput, match=message):
        check_bench(parts, damaged)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('id = "heat-cracks"', 'id = "hot-spots"', r"id: 'hot-spots' stands twice"),
        ('criterion = "mount-torn"', 'criterion = "mount"', r"torn-mount criterion: 'mount' is no criterion"),
        (
            'decision = "stop and ask", criterion = "splines-step"',
            'decision = "replace", criterion = "splines-step"',
            r"worn-splines decision: differs from that of 'splines-step'",
        ),
        ('source = "navy-clutch-dragging"', 'source = "rumour"', r"oil-on-facing source: 'rumour' is not in the list"),
    ],
)
def test_a_bad_file_names_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A list of damage that breaks a rule says in one line which key and which rule."""
    text = (places.assets() / "damage.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "damage.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadData, match=message) as caught:
        damage_module.read_damage(path)
    assert str(caught.value).startswith("damage.toml: ")
