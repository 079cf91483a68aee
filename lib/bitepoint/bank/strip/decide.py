"""Lesson 5, strip-down and inspection: reuse, replace, or stop and ask."""

from typing import Literal

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.strip.outcomes import DECIDES
from bitepoint.questions.choice import Choice, Option, Several
from bitepoint.questions.draw import Draw
from bitepoint.workshop.criteria import Decision, Seen, criteria, judge_seen
from bitepoint.workshop.vehicles import Vehicle

_SETS: tuple[tuple[Decision, tuple[str, ...]], ...] = (
    ("replace", ("rear-seal-wet", "guide-tube-step", "housing-dowel-missing", "mount-torn", "ring-gear-burr", "splines-burr")),
    ("stop and ask", ("flange-fretting", "thread-damaged", "splines-step", "input-seal-damp", "flange-burr", "ring-gear-broken")),
    ("reuse", ("flange-burr", "rear-seal-dry", "housing-dent", "fork-worn", "slave-wet", "flywheel-crack")),
)  # fmt: skip
"""Decision that is asked for, and the findings on offer (ids of the criteria)."""

_ASKED = {
    "replace": "Tick those that are replaced now",
    "stop and ask": "Tick those where you stop and ask",
    "reuse": "Tick those that may stay, dressed or cleaned",
}
_SAID: dict[Decision, Literal["may stay", "is replaced", "is for stop and ask"]] = {
    "reuse": "may stay",
    "replace": "is replaced",
    "stop and ask": "is for stop and ask",
}


_WHY: dict[Decision, str] = {
    "replace": "A part that wears and is worn, torn or wet is replaced, also where it sits in engine or gearbox.",
    "stop and ask": "Crankshaft, housing and the inside of the gearbox, where no stone puts them right, are not decided alone.",
    "reuse": "What a stone takes off flush is dressed and stays. What is whole and dry stays too.",
}
"""The rule of each decision, as the lesson teaches it."""


def _reason(item: Seen) -> str:
    """Return why it is decided so, as short sentences."""
    said = item.because.replace(": ", ", ")
    return ". ".join(f"{part[0].upper()}{part[1:]}" for part in said.split("; ")) + "."


def _option(item: Seen, asked: Decision) -> Option:
    """Taking a dangerous part for a good one is critical; stopping to ask never is."""
    text = f"{item.part[0].upper()}{item.part[1:]}: {item.finding}"
    verdict = judge_seen(item.id)
    if verdict.decision == asked:
        says = f"You left out “{text[0].lower()}{text[1:]}”. {_reason(item)}"
        return Option(text, True, f"leaves out: {item.id}", says, key=item.id)
    says = f"“{item.part[0].upper()}{item.part[1:]}” {_SAID[verdict.decision]}. {_reason(item)}"
    critical = asked == "reuse" and verdict.weight == 3
    return Option(text, False, f"ticks: {item.id}", says, critical, item.id)


@exercise("strip.decide-each", lesson="strip", outcome=DECIDES, minutes=3, title="Decide about six findings")
def decide_each(draw: Draw) -> Several:
    asked, ids = _SETS[draw.form(3)]
    known = {item.id: item for item in criteria().seen}
    options = [_option(known[name], asked) for name in ids]
    return Several.of(
        draw,
        options=options,
        ask=f"Six findings from several cars. {_ASKED[asked]}.",
        why=_WHY[asked],
        step="For each: does a stone take it off? Is it a part that wears? Or is it crankshaft, housing or the inside of the gearbox?",
        solution="\n".join(o.text for o in options if o.right),
        source="common-practice",
        form=asked.replace(" ", "-"),
    )


def _with_fork(draw: Draw) -> Vehicle:
    """A car whose fork is pushed by a slave cylinder outside; where the class has none, any car with a fork."""
    return draw.pick(*draw.cars("external slave" if draw.covers("external slave") else "release fork"))


@exercise("strip.always-new", lesson="strip", outcome=DECIDES, minutes=2, title="Pick what is always new")
def always_new(draw: Draw) -> Several:
    form, hours = form_of(draw), draw.integer(4, 7)
    car = draw.cars(*form.needs)[0] if form.key == "concentric-slave" else _with_fork(draw)
    return form.several(draw, vehicle=car.id, opening=car.opening, hours=hours)


@exercise(
    "strip.flywheel",
    lesson="strip",
    outcome=DECIDES,
    minutes=2,
    title="Decide about a flywheel",
    others=(("rigid flywheel",),),
)
def flywheel(draw: Draw) -> Choice:
    form, own = form_of(draw), draw.vehicle()
    car = own if own.flywheel.fitted_now == "rigid" else draw.pick(*draw.cars("rigid flywheel"))
    limit = car.flywheel.scoring_depth_limit_mm
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        limit=f"{limit:g}",
        scored=f"{round(limit * draw.integer(4, 8) / 10, 2):g}",
        torque=f"{car.flywheel.tightening.final_nm:g}",
        bolts=car.flywheel.bolt_count,
        loose=draw.pick("One", "Two"),
    )


@exercise(
    "strip.release-parts",
    lesson="strip",
    outcome=DECIDES,
    minutes=1.5,
    title="Decide about bearing, fork and slave",
    others=(("release fork",),),
)
def release_parts(draw: Draw) -> Choice:
    form, car = form_of(draw), _with_fork(draw)
    low, high = draw.integer(25, 60), draw.integer(105, 180)
    return form.choice(draw, vehicle=car.id, car=car.name, low=low, high=high)
