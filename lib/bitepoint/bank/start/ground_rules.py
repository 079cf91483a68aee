"""Lesson 0, start here: the ground rules of the workshop, one exercise a kind."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order

RULES = "Keeps the ground rules of the workshop"


@exercise("start.choice", lesson="start", outcome=RULES, minutes=1.5, title="What comes first")
def choice(draw: Draw) -> Choice:
    car, form, height = draw.vehicle(), form_of(draw), draw.value(0.8, 1.5, 0.1)
    return form.choice(
        draw,
        vehicle=car.id if form.key == "whose-torques" else "",
        car=car.name,
        height=f"{height:.1f}",
    )


@exercise("start.several", lesson="start", outcome=RULES, minutes=2, title="Dress and dust")
def several(draw: Draw) -> Several:
    form = form_of(draw)
    if form.key == "dressed":
        return form.several(draw)
    car = draw.vehicle()
    return form.several(draw, vehicle=car.id, car=car.name)


@exercise("start.order", lesson="start", outcome=RULES, minutes=2, title="Steps in a safe order")
def order(draw: Draw) -> Order:
    return form_of(draw).order(draw)
