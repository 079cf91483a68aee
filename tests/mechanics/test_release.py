"""From the pedal to the lift of the plate."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import hydraulics, release

RATIO = st.floats(5, 40)


@given(RATIO, st.floats(100, 5000), st.floats(0, 20))
def test_work_in_is_work_out(ratio, load, free_play):
    """With nothing lost, force times travel at the pedal is force times travel at the bearing."""
    travel = release.bearing_travel_mm(140, free_play_mm=free_play, ratio=ratio)
    effort = release.pedal_effort_n(load, ratio=ratio)
    assert pytest.approx(load * travel) == effort * (140 - free_play)


@given(RATIO, st.floats(1, 30))
def test_a_larger_ratio_is_easier_and_shorter(ratio, more):
    """What a ratio gains in force it costs in travel."""
    assert release.pedal_effort_n(1500, ratio=ratio + more) < release.pedal_effort_n(1500, ratio=ratio)
    short, long = (release.bearing_travel_mm(140, free_play_mm=6, ratio=r) for r in (ratio + more, ratio))
    assert short < long


@given(st.floats(0, 100), st.floats(0.1, 30))
def test_free_play_costs_travel(free_play, more):
    """More free play, less travel at the bearing."""
    less, full = (release.bearing_travel_mm(140, free_play_mm=f, ratio=13) for f in (free_play + more, free_play))
    assert less < full


@given(RATIO, st.floats(0, 40))
def test_free_play_is_clearance_times_ratio(ratio, free_play):
    """The clearance at the bearing, brought back to the pad, is the free play."""
    clearance = release.clearance_at_bearing_mm(free_play, ratio=ratio)
    assert pytest.approx(free_play) == clearance * ratio


def _sheet(pedal, master, slave, fork=1.0):
    return release.overall_ratio(pedal, master_area_mm2=master, slave_area_mm2=slave, fork_ratio=fork)


RATIOS = {
    "A": release.overall_ratio(4.6, fork_ratio=2.9),
    "B": _sheet(6.0, hydraulics.bore_area_mm2(15.87), hydraulics.ring_area_mm2(36, inner_mm=27)),
    "C": _sheet(6.2, hydraulics.bore_area_mm2(17.46), hydraulics.bore_area_mm2(20.64), 1.75),
    "D": _sheet(6.0, hydraulics.bore_area_mm2(15.87), hydraulics.bore_area_mm2(19.05), 1.65),
}


@pytest.mark.parametrize(
    ("car", "travel", "play", "kept", "bearing"),
    [("A", 140, 18, 0.9, 8.23), ("B", 140, 6, 0.9, 8.93), ("C", 145, 8, 0.92, 8.31), ("D", 140, 6, 0.92, 8.64)],
)
def test_bearing_travel_of_the_training_vehicles(car, travel, play, kept, bearing):
    """Cable, concentric slave and two forks give the travel that their sheets' figures imply."""
    found = release.bearing_travel_mm(travel, free_play_mm=play, ratio=RATIOS[car], efficiency=kept)
    assert pytest.approx(bearing, abs=0.006) == found


@pytest.mark.parametrize(
    ("car", "load", "kept", "effort"),
    [("A", 1050, 0.72, 109), ("B", 1850, 0.85, 161), ("C", 1900, 0.82, 153), ("D", 1600, 0.82, 137)],
)
def test_pedal_effort_of_the_training_vehicles(car, load, kept, effort):
    """Release loads of the sheets give their pedal efforts."""
    assert pytest.approx(effort, abs=0.6) == release.pedal_effort_n(load, ratio=RATIOS[car], efficiency=kept)


@pytest.mark.parametrize(
    ("travel", "fingers", "required"), [(7.2, 3.8, 1.5), (7.6, 4.0, 1.7), (7.9, 4.2, 1.6), (7.4, 3.9, 1.6)]
)
def test_required_travel_lifts_the_plate_as_required(travel, fingers, required):
    """The bearing travel that each sheet requires lifts the plate at least as far as it requires."""
    assert release.plate_lift_mm(travel, finger_ratio=fingers) >= required


def test_bending_is_lost_before_the_ratio():
    """8 mm at the bearing, 0.8 lost, ratio 3.8: 1.895 mm, not 8/3.8 and not 8 times 3.8."""
    assert pytest.approx(1.895, abs=5e-4) == release.plate_lift_mm(8.0, finger_ratio=3.8, lost_mm=0.8)


def test_more_free_play_than_travel_is_refused():
    """Free play cannot exceed the pedal travel."""
    with pytest.raises(OutOfRange) as refused:
        release.bearing_travel_mm(140, free_play_mm=180, ratio=13)
    assert str(refused.value) == (
        "free_play_mm must be between 0 and 140 mm, but you gave 180 mm. Measure at the pad, by hand."
    )
