"""The record of a job in words, on paper and on a screen: one row an entry, each kind of event in its own words."""

from collections.abc import Callable
from typing import Any

from msgspec import Struct

from bitepoint.job import events
from bitepoint.job.state import PERSONAL_FIELDS, JobEntry
from bitepoint.workshop.operations import job, operation


class PageLine(Struct, frozen=True, kw_only=True):
    """A row: number, time, what, the details each on a line, what was warned of, by whom."""

    n: int
    at: str
    what: str
    details: tuple[str, ...]
    warned: tuple[str, ...] = ()
    by: str = ""


def page_lines(entries: tuple[JobEntry, ...]) -> tuple[PageLine, ...]:
    """Return a row for each entry, in order."""
    return tuple(_line(entry) for entry in entries)


def _line(entry: JobEntry) -> PageLine:
    event: Any = entry.event
    what, details = SAID[type(event)](event)
    reason = getattr(event, "reason", "")
    warned = tuple(getattr(event, "warned", ()))
    if warned and reason:
        warned = (*warned, f"Done all the same, because: {reason}")
    return PageLine(
        n=entry.n,
        at=f"{entry.at[:10]} {entry.at[11:16]}",
        what=what,
        details=tuple(filter(None, details)),
        warned=warned,
        by=event.by,
    )


def sentences(line: PageLine) -> str:
    """Return what a row says as sentences, one after the other."""
    return " ".join(
        text if text.endswith((".", "!", "?")) else f"{text}." for text in (line.what, *line.details, *line.warned)
    )


Said = tuple[str, tuple[str, ...]]


def _opened(e: events.Opened) -> Said:
    sheet = f"Sheet {e.sheet}, figures {e.figures}" if e.figures else f"Training vehicle {e.training}: invented figures"
    return "Job begun", (
        f"Complaint, in the driver's words: {e.complaint}" if e.complaint else "",
        f"Mileage {e.mileage_km:,} km" if e.mileage_km is not None else "",
        sheet,
        f"Entered by {e.entered_by} from {e.document}, {e.pages}; checked by {e.checked_by}" if e.entered_by else "",
    )


def _personal(e: events.PersonalKept) -> Said:
    return "Personal data kept apart", (
        f"In the side file: {', '.join(PERSONAL_FIELDS.get(key, key) for key in e.hashes)}",
    )


def _stage(e: events.StageBegun | events.StageDone) -> Said:
    over = isinstance(e, events.StageDone)
    left = (
        f"Not ticked: {', '.join(e.left_open)}. Because: {e.reason}"
        if isinstance(e, events.StageDone) and e.left_open
        else ""
    )
    return f"{_title(e.stage)}: stage {'done' if over else 'begun'}", (left,)


def _title(stage: str) -> str:
    """Return a stage's name; an id that is none any more as it stands."""
    return next((known.title for known in job().stages if known.id == stage), stage)


def _step(e: events.StepDone) -> Said:
    return f"{e.operation} {operation(e.operation).short}", ()


def _caution(e: events.CautionRead) -> Said:
    return f"{_title(e.stage)}: cautions read", (f"{len(e.hazards)} shown",)


def _measurement(e: events.Measurement) -> Said:
    sure = f" ± {e.uncertainty:g} (standard uncertainty)" if e.uncertainty is not None else ""
    limits = [
        f"at least {e.lower:g}" if e.lower is not None else "",
        f"at most {e.upper:g}" if e.upper is not None else "",
    ]
    limit = ", ".join(filter(None, limits))
    decision = f"Decision: {e.decision}. {e.reason}" if e.decision else e.reason
    return f"Measured: {e.what}", (
        f"{e.value:g} {e.unit}{sure}, with {e.instrument}",
        f"Limit on the sheet: {limit} {e.unit}" if limit else "",
        decision,
    )


def _decision(e: events.PartDecision) -> Said:
    return f"Decided: {e.part}", (f"{e.decision}. {e.reason}",)


def _part(e: events.PartFitted) -> Said:
    lot = f", lot {e.lot}" if e.lot else ""
    used = f"Used part. Because: {e.reason}" if e.used else "New"
    return f"Fitted: {e.name}", (f"Number {e.number}{lot}", used)


def _tightened(e: events.Tightened) -> Said:
    stages = " / ".join(f"{torque:g}" for torque in e.stages_nm)
    asked = f"Sheet: {stages} N·m" if stages else "Sheet: look it up"
    angle = f", then {e.angle_deg:g}°" if e.angle_deg is not None else ""
    adaptor = f", with {e.adaptor}" if e.adaptor else ""
    moved = (
        f" (offset {e.offset_mm:g} mm, lever {e.lever_mm:g} mm)"
        if e.offset_mm is not None and e.lever_mm is not None
        else ""
    )
    due = f", in date to {e.due.isoformat()}" if e.due else ""
    return f"Tightened: {e.title}", (
        f"{asked}{angle}",
        f"{e.wrench} set to {e.setting_nm:g} N·m{adaptor}{moved}",
        f"Calibrated {e.calibrated.isoformat()}{due}",
        f"Second round: {e.second_round}" if e.second_round else "",
    )


def _deviation(e: events.Deviation) -> Said:
    return "Deviation", (e.what, f"Because: {e.why}", f"Agreed by {e.agreed_by}")


def _check(e: events.SecondCheck) -> Said:
    return "Second person's check", (e.what, f"Looked at by {e.checked_by}")


def _photo(e: events.Photo) -> Said:
    return "Photo", (f"{e.file}: {e.shows}",)


def _road_test(e: events.RoadTest) -> Said:
    return "Road test", (*e.words, f"From {e.name}, SHA-256 {e.log_sha256[:16]}…")


def _note(e: events.JobNote) -> Said:
    return f"Note{f' on “{_title(e.stage)}”' if e.stage else ''}", (e.text,)


def _erased(e: events.PersonalErased) -> Said:
    return "Personal data erased", (
        f"{', '.join(PERSONAL_FIELDS.get(f, f) for f in e.fields) or 'none'}; photos: {e.photos}",
    )


def _closed(e: events.Closed) -> Said:
    left = f"Left open: {' '.join(e.left_open)} Because: {e.reason}" if e.left_open else ""
    return "Job closed", (f"By {e.supervisor}: a note only, the printed page is what is signed", left)


SAID: dict[type[events.Event], Callable[[Any], Said]] = {
    events.Opened: _opened,
    events.PersonalKept: _personal,
    events.StageBegun: _stage,
    events.StageDone: _stage,
    events.StepDone: _step,
    events.CautionRead: _caution,
    events.Measurement: _measurement,
    events.PartDecision: _decision,
    events.PartFitted: _part,
    events.Tightened: _tightened,
    events.Deviation: _deviation,
    events.SecondCheck: _check,
    events.Photo: _photo,
    events.RoadTest: _road_test,
    events.JobNote: _note,
    events.PersonalErased: _erased,
    events.Closed: _closed,
}
"""What the record says of each kind of event."""
