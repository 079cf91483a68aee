"""What the lessons say about training vehicles, made afresh from data sheets and calculators, cell by cell.

A figure between braces is computed here. One that is typed is a rule of the trade or a choice of the lesson, never
something a data sheet holds.
"""

from collections.abc import Callable

from bitepoint.mechanics import bolts, joints, wrench
from bitepoint.mechanics.calibration import true_torque_limits_nm
from bitepoint.mechanics.clutch import friction_radius_mm, reserve_factor
from bitepoint.mechanics.driveline import input_speed_rpm, slip_percent, slip_uncertainty_percent
from bitepoint.mechanics.hydraulics import bore_area_mm2
from bitepoint.mechanics.lifting import LOAD_CONSTANT_KG, recommended_weight_limit_kg
from bitepoint.mechanics.loads import centre_of_gravity_mm, centre_of_gravity_shift_mm, stand_rating_used_percent
from bitepoint.mechanics.release import clearance_at_bearing_mm, plate_lift_mm
from bitepoint.mechanics.tightening import stage_torques_nm
from bitepoint.mechanics.vibration import firing_order
from bitepoint.units import convert
from bitepoint.workshop import figures
from bitepoint.workshop.kits import all_kits
from bitepoint.workshop.tools import torque_wrench, workshop
from bitepoint.workshop.vehicles import Vehicle, vehicle

from .prose_figures_job import job

Said = dict[str, tuple[str, ...]]
A, B, C, D = (vehicle(letter) for letter in "ABCD")
TW2 = torque_wrench("TW2")
_AXLES = {
    "front_axle_kg": A.masses.front_axle_kg,
    "rear_axle_kg": A.masses.rear_axle_kg,
    "wheelbase_mm": A.masses.wheelbase_mm,
}
_WAY = figures.rolling_circumference_mm(A)
_THIRD, _FINAL = A.gearbox.ratios[2], A.gearbox.final
_RATIO = figures.release_ratio(A)


def carry() -> Said:
    """Lesson 1."""
    sheet, damper = A.clutch, A.clutch.damper
    radius = friction_radius_mm(sheet.plate_od_mm, inner_diameter_mm=sheet.plate_id_mm)
    lost = 0.8
    stop = damper.stiffness_nm_per_deg * damper.travel_deg
    travel = round(figures.bearing_travel_mm(A), 1)
    lift = plate_lift_mm(travel, finger_ratio=sheet.lever_ratio, lost_mm=lost)
    ratio, wanted, rate = sheet.lever_ratio, sheet.plate_lift_required_mm, damper.stiffness_nm_per_deg
    holds, engine, at = figures.capacity_nm(A), A.engine.max_torque_nm, f"N × {radius / 1000:.4f} m"
    oily, worn_n = 0.12, 1900
    return {
        "capacity": (
            f"({sheet.plate_od_mm:g} mm + {sheet.plate_id_mm:g} mm) ÷ 4 = {radius:.1f} mm, which is {radius / 1000:.4f} m",
            f"2 × {sheet.mu_design:g} × {sheet.clamp_load_new_n:g} {at} = {holds:.1f} N·m",
            f"clamped with {worn_n} N only: 2 × {sheet.mu_design:g} × {worn_n} {at}",
        ),
        "reserve": (
            f"{holds:.1f} N·m ÷ {engine:g} N·m = {reserve_factor(holds, engine_torque_nm=engine):.2f}",
            f"falls from {sheet.mu_design:g} to {oily:g}",
            f"2 × {oily:g} × {sheet.clamp_load_new_n:g} {at} = {holds * oily / sheet.mu_design:.1f} N·m",
            f"Her engine gives {engine:g} N·m",
        ),
        "release": (
            f"Left at the bearing: {travel:g} mm − {lost:g} mm = {travel - lost:.1f} mm",
            f"Lift: {travel - lost:.1f} mm ÷ {ratio:g} = {lift:.2f} mm",
            f"The sheet asks for {wanted:g} mm",
            f"Which travel gives {wanted:g} mm? Multiply first: {wanted:g} mm × {ratio:g} = {wanted * ratio:.1f} mm. "
            f"Then add the loss: {wanted * ratio:.1f} mm + {lost:g} mm",
        ),
        "damper": (
            f"{rate:g} N·m for each degree, and {damper.travel_deg:g}° to the stop",
            f"{rate:g} N·m × {damper.travel_deg:g} = {stop:g} N·m",
            f"{stop:g} N·m ÷ {engine:g} N·m = {reserve_factor(stop, engine_torque_nm=engine):.2f} times",
            f"At {engine:g} N·m the damper turns by {engine:g} N·m ÷ {rate:g} N·m",
        ),
        "go-deeper": (f"three cylinders beat {firing_order(3):g} times a turn",),
    }


