"""Forms that follow the order of the work: cautions, stages, steps, and the job closed."""

from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.job.closing import close
from bitepoint.job.forms.entry_form import EntryForm, FormField, Typed, one
from bitepoint.job.order import cautions, due, settled
from bitepoint.job.stages import begin_stage, cautions_read, do_steps, end_stage
from bitepoint.job.state import JobEntry, StageState, WorkshopJob
from bitepoint.workshop.hazards import LOCAL_RULES
from bitepoint.workshop.operations import operation


def cautions_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """The cautions of a stage, to be confirmed as read."""
    told = "\n\n".join([*(hazard.told for hazard in cautions(now, stage.id)), LOCAL_RULES])
    return EntryForm(
        key="cautions",
        title=f"Cautions of “{stage.title}”",
        says=told,
        button="I have read them",
        fields=(),
        keep=lambda folder, typed, reason: one(cautions_read(folder, stage.id)),
    )


def stage_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """A stage begun or done; that which is due stands first, and no other is shut."""
    rows = [stage, *(other for other in now.stages if other.id != stage.id and not other.done)]

    def keep(folder: Path, typed: Typed, reason: str) -> list[JobEntry]:
        do = end_stage if typed.get("what") == "done" else begin_stage
        return one(do(folder, typed.get("stage", stage.id), reason=reason))

    steps = (("is done", "done"), ("is begun", "begun"))
    return EntryForm(
        key="stage",
        title="A stage begun or done",
        button="Keep it",
        fields=(
            FormField(key="stage", label="Stage", control="choice", options=tuple((row.title, row.id) for row in rows)),
            FormField(key="what", label="It", control="choice", options=steps if stage.begun else steps[::-1]),
        ),
        keep=keep,
    )


def steps_form(now: WorkshopJob, stage: StageState) -> EntryForm:
    """Operations ticked as done: those of the stage that is due, and of others that were begun; those held back say so."""
    found = due(now)
    held = dict(found.held) if found else {}
    open_stages = [stage, *(other for other in now.stages if other.begun and not other.done and other.id != stage.id)]
    rows = [step for row in open_stages for step in row.steps if step not in settled(now)]
    options = tuple(
        (f"{step}  {operation(step).short}" + (" (held back)" if step in held else ""), step)
        for step in sorted(rows, key=lambda step: step in held)
    )
    return EntryForm(
        key="steps",
        title="Steps that are done",
        says="Several at once: hold Ctrl. They are kept in the order of the list.",
        button="Tick them",
        fields=(FormField(key="steps", label="Steps", control="several", options=options),),
        keep=_keep_steps,
    )


def _keep_steps(folder: Path, typed: Typed, reason: str) -> list[JobEntry]:
    steps = typed.get("steps", "").split()
    if not steps:
        raise BadInput("No step is chosen. Choose one or several.")
    return do_steps(folder, steps, reason=reason)


def close_form(now: WorkshopJob) -> EntryForm:
    """The job closed by a supervisor."""
    return EntryForm(
        key="close",
        title="Close the job",
        says="By the supervisor. What is typed is a note; the printed page is what is signed.",
        button="Close the job",
        fields=(FormField(key="by", label="Supervisor", hint="name or initials"),),
        keep=lambda folder, typed, reason: one(close(folder, supervisor=typed.get("by", ""), reason=reason)),
    )
