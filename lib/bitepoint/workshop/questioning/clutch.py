"""Plate, cover and flywheel of an own sheet: what one figure says of another."""

from collections.abc import Iterator, Sequence

from bitepoint.mechanics.clutch import torque_capacity_nm
from bitepoint.missing import is_missing
from bitepoint.workshop.sheets import Vehicle

Found = Iterator[tuple[str, str]]
"""The keys that are questioned, each with the reason."""


def ring_of_holes(v: Vehicle) -> Found:
    """Holes of flywheel and cover: rising, none twice, no gap that a forgotten hole would leave."""
    for key, angles in (
        ("flywheel.hole_angles_deg", v.flywheel.hole_angles_deg),
        ("clutch.cover.hole_angles_deg", v.clutch.cover.hole_angles_deg),
    ):
        if is_missing(angles):
            continue
        if not 3 <= len(angles) <= 24 or any(not 0 <= a < 360 for a in angles) or list(angles) != sorted(set(angles)):
            yield key, "the angles must rise from 0 to below 360, none twice."
            continue
        gaps = [(b - a) % 360 for a, b in zip(angles, (*angles[1:], angles[0]), strict=True)]
        even = 360 / len(angles)
        if max(gaps) > 1.32 * even or min(gaps) < 0.7 * even:
            yield (
                key,
                f"gaps from {min(gaps):g}° to {max(gaps):g}° for {len(angles)} bolts: is one left out, or is a figure wrong?",
            )


def dowels(v: Vehicle) -> Found:
    """Dowels of the cover within one turn, each once."""
    angles = v.clutch.cover.dowel_angles_deg
    if not is_missing(angles) and (any(not 0 <= a < 360 for a in angles) or len(set(angles)) != len(angles)):
        yield "clutch.cover.dowel_angles_deg", "each dowel has an angle of its own from 0 to below 360."


def plate(v: Vehicle) -> Found:
    """The plate's sizes against face and bolt circle."""
    c, face = v.clutch, v.flywheel.friction_face_od_mm
    if not 0.55 <= c.plate_id_mm / c.plate_od_mm <= 0.78:
        yield (
            "clutch.plate_id_mm",
            f"{c.plate_id_mm:g} mm inside and {c.plate_od_mm:g} mm outside: usual is 0.6 to 0.75 of it.",
        )
    if not 0 <= face - c.plate_od_mm <= 25:
        yield (
            "flywheel.friction_face_od_mm",
            f"a face of {face:g} mm for a plate of {c.plate_od_mm:g} mm: usual is up to 25 mm more.",
        )


def cover_circle(v: Vehicle) -> Found:
    """The cover's bolts outside the friction face."""
    if not 18 <= v.clutch.cover.pcd_mm - v.clutch.plate_od_mm <= 52:
        yield (
            "clutch.cover.pcd_mm",
            f"a bolt circle of {v.clutch.cover.pcd_mm:g} mm round a plate of {v.clutch.plate_od_mm:g} mm.",
        )


def radius(v: Vehicle) -> Found:
    """Run-out is measured on the face."""
    if not v.clutch.plate_id_mm / 2 < v.flywheel.runout_radius_mm <= v.flywheel.friction_face_od_mm / 2:
        yield (
            "flywheel.runout_radius_mm",
            f"{v.flywheel.runout_radius_mm:g} mm does not lie on the friction face: is it a diameter?",
        )


def thickness(v: Vehicle) -> Found:
    """A worn plate is thinner than a new one."""
    wear = v.clutch.plate_thickness_new_mm - v.clutch.plate_thickness_min_mm
    if not 0.6 <= wear <= 3:
        yield (
            "clutch.plate_thickness_min_mm",
            f"{wear:.2g} mm may wear off: usual is 1 to 2 mm. Are new and least swapped?",
        )


def rivets(v: Vehicle) -> Found:
    """Worn facings leave less above the rivets."""
    left = v.clutch.rivet_depth_new_mm - v.clutch.rivet_depth_min_mm
    if not 0.4 <= left <= 2.2:
        yield (
            "clutch.rivet_depth_min_mm",
            f"{left:.2g} mm may wear off down to the rivets: usual is about 1 mm. Are new and least swapped?",
        )


def wear_and_rivets(v: Vehicle) -> Found:
    """Both facings together wear at most what both stand above their rivets."""
    wear = v.clutch.plate_thickness_new_mm - v.clutch.plate_thickness_min_mm
    rivets_mm = 2 * (v.clutch.rivet_depth_new_mm - v.clutch.rivet_depth_min_mm)
    if wear > 0 and rivets_mm > 0 and not 0.35 <= wear / rivets_mm <= 1.25:
        yield (
            "clutch.plate_thickness_new_mm",
            f"{wear:.2g} mm of thickness against {rivets_mm:.2g} mm above the rivets of both sides.",
        )


def splines(v: Vehicle) -> Found:
    """Splines about as wide as those of other shafts."""
    if not 0.7 <= v.clutch.spline_major_mm / v.clutch.splines <= 3.2:
        yield "clutch.splines", f"{v.clutch.splines} splines on a shaft of {v.clutch.spline_major_mm:g} mm."