def safe() -> Said:
    """Lesson 2."""
    masses, pair = A.masses, 1500
    behind = -masses.gearbox_cg_ahead_of_front_axle_mm
    before = centre_of_gravity_mm(
        masses.front_axle_kg, rear_axle_kg=masses.rear_axle_kg, wheelbase_mm=masses.wheelbase_mm
    )
    shift = centre_of_gravity_shift_mm(masses.gearbox_kg, part_behind_front_axle_mm=behind, **_AXLES)
    limit = recommended_weight_limit_kg(45, vertical_cm=15, distance_cm=75, asymmetry_deg=30, coupling="poor")
    jack = next(s for s in workshop().supports if s.id == "gearbox jack")
    used = stand_rating_used_percent(masses.front_axle_kg, rated_kg=pair, rated_per="pair")
    front, rear, base = masses.front_axle_kg, masses.rear_axle_kg, masses.wheelbase_mm
    boot = 40
    return {
        "tags": (f"gearbox jack here carries {jack.rated_kg:g} kg; the nurse's gearbox has {masses.gearbox_kg:g} kg",),
        "balance": (
            f"wheelbase {base:g} mm",
            f"{front:g} kg + {rear:g} kg = {masses.vehicle_kg:g} kg",
            f"{base:g} mm × {rear:g} kg ÷ {masses.vehicle_kg:g} kg = {before:.0f} mm",
            f"With {masses.gearbox_kg:g} kg of gearbox out it lies at {before + shift:.0f} mm",
            f"with {boot} kg in the boot the rear axle carries {rear + boot:g} kg, the car {masses.vehicle_kg + boot:g} kg. "
            f"{base:g} mm × {rear + boot:g} kg ÷ {masses.vehicle_kg + boot:g} kg",
        ),
        "stands": (f"{masses.front_axle_kg:g} kg ÷ {pair} kg × 100 = {used:.0f} %",),
        "go-deeper": (
            f"allows {LOAD_CONSTANT_KG:g} kg",
            f"45 cm reach, 15 cm high, 75 cm up, 30° twist, poor grip. {limit:.1f} kg are left, and the gearbox has "
            f"{masses.gearbox_kg:g} kg",
        ),
        "balance-moves": (f"that gives {shift:.0f} mm to the rear",),
    }


def fault() -> Said:
    """Lesson 3."""
    rpm, gears = A.engine.max_torque_rpm, {"gear_ratio": _THIRD, "final_ratio": _FINAL}
    low, high = A.release.free_play_mm
    driven = {**gears, "rolling_circumference_mm": _WAY}
    arrives = input_speed_rpm(63, **driven)
    slip = slip_percent(rpm, road_speed_kmh=63, **driven)
    twice = 2 * slip_uncertainty_percent(slip, engine_speed_u=0.005, road_speed_u=0.01, circumference_u=0.01)
    sheet_gear = A.gearbox.slip_test_gear
    per_1000 = figures.road_speed_kmh(A, gear=sheet_gear, rpm=1000)
    tried = input_speed_rpm(60, **driven)
    return {
        "checks": (f"free play {low:g} to {high:g} mm",),
        "slip-test": (
            f"{rpm:g} rpm is {figures.road_speed_kmh(A, gear=3, rpm=rpm):.0f} km/h in third gear and "
            f"{figures.road_speed_kmh(A, gear=5, rpm=rpm):.0f} km/h in fifth",
        ),
        "deeper-figures": (f"60 km/h: 60 ÷ 3.6 ÷ {_WAY / 1000:.3f} × 60 × {_THIRD:g} × {_FINAL:g} = {tried:.0f} rpm",),
        "slip": (
            f"{per_1000:.1f} km/h belong to 1000 rpm",
            f"{rpm:g} rpm at 63 km/h",
            f"63 km/h ÷ {per_1000:.2f} km/h × 1000 rpm = {arrives:.0f} rpm",
            f"{rpm:g} rpm − {arrives:.0f} rpm = {rpm - arrives:.0f} rpm",
            f"{rpm - arrives:.0f} rpm ÷ {rpm:g} rpm × 100 = {slip:.1f} %",
            f"of 3400 rpm {tried:.0f} arrive, {3400 - tried:.0f} are lost. Slip: {3400 - tried:.0f} ÷ 3400 × 100",
            f"± {twice:.1f} %",
            f"The range, {round(slip, 1) - round(twice, 1):.1f} to {round(slip, 1) + round(twice, 1):.1f} %",
        ),
        "decide": (f"{slip:.1f} %, twice",),
    }


