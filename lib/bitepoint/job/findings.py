"""What is measured, decided and fitted: judged by the sheet's limit, and by nothing where the sheet has none."""

from math import isfinite
from pathlib import Path
from typing import get_args

from bitepoint.errors import BadInput, NotUnderstood
from bitepoint.job.events import Measurement, PartDecision, PartFitted
from bitepoint.job.reading import read_job
from bitepoint.job.recording import needs_reason, record, said
from bitepoint.job.state import JobEntry
from bitepoint.missing import LOOK_UP, MissingFigure
from bitepoint.units import convert, quantity, unit_named
from bitepoint.workshop.criteria import Decision, Measured, judge, judge_seen, limits_of, measured_on
from bitepoint.workshop.sheets import Vehicle

NO_LIMIT = "Nothing is decided by it."


def measure(
    folder: Path,
    what: str,
    value: float,
    *,
    unit: str = "",
    instrument: str,
    uncertainty: float | None = None,
    by: str = "",
) -> JobEntry:
    """Record a reading; `what` is the id of a criterion, which the sheet's limit then judges, or says freely what was measured.

    Raises
    ------
    BadInput
        The value is no number, the unit is another than the criterion's, or no instrument is named.
    """
    _check_figures(value, uncertainty)
    v = read_job(folder).vehicle
    tool = said("instrument", instrument)
    item = next((item for item in measured_on(v, ought=True) if item.id == what.strip()), None)
    if item is None:
        if not unit.strip():
            raise BadInput(
                f"{what[:40]!r} needs its unit. What the sheet can judge is: {', '.join(i.id for i in measured_on(v, ought=True))}."
            )
        return record(
            folder,
            Measurement(
                what=said("what", what), value=value, unit=unit.strip(), instrument=tool, uncertainty=uncertainty, by=by
            ),
        )
    size = _in_unit_of(item, unit.strip())
    return record(folder, _judged(item, value * size, v, tool, uncertainty and uncertainty * size, by))


def _in_unit_of(item: Measured, unit: str) -> float:
    """Return how many units of the criterion one of these is."""
    if unit in ("", item.unit):
        return 1.0
    try:
        return convert(1.0, unit_named(unit), to=item.unit)
    except NotUnderstood:
        raise BadInput(f"{item.id} is measured in {item.unit}, but you gave {unit[:20]!r}. Measure it again.") from None


def reading(typed: str) -> tuple[float, str]:
    """Return the number and the unit ("" for none) of a reading as a person types it, such as "0,08 mm".

    Raises
    ------
    NotUnderstood
        It is no number with a unit.
    """
    found = quantity(typed, advice="Write it like 0.08 mm.")
    return found.value, found.unit or ""


def _judged(item: Measured, value: float, v: Vehicle, tool: str, uncertainty: float | None, by: str) -> Measurement:
    lower, upper = limits_of(item, v)
    decision: Decision | None = None
    try:
        verdict = judge(item.id, value, v, uncertainty=uncertainty)
        decision, reason = verdict.decision, verdict.reason
    except MissingFigure as error:
        reason = f"Limit: {LOOK_UP}. {error} {NO_LIMIT}"
    return Measurement(
        criterion=item.id,
        what=f"{item.part}: {item.what}",
        value=value,
        unit=item.unit,
        instrument=tool,
        uncertainty=uncertainty,
        lower=lower,
        upper=upper,
        decision=decision,
        reason=reason,
        by=by,
    )


def _check_figures(value: float, uncertainty: float | None) -> None:
    if not isfinite(value) or abs(value) > 1e6:
        raise BadInput(f"value must be a number within a million, but you gave {value:g}. Read the instrument again.")
    if uncertainty is not None and not (isfinite(uncertainty) and 0 < uncertainty <= 1e6):
        raise BadInput(
            f"uncertainty must be above 0, in the unit of the reading, but you gave {uncertainty:g}. Leave it out where nobody knows it."
        )


def decide(
    folder: Path, part: str, decision: str, *, because: str, finding: str = "", reason: str = "", by: str = ""
) -> JobEntry:
    """Record what is decided about a part and why; `finding` is the id of a known finding, whose own decision stands beside.

    Raises
    ------
    ReasonNeeded
        The known finding or a reading asks for something else, and no reason is given.
    BadInput
        The decision is none of the three, nothing says why, or there is no such finding.
    """
    chosen = next((one for one in get_args(Decision) if one == decision.strip()), None)
    if chosen is None:
        raise BadInput(f"decision must be one of {', '.join(get_args(Decision))}, but you gave {decision[:40]!r}.")
    why = said("because", because)
    advised = judge_seen(finding.strip()) if finding.strip() else None
    against = advised is not None and advised.decision != chosen
    warned: tuple[str, ...] = (
        (f"The known finding asks for “{advised.decision}”. {advised.reason}",) if advised and against else ()
    )
    warned += _against_readings(folder, part, chosen)
    needs_reason(warned, reason)
    event = PartDecision(
        part=said("part", part),
        decision=chosen,
        reason=f"{why}; {reason.strip()}" if warned else why,
        finding=finding.strip(),
        advised=advised.decision if advised else None,
        advice=advised.reason if advised else "",
        warned=warned,
        by=by,
    )
    return record(folder, event)


def _against_readings(folder: Path, part: str, chosen: Decision) -> tuple[str, ...]:
    """Return the last readings of a part that do not let it be used again, where it shall be."""
    if chosen != "reuse":
        return ()
    last = {reading.criterion: reading for reading in read_job(folder).all_of(Measurement) if reading.criterion}
    named = part.strip().casefold()
    return tuple(
        f"A reading asks for “{reading.decision}”. {reading.reason}"
        for reading in last.values()
        if reading.decision not in (None, "reuse") and reading.what.partition(":")[0].casefold() == named
    )


def fit_part(
    folder: Path, name: str, number: str, *, lot: str = "", used: bool = False, reason: str = "", by: str = ""
) -> JobEntry:
    """Record a part with its number and lot mark.

    Raises
    ------
    ReasonNeeded
        A used part is fitted, and no reason is given.
    BadInput
        Name or number is missing.
    """
    warned = (f"{name.strip()} is a used part.",) if used else ()
    event = PartFitted(
        name=said("name", name), number=said("number", number), lot=lot.strip(), used=used, reason=reason.strip(), by=by
    )
    needs_reason(warned, reason)
    return record(folder, event)
