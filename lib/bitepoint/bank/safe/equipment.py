"""Lesson 2, working safely: before anyone touches the car, and equipment that may be used."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.outcomes import LIFTS, SECURES, STOPS
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.workshop.tools import workshop

_SIGNS = (
    "an orange cable that runs across the gearbox",
    "a box beside the belt that carries a 48 V label",
    "an orange cable below the floor, beside the gearbox",
)


@exercise("safe.keep-off", lesson="safe", outcome=STOPS, minutes=2, title="What is this, and may you touch it?")
def keep_off(draw: Draw) -> Choice:
    car, minutes = draw.vehicle(), draw.integer(3, 30)
    return form_of(draw).choice(
        draw, vehicle=car.id, car=car.name, opening=car.opening, minutes=minutes, sign=draw.pick(*_SIGNS)
    )


@exercise("safe.before-touching", lesson="safe", outcome=SECURES, minutes=1.5, title="Before you touch the car")
def before_touching(draw: Draw) -> Several:
    car = draw.vehicle()
    return form_of(draw).several(draw, vehicle=car.id, opening=car.opening, minutes=draw.integer(5, 20))


@exercise("safe.dead-car", lesson="safe", outcome=SECURES, minutes=2, title="Make the car dead")
def dead_car(draw: Draw) -> Order:
    car, form = draw.vehicle(), form_of(draw)
    return form.order(draw, vehicle=car.id, opening=car.opening)


@exercise("safe.tags", lesson="safe", outcome=LIFTS, minutes=2, title="May it be used?")
def tags(draw: Draw) -> Choice:
    car, lift, form = draw.vehicle(), workshop().lift, form_of(draw)
    late = lift.interval_months + draw.integer(1, 3)
    jack = next(s for s in workshop().supports if s.id == "gearbox jack")
    months, height = draw.integer(2, 10), draw.integer(12, 18) / 10
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        opening=car.opening,
        late=late,
        interval=lift.interval_months,
        height=f"{height:g}",
        car_kg=f"{car.masses.vehicle_kg:g}",
        rated_kg=f"{lift.rated_kg:g}",
        months=months,
        jack_kg=f"{jack.rated_kg:g}",
        gearbox_kg=f"{car.masses.gearbox_kg:g}",
    )
