"""Lesson 3, finding the fault: a shake at the take-up, by what the workshop sees first, then by its log."""

from bitepoint.bank.fault.outcomes import DECIDES, LOGS
from bitepoint.bank.fault.road import log_of
from bitepoint.bank.forms import Form, form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.simulator import Fault
from bitepoint.workshop.vehicles import Vehicle


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


_SHAKES: dict[str, Fault] = {"grabs": "judder from friction", "untrue": "judder from geometry", "thumps": "worn mount"}
"""What is wrong in the log of each form."""


@exercise(
    "fault.shake-log",
    lesson="fault",
    outcome=LOGS,
    minutes=3,
    beyond=True,
    title="Where a shake comes from, by its log",
)
def shake_log(draw: Draw) -> Choice:
    form, car = form_of(draw), draw.vehicle()
    name = log_of(draw, car, _SHAKES[form.key])
    if form.key == "thumps":
        return _thumps(draw, form, car, name)
    picture = Picture("order-spectrum", {"name": name, "references": ["time", "slip"]})
    return form.choice(draw, picture=picture, vehicle=car.id, opening=car.opening, name=name)


def _thumps(draw: Draw, form: Form, car: Vehicle, name: str) -> Choice:
    first, last = jumps_of(name)
    picture = Picture(
        "road-test",
        {
            "name": name,
            "from_s": round(first - 2, 1),
            "to_s": round(last + 1.5, 1),
            "channels": ["throttle_pct", "pedal_pct", "vibration_g"],
            "marks": [round(first - 1, 1), round(first + 0.1, 1), round(first + 1.1, 1)],
        },
    )
    return form.choice(draw, picture=picture, vehicle=car.id, car=car.name, name=name, months=draw.integer(2, 9))


@once_a_set
def jumps_of(name: str) -> tuple[float, float]:
    """Return when the throttle is first and last thrown off or on with the clutch closed, after the pull [s]."""
    lines = road_test(name).samples
    found = [
        after.t_s
        for before, after in zip(lines, lines[1:], strict=False)
        if abs(after.throttle_pct - before.throttle_pct) > 30 and max(before.pedal_pct, after.pedal_pct) < 5
        and after.gear > 1 and after.gear == before.gear
    ]  # fmt: skip
    end = next(t for t in found if t > found[-1] - 9)
    return end, found[-1]
