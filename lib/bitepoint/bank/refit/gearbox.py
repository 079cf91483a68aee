"""Lesson 11, refit: the gearbox comes home by hand, in a safe order."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.refit.outcomes import JOINS
from bitepoint.bank.registry import exercise
from bitepoint.bank.work_cards import later_card, never_cards, strip_at, work_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.operations import job, operation, operations_for

_TEMPTING = ("X2", "X3", "X8")
"""What is never done in this part of the job."""


@exercise("refit.order-of-work", lesson="refit", outcome=JOINS, minutes=6, title="Bring the gearbox in, in order")
def order_of_work(draw: Draw) -> WorkOrder:
    car = draw.vehicle()
    ids = [step.id for step in operations_for(car, stages=["refit"])]
    strangers = draw.sample(_TEMPTING, 2)
    later = draw.pick(*(o.id for o in job().operations if o.stage == "check"))
    return work_order(
        draw,
        ids,
        strangers=[
            *never_cards(strangers),
            later_card(
                later,
                "That is a check and comes when the car is whole. Done now, something is still open or loose.",
            ),
        ],
        stages=strip_at("refit"),
        ask=f"The new clutch of {car.name} is in and checked. "
        "Bring the gearbox in, up to the moment before the checks. "
        "Pick one card after the other. Three cards do not belong here.",
        why="Weight on the jack, faces by hand, bolts, mount, and only then what hangs on the gearbox.",
        step=f"It starts with “{operation(ids[0]).short}”. The jack stays until the mount carries. The battery comes late.",
        vehicle=car.id,
    )


@exercise("refit.gap", lesson="refit", outcome=JOINS, minutes=2, title="Close a gap between the faces")
def gap(draw: Draw) -> Choice:
    mm, side, other = draw.integer(4, 15), draw.integer(25, 45) / 100, draw.integer(20, 40) / 100
    return form_of(draw).choice(draw, mm=mm, side=f"{side:.2f}", other=f"{other:.2f}")
