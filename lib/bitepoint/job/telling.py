"""A job in sentences: each event as one, and the whole as what is due, what is missing, what was recorded last."""

from collections.abc import Callable, Iterator
from typing import Any

from bitepoint.job import events
from bitepoint.job.events import AnyEvent, Event
from bitepoint.job.missing_entries import missing_in
from bitepoint.job.order import cautions, due
from bitepoint.job.state import PERSONAL_FIELDS, JobEntry, WorkshopJob
from bitepoint.workshop.hazards import LOCAL_RULES
from bitepoint.workshop.operations import job as whole_job
from bitepoint.workshop.operations import operation

_MOST_HELD, _LAST = 4, 5


def told(event: AnyEvent) -> str:
    """Return an event as a sentence, with its warnings and reason."""
    reason = "" if isinstance(event, (events.Measurement, events.PartDecision)) else getattr(event, "reason", "")
    more = [*getattr(event, "warned", ()), f"Reason: {reason}" if reason else ""]
    return " ".join([_SENTENCES[type(event)](event), *filter(None, more)])


def _opened(e: events.Opened) -> str:
    by = f", entered by {e.entered_by}, checked by {e.checked_by}, from {e.document}, {e.pages}" if e.entered_by else ""
    said = f" Complaint: “{e.complaint}”." if e.complaint else ""
    return f"Job begun on sheet {e.sheet}{by}.{said}" + (f" {e.mileage_km:,} km." if e.mileage_km is not None else "")


def _measured(e: events.Measurement) -> str:
    unsure = f" (standard uncertainty {e.uncertainty:g} {e.unit})" if e.uncertainty else ""
    judged = f" {e.decision.capitalize()}. {e.reason}" if e.decision else f" {e.reason}".rstrip()
    return f"Measured {e.what}: {e.value:g} {e.unit}{unsure}, {e.instrument}.{judged}"


def _tightened(e: events.Tightened) -> str:
    torque = f"sheet {e.target_nm:g} N·m" if e.target_nm is not None else "no torque on the sheet"
    angle = f" and {e.angle_deg:g}°" if e.angle_deg else ""
    with_ = f", {e.adaptor}" if e.adaptor else ""
    second = f" Second round: {e.second_round}." if e.second_round else ""
    dated = f"calibrated {e.calibrated.isoformat()}"
    return f"Tightened {e.title} ({torque}{angle}): {e.wrench}, {dated}{with_}, set to {e.setting_nm:g} N·m.{second}"


def _decided(e: events.PartDecision) -> str:
    beside = f" Known finding: {e.advised}. {e.advice}" if e.advised else ""
    return f"Decided on {e.part}: {e.decision}, because {e.reason}.{beside}"


def _fitted(e: events.PartFitted) -> str:
    lot = f", lot {e.lot}" if e.lot else ""
    return f"Fitted {e.name}, number {e.number}{lot}, {'used' if e.used else 'new'}."


def _title(stage: str) -> str:
    return next((known.title for known in whole_job().stages if known.id == stage), stage)


def _names(fields: Any) -> str:
    return ", ".join(PERSONAL_FIELDS.get(key, key) for key in fields) or "nothing"


_SENTENCES: dict[type[Event], Callable[[Any], str]] = {
    events.Opened: _opened,
    events.PersonalKept: lambda e: f"Kept apart: {_names(e.hashes)}.",
    events.StageBegun: lambda e: f"Stage “{_title(e.stage)}” begun.",
    events.StageDone: lambda e: (
        f"Stage “{_title(e.stage)}” done." + (f" Not ticked: {', '.join(e.left_open)}." if e.left_open else "")
    ),
    events.StepDone: lambda e: f"Done: {operation(e.operation).short} ({e.operation}).",
    events.CautionRead: lambda e: f"Cautions of “{_title(e.stage)}” read.",
    events.Measurement: _measured,
    events.PartDecision: _decided,
    events.PartFitted: _fitted,
    events.Tightened: _tightened,
    events.Deviation: lambda e: f"Deviation: {e.what}, because {e.why}. Agreed by {e.agreed_by}.",
    events.SecondCheck: lambda e: f"Checked by a second person, {e.checked_by}: {e.what}.",
    events.Photo: lambda e: f"Photo {e.file}: {e.shows}.",
    events.RoadTest: lambda e: f"Road test {e.name}: {' '.join(e.words)}",
    events.JobNote: lambda e: f"Note: {e.text}",
    events.PersonalErased: lambda e: f"Personal data erased: {_names(e.fields)}; photos: {e.photos}.",
    events.Closed: lambda e: f"Closed by {e.supervisor}." + (f" Left open: {len(e.left_open)}." if e.left_open else ""),
}
"""How each event is said; a test holds that none is left out."""


def status(now: WorkshopJob) -> list[str]:
    """Return where a job stands, line by line."""
    return [*_head(now), *_due(now), *_recorded(now), *(f"DOES NOT HOLD: {problem}" for problem in now.problems)]


def _head(now: WorkshopJob) -> Iterator[str]:
    yield f"{now.frame}"
    who = f"sheet {now.opened.sheet}" + (f", checked by {now.opened.checked_by}" if now.opened.checked_by else "")
    yield f"{now.vehicle.opening}, {who}. {len(now.entries)} entries, check code {now.check_code}."
    if now.closed:
        yield f"Closed by {now.closed.supervisor}. Print it: bitepoint job print {now.folder}"


def _due(now: WorkshopJob) -> Iterator[str]:
    found = due(now)
    if found is None:
        if not now.closed:
            yield f'Every stage is done. Next, by a supervisor: bitepoint job close {now.folder} --by "NAME"'
        return
    stage = found.stage
    yield f"Due: {stage.title} (stage {stage.id}), {len(stage.ticked)} of {len(stage.steps)} steps ticked."
    yield from (f"  {text}" for text in _cautions(now, stage.id))
    later = dict(found.better_later)
    for step in found.free:
        yield f"  May be done now: {step}  {operation(step).short}" + (
            f". Better: {later[step]}" if step in later else ""
        )
    yield from (f"  Held back: {step}  {why}" for step, why in found.held[:_MOST_HELD])
    if len(found.held) > _MOST_HELD:
        yield f"  Held back: {len(found.held) - _MOST_HELD} more."
    yield from (f"  Not recorded yet: {text}" for text in missing_in(now, stage.id))


def _cautions(now: WorkshopJob, stage: str) -> Iterator[str]:
    """Yield the cautions of a stage whole until they are confirmed as read, then by their titles."""
    hazards = cautions(now, stage)
    if stage in {event.stage for event in now.all_of(events.CautionRead)}:
        yield f"Cautions, read: {'; '.join(hazard.title for hazard in hazards)}."
    else:
        yield from (f"Caution. {hazard.told}" for hazard in hazards)
    yield LOCAL_RULES


def _recorded(now: WorkshopJob) -> Iterator[str]:
    yield "Recorded last:"
    yield from (f"  {line(entry)}" for entry in now.entries[-_LAST:])


def line(entry: JobEntry) -> str:
    """Return an entry as a line: number, when, what."""
    by = f" ({entry.event.by})" if entry.event.by else ""
    return f"{entry.n}  {entry.at[:16].replace('T', ' ')} UTC  {told(entry.event)}{by}"
