"""Lesson 4, the right kit: the order of the work, the agreement, the tools and the label."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.kit.common import CHANGES, IDENTIFIES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.workshop.vehicle_kits import kinds_for


@exercise("kit.before-the-lift", title="Steps before the car is lifted", lesson="kit", outcome=IDENTIFIES, minutes=2.5)
def before_the_lift(draw: Draw) -> Order:
    car, form = draw.vehicle(), form_of(draw)
    return form.order(draw, vehicle=car.id, car=car.name)


@exercise(
    "kit.agree",
    title="Agree with the customer",
    lesson="kit",
    outcome=CHANGES,
    minutes=2,
    others=(("change to rigid",),),
)
def agree(draw: Draw) -> Choice:
    car, form = draw.pick(*draw.cars("change to rigid")), form_of(draw)
    return form.choice(draw, vehicle=car.id, car=car.name)


@exercise("kit.fitting-tools", title="Tools for the cover", lesson="kit", outcome=CHANGES, minutes=1.5, beyond=True)
def fitting_tools(draw: Draw) -> Choice:
    form = form_of(draw)
    cars = draw.cars(*form.needs)
    car = draw.pick(*cars) if len(cars) > 1 else cars[0]
    return form.choice(draw, vehicle=car.id, car=car.name, bolts=car.clutch.cover.n)


_CHANGED = ("change to rigid", "rigid kit in the list")


@exercise("kit.label", title="Label the change", lesson="kit", outcome=CHANGES, minutes=2, others=(_CHANGED,))
def label(draw: Draw) -> Several:
    car = draw.pick(*draw.cars(*_CHANGED))
    return form_of(draw).several(
        draw,
        vehicle=car.id,
        opening=car.opening,
        number=kinds_for(car.id)["rigid"],
        km=draw.integer(90, 190),
    )