def kit() -> Said:
    """Lesson 4."""
    bolt, dual, rigid = A.flywheel.bolt, B.flywheel.bolt_dmf, B.flywheel.bolt
    mine = {k.kit: k for k in all_kits()}["SK-1190"]
    other = {k.kit: k for k in all_kits()}["SK-1200"]
    engaged = joints.engagement_mm(bolt.length_mm, clamped_mm=bolt.hub_clamped_mm)
    depth, clamped = bolt.crank_thread_depth_mm, rigid.hub_clamped_mm
    other_engaged = joints.engagement_mm(rigid.length_mm, clamped_mm=clamped)
    out = dual.length_mm - clamped
    return {
        "every-column": (
            f"engine {A.engine.code}: two kits are left, {mine.kit} and {other.kit}",
            f"built {A.build.build_date}: {other.kit} begins with {other.build_from}, so it is out",
            f"gearbox {A.gearbox.code}, plate {mine.plate_od_mm:g} mm, {mine.splines} splines",
            f"the shaft has {other.splines} splines",
        ),
        "whole-order": (f"Gearbox oil:** {A.gearbox.oil_litre:g} l,",),
        "bolts": (
            f"Engaged: {bolt.length_mm:g} mm − {bolt.hub_clamped_mm:g} mm = {engaged:g} mm",
            f"In diameters: {engaged:g} mm ÷ {bolt.d_mm:g} mm = {engaged / bolt.d_mm:g}",
            f"The thread is {depth:g} mm deep",
            f"Room below the tip: {depth:g} mm − {engaged:g} mm = {depth - engaged:g} mm",
            f"{rigid.length_mm:g} mm − {clamped:g} mm = {other_engaged:g} mm engaged, thread {rigid.crank_thread_depth_mm:g} mm "
            f"deep. Room: {rigid.crank_thread_depth_mm:g} mm − {other_engaged:g} mm",
        ),
        "too-long": (
            f"dual-mass bolts are {dual.length_mm:g} mm long, the bolts of its rigid kit {rigid.length_mm:g} mm",
            f"{dual.length_mm:g} mm − {clamped:g} mm = {out:g} mm",
            f"Thread is there for {rigid.crank_thread_depth_mm:g} mm. The head stands off: {out:g} mm − "
            f"{rigid.crank_thread_depth_mm:g} mm = {out - rigid.crank_thread_depth_mm:g} mm",
        ),
    }


def strip() -> Said:
    """Lesson 5."""
    cover = A.clutch.cover
    turn, free = cover.pitch_mm / 2, 5
    return {
        "hub-nut": ("holds 200 N·m and more", f"a pull of {200 / 0.5:.0f} N at one wheel"),
        "dust-and-lock": (
            f"about {A.clutch.clamp_load_new_n / 1000:.0f} kN",
            f"at a pitch of {cover.pitch_mm:g} mm",
            f"{cover.pitch_mm:g} mm ÷ 2 = {turn:g} mm",
            f"{free} mm ÷ {turn:g} mm = {free / turn:g}",
            f"{A.masses.cover_kg:g} kg of cover are not",
        ),
        "self-adjusting": (f"training vehicle {C.id} has one",),
    }


