"""Lesson 12, the whole job: the figures of one learner's job, the same in every exercise of the lesson, and how it goes on."""

from math import cos, radians
from typing import NamedTuple

from bitepoint.bank.job.parts import BenchPart, planted_parts, stopping
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.workshop.datafiles import DataFiles, data_files, once_a_set
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.kit_list import Kit, kits_for
from bitepoint.workshop.roadtests import first_log, road_test
from bitepoint.workshop.simulator import Fault, Sample
from bitepoint.workshop.vehicle_kits import option_of, rigid_kits
from bitepoint.workshop.vehicles import Vehicle, vehicle

PLACES = 8
"""Places round the flywheel at which the gauge is read."""
FULL, LIGHT = "full", "light"
_FULL_PCT, _LIGHT_PCT = 90, 40


DONE_FOR = {
    "Bell housing": "A second bell housing is on the gearbox, looked at and sound",
    "Crankshaft end float": "An engine fitter renewed the thrust bearings, and the end float is within the sheet",
    "Crankshaft flange": "An engine works made the flange true again, and it was measured",
    "Input-shaft splines": "A new input shaft is in the gearbox, and the plate slides on it",
    "Input-shaft play": "A new input bearing is in the gearbox, and the play is within the sheet",
}
"""What was done once the customer agreed, by the part that stopped the job; none of it is a clutch fitter's work alone."""


class LogRow(NamedTuple):
    """One moment of a road log, all in the gear of the slip test."""

    second: str
    pedal: str
    kmh: float
    driven_kmh: float
    rpm: int


class Drive(NamedTuple):
    """A road test as it is shown: the log's name, the part round full throttle [s], and six rows of it."""

    log: str
    from_s: float
    to_s: float
    rows: tuple[LogRow, ...]

    @property
    def plot(self) -> Picture:
        """The whole log as engine speed against road speed, with the gear lines."""
        return Picture("slip-plot", {"name": self.log})

    @property
    def channels(self) -> Picture:
        """The part round full throttle against time."""
        return Picture("road-test", {"name": self.log, "from_s": self.from_s, "to_s": self.to_s})

    @property
    def table(self) -> tuple[tuple[str, ...], ...]:
        """The six rows, headings first."""
        head = ("second", "throttle", "wheels not driven", "driven wheels", "engine speed")
        rows = ((r.second, r.pedal, f"{r.kmh:.1f} km/h", f"{r.driven_kmh:.1f} km/h", f"{r.rpm} rpm") for r in self.rows)
        return (head, *rows)


class Story(NamedTuple):
    """One job: car, mileage [km], two road tests, kit, offsets [mm], run-out readings [mm] of two fittings, free play.

    `bench` is what lay on it, `agreed` whether the customer pays for what stops the job there.
    """

    car: Vehicle
    km: int
    weeks: int
    kmh_per_1000: float
    before: Drive
    after: Drive
    kit: Kit
    option: str
    bar_mm: int
    crow_foot_mm: int
    first_readings_mm: tuple[float, ...]
    second_readings_mm: tuple[float, ...]
    free_play_mm: float
    bench: tuple[BenchPart, ...]
    agreed: bool

    @property
    def stopped_by(self) -> tuple[BenchPart, ...]:
        """The parts that stop the job at the bench, the gravest first."""
        return stopping(self.bench)

    @property
    def ended(self) -> bool:
        """Whether the learner's own car goes no further than the bench."""
        return bool(self.stopped_by) and not self.agreed

    @property
    def since_bench(self) -> str:
        """What followed from the bench, in a sentence with a space behind it; "" where the job simply goes on."""
        if self.ended:
            return "Your own car's job ended at the bench. You go on with a second car of its model, whose bench was clean. "
        done = [DONE_FOR[part.name] for part in self.stopped_by]
        if any(part.key == "flywheel-crack" for part in self.bench):
            done.append("The cracked flywheel is scrap, and a new one lies ready")
        return f"Agreed in writing and done: {'. '.join(done)}. " if done else ""

    @property
    def changes_flywheel(self) -> bool:
        """Whether the car leaves with another kind of flywheel than it came with."""
        return self.kit.flywheel != self.car.flywheel.fitted_now

    @property
    def name(self) -> str:
        """The car's name at the beginning of a sentence."""
        return f"{self.car.name[0].upper()}{self.car.name[1:]}"


