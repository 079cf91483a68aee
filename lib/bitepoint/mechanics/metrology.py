"""Figures from readings: run-out, flatness, taper, spread of fingers.

Readings are plain numbers in millimetres, in the order in which they were taken.
"""

from collections.abc import Sequence
from math import cos, radians
from statistics import fmean

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within

RUN_OUT_PER_RADIUS = 0.001
"""Run-out allowed for each millimetre of radius where a sheet gives none (source: tm-9-2815-202-34)."""


def run_out_mm(
    readings_mm: Sequence[float], *, first_again_mm: float | None = None, agree_within_mm: float = 0.02
) -> float:
    r"""Run-out over one full turn: greatest less least reading, never the greatest alone.

    End float is kept out while measuring: push the crankshaft to the same side before every reading. Reading
    the first place again at the end shows whether that was done: if it differs, there is no figure to give.

    Parameters
    ----------
    readings_mm : sequence of float
        2 to 1000 readings of one turn [mm], each -50 to 50; six at every 60° are usual.
    first_again_mm : float or None
        The first place read again after the full turn [mm].
    agree_within_mm : float
        How far both readings of the first place may differ [mm], 0.001 to 1 (0.02: common practice).

    Source
    ------
    tm-9-2815-202-34

    Examples
    --------
    >>> run_out_mm([0.0, 0.004, 0.001, -0.007, -0.002, 0.0])
    0.011
    """
    readings = _readings("readings_mm", readings_mm)
    if first_again_mm is not None:
        again = within("first_again_mm", first_again_mm, -50, 50, "mm", "Read the first place once more.")
        allowed = within("agree_within_mm", agree_within_mm, 0.001, 1, "mm", "0.02 mm is usual.")
        if abs(again - readings[0]) > allowed + 1e-9:
            raise OutOfRange(
                "first_again_mm",
                f"within {allowed:.10g} mm of the first reading ({readings[0]:.10g} mm)",
                f"{again:.10g} mm",
                "The crankshaft has moved or the stand is loose. Push it to one side each time and measure again.",
            )
    return max(readings) - min(readings)


def run_out_bounds_mm(shown_mm: float, *, end_float_mm: float) -> tuple[float, float]:
    r"""Least and greatest true run-out when end float was *not* kept out.

    End float may have added all of itself to the figure, or hidden it.

    Source
    ------
    derived
    No published figure: interval arithmetic on the readings, exact.

    Examples
    --------
    >>> run_out_bounds_mm(0.14, end_float_mm=0.10)
    (0.04, 0.24)
    """
    shown = within("shown_mm", shown_mm, 0, 100, "mm", "Greatest less least reading.")
    play = within("end_float_mm", end_float_mm, 0, 10, "mm", "Measure the end float by itself.")
    return max(0.0, shown - play), shown + play


def run_out_limit_mm(radius_mm: float) -> float:
    r"""Run-out allowed at a radius by the general rule, 0.001 mm a millimetre.

    The vehicle's own limit wins.

    Source
    ------
    tm-9-2815-202-34

    Examples
    --------
    >>> run_out_limit_mm(110)
    0.110
    """
    return RUN_OUT_PER_RADIUS * within("radius_mm", radius_mm, 1, 1000, "mm", "Where the dial gauge stands.")


def eccentricity_mm(run_out_mm: float) -> float:
    """Offset of a round part's centre, half the run-out it shows in one turn.

    Source
    ------
    derived
    No published figure: half the run-out by geometry, exact.

    Examples
    --------
    >>> eccentricity_mm(0.10)
    0.05
    """
    return within("run_out_mm", run_out_mm, 0, 100, "mm", "Greatest less least reading.") / 2


def stylus_reading_mm(shown_mm: float, *, angle_deg: float) -> float:
    r"""True movement when a lever gauge's stylus stands at an angle to the surface, :math:`s = s_{shown} \cos a`.

    Validity
    --------
    shown -50 to 50 mm, angle 0 to 60 degrees.

    Source
    ------
    derived
    No published figure: a cosine, exact.

    Examples
    --------
    >>> stylus_reading_mm(0.1155, angle_deg=30)
    0.1000
    """
    within("shown_mm", shown_mm, -50, 50, "mm", "Read the gauge.")
    within("angle_deg", angle_deg, 0, 60, "°", "Set the stylus flatter to the surface.")
    return shown_mm * cos(radians(angle_deg))


def gap_bounds_mm(passes_mm: float, *, stops_mm: float) -> tuple[float, float]:
    """Bounds of a gap under a straight edge: the thickest blade that passes, the thinnest that does not.

    Use the thickest that passes as the figure found, and say that the gap may be larger.

    Parameters
    ----------
    passes_mm : float
        Thickest blade that passes [mm], 0 (none) to 5.
    stops_mm : float
        Thinnest blade that does not pass [mm], above `passes_mm`.

    Source
    ------
    common-practice
    No published figure: a feeler goes or does not go.

    Examples
    --------
    >>> gap_bounds_mm(0.05, stops_mm=0.06)
    (0.05, 0.06)
    """
    within("passes_mm", passes_mm, 0, 5, "mm", "Give the thickest blade that passes.")
    within("stops_mm", stops_mm, 0, 5, "mm", "Give the thinnest blade that does not pass.")
    if stops_mm <= passes_mm:
        rule = f"more than passes_mm ({passes_mm:.10g} mm)"
        raise OutOfRange("stops_mm", rule, f"{stops_mm:.10g} mm", "Try the blades again, thin ones first.")
    return float(passes_mm), float(stops_mm)


def flatness_mm(gaps_mm: Sequence[float]) -> float:
    """Flatness from a straight edge laid over several diameters: the largest gap found.

    Source
    ------
    common-practice
    No published figure: a difference of readings.

    Examples
    --------
    >>> flatness_mm([0.03, 0.05, 0.04])
    0.05
    """
    gaps = _readings("gaps_mm", gaps_mm, least=0)
    return max(gaps)


def taper_mm(inner_mm: Sequence[float], *, outer_mm: Sequence[float]) -> float:
    """Taper of a face: mean reading near the outer edge less mean reading near the inner edge, with its sign.

    Parameters
    ----------
    inner_mm, outer_mm : sequence of float
        The same number of readings at the two radii, 2 to 1000 each [mm].

    Source
    ------
    common-practice
    No published figure: a difference of readings.

    Examples
    --------
    >>> taper_mm([0.00, 0.01, 0.00], outer_mm=[0.06, 0.07, 0.05])
    0.0567
    """
    inner, outer = _readings("inner_mm", inner_mm), _readings("outer_mm", outer_mm)
    if len(inner) != len(outer):
        rule = f"{len(inner)} readings, as many as inner_mm"
        raise OutOfRange("outer_mm", rule, f"{len(outer)}", "Read both radii at the same places.")
    return fmean(outer) - fmean(inner)


def spread_mm(heights_mm: Sequence[float]) -> float:
    """Spread of finger heights: highest less lowest of all fingers, wherever on the circle they are.

    Source
    ------
    common-practice
    No published figure: a difference of readings.

    Examples
    --------
    >>> spread_mm([38.2, 38.0, 38.3, 38.1, 37.9, 38.2, 38.5, 38.4])
    0.6
    """
    heights = _readings("heights_mm", heights_mm, least=0, most=500)
    return max(heights) - min(heights)


def _readings(name: str, values: Sequence[float], least: float = -50, most: float = 50) -> list[float]:
    whole(f"number of {name}", len(values), 2, 1000, "One turn, several places.")
    return [within(f"{name} {i}", v, least, most, "", "Read the gauge again.") for i, v in enumerate(values, 1)]
