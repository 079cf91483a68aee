"""Lesson 12, the whole job: the figures of one learner's job, the same in every exercise of the lesson."""

from math import cos, radians
from typing import NamedTuple

from bitepoint.questions.draw import Draw
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.kits import Kit, all_kits, fitting, found_on
from bitepoint.workshop.vehicles import Vehicle

PLACES = 8
"""Places round the flywheel at which the gauge is read."""
FULL, LIGHT = "full", "light"
_PEDAL = (LIGHT, LIGHT, FULL, FULL, FULL, LIGHT)
_FASTER_KMH = (0, 1, 3, 6, 9, 9)


class LogRow(NamedTuple):
    """One second of a road log."""

    second: int
    pedal: str
    kmh: int
    rpm: int


class Story(NamedTuple):
    """One job: car, mileage [km], road logs, kit, offsets [mm], run-out readings [mm] of two fittings, order number."""

    car: Vehicle
    km: int
    kmh_per_1000: float
    before: tuple[LogRow, ...]
    after: tuple[LogRow, ...]
    kit: Kit
    option: str
    bar_mm: int
    crow_foot_mm: int
    first_readings_mm: tuple[float, ...]
    second_readings_mm: tuple[float, ...]
    free_play_mm: float

    @property
    def changes_flywheel(self) -> bool:
        """Whether the car leaves with another kind of flywheel than it came with."""
        return self.kit.flywheel != self.car.flywheel.fitted_now


def story_of(draw: Draw) -> Story:
    """Return the job of this learner; the same in every exercise and turn."""
    story, car = draw.story(), draw.vehicle()
    km = 1000 * story.integer(95, 185)
    slip = story.integer(15, 28)
    per_1000 = round(road_speed_kmh(car, gear=car.gearbox.slip_test_gear, rpm=1000), 1)
    start = round(0.75 * per_1000 * car.engine.max_torque_rpm / 1000) - story.integer(0, 3)
    limit = car.flywheel.face_runout_limit_mm
    low, high = car.release.free_play_mm
    return Story(
        car=car,
        km=km,
        kmh_per_1000=per_1000,
        before=_log(start, per_1000, slip),
        after=_log(start + 2, per_1000, 0),
        kit=_kit(car),
        option="S0" if car.id == "C" else "none",
        bar_mm=story.pick(75, 90, 125),
        crow_foot_mm=story.pick(45, 60, 75, 90),
        first_readings_mm=_readings(story, story.value(1.3, 1.8, 0.1) * limit),
        second_readings_mm=_readings(story, story.value(0.5, 0.7, 0.05) * limit),
        free_play_mm=story.value(low, high, 0.5),
    )


def _kit(car: Vehicle) -> Kit:
    option = "S0" if car.id == "C" else "none"
    number = fitting(found_on(car, options={option}, flywheel_wanted="rigid"))[0]
    return next(kit for kit in all_kits() if kit.kit == number)


def _log(start_kmh: int, kmh_per_1000: float, slip_percent: int) -> tuple[LogRow, ...]:
    rows = []
    for second, (pedal, faster) in enumerate(zip(_PEDAL, _FASTER_KMH, strict=True)):
        share = slip_percent * (0.9 if second == 2 else 1) / 100 if pedal == FULL else 0
        rpm = (start_kmh + faster) / kmh_per_1000 * 1000 / (1 - share)
        rows.append(LogRow(second, pedal, start_kmh + faster, round(rpm / 10) * 10))
    return tuple(rows)


def _readings(story: Draw, swing_mm: float) -> tuple[float, ...]:
    """Readings over one turn, the gauge at nought at the first place; no more than 0.01 mm of noise."""
    high_place = story.pick(120, 240)
    step = 360 // PLACES

    def height(place: int) -> float:
        return swing_mm / 2 * cos(radians(step * place - high_place))

    raw = [height(place) - height(0) for place in range(PLACES)]
    return tuple(round(mm, 2) for mm in raw)


def log_table(rows: tuple[LogRow, ...]) -> tuple[tuple[str, ...], ...]:
    """Return a log as a table, its headings first."""
    head = ("second", "pedal", "road speed", "engine speed")
    return (head, *((str(r.second), r.pedal, f"{r.kmh} km/h", f"{r.rpm} rpm") for r in rows))