def measure() -> Said:
    """Lesson 6; what was read on the hatchback is the lesson's own, its limits are the sheet's."""
    low, high = A.engine.crank_end_float_new_mm
    fly, plate, dual = A.flywheel, A.clutch, B.flywheel.dmf_limits
    depths = [0.45, 0.40, 0.50, 0.35, 0.40, 0.20, 0.45, 0.50]
    assert dual
    return {
        "end-float": (
            f"0.21 − 0.06 = {0.21 - 0.06:.2f} mm",
            f"new {low:.2f} to {high:.2f} mm, limit {A.engine.crank_end_float_limit_mm:.2f} mm",
        ),
        "run-out": (
            "more than 0.02 mm",
            f"0.03 − (−0.02) = {0.03 + 0.02:.2f} mm",
            f"max {fly.face_runout_limit_mm:.2f} mm at {fly.runout_radius_mm:g} mm radius",
        ),
        "worst-place": (
            f"{', '.join(f'{depth:.2f}' for depth in depths)} mm. The mean is {sum(depths) / 8:.2f} mm, "
            f"but the smallest is {min(depths):.2f} mm. Training vehicle A asks for least {plate.rivet_depth_min_mm:g} mm",
        ),
        "dual-mass": (
            f"from tooth 6 to tooth 10 are {10 - 6} teeth. Its sheet says max {dual.free_angle_teeth_max:g} teeth",
            f"0.80 − (−0.60) = {0.80 + 0.60:.2f} mm, max {dual.rock_at_rim_mm_max:g} mm",
        ),
        "plate-and-shaft": (
            f"0.22 − (−0.13) = {0.22 + 0.13:.2f} mm, max {plate.plate_runout_limit_mm:g} mm",
            f"0.52 − 0.10 = {0.52 - 0.10:.2f} mm, max {plate.hub_play_at_rim_limit_mm:g} mm",
            f"0.09 − 0.01 = {0.09 - 0.01:.2f} mm, max {A.gearbox.input_radial_play_limit_mm:g} mm",
            f"+0.31 and −0.24 mm, and max is {plate.plate_runout_limit_mm:g} mm",
        ),
        "leaves": (f"0.03 mm goes and 0.04 mm does not: within, because flatness is max {fly.flatness_limit_mm:g} mm",),
    }


