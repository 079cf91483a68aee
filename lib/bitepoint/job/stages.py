"""Stages begun and done, operations ticked, cautions read: out of a safe order it is warned of, and the reason is kept."""

from collections.abc import Sequence
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.job.events import CautionRead, StageBegun, StageDone, StepDone
from bitepoint.job.order import cautions, settled, stage_of, stage_warnings, step_warnings
from bitepoint.job.reading import read_job
from bitepoint.job.recording import needs_reason, record
from bitepoint.job.state import JobEntry
from bitepoint.workshop.operations import operation


def begin_stage(folder: Path, stage: str, *, reason: str = "", by: str = "") -> JobEntry:
    """Record that a stage is begun.

    Raises
    ------
    ReasonNeeded
        Earlier stages still owe it something, and no reason is given.
    BadInput
        There is no such stage.
    """
    now = read_job(folder)
    warned = stage_warnings(now, stage_of(now, stage))
    needs_reason(warned, reason)
    return record(folder, StageBegun(stage=stage, warned=warned, reason=reason if warned else "", by=by))


def end_stage(folder: Path, stage: str, *, reason: str = "", by: str = "") -> JobEntry:
    """Record that a stage is done.

    Raises
    ------
    ReasonNeeded
        Operations of it are not ticked, and no reason is given.
    BadInput
        There is no such stage.
    """
    now = read_job(folder)
    there = stage_of(now, stage)
    left = tuple(step for step in there.steps if step not in settled(now))
    warned = tuple(f"“{operation(step).short}” ({step}) is not ticked." for step in left)
    needs_reason(warned, reason)
    return record(folder, StageDone(stage=stage, left_open=left, reason=reason if left else "", by=by))


def do_steps(folder: Path, steps: Sequence[str], *, reason: str = "", by: str = "") -> list[JobEntry]:
    """Record operations as done, in this order; where one cannot be, none is.

    Raises
    ------
    ReasonNeeded
        One is out of a safe order, and no reason is given.
    BadInput
        One is no operation of this car, is done already, or is never done.
    """
    now = read_job(folder)
    over = {step for stage in now.stages for step in stage.ticked}
    warned = [step_warnings(now, step, after=steps[:place]) for place, step in enumerate(steps)]
    for step in steps:
        if step in over or list(steps).count(step) > 1:
            raise BadInput(f"“{operation(step).short}” ({step}) is recorded already. Name it once.")
    needs_reason(tuple(text for texts in warned for text in texts), reason)
    return [
        record(folder, StepDone(operation=step, warned=texts, reason=reason if texts else "", by=by))
        for step, texts in zip(steps, warned, strict=True)
    ]


def cautions_read(folder: Path, stage: str, *, by: str = "") -> JobEntry:
    """Record that the cautions of a stage were read."""
    now = read_job(folder)
    stage_of(now, stage)
    return record(folder, CautionRead(stage=stage, hazards=tuple(h.id for h in cautions(now, stage)), by=by))
