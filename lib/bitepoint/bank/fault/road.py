"""Lesson 3, finding the fault: slip read from a plot, and what engine and wheels say together."""

from itertools import islice

from msgspec import Struct

from bitepoint.bank.fault.outcomes import LOGS, ORDINALS, gear_word
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.errors import BadData
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.roadtest_verdict import stretches
from bitepoint.workshop.roadtests import log_with, logs_with, road_test
from bitepoint.workshop.simulator import Fault, Sample
from bitepoint.workshop.vehicles import Vehicle, vehicle

_BACK = (2, 5, 8)
"""How many tenths of a second before the end of the pull the line Q may stand."""
_READING = plus_minus(1.8)
"""How far apart two careful readers of the same two lines come out, in per cent of engine speed."""


class FullThrottleRun(Struct, frozen=True):
    """The run at full throttle in the gear of the test: when it begins and ends [s], and two lines of the log."""

    from_s: float
    to_s: float
    light: Sample
    full: Sample


@once_a_set
def full_throttle_run(name: str, back: int) -> FullThrottleRun:
    """Return the pull of a log; `full` is its line so many tenths of a second before the end."""
    log = road_test(name)
    gear = vehicle(log.vehicle).gearbox.slip_test_gear
    run = next(s for s in stretches(log) if s.full_load and s.gear == gear)
    lines = {round(10 * s.t_s): s for s in log.samples}
    start, end = round(10 * run.start_s), round(10 * run.end_s)
    return FullThrottleRun((start - 35) / 10, (end + 6) / 10, lines[start - 20], lines[end - back])


def slip_at(car: Vehicle, line: Sample, *, gear: int | None = None) -> float:
    """Return the slip of one line of a log as a learner works it out [%], with the rounded figure of the sheet."""
    per_1000 = per_1000_of(car, gear or car.gearbox.slip_test_gear)
    return 100 * (1 - line.driven_wheel_km_h / per_1000 * 1000 / line.engine_rpm)


def per_1000_of(car: Vehicle, gear: int) -> float:
    """Return the road speed at 1000 rpm as it stands in a question [km/h]."""
    return round(road_speed_kmh(car, gear=gear, rpm=1000), 1)


@once_a_set
def readable_logs(letter: str) -> tuple[str, ...]:
    """Return five logs of a vehicle whose slip is told from its light foot by whoever reads with care.

    Raises
    ------
    BadData
        Its sheet has figures with which no log shows that.
    """
    car = vehicle(letter)

    def clear(name: str) -> bool:
        pulls = [full_throttle_run(name, back) for back in _BACK]
        return all(slip_at(car, pull.full) - abs(slip_at(car, pull.light)) > 4 for pull in pulls)

    found = tuple(islice(filter(clear, logs_with(letter, "slip")), 5))
    if not found:
        raise BadData(
            f"{letter.casefold()}.toml: gearbox.slip_test_gear: slip cannot be read in that gear from any log of "
            f"{car.name}. Correct the gear, the ratios or the engine's torque."
        )
    return found


def log_of(draw: Draw, car: Vehicle, fault: Fault) -> str:
    """Return the name of a drawn road-test log of this car with this fault."""
    return log_with(car.id, fault, draw.integer(0, 7))


@exercise("fault.slip", lesson="fault", title="Read slip from a plot", outcome=LOGS, minutes=4)
def slip(draw: Draw) -> Number:
    car = draw.vehicle()
    gear, back = car.gearbox.slip_test_gear, draw.pick(*_BACK)
    logs = readable_logs(car.id)
    name = logs[draw.form(len(logs))]
    pull = full_throttle_run(name, back)
    per_1000, full = per_1000_of(car, gear), pull.full
    arrives = full.driven_wheel_km_h / per_1000 * 1000
    right = slip_at(car, full)
    other = gear + 1 if gear < len(car.gearbox.ratios) else gear - 2
    return Number(
        ask=(
            f"Log {name} of {car.name}, {gear_word(gear)}: {per_1000:.1f} km/h belong to 1000 rpm there. "
            "Read engine speed and wheel speed at the line Q. How much does the clutch slip at Q, in per cent of engine speed?"
        ),
        picture=Picture("road-test", {
            "name": name, "from_s": pull.from_s, "to_s": pull.to_s,
            "channels": ["throttle_pct", "engine_rpm", "driven_wheel_km_h"], "marks": [pull.light.t_s, full.t_s],
        }),
        answer=right,
        unit="%",
        within=_READING,
        decimals=0,
        mistakes=(
            Mistake(
                slip_at(car, pull.light),
                "reads at the line P",
                "That is the light foot, before full throttle. There even a worn clutch holds, and it would go back as sound.",
            ),
            Mistake(
                100 - right,
                "gives the part that arrives",
                "That share still arrives at the gearbox. Written as slip, it condemns any clutch.",
            ),
            Mistake(
                slip_at(car, full, gear=other),
                "takes another gear",
                "That is the figure of another gear. A log judged in the wrong gear shows slip where there is none.",
            ),
        ),
        why=f"Of about {full.engine_rpm:.0f} rpm only {arrives:.0f} arrive. With a light foot, at P, it holds: so it is slip.",
        step=f"The wheels at Q do about {full.driven_wheel_km_h:.0f} km/h. Divide by {per_1000:.1f}, times 1000: so much arrives.",
        solution=(
            f"At Q about {full.engine_rpm:.0f} rpm and {full.driven_wheel_km_h:.1f} km/h.\n"
            f"{full.driven_wheel_km_h:.1f} ÷ {per_1000:.1f} × 1000 = {arrives:.0f} rpm arrive.\n"
            f"({full.engine_rpm:.0f} − {arrives:.0f}) ÷ {full.engine_rpm:.0f} × 100 = {right:.1f} %."
        ),
        source="derived",
        vehicle=car.id,
    )  # fmt: skip


_FAULTS: dict[str, Fault] = {
    "slips": "slip",
    "wheels-spin": "wheel spin",
    "figure-wrong": "healthy",
    "no-fault": "healthy",
}
"""What is wrong in the log of each form, which is named by what is right to say of it."""


@exercise("fault.road-log", lesson="fault", title="Engine against wheels", outcome=LOGS, minutes=3)
def road_log(draw: Draw) -> Choice:
    form, car = form_of(draw), draw.vehicle()
    name = log_of(draw, car, _FAULTS[form.key])
    dial = {"dial": draw.pick(0.92, 0.93, 1.07, 1.08)} if form.key == "figure-wrong" else {}
    return form.choice(
        draw,
        right=form.key,
        picture=Picture("slip-plot", {"name": name} | dial),
        vehicle=car.id,
        car=car.name,
        name=name,
        gear=ORDINALS[car.gearbox.slip_test_gear - 1],
    )
