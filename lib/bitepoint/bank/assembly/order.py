"""Lesson 9, assembly: the order of the work, the lock in and out, the last minutes before the gearbox."""

from bitepoint.bank.assembly.outcomes import ORDERS
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.work_cards import later_card, never_cards, strip_at, work_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.operations import job, operation, operations_for

_FITTING = ("X1", "X4", "X6", "X7", "X9", "X10")
"""What is never done in this part of the job: operations that lie on the bench as strangers."""


@exercise(
    "assembly.order-of-work",
    lesson="assembly",
    outcome=ORDERS,
    minutes=7,
    title="Build the whole clutch in order",
)
def order_of_work(draw: Draw) -> WorkOrder:
    car = draw.vehicle()
    ids = [step.id for step in operations_for(car, core=True, stages=["assemble"])]
    forbidden = [n for n in _FITTING if n != "X9" or car.flywheel.tightening.angle_deg is not None]
    strangers = draw.sample(forbidden, 2)
    refit = draw.pick(*(o.id for o in job().operations if o.stage == "refit" and o.core))
    first, last = operation(ids[0]).short, operation(ids[-1]).short
    return work_order(
        draw,
        ids,
        strangers=[*never_cards(strangers), later_card(refit)],
        stages=strip_at("assemble"),
        ask=f"The old clutch of {car.name} is out and everything is inspected. "
        "Fit the new clutch, up to the moment before the gearbox goes in. "
        "Pick one card after the other. Three cards do not belong here.",
        why="Every step rests on the one before: clean, then tight, then measured, then hidden, then counted.",
        step=f"It starts with “{first}” and ends with “{last}”. The lock goes in and out twice.",
        vehicle=car.id,
    )


@exercise("assembly.lock", lesson="assembly", outcome=ORDERS, minutes=1.5, title="Put the lock in and take it out")
def lock(draw: Draw) -> Choice:
    car = draw.vehicle()
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, teeth=car.flywheel.ring_gear_teeth)


@exercise(
    "assembly.last-minutes",
    lesson="assembly",
    outcome=ORDERS,
    minutes=2,
    title="Order the last minutes before the gearbox",
)
def last_minutes(draw: Draw) -> Order:
    car = draw.vehicle()
    return form_of(draw).order(draw, vehicle=car.id, car=car.name, cm=draw.integer(20, 60))
