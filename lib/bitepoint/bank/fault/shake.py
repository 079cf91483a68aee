"""Lesson 3, finding the fault: what stands in the log before and while the car moves off, and where a shake comes from."""

from bitepoint.bank.fault.common import DECIDES, log_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.simulator import Fault

STANDING = {"to_s": 21, "channels": ["pedal_pct", "gear", "speed_km_h", "vibration_g"]}
"""The part of a log in which the car stands and moves off, as every question about it shows it."""

_STARTS = (
    Mistake(
        "The clutch drags: release system first",
        "calls it drag while the car stands",
        "Drag moves the car while the pedal is down in gear. Bled for nothing, the car comes back with its fault.",
    ),
    Mistake(
        "Something rattles that the gearbox input drives",
        "calls it rattle without comparing the pedal",
        "A rattle is there with the pedal up and gone with it down. Blamed wrongly, a sound damper is thrown away.",
    ),
    Mistake(
        "The clutch judders: find out what shakes it",
        "calls it judder outside the take-up",
        "Judder comes only while the plate slips on moving off. Sought elsewhere, it is not found.",
    ),
    Mistake(
        "Nothing here: go on to the pull",
        "overlooks what this part shows",
        "Compare pedal, speed and shake once more, second by second. Passed over here, the fault goes home.",
    ),
)
_WHY = (
    "Pedal down, first gear, and the car rolls: the plate is still driven. Travel or air comes first.",
    "Standing in neutral it shakes with the pedal up. Pedal down, the input stops and the shake with it.",
    "It is quiet standing. It shakes only between pedal down and pedal up, while the plate slips.",
    "With the pedal down it stands still, and it shakes nowhere. Slip shows at full load only.",
)
_STEP = "Go from left to right: pedal up, pedal down, first gear, moving off. Where does speed or shake not belong?"


@exercise("fault.standing-log", lesson="fault", title="Standing and moving off", outcome=DECIDES, minutes=3)
def standing_log(draw: Draw) -> Choice:
    form, car = draw.form(4), draw.vehicle()
    judder: Fault = draw.pick("judder from friction", "judder from geometry")
    faults: tuple[Fault, ...] = ("drag", "damper rattle", judder, "healthy")
    name, best = log_of(draw, car, faults[form]), str(_STARTS[form].value)
    return Choice.of(
        draw,
        ask=(
            f"Log {name} of training vehicle {car.id}, level road, no brake held. The first 21 seconds: neutral, "
            "pedal down, first gear, moving off. What does this part show?"
        ),
        picture=Picture("road-test", {"name": name, **STANDING}),
        right=best,
        wrong=[m for i, m in enumerate(_STARTS) if i != form],
        why=_WHY[form],
        step=_STEP,
        solution=f"{best}. {_WHY[form]}",
        source="common-practice",
        vehicle=car.id,
    )


_FRICTION = "Grabbing friction: look for oil on the facing and its leak"
_GEOMETRY = "Something out of true: measure plate, cover and flywheel"
_MISFIRE = Mistake(
    "The engine misfires: clear the memory and try again",
    "blames the engine without its sign",
    "A misfire shakes with the clutch closed too. A cleared memory tells the next fitter nothing.",
)
_PLATE_ONLY = Mistake(
    "Renew the plate, nothing else to look for",
    "cures the sign and leaves the cause",
    "Whatever spoiled this plate spoils the next one. In a few weeks it shakes again at your cost.",
)
_NOT_FRICTION = Mistake(
    _FRICTION,
    "takes once a turn for grabbing",
    "Grabbing keeps its frequency while the slip falls, and this does not. You would look for oil that is not there.",
)
_NOT_GEOMETRY = Mistake(
    _GEOMETRY,
    "takes a steady frequency for run-out",
    "Run-out comes once in each turn of slip, and this does not. You would measure sound parts and leave the leak.",
)
_MOUNT = "A mount is torn: load the mounts with a bar"
_NOT_MOUNT = (
    Mistake(
        "The clutch judders: gearbox out",
        "takes every shake for judder",
        "The pedal is up all the time, so nothing slips that could judder. A third clutch would shake on.",
    ),
    Mistake(
        "The damper of the plate rattles",
        "takes a thump for a rattle",
        "A rattle goes on while it idles in neutral. These are single thumps, and the damper would be changed in vain.",
    ),
    Mistake(
        "The driver is rough with the throttle",
        "blames the driver",
        "The test asks for sudden throttle. The fault is still in the car, and the customer is gone.",
    ),
)


@exercise("fault.judder", lesson="fault", title="Where the shake comes from", outcome=DECIDES, minutes=3)
def judder(draw: Draw) -> Choice:
    return (_grabs, _untrue, _thumps)[draw.form(3)](draw)


def _grabs(draw: Draw) -> Choice:
    return _taken_apart(
        draw, "judder from friction", _FRICTION, _NOT_GEOMETRY,
        "One high peak by the second, nothing like it by turns of slip. Friction shakes the driveline at its own frequency.",
    )  # fmt: skip


def _untrue(draw: Draw) -> Choice:
    return _taken_apart(
        draw, "judder from geometry", _GEOMETRY, _NOT_FRICTION,
        "One high peak at 1 by turns of slip, nothing like it by the second. Something touches once a turn.",
    )  # fmt: skip


def _taken_apart(draw: Draw, fault: Fault, best: str, other: Mistake, why: str) -> Choice:
    car = draw.vehicle()
    name = log_of(draw, car, fault)
    return Choice.of(
        draw,
        ask=(
            f"Training vehicle {car.id} shakes while it moves off, mounts sound. Log {name}: above, its shake by "
            "shakes in a second. Below, by shakes in one turn of slip. Where do you look?"
        ),
        picture=Picture("order-spectrum", {"name": name, "references": ["time", "slip"]}),
        right=best,
        wrong=(other, _MISFIRE, _PLATE_ONLY),
        why=why,
        step="In which of the two plots is the peak higher? That is what the shake keeps while the slip falls.",
        solution=f"{best}. {why}",
        source="derived",
        vehicle=car.id,
    )


def _thumps(draw: Draw) -> Choice:
    car = draw.vehicle()
    name = log_of(draw, car, "worn mount")
    first, last = jumps_of(name)
    why = "A thump after each sudden change of load, gone within a second, while nothing slips: the engine moves."
    return Choice.of(
        draw,
        ask=(
            f"Log {name} of training vehicle {car.id}, {draw.integer(2, 9)} months after a new clutch: throttle off "
            "and on, pedal up all the time. Q lies just after such a change, R one second later. Where do you look first?"
        ),
        picture=Picture("road-test", {
            "name": name, "from_s": round(first - 2, 1), "to_s": round(last + 1.5, 1),
            "channels": ["throttle_pct", "pedal_pct", "vibration_g"],
            "marks": [round(first - 1, 1), round(first + 0.1, 1), round(first + 1.1, 1)],
        }),
        right=_MOUNT,
        wrong=_NOT_MOUNT,
        why=why,
        step="Find each sudden change of throttle. What does the shake do just after it, and a second later?",
        solution=f"{_MOUNT}. {why}",
        source="common-practice",
        vehicle=car.id,
    )  # fmt: skip


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
