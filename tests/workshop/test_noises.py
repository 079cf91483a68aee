"""The noise table: what is heard when, and the fewest trials that give a sure answer."""

from collections.abc import Mapping
from itertools import combinations
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import noises
from bitepoint.workshop.noises import best_next_question, noisy_parts, possible_parts, questions_needed, sounds_at
from bitepoint.workshop.pedal_motion import moved
from bitepoint.workshop.vehicles import vehicle

PARTS = {part.id: part for part in noises.noises().parts}


def asked_until_sure(part: noises.NoisyPart, letter: str) -> Mapping[str, str]:
    """What is heard when the best next trial is made each time until no trial helps any more."""
    heard: dict[str, str] = {}
    while (position := best_next_question(heard, vehicle(letter))) is not None:
        heard[position.id] = part.heard[position.id] or sounds_at(position.id, vehicle(letter))[0]
    return heard


@pytest.mark.parametrize(
    ("part", "row"),
    [
        ("input-shaft-bearing", ["noise", "noise", "fades, then gone", "quiet", "with engine speed"]),
        ("release-bearing", ["quiet", "noise", "noise", "noise", "quiet"]),
        ("release-bearing-turning", ["noise", "louder", "louder still", "louder still", "with engine speed"]),
        ("pilot-bearing", ["quiet", "quiet", "faint, comes as the shaft runs down", "noise", "quiet"]),
    ],
)
def test_the_three_bearings(part: str, row: list[str]) -> None:
    """The three bearings sound as a fitter learns them."""
    heard = PARTS[part].heard

    assert row == [heard[p] for p in ("up", "resting", "down", "down-in-gear", "driving")]


def test_no_change_with_a_resting_foot_rules_the_release_bearing_out() -> None:
    """Noise with the pedal up that does not change under a resting foot is not the release bearing."""
    left = [part.id for part in possible_parts({"up": "noise", "resting": "noise"})]

    assert not [id for id in left if id.startswith("release-bearing")]
    assert "input-shaft-bearing" in left


@pytest.mark.parametrize("letter", "ABCD")
def test_a_release_bearing_is_heard_with_the_pedal_up_only_where_it_turns_all_the_time(letter: str) -> None:
    """Every vehicle has one release bearing; held clear by a cable it is quiet with the pedal up, with fluid it is not."""
    car = vehicle(letter)
    (bearing,) = [part for part in noisy_parts(car) if part.id.startswith("release-bearing")]

    stands_clear = moved(car, 0).clear > 0

    assert ("quiet" if stands_clear else "noise") == bearing.heard["up"]
    assert bearing.heard["resting"] != bearing.heard["up"]


@pytest.mark.parametrize("pair", list(combinations(PARTS, 2)), ids="-".join)
def test_any_two_parts_can_be_told_apart(pair: tuple[str, str]) -> None:
    """There is a position at which two parts are known to sound different."""
    one, other = (PARTS[name].heard for name in pair)

    assert any(one[p] and other[p] and one[p] != other[p] for p in one)


@pytest.mark.parametrize("letter", "ABCD")
def test_the_best_trials_end_at_the_part(letter: str) -> None:
    """Making the proposed trial each time leads to the one part, within the number of trials promised."""
    promised = questions_needed({}, vehicle(letter))
    for part in noisy_parts(vehicle(letter)):
        heard = asked_until_sure(part, letter)

        assert [part] == list(possible_parts(heard, vehicle(letter)))
        assert len(heard) <= promised


@pytest.mark.parametrize("letter", "ABCD")
def test_no_fewer_trials_are_enough(letter: str) -> None:
    """No set of positions smaller than a fixed bound tells more parts apart than the promised number of trials."""
    parts, promised = noisy_parts(vehicle(letter)), questions_needed({}, vehicle(letter))

    assert not _sure_within(tuple(part.id for part in parts), promised - 1)
    assert _sure_within(tuple(part.id for part in parts), promised)


def _sure_within(names: tuple[str, ...], trials: int) -> bool:
    """Whether some plan of at most this many trials tells all these parts apart, by trying every plan."""
    if len(names) == 1:
        return True
    if trials == 0:
        return False
    return any(
        all(_sure_within(group, trials - 1) for group in _split(names, position.id))
        for position in noises.noises().positions
        if all(len(group) < len(names) for group in _split(names, position.id))
    )


def _split(names: tuple[str, ...], position: str) -> list[tuple[str, ...]]:
    sounds = {PARTS[name].heard[position] for name in names} - {""}
    return [tuple(n for n in names if PARTS[n].heard[position] in (sound, "")) for sound in sorted(sounds)]


def test_sure_means_no_more_questions() -> None:
    """When one part is left there is nothing to try."""
    heard = {"pedal-moving": "squeak"}

    assert [part.id for part in possible_parts(heard)] == ["pivot-or-pedal"]
    assert best_next_question(heard) is None
    assert questions_needed(heard) == 0


def test_pilot_bearing_only_where_there_is_one() -> None:
    """Only vehicle D has a pilot bearing, only B and C a dual-mass flywheel."""
    having = {letter: {part.id for part in noisy_parts(vehicle(letter))} for letter in "ABCD"}

    assert [letter for letter, parts in having.items() if "pilot-bearing" in parts] == ["D"]
    assert [letter for letter, parts in having.items() if "dual-mass-flywheel" in parts] == ["B", "C"]


def test_unknown_names() -> None:
    """A position or a sound that is not in the table is named with those that are."""
    with pytest.raises(BadData, match=r"There is no position 'uphill'\. Choose one of up, resting"):
        possible_parts({"uphill": "noise"})
    with pytest.raises(BadData, match=r"'hiss' is not in the noise table for 'up'\. Choose one of noise, quiet"):
        possible_parts({"up": "hiss"})


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('up = "noise", ', "", r"input-shaft-bearing heard: must have one entry for each of up, resting"),
        ('id = "gear-rattle"', 'id = "release-bearing"', r"parts id: 'release-bearing' stands twice"),
        ('source = "two-inertia-model"', 'source = "rumour"', r"gear-rattle source: 'rumour' is not in the list"),
    ],
)
def test_a_bad_table_names_file_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A noise table that breaks a rule says in one line which file, which key, which rule."""
    text = (places.assets() / "noises.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "noises.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(BadData, match=message) as caught:
        noises.read_noises(path)

    assert str(caught.value).startswith("noises.toml: ")
