"""Figures that follow from a data sheet: preload, travel, force, road speed, resonance of one training vehicle."""

from bitepoint.errors import BadData
from bitepoint.mechanics import bolts, clutch, driveline, hydraulics, joints, release, tyres, vibration
from bitepoint.workshop.vehicles import Bolts, Vehicle


def flywheel_preload_n(v: Vehicle) -> float:
    """Preload of each flywheel bolt tightened as the sheet says [N]; elastic joint, the sheet's nut factor.

    Source: derived.

    >>> from bitepoint.workshop.vehicles import vehicle
    >>> flywheel_preload_n(vehicle("A"))
    38235.3
    """
    bolt, how = v.flywheel.bolt, v.flywheel.tightening
    snug = bolts.preload_from_torque_n(how.final_nm, d_mm=bolt.d_mm, nut_factor=how.nut_factor)
    if how.angle_deg is None:
        return snug
    stiffness = _given(v, "flywheel.tightening.joint_stiffness_kn_per_mm", how.joint_stiffness_kn_per_mm)
    return joints.preload_after_angle_n(
        snug, angle_deg=how.angle_deg, pitch_mm=bolt.pitch_mm, stiffness_kn_per_mm=stiffness
    )


def dual_mass_bolt_preload_n(v: Vehicle) -> float:
    """Preload of the dual-mass flywheel's bolts [N]; `BadData` when this vehicle has none."""
    bolt = v.flywheel.bolt_dmf
    if bolt is None:
        raise _missing(v, "flywheel.bolt_dmf")
    snug = bolts.preload_from_torque_n(bolt.stages_nm[-1], d_mm=bolt.d_mm, nut_factor=bolt.nut_factor)
    return joints.preload_after_angle_n(
        snug,
        angle_deg=bolt.angle_deg,
        pitch_mm=bolt.pitch_mm,
        stiffness_kn_per_mm=bolt.joint_stiffness_kn_per_mm,
    )


def proof_pct(bolt: Bolts) -> float:
    """Preload of a set of bolts tightened to its torque, in percent of proof."""
    preload = bolts.preload_from_torque_n(bolt.torque_nm, d_mm=bolt.d_mm, nut_factor=bolt.nut_factor)
    return bolts.share_of_proof_pct(preload, d_mm=bolt.d_mm, pitch_mm=bolt.pitch_mm, prop_class=bolt.prop_class)


def slave_area_mm2(v: Vehicle) -> float:
    """Area of the slave piston, ring or bore [mm²]; `BadData` for a cable."""
    sheet = v.release
    if sheet.slave_outer_mm is not None and sheet.slave_inner_mm is not None:
        return hydraulics.ring_area_mm2(sheet.slave_outer_mm, inner_mm=sheet.slave_inner_mm)
    return hydraulics.bore_area_mm2(_given(v, "release.slave_bore_mm", sheet.slave_bore_mm))


def release_ratio(v: Vehicle) -> float:
    """Travel at the pedal for each millimetre at the release bearing, nothing lost."""
    sheet = v.release
    if sheet.master_bore_mm is None:
        lever = _given(v, "release.outer_lever_ratio", sheet.outer_lever_ratio)
        return release.overall_ratio(sheet.pedal_ratio, fork_ratio=lever)
    return release.overall_ratio(
        sheet.pedal_ratio,
        master_area_mm2=hydraulics.bore_area_mm2(sheet.master_bore_mm),
        slave_area_mm2=slave_area_mm2(v),
        fork_ratio=sheet.fork_ratio or 1.0,
    )


def bearing_travel_mm(v: Vehicle) -> float:
    """Travel of the release bearing with the pedal fully down and the free play set as stated [mm]."""
    sheet = v.release
    return release.bearing_travel_mm(
        sheet.pedal_travel_mm,
        free_play_mm=sheet.free_play_set_mm,
        ratio=release_ratio(v),
        efficiency=sheet.efficiency_travel,
    )


def line_pressure_bar(v: Vehicle) -> float:
    """Pressure in the release line with the pedal down [bar above the air outside]."""
    return hydraulics.line_pressure_bar(
        v.clutch.release_load_max_n, slave_area_mm2=slave_area_mm2(v), fork_ratio=v.release.fork_ratio or 1.0
    )


def foot_force_n(v: Vehicle) -> float:
    """Force of the foot on the pedal [N]."""
    return release.pedal_effort_n(
        v.clutch.release_load_max_n, ratio=release_ratio(v), efficiency=v.release.efficiency_force
    )


def capacity_nm(v: Vehicle) -> float:
    """Torque at which the new clutch begins to slip, uniform wear [N·m]."""
    return clutch.torque_capacity_nm(
        v.clutch.clamp_load_new_n,
        outer_diameter_mm=v.clutch.plate_od_mm,
        inner_diameter_mm=v.clutch.plate_id_mm,
        friction=v.clutch.mu_design,
    )


def rolling_circumference_mm(v: Vehicle) -> float:
    """Distance of one turn of the wheel, from the tyre size [mm]."""
    diameter = tyres.tyre_diameter_mm(
        v.wheels.tyre_width_mm, aspect_percent=v.wheels.tyre_aspect_pct, rim_in=v.wheels.rim_in
    )
    return tyres.rolling_circumference_mm(diameter)


def road_speed_kmh(v: Vehicle, *, gear: int, rpm: float) -> float:
    """Road speed in a gear (1 = first) at an engine speed, clutch not slipping [km/h]."""
    return driveline.road_speed_kmh(
        rpm,
        gear_ratio=v.gearbox.ratios[gear - 1],
        final_ratio=v.gearbox.final,
        rolling_circumference_mm=rolling_circumference_mm(v),
    )


def slip_test_gear(v: Vehicle, *, limit_kmh: float = 90.0) -> int:
    """Highest gear in which the engine speed of greatest torque lies below the limit of the road.

    Source: common-practice. `BadData` when even first gear is too fast.
    """
    gears = range(1, len(v.gearbox.ratios) + 1)
    below = [gear for gear in gears if road_speed_kmh(v, gear=gear, rpm=v.engine.max_torque_rpm) < limit_kmh]
    if not below:
        raise _missing(v, f"a gear that stays below {limit_kmh:g} km/h at engine.max_torque_rpm")
    return max(below)


def resonance_rpm(v: Vehicle, *, nm_per_deg: float, engine_side_kgm2: float, gearbox_side_kgm2: float) -> float:
    """Engine speed whose firing strokes excite two inertias on one damper [1/min]."""
    frequency = vibration.two_inertia_frequency_hz(
        vibration.stiffness_nm_per_rad(nm_per_deg),
        engine_side_kg_m2=engine_side_kgm2,
        gearbox_side_kg_m2=gearbox_side_kgm2,
    )
    return vibration.resonance_speed_rpm(frequency, cylinders=v.engine.cylinders)


def _given(v: Vehicle, key: str, value: float | None) -> float:
    if value is None:
        raise _missing(v, key)
    return value


def _missing(v: Vehicle, key: str) -> BadData:
    return BadData(f"{v.id.lower()}.toml: {key} is not on the sheet of {v.name}. Ask for it only where it exists.")
