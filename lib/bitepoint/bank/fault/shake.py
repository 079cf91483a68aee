"""Lesson 3, finding the fault: a shake at the take-up, by what the workshop sees first, then by its log."""

from bitepoint.bank.fault.outcomes import DECIDES, LOGS
from bitepoint.bank.fault.road import log_of
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.workshop.simulator import Fault


@exercise("fault.judder", lesson="fault", title="A shake at moving off: what comes next?", outcome=DECIDES, minutes=3)
def judder(draw: Draw) -> Choice:
    form = form_of(draw)
    mm, cylinder, weeks = draw.integer(11, 18), draw.integer(1, 3), draw.integer(3, 9)
    return form.choice(draw, right=form.key, mm=mm, cylinder=cylinder, weeks=weeks)


STANDING = {"to_s": 21, "channels": ["pedal_pct", "gear", "speed_km_h", "vibration_g"]}
"""The part of a log in which the car stands and moves off, as every question about it shows it."""


@exercise("fault.standing-log", lesson="fault", title="Standing and moving off", outcome=LOGS, minutes=3, beyond=True)
def standing_log(draw: Draw) -> Choice:
    form, car = form_of(draw), draw.vehicle()
    judder: Fault = draw.pick("judder from friction", "judder from geometry")
    faults: dict[str, Fault] = {
        "drags": "drag",
        "rattles": "damper rattle",
        "judders": judder,
        "nothing-here": "healthy",
    }
    name = log_of(draw, car, faults[form.key])
    picture = Picture("road-test", {"name": name, **STANDING})
    return form.choice(draw, right=form.key, picture=picture, vehicle=car.id, car=car.name, name=name)
