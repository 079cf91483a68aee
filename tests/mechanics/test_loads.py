"""Centre of gravity and ratings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import loads

# front and rear axle [kg], wheelbase [mm], gearbox [kg], its place behind the front axle [mm], centre before and after
CARS = [
    (555, 350, 2340, 33, -60, 905, 941, 37),
    (865, 530, 2610, 48, -90, 992, 1030, 39),
    (950, 610, 2720, 56, -80, 1064, 1106, 43),
    (680, 630, 2550, 41, 820, 1226, 1239, 13),
]


@pytest.mark.parametrize(("front", "rear", "base", "part", "place", "before", "after", "shift"), CARS)
def test_training_vehicles(front, rear, base, part, place, before, after, shift):
    """The centre of gravity moves 13 to 43 mm to the rear when the gearbox leaves."""
    car = {"front_axle_kg": front, "rear_axle_kg": rear, "wheelbase_mm": base}
    centre = loads.centre_of_gravity_mm(front, rear_axle_kg=rear, wheelbase_mm=base)
    moved = loads.centre_of_gravity_shift_mm(part, part_behind_front_axle_mm=place, **car)
    assert pytest.approx(before, abs=0.6) == centre
    assert pytest.approx(after, abs=0.6) == centre + moved
    assert pytest.approx(shift, abs=0.6) == moved


@given(st.floats(400, 1500), st.floats(400, 1500), st.floats(1, 100), st.floats(-500, 3000))
def test_mass_and_moment_are_kept(front, rear, part, place):
    """What is left and what was taken out add up to the car, in mass and in moment."""
    car = {"front_axle_kg": front, "rear_axle_kg": rear, "wheelbase_mm": 2600}
    left = loads.axle_loads_without_kg(part, part_behind_front_axle_mm=place, **car)
    assert pytest.approx(front + rear - part) == sum(left)
    assert pytest.approx(rear * 2600) == left[1] * 2600 + part * place


@given(st.floats(400, 1500), st.floats(400, 1500), st.floats(1, 100))
def test_a_part_at_the_centre_of_gravity_moves_nothing(front, rear, part):
    """Taken out at the centre of gravity, a part leaves it where it was; nothing taken out, likewise."""
    car = {"front_axle_kg": front, "rear_axle_kg": rear, "wheelbase_mm": 2600}
    centre = loads.centre_of_gravity_mm(front, rear_axle_kg=rear, wheelbase_mm=2600)
    for mass, place in ((part, centre), (0, 100)):
        moved = loads.centre_of_gravity_shift_mm(mass, part_behind_front_axle_mm=place, **car)
        assert pytest.approx(0, abs=1e-6) == moved


def test_workshop_ratings():
    """Car of 1480 kg on 3000 kg, gearbox of 42 kg on 300 kg, 890 kg on stands of 1500 kg the pair: all kept."""
    assert loads.within_rating(1480, rated_kg=3000)
    assert loads.within_rating(42, rated_kg=300)
    assert loads.stand_rating_used_percent(890, rated_kg=1500, rated_per="pair") < 100
    assert not loads.within_rating(3001, rated_kg=3000)


@given(st.floats(1, 5000))
def test_a_load_equal_to_the_rating_keeps_it(load):
    """A rating given as most includes the value itself."""
    assert loads.within_rating(load, rated_kg=load)


@given(st.floats(1, 3000), st.floats(100, 3000))
def test_each_is_twice_the_pair(axle, rated):
    """The same figure for each stand uses half the share of the same figure for the pair."""
    pair = loads.stand_rating_used_percent(axle, rated_kg=rated, rated_per="pair")
    assert pytest.approx(pair / 2) == loads.stand_rating_used_percent(axle, rated_kg=rated, rated_per="each")


def test_a_plate_that_does_not_say():
    """Neither each nor pair: take it as the pair."""
    with pytest.raises(OutOfRange) as refused:
        loads.stand_rating_used_percent(890, rated_kg=1500, rated_per="")
    assert str(refused.value) == (
        "rated_per must be one of each, pair, but you gave ''. Read the plate; if it does not say, take it as the pair."
    )


def test_a_car_that_would_tip_is_refused():
    """Taking out more than an axle carries is refused."""
    with pytest.raises(OutOfRange, match="part_kg must be small enough to leave load on both axles"):
        loads.axle_loads_without_kg(
            900, part_behind_front_axle_mm=0, front_axle_kg=555, rear_axle_kg=350, wheelbase_mm=2340
        )
