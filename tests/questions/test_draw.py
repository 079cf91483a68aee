"""Draw: the same figures for the same learner everywhere, each value as likely as the next."""

import shutil
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint import places
from bitepoint.questions.draw import Draw
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.vehicles import vehicles


def draw_for(learner="ada", turn=1, exercise="torque.any", class_word="amber", sitting="", **more):
    return Draw(class_word=class_word, learner=learner, exercise=exercise, turn=turn, sitting=sitting, **more)


def test_draw_gives_the_same_figures_for_the_same_learner_and_turn():
    """Two draws with the same key give the same sequence; another learner, turn, exercise or sitting another one."""

    def sequence(**key):
        draw = draw_for(**key)
        return [draw.integer(0, 10**6) for _ in range(5)]

    assert sequence() == sequence(learner="ADA", class_word="Amber")
    others = [sequence(learner="bo"), sequence(turn=2), sequence(exercise="x.y"), sequence(sitting="june")]
    assert sequence() not in others
    assert len({tuple(o) for o in others}) == 4


def test_draw_is_frozen_for_released_hand_ins():
    """These figures were drawn on 25 November 2026: if they change, no old hand-in can be marked again."""
    draw = draw_for()
    assert [draw.integer(1, 1000) for _ in range(4)] == [884, 563, 946, 5]


@given(low=st.integers(-50, 50), width=st.integers(0, 60))
@settings(deadline=None)
def test_draw_integer_stays_between_its_bounds(low, width):
    """Both bounds are included and nothing lies outside."""
    draw = draw_for()
    assert all(low <= draw.integer(low, low + width) <= low + width for _ in range(20))


@given(limit=st.integers(2**62, 2**64))
@settings(deadline=None)
def test_draw_passes_over_numbers_beyond_the_last_whole_row(limit):
    """Of numbers from 0 to 2^64 - 1 those count that lie in a whole row of `limit`; with a large one many do not."""
    raw, draw, at_once = draw_for(), draw_for(), draw_for()
    numbers = (raw.integer(0, 2**64 - 1) for _ in range(100))
    rows = 2**64 // limit
    expected = [number % limit for number in numbers if number < rows * limit][:5]
    assert expected == [draw.integer(0, limit - 1) for _ in range(5)]
    assert expected == at_once.integers(5, 0, limit - 1)


def test_draw_integer_favours_no_value():
    """Of 12,000 throws of a die each face comes up 2,000 times, give or take five standard deviations."""
    draw = draw_for()
    faces = Counter(draw.integer(1, 6) for _ in range(12_000))
    assert set(faces) == {1, 2, 3, 4, 5, 6}
    assert all(abs(n - 2000) < 5 * 40.9 for n in faces.values())


@given(
    low=st.sampled_from([0.0, 0.5, 8.0]),
    steps=st.integers(0, 30),
    step=st.sampled_from([0.05, 0.1, 0.5, 2.0]),
)
@settings(deadline=None)
def test_draw_value_is_a_whole_number_of_steps(low, steps, step):
    """A value is low plus whole steps, rounded to the decimals that low and step have."""
    high = low + steps * step
    value = draw_for().value(low, high, step)
    assert low <= value <= round(high, 2)
    assert abs((value - low) / step - round((value - low) / step)) < 1e-6
    assert value == round(value, 2)


@given(count=st.integers(0, 9) | st.just(150), width=st.integers(0, 60))
@settings(deadline=None)
def test_draw_integers_are_so_many_integers(count, width):
    """Drawn in one go or one by one they are the same, and so is what is drawn after them."""
    one, other = draw_for(), draw_for()
    assert one.integers(count, 3, 3 + width) == [other.integer(3, 3 + width) for _ in range(count)]
    assert one.integer(1, 10**6) == other.integer(1, 10**6)


