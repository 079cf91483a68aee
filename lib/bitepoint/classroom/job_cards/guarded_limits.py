"""The limits of a job's inspection sheet, drawn in by the guard band of the gauge that is at hand."""

from bitepoint.classroom.bench_sheets.inspecting import HOW, READINGS, MeasuringRow, limit_in_words
from bitepoint.classroom.job_cards.tools_at_hand import GaugeAtHand, ToolsAtHand
from bitepoint.mechanics.decisions import guard_band
from bitepoint.workshop.criteria import Measured, limits_of, measured_on
from bitepoint.workshop.sheets import Vehicle


def guarded_rows(v: Vehicle, tools: ToolsAtHand) -> tuple[MeasuringRow, ...]:
    """Return what is measured, with the limit of the sheet and, where a gauge is listed, the limit to work by.

    Between the limit to work by and the same distance beyond the sheet's limit the reading cannot tell: measure again, or ask.
    """
    return tuple(_row(item, v, tools) for item in measured_on(v, ought=True))


def _row(item: Measured, v: Vehicle, tools: ToolsAtHand) -> MeasuringRow:
    gauge = tools.gauge_for(item.id)
    return MeasuringRow(
        id=item.id,
        part=item.part,
        what=item.what,
        limit=f"{limit_in_words(item, v)}{_guarded(item, v, gauge)}",
        unit=item.unit,
        how=HOW.get(item.id, ""),
        boxes=READINGS.get(item.id, ("reading",)),
    )


def _guarded(item: Measured, v: Vehicle, gauge: GaugeAtHand | None) -> str:
    lower, upper = limits_of(item, v)
    if gauge is None or (lower, upper) == (None, None):
        return ""
    guard = guard_band(gauge.uncertainty_mm)
    good = _ends(lower, upper, guard)
    bad = _ends(lower, upper, -guard)
    return f"; {gauge.id}: good {good}, bad {bad.replace('from', 'below').replace('up to', 'above')}"


def _ends(lower: float | None, upper: float | None, guard: float) -> str:
    """Return the limits drawn in by the guard band; a negative one puts them out."""
    told = [
        f"from {lower + guard:.3f}" if lower is not None else "",
        f"up to {upper - guard:.3f}" if upper is not None else "",
    ]
    return ", ".join(filter(None, told))
