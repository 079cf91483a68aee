"""Lesson 12, the whole job: parts on the bench with what was measured or seen on them, some of them bad."""

from typing import Literal, NamedTuple

from bitepoint.questions.draw import Draw
from bitepoint.workshop.criteria import PartVerdict, criteria, judge, judge_seen, limits_of, measured_on
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.vehicles import Vehicle

State = Literal["sound", "planted", "always new"]


class BenchPart(NamedTuple):
    """A part on the bench: id of its criterion, name, what is told, its state, what is decided, measured or seen."""

    key: str
    name: str
    told: str
    state: State
    verdict: PartVerdict
    measured: bool = False

    @property
    def hurts(self) -> bool:
        """Whether somebody could be hurt when it goes back as it is."""
        return self.verdict.decision != "reuse" and self.verdict.weight == 3


class _Slot(NamedTuple):
    """A part that can be sound or bad: ids of criteria by sight, or one by figure with the step of its scale."""

    name: str
    sound: str = ""
    bad: str = ""
    measured: str = ""
    step_mm: float = 0.01


_COMMON = (
    _Slot("Crankshaft end float", measured="crank-end-float"),
    _Slot("Crankshaft flange", "flange-burr", "flange-fretting"),
    _Slot("Rear crankshaft seal", "rear-seal-dry", "rear-seal-wet"),
    _Slot("Input-shaft play", measured="input-shaft-play"),
    _Slot("Input-shaft splines", "splines-burr", "splines-step"),
    _Slot("Bell housing", "housing-dent", "housing-crack"),
    _Slot("New plate, run-out at the rim", measured="plate-runout", step_mm=0.05),
)
_FLYWHEEL_STAYS = (
    _Slot("Flywheel face", "flywheel-tint", "flywheel-crack"),
    _Slot("Flywheel, deepest score", measured="flywheel-scoring", step_mm=0.05),
    _Slot("Flywheel, gap under the straight edge", measured="flywheel-flatness", step_mm=0.01),
    _Slot("Ring gear", "ring-gear-burr", "ring-gear-broken"),
)
_DANGEROUS = ("Crankshaft end float", "Crankshaft flange", "Bell housing", "Flywheel face")
PLANTED = (0, 2, 3, 3, 4)
"""How many faults are planted on a bench, one drawn of these; where there are any, one of them could hurt somebody."""


def planted_parts(draw: Draw, car: Vehicle) -> tuple[BenchPart, ...]:
    """Return the parts of one bench in a fixed order: some sound, some with a planted fault or none, some always new.

    A figure lies at least two steps of the scale off its limit, so every part can be decided.
    """
    slots = slots_of(car)
    names = [slot.name for slot in slots]
    first = draw.pick(*(name for name in _DANGEROUS if name in names))
    others = draw.shuffle([name for name in names if name != first])
    bad = [first, *others][: draw.pick(*PLANTED)]
    made = [_part(draw, slot, car, planted=slot.name in bad) for slot in slots]
    concentric = car.release.slave_outer_mm is not None
    name, seen = ("concentric slave", "concentric-slave") if concentric else ("release bearing", "release-bearing")
    return (*made, _always_new("Old flywheel bolts", "flywheel-bolts-used"), _always_new(f"Old {name}", seen))


def stopping(parts: tuple[BenchPart, ...]) -> tuple[BenchPart, ...]:
    """Return the planted parts that stop the job until somebody else has decided, the gravest first."""
    stops = [part for part in parts if part.state == "planted" and part.verdict.decision == "stop and ask"]
    return tuple(sorted(stops, key=lambda part: -part.verdict.weight))


def slots_of(car: Vehicle) -> tuple[_Slot, ...]:
    """Return the parts of this car that can be sound or bad; a flywheel only where it stays, no figure without its limit."""
    stays = _FLYWHEEL_STAYS if car.flywheel.fitted_now == "rigid" else ()
    on_sheet = {item.id for item in measured_on(car)}
    return tuple(slot for slot in (*_COMMON, *stays) if not slot.measured or slot.measured in on_sheet)


def _part(draw: Draw, slot: _Slot, car: Vehicle, *, planted: bool) -> BenchPart:
    state: State = "planted" if planted else "sound"
    if not slot.measured:
        name = slot.bad if planted else slot.sound
        return BenchPart(name, slot.name, finding(name), state, judge_seen(name))
    item = next(i for i in criteria().measured if i.id == slot.measured)
    limit = limits_of(item, car)[1]
    assert limit is not None
    steps = draw.integer(2, 8)
    value = round(limit + steps * slot.step_mm * (1 if planted else -1), 3)
    value = value if value > 0 else round(limit / 2, 2)
    verdict = judge(slot.measured, value, car)
    return BenchPart(slot.measured, slot.name, f"{value:.2f} mm", state, verdict, measured=True)


def _always_new(name: str, seen: str) -> BenchPart:
    return BenchPart(seen, name, finding(seen), "always new", judge_seen(seen))


def finding(name: str) -> str:
    """Return what is seen, by the id of the criterion."""
    return _findings()[name]


@once_a_set
def _findings() -> dict[str, str]:
    return {item.id: item.finding for item in criteria().seen}


def limit_table(car: Vehicle) -> tuple[tuple[str, ...], ...]:
    """Return the greatest values of the sheet for the parts that are measured here."""
    wanted = [slot.measured for slot in slots_of(car) if slot.measured]
    items = {item.id: item for item in criteria().measured}
    rows = ((items[name].part, items[name].what, f"{limits_of(items[name], car)[1]:g} mm") for name in wanted)
    return (("part", "figure", "greatest"), *rows)
