"""Clamp load against facing wear: coil springs lose from the start, a diaphragm gains first."""

from itertools import pairwise

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import spring, wear

COVER = {"clamp_load_new_n": 5000, "height_ratio": 1.75, "cone_height_mm": 3, "travel_ratio_new": 1.2}


def test_the_diaphragm_gains_then_loses():
    """New 0.906 of the flat load, then 0.948, 1.000, 1.052, 1.094, peak 1.120, 1.074, 0.988, 0.925."""
    travels = [1.2, 1.1, 1.0, 0.9, 0.8, 0.65993, 0.5, 0.4, 0.35]
    expected = [0.906, 0.9484, 1.0, 1.0516, 1.094, 1.1204, 1.0742, 0.988, 0.9248]
    cover = {**COVER, "clamp_load_new_n": 906}
    found = [wear.clamp_load_after_wear_n(3 * (1.2 - u), **cover) / 1000 for u in travels]
    assert pytest.approx(expected, abs=6e-4) == found


def test_back_at_the_new_load():
    """The load is back at that of the new clutch at a travel ratio of 0.33704, which is 2.589 mm of wear."""
    found = wear.wear_until_slip_diaphragm_mm(5000, **COVER)
    assert pytest.approx(3 * (1.2 - 0.33704), abs=5e-5) == found


@given(st.floats(50, 5000), st.floats(1.42, 2.7), st.floats(0.8, 1.2), st.floats(1, 6))
@example(50.0, 2.625, 1.125, 1.0)
def test_wear_until_slip_and_load_after_wear_undo_each_other(slip, r, new, height):
    """After the wear until slip, the clamp load is the slip load; a little more wear and it is less."""
    cover = {"clamp_load_new_n": 5000, "height_ratio": r, "cone_height_mm": height, "travel_ratio_new": new}
    assume(new <= spring.turning_points(r)[1])
    found = wear.wear_until_slip_diaphragm_mm(slip, **cover)
    assert pytest.approx(slip, rel=1e-6) == wear.clamp_load_after_wear_n(found, **cover)
    little = min(1e-3 * height, (new * height - found) / 2)
    assert wear.clamp_load_after_wear_n(found + little, **cover) < slip


@given(st.floats(0, 1))
def test_no_slip_before_the_wear_until_slip(share):
    """Up to that wear the clamp load never falls below the slip load."""
    limit = wear.wear_until_slip_diaphragm_mm(4200, **COVER)
    assert wear.clamp_load_after_wear_n(share * limit, **COVER) >= 4200 - 1e-6


def test_slip_comes_late_and_then_fast():
    """From 100 % to 80 % of the new load takes a tenth of the wear that 100 % took to come back."""
    back, at_80 = (wear.wear_until_slip_diaphragm_mm(f, **COVER) for f in (5000, 4000))
    assert (at_80 - back) / back < 0.15


@given(st.floats(100, 10_000), st.floats(0, 1), st.integers(1, 12), st.floats(10, 300))
def test_coil_springs_lose_in_proportion(load, share, springs, rate):
    """Wear until slip of coil springs is linear in the load to spare."""
    found = wear.wear_until_slip_coil_springs_mm(
        load, slip_load_n=share * load, springs=springs, spring_rate_n_per_mm=rate
    )
    assert pytest.approx(load * (1 - share), abs=1e-6) == found * springs * rate


def test_coil_springs_lose_from_the_first_tenth():
    """A softer slip load leaves more wear; the same load leaves none."""
    cover = {"springs": 9, "spring_rate_n_per_mm": 160}
    figures = [wear.wear_until_slip_coil_springs_mm(7200, slip_load_n=s, **cover) for s in (7200, 6000, 4000)]
    assert figures[0] == 0
    assert all(a < b for a, b in pairwise(figures))


def test_slip_from_the_start_is_said():
    """A slip load above the clamp load is refused in words."""
    with pytest.raises(OutOfRange) as refused:
        wear.wear_until_slip_diaphragm_mm(6000, **COVER)
    assert str(refused.value) == (
        "slip_load_n must be between 0.01 and 5000 N, but you gave 6000 N. "
        "Above the new clamp load it slips from the start."
    )


def test_wear_beyond_the_free_spring_is_refused():
    """A spring that is free clamps nothing and has no further wear."""
    with pytest.raises(OutOfRange, match="wear_mm must be between 0 and 3.6 mm"):
        wear.clamp_load_after_wear_n(3.7, **COVER)


def test_a_spring_past_its_least_load_is_refused():
    """There the clutch could slip before the peak, so one figure of wear would mislead."""
    with pytest.raises(OutOfRange, match="travel_ratio_new must be between 0.05 and 1.34"):
        wear.wear_until_slip_diaphragm_mm(3000, **{**COVER, "travel_ratio_new": 1.5})
