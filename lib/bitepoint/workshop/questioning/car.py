"""Engine, gearbox, release and wheels of an own sheet: what one figure says of another."""

import msgspec

from bitepoint.missing import is_missing
from bitepoint.workshop.figures import bearing_travel_mm, road_speed_kmh, slip_test_gear
from bitepoint.workshop.questioning.clutch import Found
from bitepoint.workshop.sheets import Vehicle


def end_float(v: Vehicle) -> Found:
    """End float of a new crankshaft lies below its limit."""
    low, high = v.engine.crank_end_float_new_mm
    if not 0 < low < high <= v.engine.crank_end_float_limit_mm:
        yield "engine.crank_end_float_new_mm", "new from less to more, and not above the limit."
    elif v.engine.crank_end_float_limit_mm > 3 * high or not 0.02 <= low <= 0.2:
        yield (
            "engine.crank_end_float_limit_mm",
            f"{v.engine.crank_end_float_limit_mm:g} mm for a float of {low:g} to {high:g} mm when new.",
        )


def speeds(v: Vehicle) -> Found:
    """Idle, greatest torque and limiter in this order."""
    e = v.engine
    if not e.idle_rpm < e.max_torque_rpm < e.limiter_rpm:
        yield "engine.max_torque_rpm", f"{e.max_torque_rpm:g} rpm does not lie between idle and limiter."
    elif e.limiter_rpm > (5800 if e.fuel == "diesel" else 9000):
        yield "engine.limiter_rpm", f"{e.limiter_rpm:g} rpm is much for this engine."
    elif e.fuel == "diesel" and e.max_torque_rpm > 3300:
        yield "engine.max_torque_rpm", f"{e.max_torque_rpm:g} rpm is much for the greatest torque of a diesel engine."


def standing_test(v: Vehicle) -> Found:
    """The rev test standing still stays below the limiter."""
    e = v.engine
    if not 0.45 * e.limiter_rpm <= e.static_test_max_rpm <= e.limiter_rpm:
        yield "engine.static_test_max_rpm", f"{e.static_test_max_rpm:g} rpm against a limiter at {e.limiter_rpm:g} rpm."


def axles(v: Vehicle) -> Found:
    """Share of the front axle."""
    share = v.masses.front_axle_kg / (v.masses.front_axle_kg + v.masses.rear_axle_kg)
    if not (0.52 if v.drive == "front" else 0.42) <= share <= 0.7:
        yield (
            "masses.front_axle_kg",
            f"{share:.0%} of the mass on the front axle of a car with {v.drive}-wheel drive: are the axles swapped?",
        )


def gearbox_place(v: Vehicle) -> Found:
    """The gearbox of a driven front axle lies near it, the other one far behind the front axle."""
    at = v.masses.gearbox_cg_ahead_of_front_axle_mm
    if v.drive == "front" and not -450 <= at <= 500:
        yield "masses.gearbox_cg_ahead_of_front_axle_mm", f"{at:g} mm: beside the driven front axle it lies near it."
    if v.drive == "rear" and not -1800 <= at <= -200:
        yield (
            "masses.gearbox_cg_ahead_of_front_axle_mm",
            f"{at:g} mm: with rear-wheel drive it lies behind the front axle, which is negative.",
        )


def ratios(v: Vehicle) -> Found:
    """Gears fall evenly, first to last."""
    gears = v.gearbox.ratios
    steps = [a / b for a, b in zip(gears, gears[1:], strict=False)]
    if not 2.6 <= gears[0] <= 5.6 or not 0.45 <= gears[-1] <= 1.15 or any(not 1.1 <= step <= 2.2 for step in steps):
        yield "gearbox.ratios", f"{', '.join(f'{r:g}' for r in gears)}: does each gear follow the one before?"
    elif any(b > 1.08 * a for a, b in zip(steps, steps[1:], strict=False)):
        yield "gearbox.ratios", f"{', '.join(f'{r:g}' for r in gears)}: a step is wider than the one before it."


def reverse(v: Vehicle) -> Found:
    """Reverse is about as low as first gear."""
    if not 0.72 <= v.gearbox.reverse / v.gearbox.ratios[0] <= 1.2:
        yield (
            "gearbox.reverse",
            f"{v.gearbox.reverse:g} against {v.gearbox.ratios[0]:g} in first: are reverse and final drive swapped?",
        )


