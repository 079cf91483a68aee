"""The lifting equation: multipliers, limit, index."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import lifting

KIT = {"vertical_cm": 20, "distance_cm": 80, "coupling": "fair"}


def test_invented_kit_and_gearbox():
    """A clutch kit from the floor: 9.99 kg and 1.20; a bare gearbox: 7.37 kg and 4.75, which calls for the jack."""
    kit = lifting.recommended_weight_limit_kg(40, **KIT)
    gearbox = lifting.recommended_weight_limit_kg(
        45, vertical_cm=15, distance_cm=100, asymmetry_deg=30, coupling="poor"
    )
    assert pytest.approx(9.99, abs=5e-3) == kit
    assert pytest.approx(1.20, abs=5e-3) == lifting.lifting_index(12, limit_kg=kit)
    assert pytest.approx(7.37, abs=6e-3) == gearbox
    assert pytest.approx(4.75, abs=6e-3) == lifting.lifting_index(35, limit_kg=gearbox)


@given(
    st.floats(0, 200),
    st.floats(0, 200),
    st.floats(0, 200),
    st.floats(0, 180),
    st.floats(0, 60),
    st.floats(0.1, 8),
    st.sampled_from(lifting.COUPLINGS),
)
def test_no_lift_allows_more_than_the_best_one(h, v, d, a, rate, hours, grip):
    """The limit lies between 0 and 23 kg for every lift."""
    limit = lifting.recommended_weight_limit_kg(
        h,
        vertical_cm=v,
        distance_cm=d,
        asymmetry_deg=a,
        lifts_per_minute=rate,
        duration_h=hours,
        coupling=grip,
    )
    assert 0 <= limit <= lifting.LOAD_CONSTANT_KG


def test_the_best_lift_allows_all_of_it():
    """Close, at 75 cm, short, straight, rare, with handles: 23 kg."""
    found = lifting.recommended_weight_limit_kg(25, vertical_cm=75, distance_cm=25, coupling="good")
    assert found == 23


@pytest.mark.parametrize(
    ("multiplier", "limit"),
    [
        (lifting.horizontal_multiplier, 63),
        (lifting.distance_multiplier, 175),
        (lifting.asymmetry_multiplier, 135),
        (lifting.vertical_multiplier, 175),
    ],
)
@given(a=st.floats(75, 180), b=st.floats(75, 180))
def test_farther_never_allows_more(multiplier, limit, a, b):
    """Beyond the best place every multiplier falls, and is 0 beyond its limit."""
    low, high = sorted((a, b))
    assert multiplier(low) >= multiplier(high)
    assert multiplier(limit) > 0
    assert multiplier(limit + 0.5) == 0


@given(st.floats(0, 20), st.floats(0, 20), st.floats(0.1, 8), st.floats(0, 175))
def test_more_often_never_allows_more(a, b, hours, v):
    """A higher rate, or a longer time at one rate, never allows more."""
    low, high = sorted((a, b))
    at = {"vertical_cm": v}
    assert lifting.frequency_multiplier(low, duration_h=hours, **at) >= lifting.frequency_multiplier(
        high, duration_h=hours, **at
    )
    assert lifting.frequency_multiplier(low, duration_h=0.5, **at) >= lifting.frequency_multiplier(
        low, duration_h=hours, **at
    )


def test_no_mass_allowed_has_no_index():
    """A limit of 0 is answered with: use a lifting aid."""
    limit = lifting.recommended_weight_limit_kg(70, **KIT)
    assert limit == 0
    with pytest.raises(OutOfRange) as refused:
        lifting.lifting_index(10, limit_kg=limit)
    assert str(refused.value) == (
        "limit_kg must be above 0, but you gave 0 kg. No mass may be lifted like this: use a lifting aid."
    )


def test_overlong_shift_is_outside_the_equation():
    """More than eight hours are refused, not treated as eight."""
    with pytest.raises(OutOfRange, match="duration_h must be between 0.01 and 8 h, but you gave 9 h"):
        lifting.frequency_multiplier(1, duration_h=9, vertical_cm=75)


def test_what_the_equation_does_not_cover_stands_in_the_module():
    """The module's head names overhead work under a car, the creeper and those under 18."""
    for words in ("overhead under a car", "creeper", "Under 18"):
        assert words in " ".join(lifting.__doc__.split())
