"""Figures worked out for a job from the sheet: hydraulics, and the engine speed for each gear and road speed."""

from functools import partial

from bitepoint.missing import told
from bitepoint.workshop.figures import bearing_travel_mm, foot_force_n, line_pressure_bar, release_ratio, road_speed_kmh
from bitepoint.workshop.sheets import Vehicle

SPEEDS_KMH = (20, 30, 50, 70, 80, 90)


def release_figures(v: Vehicle) -> tuple[tuple[str, str], ...]:
    """Return what pedal, bores and levers make of a full stroke: what, and the figure with its unit."""
    rows = [
        ("Ratio from pedal to bearing, worked out", told(lambda: f"{release_ratio(v):.2f}")),
        ("Travel at the bearing, pedal down, worked out", told(lambda: f"{bearing_travel_mm(v):.1f} mm")),
        ("Travel that the bearing needs", told(lambda: f"{v.release.bearing_travel_required_mm:g} mm")),
        ("Force of the foot, worked out", told(lambda: f"{foot_force_n(v):.0f} N")),
    ]
    if v.release.master_bore_mm is not None:
        rows.append(("Pressure in the line, pedal down, worked out", told(lambda: f"{line_pressure_bar(v):.0f} bar")))
        rows.append(("Fluid", told(lambda: f"{v.release.fluid_grade}")))
        rows.append(("Fluid to let through when bleeding", told(lambda: f"{v.release.bleed_volume_ml:g} ml")))
    return tuple(rows)


def speed_table(v: Vehicle) -> tuple[tuple[str, ...], ...]:
    """Return the engine speed [rpm] in each gear at some road speeds, the headings first; above the limiter a dash."""
    heads = ("Gear", *(f"{speed} km/h" for speed in SPEEDS_KMH))
    try:
        gears = range(1, len(v.gearbox.ratios) + 1)
    except LookupError:
        return (heads, (told(lambda: str(v.gearbox.ratios)), *("" for _ in SPEEDS_KMH)))
    return (heads, *(_speeds_in(v, gear) for gear in gears))


def _speeds_in(v: Vehicle, gear: int) -> tuple[str, ...]:
    return (str(gear), *(told(partial(_rpm, v, gear, speed)) for speed in SPEEDS_KMH))


def _rpm(v: Vehicle, gear: int, speed_kmh: float) -> str:
    rpm = speed_kmh / road_speed_kmh(v, gear=gear, rpm=1000) * 1000
    return f"{round(rpm, -1):.0f}" if v.engine.idle_rpm <= rpm <= v.engine.limiter_rpm else "–"
