"""What of the job is due on this car, and what doing something now would be out of a safe order with; the rules are the course's own."""

from collections.abc import Collection, Sequence

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.job.events import StageBegun, StageDone, StepDone
from bitepoint.job.state import JobEntry, StageState, WorkshopJob
from bitepoint.workshop import precedence
from bitepoint.workshop.hazards import Hazard, hazards_in
from bitepoint.workshop.operations import job, never, operations_for, rules_among, said
from bitepoint.workshop.precedence import Rule
from bitepoint.workshop.sheets import Vehicle

_MOST_TOLD = 3


class Due(Struct, frozen=True, kw_only=True):
    """The stage that is due; in it, operations that may be done now (ids), and those held back, each with the reason.

    `better_later` has those that may be done and are better done after another, each with the reason.
    """

    stage: StageState
    free: tuple[str, ...]
    better_later: tuple[tuple[str, str], ...]
    held: tuple[tuple[str, str], ...]


def stage_states(v: Vehicle, entries: Sequence[JobEntry]) -> tuple[StageState, ...]:
    """Return every stage that this car has operations in, with what of it is done."""
    events = [entry.event for entry in entries]
    ticked = {event.operation for event in events if isinstance(event, StepDone)}
    begun = {event.stage for event in events if isinstance(event, StageBegun)}
    done = {event.stage for event in events if isinstance(event, StageDone)}
    found = []
    for stage in job().stages:
        steps = tuple(step.id for step in operations_for(v, stages=[stage.id]))
        if steps:
            over = tuple(step for step in steps if step in ticked)
            found.append(
                StageState(
                    id=stage.id,
                    title=stage.title,
                    steps=steps,
                    ticked=over,
                    begun=stage.id in begun or bool(over),
                    done=stage.id in done,
                )
            )
    return tuple(found)


def due(now: WorkshopJob) -> Due | None:
    """Return what is due: the first stage that is not done; None when all are."""
    stage = next((stage for stage in now.stages if not stage.done), None)
    if stage is None:
        return None
    open_steps = [step for step in stage.steps if step not in stage.ticked]
    broken = {step: _broken(now, step) for step in open_steps}
    free = tuple(step for step in open_steps if not broken[step])
    advised = {step: _broken(now, step, binding=False) for step in free}
    return Due(
        stage=stage,
        free=free,
        better_later=tuple((step, said(rules[0])) for step, rules in advised.items() if rules),
        held=tuple((step, said(rules[0])) for step, rules in broken.items() if rules),
    )


def stage_of(now: WorkshopJob, name: str) -> StageState:
    """Return a stage of this job.

    Raises
    ------
    BadInput
        There is none of that name.
    """
    for stage in now.stages:
        if stage.id == name:
            return stage
    raise BadInput(f"There is no stage {name[:40]!r}. Choose one of {', '.join(stage.id for stage in now.stages)}.")


def step_warnings(now: WorkshopJob, step: str, *, after: Collection[str] = ()) -> tuple[str, ...]:
    """Return what doing an operation now would be out of a safe order with, the gravest first; empty when it is in order.

    `after` are operations that are done just before it.

    Raises
    ------
    BadInput
        It is no operation of this car, or is never done.
    """
    if forbidden := never(step):
        raise BadInput(
            f"{step} is never done: {forbidden.because}. If it was done, stop and ask, and record it as a deviation."
        )
    if step not in _steps(now):
        raise BadInput(f"There is no operation {step[:20]!r} on this car. Take an id from: bitepoint job open FOLDER")
    return _told(_broken(now, step, after=after))


def stage_warnings(now: WorkshopJob, stage: StageState) -> tuple[str, ...]:
    """Return what beginning a stage now would be out of a safe order with: what earlier stages still owe it."""
    rules = [rule for step in stage.steps for rule in _broken(now, step) if rule.before not in stage.steps]
    first = {rule.before: rule for rule in sorted(rules, key=lambda r: -precedence.GRAVITY[r.kind])}
    return _told(sorted(first.values(), key=lambda r: precedence.GRAVITY[r.kind]))


def cautions(now: WorkshopJob, stage: str) -> tuple[Hazard, ...]:
    """Return what can hurt somebody in a stage of this car's job."""
    return hazards_in(stage, now.vehicle)


def settled(now: WorkshopJob) -> set[str]:
    """Return operations that are done, or left out with a reason when their stage was called done."""
    left = {step for event in now.all_of(StageDone) for step in event.left_open}
    return left | {step for stage in now.stages for step in stage.ticked}


def _steps(now: WorkshopJob) -> tuple[str, ...]:
    return tuple(step for stage in now.stages for step in stage.steps)


def _broken(now: WorkshopJob, step: str, *, binding: bool = True, after: Collection[str] = ()) -> list[Rule]:
    rules = [rule for rule in rules_among(_steps(now)) if rule.binds == binding]
    return precedence.open_rules(settled(now) | set(after), step, rules)


def _told(rules: Sequence[Rule]) -> tuple[str, ...]:
    told = tuple(said(rule) for rule in rules[:_MOST_TOLD])
    more = len(rules) - len(told)
    return (*told, f"{more} more of the kind.") if more else told
