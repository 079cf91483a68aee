"""Where a job stands, line by line: what is due, what is missing, what was recorded last."""

from collections.abc import Iterator

from bitepoint.job.events import CautionRead
from bitepoint.job.lines import page_lines, sentences
from bitepoint.job.missing_entries import missing_in
from bitepoint.job.order import cautions, due
from bitepoint.job.state import JobEntry, WorkshopJob
from bitepoint.printable import printable
from bitepoint.workshop.hazards import LOCAL_RULES
from bitepoint.workshop.operations import operation

_MOST_HELD, _LAST = 4, 5


def status(now: WorkshopJob) -> list[str]:
    """Return where a job stands, line by line."""
    told = (*_head(now), *_due(now), *_recorded(now), *(f"DOES NOT HOLD: {problem}" for problem in now.problems))
    return [printable(line) for line in told]


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
    if stage in {event.stage for event in now.all_of(CautionRead)}:
        yield f"Cautions, read: {'; '.join(hazard.title for hazard in hazards)}."
    else:
        yield from (f"Caution. {hazard.told}" for hazard in hazards)
    yield LOCAL_RULES


def _recorded(now: WorkshopJob) -> Iterator[str]:
    yield "Recorded last:"
    yield from (f"  {line(entry)}" for entry in now.entries[-_LAST:])


def line(entry: JobEntry) -> str:
    """Return an entry as a line: number, when, what, by whom."""
    (row,) = page_lines((entry,))
    by = f" ({row.by})" if row.by else ""
    return printable(f"{row.n}  {row.at} UTC  {sentences(row)}{by}")
