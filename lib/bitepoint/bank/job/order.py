"""Lesson 12, the whole job: what matters in it in a safe order, stage by stage; what is routine is shown as done."""

from itertools import count

from bitepoint.bank.job.outcomes import ORDERS, OWN_KIT
from bitepoint.bank.registry import exercise
from bitepoint.bank.work_cards import earlier_card, later_card, never_cards, rules_of, work_part
from bitepoint.questions.bench import WorkCard
from bitepoint.questions.draw import Draw
from bitepoint.questions.staged_work import StagedWork, WorkPart
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.operations import job, operation, operations_for, rules_among
from bitepoint.workshop.vehicles import Vehicle, vehicle

_TEMPTING = {
    "strip": ("X5",),
    "refit": ("X2", "X8"),
    "remove": ("X3", "X8"),
    "assemble": ("X1", "X6"),
    "inspect": ("X7", "X10"),
    "check": ("X9", "X4"),
}
"""What is never done, where somebody might do it; the benches of the other stages get what is left."""
_UNDOES = ("R7", "R15", "C3", "C6")
"""Operations that take apart: on a bench near the end of the job they are out of place for certain."""


@exercise("job.order", lesson="job", outcome=ORDERS, minutes=14, title="Put the whole job in order", needs=OWN_KIT)
def whole_job(draw: Draw) -> StagedWork:
    car = draw.vehicle()
    stages = stages_of(car)
    ids = tuple(name for names in stages.values() for name in names)
    forbidden = _forbidden(draw, car, list(stages))
    titles = {stage.id: stage.title for stage in job().stages}
    parts = [
        work_part(
            draw,
            titles[stage],
            names,
            strangers=[*never_cards([forbidden[stage]]), _stranger(draw, ids, stage)],
            routine=routine_of(car)[stage],
        )
        for stage, names in stages.items()
    ]
    return StagedWork(
        parts=tuple(parts),
        rules=rules_of(ids),
        ask=f"The whole job on {car.name}: {len(ids)} operations in {len(parts)} stages, from the decision to the record. "
        "Work one bench after the other. Pick one card after the other, each only when it is safe. "
        "On each bench lie two cards that do not belong there. What is routine your partner does where it belongs.",
        why="First know, then make safe, then take apart. Clean and measure before you build, prove it before you hand over.",
        step="Ask of each card: what must hold, be clean, be tight or be measured before this is done? Do that first.",
        solution=_worked(parts),
        source="common-practice",
        vehicle=car.id,
    )


def _worked(parts: list[WorkPart]) -> str:
    """Return one safe order in lines, numbered through the whole job."""
    number = count(1)
    return "\n".join(
        line for part in parts for line in (f"{part.title}:", *(f"{next(number)}. {text}" for text in part.example))
    )


def stages_of(car: Vehicle) -> dict[str, tuple[str, ...]]:
    """Return the ids of what is asked about this car by stage, in the order of the job: core and not routine."""
    return _stages_of(car.id)


@once_a_set
def _stages_of(letter: str) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for step in operations_for(vehicle(letter), core=True):
        if not step.routine:
            found[step.stage] = (*found.get(step.stage, ()), step.id)
    return found


def routine_of(car: Vehicle) -> dict[str, tuple[str, ...]]:
    """Return by stage what is done and not asked; a stage where nothing is asked gives its own to the next one."""
    return _routine_of(car.id)


@once_a_set
def _routine_of(letter: str) -> dict[str, tuple[str, ...]]:
    car = vehicle(letter)
    asked = stages_of(car)
    found: dict[str, tuple[str, ...]] = {}
    waiting: tuple[str, ...] = ()
    for stage in job().stages:
        ids = [step.id for step in operations_for(car, stages=[stage.id])]
        waiting = (*waiting, *(name for name in ids if name not in asked.get(stage.id, ())))
        if stage.id in asked:
            found[stage.id], waiting = waiting, ()
    return found


def _forbidden(draw: Draw, car: Vehicle, stages: list[str]) -> dict[str, str]:
    """Return what is never done for each bench, each at most once; an angle only where this car has one."""
    left = [known.id for known in job().never if known.id != "X9" or car.flywheel.tightening.angle_deg is not None]
    chosen: dict[str, str] = {}
    for stage in sorted(
        stages, key=lambda name: (name not in _TEMPTING, list(_TEMPTING).index(name) if name in _TEMPTING else 0)
    ):
        chosen[stage] = draw.pick(*([name for name in _TEMPTING.get(stage, ()) if name in left] or left))
        left.remove(chosen[stage])
    return chosen


def _stranger(draw: Draw, ids: tuple[str, ...], stage: str) -> WorkCard:
    """Return a card of another stage that breaks a rule even when this stage is done, or that undoes the work."""
    later = strangers_of(ids, stage)
    return later_card(draw.pick(*later)) if later else earlier_card(draw.pick(*_UNDOES))


@once_a_set
def strangers_of(ids: tuple[str, ...], stage: str) -> tuple[str, ...]:
    """Return operations of the next stages that are still held back when this stage is done; nearest stages only."""
    order = list(dict.fromkeys(operation(name).stage for name in ids))
    later = {name for name in ids if order.index(operation(name).stage) > order.index(stage)}
    held = {rule.after for rule in rules_among(ids) if rule.binds and {rule.before, rule.after} <= later}
    near = list(dict.fromkeys(operation(name).stage for name in ids if name in held))[:2]
    return tuple(name for name in ids if name in held and operation(name).stage in near)