def top_gear(v: Vehicle) -> Found:
    """Road speed in top gear at 1000 rpm."""
    speed = road_speed_kmh(v, gear=len(v.gearbox.ratios), rpm=1000)
    if not 27 <= speed <= 72:
        yield "gearbox.final", f"{speed:.0f} km/h at 1000 rpm in top gear: is it reverse's ratio, or another gear's?"


def slip_gear(v: Vehicle) -> Found:
    """The gear for the slip test is the highest that stays within the road's limit."""
    should = slip_test_gear(v)
    if v.gearbox.slip_test_gear != should:
        yield (
            "gearbox.slip_test_gear",
            f"gear {should} is the highest below 90 km/h at {v.engine.max_torque_rpm:g} rpm, not gear {v.gearbox.slip_test_gear}.",
        )


def tyre(v: Vehicle) -> Found:
    """Tyre widths end in five, aspects are whole fives."""
    w = v.wheels
    if w.tyre_width_mm % 10 != 5 or w.tyre_width_mm < w.tyre_aspect_pct:
        yield "wheels.tyre_width_mm", f"no tyre is {w.tyre_width_mm:g} mm wide: widths end in 5."
    if w.tyre_aspect_pct % 5:
        yield "wheels.tyre_aspect_pct", f"no tyre has an aspect of {w.tyre_aspect_pct:g} %: they are whole fives."


def free_play(v: Vehicle) -> Found:
    """Free play is set within its limits, and a cable has more of it."""
    low, high = v.release.free_play_mm
    if not low <= v.release.free_play_set_mm <= high:
        yield "release.free_play_set_mm", f"{v.release.free_play_set_mm:g} mm is not within {low:g} to {high:g} mm."
    elif high > (45 if v.release.kind == "mechanical" else 22) or low >= high:
        yield "release.free_play_mm", f"{low:g} to {high:g} mm at the pedal."


def slave(v: Vehicle) -> Found:
    """A slave cylinder is wider than its master."""
    r = v.release
    if (
        r.slave_outer_mm is not None
        and r.slave_inner_mm is not None
        and not 1.15 <= r.slave_outer_mm / r.slave_inner_mm <= 2
    ):
        yield (
            "release.slave_inner_mm",
            f"{r.slave_inner_mm:g} mm inside and {r.slave_outer_mm:g} mm outside: are they swapped?",
        )
    if r.slave_bore_mm is not None and r.master_bore_mm is not None and r.slave_bore_mm < r.master_bore_mm:
        yield (
            "release.slave_bore_mm",
            f"{r.slave_bore_mm:g} mm is less than the master's {r.master_bore_mm:g} mm: are they swapped?",
        )


def bearing_travel(v: Vehicle) -> Found:
    """Pedal, bores and levers give the travel that the bearing needs, and not more than it has."""
    r = v.release
    if r.bearing_travel_required_mm >= r.bearing_travel_max_mm:
        yield "release.bearing_travel_max_mm", "the bearing needs more travel than it has: are the two swapped?"
        return
    travel = _travel(v)
    if not 0.9 * r.bearing_travel_required_mm <= travel <= 1.25 * r.bearing_travel_max_mm:
        yield (
            "release.pedal_ratio",
            f"pedal, bores and levers give {travel:.1f} mm at the bearing, which needs {r.bearing_travel_required_mm:g} and has {r.bearing_travel_max_mm:g} mm: which of them is wrong?",
        )


def _travel(v: Vehicle) -> float:
    """Return the travel at the bearing; where the sheet does not say how much arrives, nine tenths are taken for the question."""
    if is_missing(v.release.efficiency_travel):
        v = msgspec.structs.replace(v, release=msgspec.structs.replace(v.release, efficiency_travel=0.9))
    return bearing_travel_mm(v)


def wheel_bolts(v: Vehicle) -> Found:
    """Heavy cars have five wheel bolts or more, light ones four."""
    n, mass = v.wheels.n, v.masses.vehicle_kg
    if (n <= 4 and mass > 1300) or (n >= 5 and mass < 950) or (n >= 6 and mass < 1300):
        yield "wheels.n", f"{n} wheel bolts on a car of {mass:g} kg."
