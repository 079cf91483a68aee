"""The made-up tone: it comes and goes as the noise table says, and beats as fast as the shaft that it follows turns."""

import msgspec
import pytest

from bitepoint.errors import BadData
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.listening import begins, length_s, pieces
from bitepoint.workshop.noises import noises, noisy_parts
from bitepoint.workshop.tones import beats, heard_in_words, level_at, sound, tone_parts
from bitepoint.workshop.vehicles import vehicle, vehicles

CASES = [(car, part) for car in vehicles() for part in noisy_parts(vehicle(car)) if part.shaft]
EACH = pytest.mark.parametrize(("car", "part"), CASES, ids=lambda x: x if isinstance(x, str) else x.id)
PARTS = {part.id: part for part in noises().parts}


def run(car):
    """Return the pieces of one car by their heads."""
    return {piece.head: piece for piece in pieces(vehicle(car))}


@EACH
def test_the_beats_are_as_many_as_the_turns_of_its_shaft_over_four(car, part):
    """Where a part sounds all through a piece, its beats counted are a quarter of the turns its shaft makes in it."""
    counted = 0
    for piece in pieces(vehicle(car)):
        if min(level_at(part, piece, at) for at in (0, piece.seconds)) > 0:
            ends = [piece.turning(part.shaft, at) for at in (0, 2, piece.seconds)]
            first, rest = min(2, piece.seconds), max(0, piece.seconds - 2)
            turns = ((ends[0] + ends[1]) / 2 * first + (ends[1] + ends[2]) / 2 * rest) / 60
            assert abs(len(beats(part, piece)) - turns / 4) <= 0.6, piece.head
            counted += 1
    assert counted >= 1


@EACH
def test_a_piece_is_silent_where_the_table_says_quiet_and_nowhere_else(car, part):
    """When it comes and goes is the table's."""
    for piece in pieces(vehicle(car)):
        quiet = part.heard[piece.position] == "quiet"
        assert quiet == (beats(part, piece) == ()) == (heard_in_words(part, piece) == "nothing"), piece.head


@EACH
def test_it_is_as_loud_as_the_table_says(car, part):
    """Louder is louder than noise, louder still louder than that, faint fainter; what fades ends in nothing."""
    order = ["faint, comes as the shaft runs down", "noise", "louder", "louder still"]
    loud = {}
    for piece in pieces(vehicle(car)):
        if part.heard[piece.position] in order:
            loud[part.heard[piece.position]] = max(beat.level for beat in beats(part, piece))
        if part.heard[piece.position].startswith("fades"):
            levels = [beat.level for beat in beats(part, piece)]
            assert levels == sorted(levels, reverse=True)
            assert level_at(part, piece, piece.seconds) == 0
    assert [loud[word] for word in order if word in loud] == sorted(set(loud.values()))


@EACH
def test_the_table_and_the_shaft_agree(car, part):
    """What sounds "with engine speed" beats faster in second than in third at one road speed, "with road speed" alike."""
    second, third = (len(beats(part, run(car)[head])) for head in ("second", "third"))
    assert {"with engine speed": second > third > 0, "with road speed": second == third > 0, "quiet": second == 0}[
        part.heard["driving"]
    ]


def test_the_speeds_are_those_of_the_sheet():
    """Training vehicle A at 40 km/h in second gear, worked by hand from ratio, final drive and tyre."""
    piece, sheet = run("A")["second"], vehicle("A")
    wheels = 40 / 3.6 * 60 / (rolling_circumference_mm(sheet) / 1000)
    assert piece.turning("wheels", 0) == pytest.approx(wheels)
    assert piece.turning("engine", 0) == pytest.approx(wheels * 2.05 * 4.12)
    assert run("A")["idle"].turning("engine", 1) == 850


@pytest.mark.parametrize("car", vehicles())
def test_no_engine_is_driven_past_its_limiter(car):
    """Every speed is one that the car can turn at, and the wheels stand while the car does."""
    for piece in pieces(vehicle(car)):
        assert max(rpm for _, rpm in piece.engine) < vehicle(car).engine.limiter_rpm
        assert (piece.turning("wheels", 0) == 0) == (piece.position not in ("driving", "coasting"))


def test_the_shaft_runs_down_under_the_foot():
    """Pedal right down: the input shaft comes to rest while the engine idles on; in first gear it stands."""
    piece = run("D")["pedal down"]
    assert [piece.turning("input shaft", at) for at in (0, 1.5, 3, 4)] == [780, 390, 0, 0]
    assert [piece.turning("difference", at) for at in (0, 1.5, 3)] == [0, 390, 780]
    assert run("D")["in first"].turning("input shaft", 1) == 0


@EACH
def test_pitch_follows_the_same_shaft(car, part):
    """Each beat's pitch is 32 times the turns of its shaft a second, so it rises and falls with it."""
    for piece in pieces(vehicle(car)):
        for beat in beats(part, piece):
            assert beat.hz == pytest.approx(piece.turning(part.shaft, beat.at) / 60 * 32, abs=0.06)


@EACH
def test_no_two_parts_of_a_car_sound_the_same(car, part):
    """Whoever listens to all of it can tell every part of this car from every other."""
    whole = pieces(vehicle(car))
    others = [p for c, p in CASES if c == car and p.id != part.id]
    assert others
    for other in others:
        assert [heard_in_words(part, p) for p in whole] != [heard_in_words(other, p) for p in whole]


def test_the_sound_is_small_and_the_same_each_time():
    """A few kilobytes of beats, in order, inside 30 seconds, for every car and part."""
    for car, part in CASES:
        whole = pieces(vehicle(car))
        made = sound(part, whole)
        assert made == sound(part, whole)
        assert len(msgspec.json.encode(made)) < 6_000
        assert list(made) == sorted(made)
        assert length_s(whole) <= 30
        assert made[0].at >= begins(whole)[0]
        assert made[-1].at <= length_s(whole)


def test_what_has_no_steady_tone_is_left_out():
    """Knocks, rattles and squeaks follow no one shaft, so nobody is asked which."""
    assert [part.id for part in tone_parts()] == [
        "input-shaft-bearing",
        "release-bearing",
        "release-bearing-turning",
        "pilot-bearing",
        "final-drive-or-wheel",
    ]


def test_a_word_of_the_table_without_a_loudness_is_named():
    """A table that is bettered cannot fall silent unnoticed."""
    odd = msgspec.structs.replace(PARTS["release-bearing"], heard={**PARTS["release-bearing"].heard, "up": "whirr"})
    with pytest.raises(BadData, match="'whirr' has no loudness"):
        level_at(odd, run("A")["idle"], 0)
