"""Engine speed, road speed, gear and slip."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import driveline

RATIOS = (3.64, 2.05, 1.33, 0.98, 0.78)
CAR_A = {"final_ratio": 4.12, "rolling_circumference_mm": 1738.8}
GEAR = st.sampled_from(range(1, 6))


@given(st.floats(500, 7000), GEAR)
def test_speed_and_engine_speed_undo_each_other(rpm, gear):
    """From engine speed to road speed and back."""
    speed = driveline.road_speed_kmh(rpm, gear_ratio=RATIOS[gear - 1], **CAR_A)
    assert pytest.approx(rpm) == driveline.input_speed_rpm(speed, gear_ratio=RATIOS[gear - 1], **CAR_A)


@pytest.mark.parametrize(
    ("ratios", "final", "circumference", "speeds"),
    [
        (RATIOS, 4.12, 1738.8, (6.96, 12.35, 19.04, 25.84, 32.46)),
        ((3.82, 2.11, 1.36, 0.99, 0.77, 0.64), 3.63, 1927.3, (8.34, 15.1, 23.42, 32.18, 41.37, 49.78)),
        ((3.66, 2.0, 1.27, 0.88, 0.69, 0.58), 3.82, 1934.6, (8.3, 15.19, 23.93, 34.53, 44.04, 52.39)),
        ((3.68, 2.08, 1.41, 1.0, 0.83), 3.64, 1935.2, (8.67, 15.34, 22.62, 31.9, 38.43)),
    ],
)
def test_speed_at_1000_rpm_of_the_training_vehicles(ratios, final, circumference, speeds):
    """Ratios and tyres of the four data sheets give their road speeds."""
    found = [
        driveline.road_speed_kmh(1000, gear_ratio=r, final_ratio=final, rolling_circumference_mm=circumference)
        for r in ratios
    ]
    assert pytest.approx(speeds, abs=0.011) == tuple(found)


@pytest.mark.parametrize(
    ("rpm", "gear", "final", "speed"), [(3000, 1.0, 4.0, 86.728), (3000, 0.9, 3.9, 98.836), (1000, 3.5, 4.0, 8.2598)]
)
def test_road_speed(rpm, gear, final, speed):
    """Speeds of three gears on a circumference of 1.927295 m."""
    found = driveline.road_speed_kmh(rpm, gear_ratio=gear, final_ratio=final, rolling_circumference_mm=1927.295)
    assert pytest.approx(speed, rel=1e-4) == found


@given(st.floats(1500, 6000), st.floats(0, 60), GEAR)
def test_slip_is_what_was_put_in(rpm, slip, gear):
    """A road speed made with a slip gives that slip."""
    ratio = RATIOS[gear - 1]
    speed = driveline.road_speed_kmh(rpm * (1 - slip / 100), gear_ratio=ratio, **CAR_A)
    assert pytest.approx(slip, abs=1e-9) == driveline.slip_percent(rpm, road_speed_kmh=speed, gear_ratio=ratio, **CAR_A)


def test_the_unloaded_tyre_condemns_a_sound_clutch():
    """90 km/h at 3000 rpm: 8.940 % by the rolling circumference, 11.595 % by the unloaded one."""
    case = {"road_speed_kmh": 90, "gear_ratio": 0.9, "final_ratio": 3.9}
    assert pytest.approx(8.940, abs=5e-4) == driveline.slip_percent(3000, rolling_circumference_mm=1927.295, **case)
    assert pytest.approx(11.595, abs=5e-4) == driveline.slip_percent(3000, rolling_circumference_mm=1985.172, **case)


def test_negative_slip_is_shown_not_mended():
    """A road speed above the gear speed gives a negative figure."""
    assert driveline.slip_percent(2000, road_speed_kmh=60, gear_ratio=0.98, **CAR_A) < 0


@given(st.floats(800, 6000), GEAR)
def test_the_gear_is_found(rpm, gear):
    """Without slip the gear is the one that was driven."""
    speed = driveline.road_speed_kmh(rpm, gear_ratio=RATIOS[gear - 1], **CAR_A)
    assert gear == driveline.gear_in_use(rpm, road_speed_kmh=speed, gear_ratios=RATIOS, **CAR_A)


@given(st.floats(5, 15))
def test_a_slipping_clutch_is_no_gear(slip):
    """At 5 to 15 % slip in 4th no gear fits: 3rd is 36 % away."""
    speed = driveline.road_speed_kmh(3600 * (1 - slip / 100), gear_ratio=0.98, **CAR_A)
    assert driveline.gear_in_use(3600, road_speed_kmh=speed, gear_ratios=RATIOS, **CAR_A) is None


@given(st.floats(-50, 90), st.floats(0, 0.1), st.floats(0, 0.1), st.floats(0.001, 0.1))
def test_uncertainty_grows_with_every_part(slip, n, v, c):
    """Each part alone gives less than all together, and less slip leaves more of it."""
    all_of_it = driveline.slip_uncertainty_percent(slip, engine_speed_u=n, road_speed_u=v, circumference_u=c)
    alone = driveline.slip_uncertainty_percent(slip, engine_speed_u=0, road_speed_u=0, circumference_u=c)
    assert alone <= all_of_it * (1 + 1e-12)
    assert pytest.approx((100 - slip) * c) == alone


def test_no_ratios_is_said():
    """A gearbox without ratios is refused."""
    with pytest.raises(OutOfRange) as refused:
        driveline.gear_in_use(2000, road_speed_kmh=50, gear_ratios=(), **CAR_A)
    assert str(refused.value) == ("gear_ratios must be 1 to 12 ratios, but you gave 0. Take them from the data sheet.")


def test_circumference_in_metres_is_refused():
    """1.74 for 1740 mm is refused with the usual range."""
    with pytest.raises(OutOfRange) as refused:
        driveline.road_speed_kmh(3000, gear_ratio=1, final_ratio=4, rolling_circumference_mm=1.74)
    assert str(refused.value) == (
        "rolling_circumference_mm must be between 900 and 4000 mm, but you gave 1.74 mm. "
        "About 1700 to 2200 mm for a car."
    )
