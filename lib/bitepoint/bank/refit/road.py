"""Lesson 11, final checks on the road: who drives and in which gear, and the log after the repair, read from its plot."""

from bitepoint.bank.forms import Form, form_of
from bitepoint.bank.refit.outcomes import DRIVES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.workshop.roadtests import log_with
from bitepoint.workshop.simulator import Fault


@exercise("refit.road-test", lesson="refit", outcome=DRIVES, minutes=2, title="Who drives, and how")
def road_test(draw: Draw) -> Choice:
    form = form_of(draw)
    # Where the gear of the sheet is the top gear, the two could not be told apart: so another car.
    car = draw.vehicle(*form.needs)
    return form.choice(draw, vehicle=car.id if form.needs else "", car=car.name, km=draw.integer(4, 15))


_FAULTS: dict[str, Fault] = {"healthy": "healthy", "slip": "slip", "dial": "healthy", "creeps": "drag"}
_CREEPING = {"to_s": 21, "channels": ["pedal_pct", "gear", "speed_km_h", "vibration_g"]}


@exercise("refit.road-log", lesson="refit", outcome=DRIVES, minutes=3.5, title="The log after the repair")
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
