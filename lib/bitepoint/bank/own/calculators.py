"""The calculators that a college's own question may name: functions of `mechanics` on plain figures that return one figure.

A name stands for a function that is listed here, and for nothing else; figures are its arguments. What it takes, and in
which units, the function itself says.
"""

import inspect
from collections.abc import Callable
from difflib import get_close_matches
from functools import cache

from msgspec import Struct

from bitepoint.errors import BadData
from bitepoint.mechanics import (
    bolts,
    calibration,
    clutch,
    driveline,
    facings,
    friction,
    heat,
    hydraulics,
    joints,
    lifting,
    loads,
    metrology,
    release,
    takeup,
    tyres,
    vibration,
    wear,
    wrench,
)
from bitepoint.workshop.figure_names import unit_in

_OFFERED: tuple[Callable[..., float], ...] = (
    wrench.wrench_setting_nm, wrench.torque_at_bolt_nm, wrench.straight_bar_setting_nm,
    calibration.permissible_deviation_pct, calibration.deviation_pct,
    bolts.preload_from_torque_n, bolts.torque_for_preload_nm, bolts.core_diameter_mm, bolts.pitch_diameter_mm,
    friction.torque_with_friction_nm, friction.nut_factor_from_friction,
    joints.engagement_mm, joints.engagement_over_d, joints.clearance_to_thread_end_mm, joints.elongation_mm,
    joints.preload_after_angle_n, joints.joint_friction_torque_nm, joints.rigid_joint_angle_deg, joints.mark_travel_mm,
    clutch.friction_radius_mm, clutch.torque_capacity_nm, clutch.clamp_load_for_torque_n, clutch.reserve_factor,
    facings.face_pressure_mpa,
    hydraulics.slave_force_n, hydraulics.line_pressure_bar, hydraulics.swept_volume_ml,
    hydraulics.bearing_travel_lost_to_air_mm,
    release.overall_ratio, release.bearing_travel_mm, release.pedal_effort_n, release.plate_lift_mm,
    release.clearance_at_bearing_mm,
    driveline.road_speed_kmh, driveline.input_speed_rpm, driveline.slip_percent,
    tyres.sidewall_mm, tyres.tyre_diameter_mm, tyres.unloaded_circumference_mm, tyres.rolling_circumference_mm,
    tyres.turns_per_km,
    metrology.run_out_limit_mm, metrology.eccentricity_mm,
    wear.wear_until_slip_coil_springs_mm,
    heat.common_speed_rpm, heat.slip_time_s, heat.slip_energy_j, heat.temperature_rise_k,
    takeup.hill_torque_at_clutch_nm,
    vibration.order_frequency_hz, vibration.order_of, vibration.firing_order, vibration.firing_frequency_hz,
    vibration.resonance_speed_rpm, vibration.slip_frequency_hz,
    lifting.recommended_weight_limit_kg, lifting.lifting_index,
    loads.centre_of_gravity_mm, loads.centre_of_gravity_shift_mm, loads.rating_used_percent,
)  # fmt: skip


class CalculatorField(Struct, frozen=True):
    """A figure that a calculator takes; `whole`: it must be a whole number; `optional`: it may be left out."""

    name: str
    unit: str
    whole: bool
    optional: bool


class OwnCalculator(Struct, frozen=True, kw_only=True):
    """A calculator by its name: the unit of what it gives, its fields, what it says of itself in one sentence."""

    name: str
    unit: str
    fields: dict[str, CalculatorField]
    about: str
    compute: Callable[..., float]

    def result(self, figures: dict[str, float]) -> float:
        """Return what the calculator gives.

        Raises
        ------
        OutOfRange
            A figure is outside what it is valid for.
        """
        first = next(iter(self.fields))
        fitted = {name: int(v) if self.fields[name].whole else float(v) for name, v in figures.items()}
        return float(self.compute(fitted.pop(first), **fitted))


def own_calculator(name: str) -> OwnCalculator:
    """Return the calculator with this name.

    Raises
    ------
    BadData
        There is none; the nearest names are given.
    """
    known = own_calculators()
    if name not in known:
        near = get_close_matches(name[:60], known, n=3, cutoff=0.3) or list(known)[:3]
        raise BadData(f"there is no calculator {name[:40]!r}; did you mean {', '.join(near)}?")
    return known[name]


@cache
def own_calculators() -> dict[str, OwnCalculator]:
    """Return every calculator that may be named, by name."""
    return {of.__name__: _calculator(of) for of in _OFFERED}


def _calculator(compute: Callable[..., float]) -> OwnCalculator:
    name = compute.__name__
    parameters = inspect.signature(compute).parameters.values()
    # What is chosen from words, such as a tyre's construction, keeps its default.
    fields = {
        p.name: CalculatorField(p.name, unit_in(p.name), p.annotation is int, p.default is not p.empty)
        for p in parameters
        if p.annotation in (int, float)
    }
    about = " ".join((compute.__doc__ or "").partition("\n\n")[0].split())
    return OwnCalculator(name=name, unit=unit_in(name), fields=fields, about=about, compute=compute)