def torque() -> Said:
    """Lesson 7."""
    bolt, sheet, wheel = A.flywheel.bolt, A.flywheel.tightening, A.wheels
    nm, size = sheet.stages_nm[-1], {"d_mm": bolt.d_mm, "pitch_mm": bolt.pitch_mm}
    area = bolts.stress_area_mm2(**size)
    proof_kn = bolts.proof_load_n(prop_class=bolt.prop_class, **size) / 1000
    stress = bolts.proof_stress_mpa(bolt.prop_class, d_mm=bolt.d_mm)
    preload_kn = figures.flywheel_preload_n(A) / 1000
    oiled_kn = bolts.preload_from_torque_n(nm, d_mm=bolt.d_mm, nut_factor=0.12) / 1000
    used, oiled = 100 * preload_kn / proof_kn, 100 * oiled_kn / proof_kn
    arm = {"lever_mm": 410, "offset_mm": 60}
    least, most = true_torque_limits_nm(50, allowed_pct=4)
    weak_nm = joints.joint_friction_torque_nm(22_500, bolts=8, mu=0.15, pcd_mm=80)
    added = joints.preload_after_angle_n(20_000, angle_deg=40, pitch_mm=1.5, stiffness_kn_per_mm=200) / 1000
    small, middle, late = workshop().torque_wrenches
    return {
        "why-preload": (f"ends at {nm:g} N·m",),
        "nut-factor": (
            f"training vehicle A, M{bolt.d_mm:g}×{bolt.pitch_mm:g}: {nm:g} N·m, K = {sheet.nut_factor:g}",
            f"{sheet.nut_factor:g} × {bolt.d_mm:g} mm = {sheet.nut_factor * bolt.d_mm:.1f} mm",
            f"{nm:g} N·m ÷ {sheet.nut_factor * bolt.d_mm:.1f} mm = {preload_kn:.1f} kN",
            f"Wheel bolt M{wheel.d_mm:g}: {wheel.torque_nm:g} N·m, K = {wheel.nut_factor:g}",
            f"{wheel.nut_factor:g} × {wheel.d_mm:g} mm = {wheel.nut_factor * wheel.d_mm:.1f} mm",
            f"{wheel.torque_nm:g} N·m ÷ {wheel.nut_factor * wheel.d_mm:.1f} mm = ____ kN",
        ),
        "proof-load": (
            f"class {bolt.prop_class} means {stress:g} N/mm²",
            f"{area:.1f} mm² × {stress:g} N/mm² = {proof_kn:.1f} kN",
            f"100 × {preload_kn:.1f} kN ÷ {proof_kn:.1f} kN = {used:.0f} %",
        ),
        "oil": (
            f"{nm:g} N·m ÷ (0.12 × {bolt.d_mm:g} mm) = {oiled_kn:.1f} kN",
            f"100 × {oiled_kn:.1f} kN ÷ {proof_kn:.1f} kN = {oiled:.0f} %",
            "±25 % with lubricated threads, ±35 % dry",
        ),
        "angle": (f"In the end: 20 kN + {added - 20:.1f} kN = {added:.1f} kN",),
        "which-wrench": (
            f"you need {nm:g} N·m",
            f"{middle.id}, {middle.lowest_nm:g} to {middle.highest_nm:g} N·m, is in date",
            f"{late.id} reaches {nm:g} N·m too, but its record has run out",
            f"For {A.flywheel.tightening.stages_nm[0]:g} N·m take {small.id}, {small.lowest_nm:g} to {small.highest_nm:g} N·m: {middle.id}",
            f"A good wrench may be {middle.tolerance_pct:g} % off",
        ),
        "reading": (
            f"1 lbf·ft is {convert(1, 'lbf·ft', 'N·m'):.3f} N·m",
            f"{nm:g} N·m is {convert(nm, 'N·m', 'lbf·ft'):.0f} lbf·ft",
        ),
        "crow": (
            f"{nm:g} N·m × 410 ÷ 470 = {wrench.wrench_setting_nm(nm, **arm):.1f} N·m",
            f"{nm:g} N·m × 470 ÷ 410 = {wrench.torque_at_bolt_nm(nm, **arm):.1f} N·m",
        ),
        "go-deeper": (f"from 50 ÷ 1.04 = {least:.1f} to 50 ÷ 0.96 = {most:.1f} N·m",),
        "scatter": (
            f"8 × 22.5 kN × 0.15 × 40 mm = {weak_nm:.0f} N·m",
            f"{weak_nm:.0f} ÷ 240 = {weak_nm / 240:.1f} times",
        ),
    }


def star() -> Said:
    """Lesson 8."""
    odd = [angle for angle in C.flywheel.hole_angles_deg if angle % 60]
    stages = [f"{nm:g}" for nm in A.flywheel.tightening.stages_nm]
    first, second, _ = stage_torques_nm(80, percentages=(30, 70, 100))
    given, _, _ = stage_torques_nm(50, percentages=(30, 70, 100))
    return {
        "uneven": (f"one hole sits at {odd[0]:g}° instead of 60°",),
        "stages": (
            f"{', '.join(stages[:-1])} and {stages[-1]} N·m, then a second round at {stages[-1]}",
            "30, 70 and 100 %",
            f"final torque 80 N·m: first stage 0.30 × 80 = {first:g} N·m, second 0.70 × 80 = {second:g} N·m",
            f"final torque 50 N·m: first 0.30 × 50 = {given:g} N·m",
        ),
        "wrench": (f"{stages[0]} N·m is the bottom of the large wrench",),
        "second-round": (f"the limit is {A.flywheel.tightening.second_round_limit_deg:g}°",),
    }