def test_draw_gives_a_learner_one_car_for_the_whole_course():
    """The vehicle depends on class and learner alone, and all four come up."""
    cars = {draw_for(learner="ada", exercise=e, turn=t).vehicle().id for e in ("a.b", "c.d") for t in (1, 2, 3)}
    assert len(cars) == 1
    met = Counter(draw_for(learner=f"l{n}").vehicle().id for n in range(400))
    assert set(met) == set(vehicles())
    assert min(met.values()) > 60


def test_draw_story_is_one_for_a_learner_whatever_is_asked():
    """Exercise, turn and what was drawn before change nothing; another learner or sitting has another story."""

    def told(**key):
        draw = draw_for(**key)
        draw.integer(1, 9)
        return [draw.story().integer(0, 10**6) for _ in range(2)]

    assert told() == told(exercise="x.y", turn=3) == told(learner="ADA")
    assert told()[0] == told()[1]
    assert told() not in (told(learner="bo"), told(sitting="june"), told(class_word="jade"))


def test_draw_again_begins_anew_without_some_cars():
    """Where a sheet lacks a figure the question is drawn once more: the same numbers, about another car."""
    first = draw_for(vehicle="B")
    numbers, car = [first.integer(0, 999) for _ in range(3)], first.vehicle()
    again = first.again({"B"})
    assert ("B", "C") == (car.id, again.vehicle().id)
    assert numbers == [again.integer(0, 999) for _ in range(3)]
    assert "B" not in [each.id for each in again.cars()]
    assert "B" == first.vehicle().id


def test_draw_form_moves_on_each_turn():
    """Each next turn takes the next form, round and round."""
    forms = [draw_for(turn=turn).form(3) for turn in range(1, 7)]
    assert forms[:3] == forms[3:]
    assert set(forms) == {0, 1, 2}


def test_draw_covers_what_a_car_of_the_class_has():
    """Only cars of the class count, and one car must have all of it."""
    assert draw_for(cars=("A", "B")).covers("cable release")
    assert not draw_for(cars=("B", "C")).covers("cable release")
    assert not draw_for(cars=("A", "B")).covers("cable release", "dual-mass flywheel")
    assert draw_for(cars=("A",)).covers()


def test_draw_finds_the_cars_of_the_data_that_are_in_use(tmp_path):
    """What was found for a class in one set of data files is not taken for another's."""
    shutil.copytree(places.assets(), tmp_path, dirs_exist_ok=True, ignore=shutil.ignore_patterns("retired", "releases"))
    sheet = tmp_path / "vehicles" / "a.toml"
    text = sheet.read_text(encoding="utf-8")
    sheet.write_text(text.replace('hub_nut = "on the ground"', 'hub_nut = "raised just clear"'), encoding="utf-8")

    def covered():
        return draw_for(cars=("A",)).covers("hub nut raised")

    assert not covered()
    with using(DataFiles(tmp_path)):
        assert covered()
        assert draw_for(cars=("A",)).cars("hub nut raised") == (vehicles()["A"],) == (draw_for(vehicle="A").vehicle(),)
    assert not covered()


@given(st.lists(st.integers(), max_size=9))
@settings(deadline=None)
def test_draw_shuffle_keeps_every_item(items):
    """Nothing is lost or doubled, and the list given is left as it was."""
    before = list(items)
    assert sorted(draw_for().shuffle(items)) == sorted(before)
    assert items == before
    assert len(draw_for().sample(items, 3)) == min(3, len(items))


def test_draw_until_says_which_exercise_asks_for_the_impossible():
    """After 100 tries without success the exercise is named."""
    draw = draw_for(exercise="torque.impossible")
    with pytest.raises(RuntimeError, match=r"torque\.impossible: none of 100 draws"):
        draw.until(lambda made: False, lambda: draw.integer(1, 2))


def test_draw_until_redraws():
    """The first made thing that passes is returned."""
    draw = draw_for()
    assert draw.until(lambda made: made > 90, lambda: draw.integer(1, 100)) > 90
