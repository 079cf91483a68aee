"""The whole job as operations, what must come before what and why, and what is never done."""

from collections.abc import Callable, Collection, Sequence
from pathlib import Path

from bitepoint.errors import BadData
from bitepoint.workshop import precedence
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.fitted import Only, applies
from bitepoint.workshop.precedence import Rule
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_sources, check_unique, read_toml
from bitepoint.workshop.vehicles import Vehicle, vehicle, vehicles


class JobStage(StrictStruct, frozen=True, kw_only=True):
    """A part of the job."""

    id: str
    title: str


class Operation(StrictStruct, frozen=True, kw_only=True):
    """One step: `short` for a button, `text` as a sentence, `only` where the data sheet has it, `core` for drills.

    `routine`: in a drill of its own stage it is asked, in that of the whole job it is shown as done.
    """

    id: str
    stage: str
    short: str
    text: str
    only: Only = ""
    core: bool = False
    routine: bool = False


class Never(StrictStruct, frozen=True, kw_only=True):
    """What is never done, and why."""

    id: str
    text: str
    because: str
    source: str = "common-practice"


class Job(WholeFile, frozen=True, kw_only=True):
    """Every operation of the job with its rules."""

    stages: tuple[JobStage, ...]
    operations: tuple[Operation, ...]
    rules: tuple[Rule, ...]
    never: tuple[Never, ...]


def read_job(path: Path) -> Job:
    """Read operations and rules.

    Raises
    ------
    BadData
        Names the file, the key and the rule; for rules that go round in a circle, the circle.
    """
    job = read_toml(path, Job, what="list of operations")
    ids = [operation.id for operation in job.operations]
    check_unique(path, "stages id", [stage.id for stage in job.stages])
    check_unique(path, "operations id", [*ids, *(never.id for never in job.never)])
    check_unique(path, "operations short", [operation.short for operation in job.operations])
    check_unique(path, "rules", [f"{rule.before} → {rule.after}" for rule in job.rules])
    for operation in job.operations:
        if operation.stage not in [stage.id for stage in job.stages]:
            raise broken(path, f"operations {operation.id} stage", f"{operation.stage!r} is no stage")
    for rule in job.rules:
        for step in (rule.before, rule.after):
            if step not in ids:
                raise broken(path, f"rules {rule.before} → {rule.after}", f"{step!r} is no operation")
    check_sources(path, [(f"rules {rule.before} → {rule.after} source", rule.source) for rule in job.rules])
    check_sources(path, [(f"never {never.id} source", never.source) for never in job.never])
    if circle := precedence.cycle(ids, job.rules):
        raise broken(path, "rules", f"go round in a circle: {' → '.join(circle)}")
    return job


@once_a_set
def job() -> Job:
    """Return every operation of the job, with stages, rules and what is never done."""
    return read_job(data_files().path("operations.toml"))


@once_a_set
def operation(name: str) -> Operation:
    """Return the operation with this id; `BadData` when there is none."""
    found = _by_id().get(name)
    if found:
        return found
    raise BadData(f"There is no operation {name!r}. Take an id from the list of operations, such as A6.")


@once_a_set
def _by_id() -> dict[str, Operation]:
    return {known.id: known for known in job().operations}


def never(name: str) -> Never | None:
    """Return what is never done under this id, or None when it is an ordinary operation."""
    return next((known for known in job().never if known.id == name), None)


def operations_for(v: Vehicle, *, core: bool = False, stages: Sequence[str] = ()) -> tuple[Operation, ...]:
    """Operations of one training vehicle in the order of the list: all, the short list for drills, some stages."""
    if vehicles().get(v.id) is v:
        return _operations_of(v.id, core, tuple(stages))
    return _operations_for(v, core, stages)


@once_a_set
def _operations_of(letter: str, core: bool, stages: tuple[str, ...]) -> tuple[Operation, ...]:
    return _operations_for(vehicle(letter), core, stages)


def _operations_for(v: Vehicle, core: bool, stages: Sequence[str]) -> tuple[Operation, ...]:
    known = [stage.id for stage in job().stages]
    for stage in stages:
        if stage not in known:
            raise BadData(f"There is no stage {stage!r}. Choose one of {', '.join(known)}.")
    return tuple(
        step
        for step in job().operations
        if applies(step.only, v) and (step.core or not core) and (not stages or step.stage in stages)
    )


def rules_among(steps: Sequence[str]) -> tuple[Rule, ...]:
    """Rules between these operations (ids), carried over operations that are not in the list.

    Left out for good are operations the vehicle does not have; a chain over them counts all the same.
    """
    return _rules_among(tuple(steps))


@once_a_set
def _rules_among(steps: tuple[str, ...]) -> tuple[Rule, ...]:
    for step in steps:
        operation(step)
    return precedence.rules_among(steps, job().rules, lambda step: operation(step).short)


def is_safe_next(done: Collection[str], candidate: str, *, among: Sequence[str], advice: bool = False) -> Rule | None:
    """Return the gravest rule that doing `candidate` now would break, or None when it may be done.

    Parameters
    ----------
    done : collection of str
        Ids of the operations done so far.
    candidate : str
        Id of the operation to do next; an operation that is never done always breaks a rule of kind "never".
    among : sequence of str
        Ids of all operations of this drill.
    advice : bool
        Whether rules of economy and evidence count as well.

    Raises
    ------
    BadData
        The candidate is not among the operations of the drill.
    """
    if forbidden := never(candidate):
        return Rule(before="", after=candidate, kind="never", because=forbidden.because, source=forbidden.source)
    if candidate not in among:
        raise BadData(f"{candidate!r} is not in this list of operations. Choose one that is.")
    rules = [rule for rule in rules_among(among) if rule.binds or advice]
    return next(iter(precedence.open_rules(done, candidate, rules)), None)


def first_broken(order: Sequence[str], *, among: Sequence[str], advice: bool = False) -> tuple[int, Rule] | None:
    """Return the first place (0 is the first step) at which an order breaks a rule, and the rule, or None."""
    for place, step in enumerate(order):
        if rule := is_safe_next(order[:place], step, among=among, advice=advice):
            return place, rule
    return None


def sample_order(steps: Sequence[str], choose: Callable[[Sequence[str]], str]) -> tuple[str, ...]:
    """One order of these operations that keeps every rule, advice too; `choose` picks among the free ones."""
    return precedence.sample(steps, rules_among(steps), choose)


def said(rule: Rule) -> str:
    """A rule as a sentence that a learner can read."""
    if never_done := never(rule.after):
        return f"Never: {never_done.text[0].lower()}{never_done.text[1:]}, because {rule.because}."
    first, then = operation(rule.before).short, operation(rule.after).short
    return f"“{first}” comes before “{then}”, because {rule.because}."