def assembly() -> Said:
    """Lesson 9."""
    bolt, stages = A.flywheel.bolt, A.flywheel.tightening.stages_nm
    length, clamped, depth = bolt.length_mm, bolt.hub_clamped_mm, bolt.crank_thread_depth_mm
    engaged = joints.engagement_mm(length, clamped_mm=clamped)
    circle = 2 * A.flywheel.runout_radius_mm
    wider = circle / A.flywheel.pcd_mm
    last = stages[-1]
    return {
        "side-by-side": (f"new plate has {A.clutch.plate_thickness_new_mm:g} mm",),
        "clean": (
            f"circle of {A.flywheel.pcd_mm:g} mm; the face is measured on {circle:g} mm",
            f"{circle:g} mm ÷ {A.flywheel.pcd_mm:g} mm = {wider:g}",
            f"0.03 mm × {wider:g} = {0.03 * wider:.2f} mm",
            f"The sheet allows {A.flywheel.face_runout_limit_mm:g} mm",
        ),
        "bolt-length": (
            f"{length:g} mm long, {clamped:g} mm are clamped, the hole is {depth:g} mm deep",
            f"{length:g} mm − {clamped:g} mm = {engaged:g} mm",
            f"{depth:g} mm − {engaged:g} mm = {depth - engaged:g} mm",
        ),
        "lock": (f"{', '.join(f'{stage:g}' for stage in stages)} N·m", f"each gets {last:g} N·m once more"),
        "run-out": (f"Vehicle A allows {A.flywheel.face_runout_limit_mm:g} mm",),
        "cover-down": (f"{A.clutch.cover.torque_nm:g} N·m here",),
        "level": (f"at most {A.clutch.finger_coplanarity_limit_mm:g} mm",),
        "go-deeper": (f"÷ {A.clutch.cover.pitch_mm / 2:g} mm",),
    }


def release() -> Said:
    """Lesson 10."""
    sheet, van, forked = A.release, B.release, C.release
    low, high = sheet.free_play_mm
    left = sheet.pedal_travel_mm - sheet.free_play_set_mm
    lever = sheet.outer_lever_ratio or 1.0
    pushed = left / sheet.pedal_ratio / lever
    free = A.clutch.release_load_max_n / _RATIO
    area, load = figures.slave_area_mm2(B), B.clutch.release_load_max_n
    reserve = figures.bearing_travel_mm(B) - van.bearing_travel_required_mm
    return {
        "travel": (
            f"{sheet.pedal_travel_mm:g} mm of pedal travel",
            f"{sheet.pedal_travel_mm:g} mm − {sheet.free_play_set_mm:g} mm = {left:g} mm",
            f"{left:g} mm ÷ {sheet.pedal_ratio:g} ÷ {lever:g} = {pushed:.2f} mm",
            f"Only {100 * sheet.efficiency_travel:.0f} % arrives",
            f"{pushed:.2f} mm × {sheet.efficiency_travel:g} = {figures.bearing_travel_mm(A):.2f} mm",
            f"needs {sheet.bearing_travel_required_mm:g} mm",
        ),
        "travel-hydraulic": (
            *_hydraulic(B, "Free play off: "),
            *_hydraulic(C, ""),
            f"× {forked.efficiency_travel:g} =",
        ),
        "effort": (
            f"{sheet.pedal_ratio:g} × {lever:g} = {_RATIO:.2f}",
            f"{A.clutch.release_load_max_n:g} N ÷ {_RATIO:.2f} = {free:.0f} N",
            f"{100 * sheet.efficiency_force:.0f} % arrive: {free:.0f} N ÷ {sheet.efficiency_force:g} = "
            f"{figures.foot_force_n(A):.0f} N",
        ),
        "play": (
            f"{sheet.free_play_set_mm:g} mm ÷ {_RATIO:.2f} = "
            f"{clearance_at_bearing_mm(sheet.free_play_set_mm, ratio=_RATIO):.2f} mm",
        ),
        "rule": (
            f"= {sheet.free_play_set_mm:g} mm",
            f"= {sheet.pedal_travel_mm:g} mm",
            f"allows {low:g} to {high:g} mm",
        ),
        "pressure": (
            f"{load:g} N ÷ {area:.1f} mm² = {load / area:.2f} N/mm²",
            f"= {figures.line_pressure_bar(B):.1f} bar",
        ),
        "air": (
            f"500 mm³ ÷ {area:.1f} mm² = {500 / area:.2f} mm. Its reserve was {reserve:.1f} mm",
            f"500 mm³ ÷ {figures.slave_area_mm2(C):.1f} mm² ÷ {forked.fork_ratio:g}",
        ),
        "go-deeper": (
            f"{figures.bearing_travel_mm(B):.2f} mm − {500 / area:.2f} mm = "
            f"{figures.bearing_travel_mm(B) - 500 / area:.2f} mm, and the van needs {van.bearing_travel_required_mm:g} mm",
        ),
    }


