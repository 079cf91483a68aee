"""Lesson 5, strip-down and inspection: the order of the work, the hub nut, the card for the bolts."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.strip.outcomes import ORDERS, UNDOES
from bitepoint.bank.work_cards import later_card, never_cards, strip_at, work_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.operations import job, operation, operations_for, sample_order
from bitepoint.workshop.vehicles import vehicle

_LEFT_OUT = ("R5", "R6", "R9", "R12")
"""Steps of no great danger: the drill stays short enough to be thought through."""


@exercise("strip.gearbox-out", lesson="strip", outcome=ORDERS, minutes=6, title="Take the gearbox out")
def gearbox_out(draw: Draw) -> WorkOrder:
    car = draw.vehicle()
    ids = tuple(step.id for step in operations_for(car, stages=["remove"]) if step.id not in _LEFT_OUT)
    first, last = operation(ids[0]).short, operation(ids[-1]).short
    later = draw.pick(*_built_later())
    return work_order(
        draw,
        ids,
        strangers=[*never_cards([draw.pick("X5", "X8", "X3")]), later_card(later)],
        stages=strip_at("remove"),
        ask=f"Everything for {car.name} is planned. Take the gearbox out. "
        "Pick one card after the other, each only when it is safe. Two cards do not belong here.",
        why="First nothing can roll, start or fall. Then all that holds the gearbox. The last bolts with the jack under it.",
        step=f"It starts with “{first}” and ends with “{last}”. What holds a load comes before what frees it.",
        vehicle=car.id,
    )


@once_a_set
def _built_later() -> tuple[str, ...]:
    return tuple(o.id for o in job().operations if o.stage in ("assemble", "refit") and o.core and not o.only)


@exercise("strip.clutch-off", lesson="strip", outcome=ORDERS, minutes=4, title="Take the clutch off")
def clutch_off(draw: Draw) -> WorkOrder:
    car, form = draw.vehicle(), draw.form(2)
    order = _off_and_looked_at(car.id, ("I1",) if form == 0 else ("I2", "I7"))
    first, last = operation(order[0]).short, operation(order[-1]).short
    until = ("up to the first look at the bare flange", "up to the decision about every part")[form]
    return work_order(
        draw,
        order,
        strangers=[*never_cards(["X5"]), later_card(draw.pick("A12", "F2", "A5"))],
        stages=strip_at("strip"),
        ask=f"The gearbox of {car.name} stands on its rack. Take the clutch off, {until}. "
        "Pick one card after the other. Two cards do not belong here.",
        why="Dust first, then the lock, then the spring let down evenly. What can only be measured fitted is measured fitted.",
        step=f"It starts with “{first}” and ends with “{last}”.",
        vehicle=car.id,
    )


@once_a_set
def _off_and_looked_at(letter: str, looks: tuple[str, ...]) -> tuple[str, ...]:
    """Return a safe order of taking the clutch off a car and of these looks at it, as near the list as can be."""
    ids = [*(step.id for step in operations_for(vehicle(letter), stages=["strip"])), *looks]
    return sample_order(ids, lambda free: next(i for i in ids if i in free))


@exercise(
    "strip.hub-nut",
    lesson="strip",
    outcome=UNDOES,
    minutes=1.5,
    title="Slacken the hub nut",
    others=(("front-wheel drive",),),
)
def hub_nut(draw: Draw) -> Choice:
    form = form_of(draw)
    cars = draw.cars(*form.needs)
    car = draw.pick(*cars) if form.key == "slack-in-wrong-bay" else cars[0]
    torque = draw.integer(20, 30) * 10
    return form.choice(draw, vehicle=car.id, car=car.name, said=car.wheels.hub_nut or "", torque=torque)


@exercise("strip.bolt-card", lesson="strip", outcome=ORDERS, minutes=1.5, title="Find each bolt its hole")
def bolt_card(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, bolts=draw.integer(7, 9), lengths=draw.pick("two", "three"))