def capacity(v: Vehicle) -> Found:
    """A new clutch carries the engine's torque with a reserve."""
    mu = 0.3 if is_missing(v.clutch.mu_design) else v.clutch.mu_design
    c = v.clutch
    able = torque_capacity_nm(
        c.clamp_load_new_n, outer_diameter_mm=c.plate_od_mm, inner_diameter_mm=c.plate_id_mm, friction=mu
    )
    if not 1.2 <= able / v.engine.max_torque_nm <= 2.1:
        yield (
            "clutch.clamp_load_new_n",
            f"it would carry {able:.0f} N·m, {able / v.engine.max_torque_nm:.2g} times the engine's {v.engine.max_torque_nm:g} N·m: usual is 1.3 to 2.",
        )


def release_load(v: Vehicle) -> Found:
    """What the fingers take off the clamp load."""
    share = v.clutch.release_load_max_n * v.clutch.lever_ratio / v.clutch.clamp_load_new_n
    if not 0.55 <= share <= 1.9:
        yield (
            "clutch.release_load_max_n",
            f"{v.clutch.release_load_max_n:g} N at the bearing against a clamp load of {v.clutch.clamp_load_new_n:g} N.",
        )


def flywheels(v: Vehicle) -> Found:
    """A dual-mass flywheel is heavier than a rigid one."""
    if v.masses.dmf_kg is not None and not 1 <= v.masses.dmf_kg / v.masses.flywheel_kg <= 2.5:
        yield "masses.dmf_kg", f"{v.masses.dmf_kg:g} kg against {v.masses.flywheel_kg:g} kg of the rigid one."


def free_angle(v: Vehicle) -> Found:
    """Teeth and degrees of the free angle agree."""
    if limits := v.flywheel.dmf_limits:
        degrees = limits.free_angle_teeth_max * 360 / v.flywheel.ring_gear_teeth
        if abs(degrees - limits.free_angle_deg_max) > 1.3 * 360 / v.flywheel.ring_gear_teeth:
            yield (
                "flywheel.dmf_limits.free_angle_deg_max",
                f"{limits.free_angle_teeth_max} teeth of {v.flywheel.ring_gear_teeth} are {degrees:.0f}°, not {limits.free_angle_deg_max:g}°.",
            )


def lift(v: Vehicle) -> Found:
    """The travel needed opens the plate far enough."""
    travel = v.release.bearing_travel_required_mm / v.clutch.lever_ratio
    if not 0.75 <= travel / v.clutch.plate_lift_required_mm <= 2.2:
        yield (
            "clutch.plate_lift_required_mm",
            f"{v.release.bearing_travel_required_mm:g} mm at the bearing lift the plate by {travel:.1f} mm, not {v.clutch.plate_lift_required_mm:g} mm.",
        )


def positions(v: Vehicle) -> Found:
    """A cover goes on in as many positions as turns bring its holes and dowels onto each other."""
    holes, pins = v.clutch.cover.hole_angles_deg, v.clutch.cover.dowel_angles_deg
    fits = sum(_onto(holes, hole - holes[0]) and _onto(pins, hole - holes[0]) for hole in holes)
    if v.clutch.cover.positions != fits:
        yield (
            "clutch.cover.dowel_angles_deg",
            f"holes and dowels at these angles give {fits} positions, not {v.clutch.cover.positions}.",
        )


def _onto(angles: Sequence[float], turn: float) -> bool:
    """Whether a turn brings a ring of places onto itself."""
    return all(any(abs((a + turn - b + 180) % 360 - 180) < 0.6 for b in angles) for a in angles)


def side_of_plate(v: Vehicle) -> Found:
    """The words on the plate and the side where they look agree."""
    words = v.clutch.mark.casefold()
    named = (
        "gearbox"
        if "gearbox" in words or "transmission" in words
        else "flywheel"
        if "flywheel" in words or "engine" in words
        else ""
    )
    if named and v.clutch.mark_faces != named:
        yield "clutch.mark_faces", f"the words “{v.clutch.mark}” look to the {v.clutch.mark_faces}?"


def cover_bolts(v: Vehicle) -> Found:
    """Small covers have six bolts of M8 or fewer, large ones no thinner ones."""
    if v.clutch.cover.d_mm < 8 and v.clutch.plate_od_mm > 200:
        yield "clutch.cover.d_mm", f"M{v.clutch.cover.d_mm:g} at a plate of {v.clutch.plate_od_mm:g} mm."


def tilt_of_damper(v: Vehicle) -> Found:
    """A damper carries at least the engine's torque before it stops."""
    carried = v.clutch.damper.stiffness_nm_per_deg * v.clutch.damper.travel_deg
    if not 1 <= carried / v.engine.max_torque_nm <= 2.4:
        yield (
            "clutch.damper.stiffness_nm_per_deg",
            f"its springs carry {carried:.0f} N·m, the engine gives {v.engine.max_torque_nm:g} N·m.",
        )