def _hydraulic(car: Vehicle, said: str) -> tuple[str, ...]:
    """Return the lines of a hydraulic system's travel, from the pad to the slave."""
    sheet = car.release
    left = sheet.pedal_travel_mm - sheet.free_play_set_mm
    master, slave = bore_area_mm2(sheet.master_bore_mm or 0), figures.slave_area_mm2(car)
    at_master = left / sheet.pedal_ratio
    at_slave = at_master * master / slave
    return (
        f"{said}{sheet.pedal_travel_mm:g} mm − {sheet.free_play_set_mm:g} mm = {left:g} mm",
        f"{left:g} mm ÷ {sheet.pedal_ratio:g} = {at_master:.2f} mm",
        f"{at_master:.2f} mm × {master:.1f} ÷ {slave:.1f} = {at_slave:.2f} mm",
        f"Fork: {at_slave:.2f} mm ÷ {sheet.fork_ratio:g} = {round(at_slave, 2) / sheet.fork_ratio:.2f} mm"
        if sheet.fork_ratio
        else f"{at_slave:.2f} mm × {sheet.efficiency_travel:g} = {figures.bearing_travel_mm(car):.2f} mm. "
        f"It needs {sheet.bearing_travel_required_mm:g} mm",
    )


def refit() -> Said:
    """Lesson 11."""
    bell, rpm, litre = A.gearbox.bell_bolts[0], A.engine.max_torque_rpm, A.gearbox.oil_litre
    gear = A.gearbox.slip_test_gear
    return {
        "on-jack": (f"weighs {A.masses.gearbox_kg:g} kg",),
        "faces-meet": (f"Vehicle A: six bolts, {bell.torque_nm:g} N·m",),
        "oil": (
            f"The sheet says {litre:g} litres",
            f"Missing: {litre:g} l − 1.50 l = {litre - 1.5:.2f} l",
            f"1.50 l ÷ {litre:g} l × 100 = {100 * 1.5 / litre:.0f} %",
            "Below about 85 %",
        ),
        "wheels": (
            f"Vehicle A: {A.wheels.torque_nm:g} N·m",
            f"TW2, {TW2.lowest_nm:g} to {TW2.highest_nm:g} N·m",
            f"Vehicle B needs {B.wheels.torque_nm:g} N·m. TW2 ends at {TW2.highest_nm:g} N·m",
        ),
        "revs": (
            "5000 rpm **or the lower figure",
            f"Vehicles A and D: {A.engine.static_test_max_rpm:g}. B and C: {B.engine.static_test_max_rpm:g}",
        ),
        "road": (
            f"{gear}rd gear, {figures.road_speed_kmh(A, gear=gear, rpm=rpm):.0f} km/h at {rpm:g} rpm. "
            f"Top gear would mean {figures.road_speed_kmh(A, gear=len(A.gearbox.ratios), rpm=rpm):.0f} km/h",
        ),
    }


SAID: dict[str, Callable[[], Said]] = {
    "carry": carry,
    "safe": safe,
    "fault": fault,
    "kit": kit,
    "strip": strip,
    "measure": measure,
    "torque": torque,
    "star": star,
    "assembly": assembly,
    "release": release,
    "refit": refit,
    "job": job,
}
"""Lesson: what each of its cells says, computed."""
