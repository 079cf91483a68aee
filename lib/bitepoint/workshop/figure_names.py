"""The unit that stands at the end of a figure's name: `final_nm` is in N·m, `speed_rpm` in rpm, `gear_ratio` in none."""

from bitepoint import units
from bitepoint.errors import NotUnderstood

_SUFFIXES = {
    "_nm_per_deg": "N·m/°",
    "_nm_per_rad": "N·m/rad",
    "_n_per_mm": "N/mm",
    "_kn_per_mm": "kN/mm",
    "_j_per_kg_k": "J/(kg·K)",
    "_kg_m2": "kg·m²",
    "_kgm2": "kg·m²",
    "_mm2": "mm²",
    "_per_minute": "per minute",
    "_percent": "%",
    "_nm": "N·m",
    "_mm": "mm",
    "_cm": "cm",
    "_deg": "°",
    "_pct": "%",
    "_rpm": "rpm",
    "_kmh": "km/h",
    "_mpa": "MPa",
    "_bar": "bar",
    "_ml": "ml",
    "_litre": "l",
    "_kg": "kg",
    "_kw": "kW",
    "_hz": "Hz",
    "_in": "in",
    "_n": "N",
    "_j": "J",
    "_k": "K",
    "_s": "s",
    "_h": "h",
}
"""Longest first, where one ends in another."""


def unit_in(name: str) -> str:
    """Return the unit at the end of a figure's name; "" where there is none.

    Examples
    --------
    >>> unit_in("clamp_load_new_n"), unit_in("spring_rate_n_per_mm"), unit_in("gear_ratio")
    ('N', 'N/mm', '')
    """
    return next((unit for suffix, unit in _SUFFIXES.items() if name.endswith(suffix)), "")


def is_convertible(unit: str) -> bool:
    """Whether `units` knows a unit, so that it can be typed in an answer and converted."""
    try:
        units.unit_named(unit)
    except NotUnderstood:
        return False
    return True


def with_unit(figure: float, unit: str) -> str:
    """Return a figure as a learner reads it, with its unit.

    Examples
    --------
    >>> with_unit(84.0, "N·m"), with_unit(0.05, "mm"), with_unit(30, "°"), with_unit(3.5, "")
    ('84 N·m', '0.05 mm', '30°', '3.5')
    """
    plain = f"{figure:.10f}".rstrip("0").rstrip(".")
    return f"{plain}°" if unit == "°" else f"{plain} {unit}".strip()
