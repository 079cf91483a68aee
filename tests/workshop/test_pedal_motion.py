"""From the pad to the gap: the sheet's figures, in the order in which a pedal meets them."""

import pytest

from bitepoint.errors import OutOfRange
from bitepoint.workshop import pedal_motion as pm
from bitepoint.workshop.figures import bearing_travel_mm
from bitepoint.workshop.vehicles import vehicle, vehicles

LETTERS = list(vehicles())


@pytest.mark.parametrize("letter", LETTERS)
def test_the_whole_travel_is_that_of_the_calculator(letter):
    """Pedal down, the bearing has gone as far as the sheet's other figures say, and the plate is free."""
    v = vehicle(letter)
    down = pm.moved(v, v.release.pedal_travel_mm)
    assert bearing_travel_mm(v) == pytest.approx(down.bearing)
    assert (pm.FREE, 0.0) == (down.state, down.clear)
    assert down.lift >= v.clutch.plate_lift_required_mm
    assert down.bearing <= v.release.bearing_travel_max_mm


@pytest.mark.parametrize("letter", LETTERS)
def test_a_pedal_meets_its_five_states_in_order(letter):
    """Clamped, free play, bending, opening, free; nothing ever goes back."""
    v = vehicle(letter)
    way = [pm.moved(v, p / 2) for p in range(int(2 * v.release.pedal_travel_mm) + 1)]
    assert [pm.CLAMPED, pm.PLAY, pm.BENDING, pm.OPENING, pm.FREE] == list(dict.fromkeys(m.state for m in way))
    assert all(
        a.bearing <= b.bearing and a.lift <= b.lift and a.clear >= b.clear for a, b in zip(way, way[1:], strict=False)
    )


@pytest.mark.parametrize("letter", LETTERS)
def test_the_places_of_the_bar_are_where_the_states_change(letter):
    """Just before the pad's place the gap is shut, or too small; just after it is not."""
    v = vehicle(letter)
    opens, frees = pm.pedal_for_lift_mm(v, 0), pm.pedal_for_lift_mm(v, v.clutch.plate_lift_required_mm)
    assert [pm.BENDING, pm.OPENING] == [pm.moved(v, opens + d).state for d in (-0.01, 0.01)]
    assert [pm.OPENING, pm.FREE] == [pm.moved(v, frees + d).state for d in (-0.01, 0.01)]


def test_only_a_cable_leaves_the_bearing_clear_of_the_fingers():
    """18 mm at the pad over 4.6 × 2.9 are 1.35 mm at the bearing; hydraulic bearings ride on the fingers."""
    assert {"A": 1.35, "B": 0, "C": 0, "D": 0} == {k: round(pm.moved(vehicle(k), 0).clear, 2) for k in LETTERS}


def test_a_pedal_through_the_floor_is_refused():
    """One clear line: what, where, what to do."""
    with pytest.raises(OutOfRange, match="pedal_mm must be between 0 and 140 mm, but you gave 150 mm"):
        pm.moved(vehicle("A"), 150)