_MOST_TOLD = 64
_told: dict[tuple[bytes, str, DataFiles], Story] = {}


def story_of(draw: Draw) -> Story:
    """Return the job of this learner; the same in every exercise and turn, so the last ones told are remembered."""
    story, car = draw.story(), draw.vehicle()
    key = (story.key, car.id, data_files())
    if key not in _told:
        if len(_told) >= _MOST_TOLD:
            _told.clear()
        _told[key] = _story(draw, story, car)
    return _told[key]


def _story(draw: Draw, story: Draw, car: Vehicle) -> Story:
    limit = car.flywheel.face_runout_limit_mm
    low, high = car.release.free_play_mm
    return Story(
        car=car,
        km=1000 * story.integer(95, 185),
        weeks=story.integer(2, 6),
        kmh_per_1000=round(road_speed_kmh(car, gear=car.gearbox.slip_test_gear, rpm=1000), 1),
        before=_drive(car.id, "slip", story.integer(0, 4)),
        after=_drive(car.id, "healthy", story.integer(0, 4)),
        kit=_kit(car.id),
        option=option_of(car),
        bar_mm=story.pick(75, 90, 125),
        crow_foot_mm=story.pick(45, 60, 75, 90),
        first_readings_mm=_readings(story, story.value(1.3, 1.8, 0.1) * limit),
        second_readings_mm=_readings(story, story.value(0.5, 0.7, 0.05) * limit),
        free_play_mm=story.value(low, high, 0.5),
        bench=planted_parts(draw.story(), car),
        agreed=story.pick(True, False),
    )


@once_a_set
def _kit(letter: str) -> Kit:
    number = rigid_kits(letter)[0]
    return next(kit for kit in kits_for(letter) if kit.kit == number)


@once_a_set
def _drive(letter: str, fault: Fault, shift: int) -> Drive:
    """Return two rows with a light foot and four at full throttle; `shift` moves them by so many tenths of a second."""
    name = first_log(letter, fault)
    gear = vehicle(letter).gearbox.slip_test_gear
    driven = [s for s in road_test(name).samples if s.gear == gear and s.pedal_pct < 5]
    full = [s for s in driven if s.throttle_pct >= _FULL_PCT]
    light = [s for s in driven if s.throttle_pct < _LIGHT_PCT and s.t_s < full[0].t_s]
    # In its first second the clutch has not let go yet; a log whose rows lie there would show next to nothing.
    first, last = 10 + shift, len(full) - 1
    picked = [light[-30 - shift], light[-12 - shift], *(full[first + round(i * (last - first) / 3)] for i in range(4))]
    return Drive(name, round(light[-1].t_s - 5), round(full[-1].t_s + 3), tuple(_row(s) for s in picked))


def _row(s: Sample) -> LogRow:
    pedal = FULL if s.throttle_pct >= _FULL_PCT else LIGHT
    return LogRow(f"{s.t_s:.1f}", pedal, round(s.speed_km_h, 1), round(s.driven_wheel_km_h, 1), round(s.engine_rpm))


def _readings(story: Draw, swing_mm: float) -> tuple[float, ...]:
    """Readings over one turn, the gauge at nought at the first place."""
    high_place = story.pick(120, 240)
    step = 360 // PLACES

    def height(place: int) -> float:
        return swing_mm / 2 * cos(radians(step * place - high_place))

    raw = [height(place) - height(0) for place in range(PLACES)]
    return tuple(round(mm, 2) for mm in raw)
