"""Lesson 11, final checks: the car standing (order, engine speed, gears, reverse), then on the road and in its log."""

from bitepoint.bank.forms import Form, form_of
from bitepoint.bank.refit.outcomes import DRIVES, STANDS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.questions.question import Picture
from bitepoint.workshop.roadtests import log_with
from bitepoint.workshop.simulator import Fault


@exercise("refit.static-order", lesson="refit", outcome=STANDS, minutes=3.5, title="Check it standing, in order")
def static_order(draw: Draw) -> Order:
    car = draw.vehicle()
    return form_of(draw).order(draw, vehicle=car.id, car=car.name)


@exercise("refit.rev-test", lesson="refit", outcome=STANDS, minutes=2, title="Rev the standing engine")
def rev_test(draw: Draw) -> Choice:
    car = draw.vehicle()
    top = car.engine.static_test_max_rpm
    own = min(draw.integer(31, 38) * 100, round(top) - 200)
    return form_of(draw).choice(
        draw,
        vehicle=car.id,
        car=car.name,
        opened=f"{car.name[0].upper()}{car.name[1:]}",
        top=f"{top:g}",
        ceiling=f"{min(5000.0, top):g}",
        limiter=f"{car.engine.limiter_rpm:g}",
        own=own,
        bay_c=draw.integer(12, 24),
        oil_c=draw.integer(15, 30),
    )


@exercise("refit.gears-where", lesson="refit", outcome=STANDS, minutes=1.5, title="Choose where gears are tried")
def gears_where(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, cm=draw.integer(10, 60))


@exercise("refit.reverse", lesson="refit", outcome=STANDS, minutes=2, title="Judge reverse")
def reverse(draw: Draw) -> Choice:
    early, late, long = draw.integer(1, 2), draw.integer(3, 4), draw.integer(8, 12)
    oil_c = draw.integer(8, 16)
    return form_of(draw).choice(draw, early=early, late=late, long=long, oil_c=oil_c, cold=late + 3)


@exercise("refit.road-test", lesson="refit", outcome=DRIVES, minutes=2, title="Plan the road test")
def road_test(draw: Draw) -> Choice:
    form = form_of(draw)
    # Where the gear of the sheet is the top gear, the two could not be told apart: so another car.
    car = draw.vehicle(*form.needs)
    return form.choice(draw, vehicle=car.id if form.needs else "", car=car.name, km=draw.integer(4, 15))


_FAULTS: dict[str, Fault] = {"healthy": "healthy", "slip": "slip", "dial": "healthy", "creeps": "drag"}
_CREEPING = {"to_s": 21, "channels": ["pedal_pct", "gear", "speed_km_h", "vibration_g"]}


@exercise("refit.road-log", lesson="refit", outcome=DRIVES, minutes=3.5, title="Read the log after the repair")
def road_log(draw: Draw) -> Choice:
    car, form, nth = draw.vehicle(), form_of(draw), draw.integer(8, 15)
    log = log_with(car.id, _FAULTS[form.key], nth)
    return form.choice(
        draw,
        picture=_shown(draw, form, log),
        vehicle=car.id,
        car=car.name,
        log=log,
        gear=car.gearbox.slip_test_gear,
    )


def _shown(draw: Draw, form: Form, log: str) -> Picture:
    if form.key == "creeps":
        return Picture("road-test", {"name": log, **_CREEPING})
    dial = {"dial": draw.pick(0.92, 0.93, 1.07, 1.08)} if form.key == "dial" else {}
    return Picture("slip-plot", {"name": log, **dial})
