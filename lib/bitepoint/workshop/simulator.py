"""Road-test logs of a training vehicle with one fault or none: the script's drive, the fault, then noise.

Everything comes from the data sheet, the fault and a whole number (the seed); the same three give the same log on
every machine. The laws of the faults are simple and are written down beside them; their sizes are invented.
"""

from collections.abc import Callable, Sequence
from math import pi, sin, sqrt
from random import Random
from typing import Literal, get_args

from msgspec import Struct

from bitepoint.errors import BadData
from bitepoint.mechanics.driveline import kmh_per_rpm
from bitepoint.mechanics.vibration import JUDDER_BAND_HZ, firing_frequency_hz
from bitepoint.workshop.drive_script import STEP_S, Moment, drive
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.vehicles import Vehicle

Fault = Literal[
    "healthy",
    "slip",
    "drag",
    "judder from friction",
    "judder from geometry",
    "wheel spin",
    "worn mount",
    "damper rattle",
]
FAULTS: tuple[Fault, ...] = get_args(Fault)
SHAKE_HZ = 200
TYRE_PART = 0.008
"""Greatest share by which the tyres fitted may roll longer or shorter than the sheet's size says (source: invented)."""
RPM_NOISE, KMH_NOISE, G_NOISE = 6.0, 0.12, 0.004
"""Standard deviations of the noise of the three instruments (source: invented)."""
THUMP_S = 0.7


class Sample(Struct, frozen=True):
    """One line of a log. Road speed from the undriven wheels; `vibration_g` is the r.m.s. of that tenth of a second."""

    t_s: float
    engine_rpm: float
    speed_km_h: float
    driven_wheel_km_h: float
    pedal_pct: float
    throttle_pct: float
    gear: int
    vibration_g: float


class Shake(Struct, frozen=True):
    """The move-off again, sampled fast: seat-rail acceleration with engine and gearbox-input speed beside it."""

    t_s: float
    vibration_g: float
    engine_rpm: float
    input_rpm: float


class Log(Struct, frozen=True):
    """A whole road test: the vehicle's letter, ten samples a second, and the move-off at 200 samples a second."""

    vehicle: str
    samples: tuple[Sample, ...]
    shake: tuple[Shake, ...]


class _Car(Struct, frozen=True):
    """What was drawn for one log: sizes of the fault and phases."""

    v: Vehicle
    fault: Fault
    size: float
    natural_hz: float
    rng: Random


def simulate(v: Vehicle, fault: Fault = "healthy", *, seed: int = 1) -> Log:
    """Return the log of one drive.

    Parameters
    ----------
    v : Vehicle
        The data sheet.
    fault : str
        One of FAULTS.
    seed : int
        Draws tyre wear, size of the fault and noise.

    Raises
    ------
    BadData
        There is no such fault.
    """
    if fault not in FAULTS:
        raise BadData(f"There is no fault {fault!r} to simulate. Choose one of {', '.join(FAULTS)}.")
    rng = Random(f"{v.id} {fault} {seed}")
    around = rolling_circumference_mm(v) * (1 + rng.uniform(-TYRE_PART, TYRE_PART))
    low, high = JUDDER_BAND_HZ
    car = _Car(v, fault, rng.random(), rng.uniform(low + 3, high - 8), rng)
    moments = _with_fault(car, drive(v, circumference_mm=around), around)
    since = _since_load_change(moments)
    samples = tuple(_sample(car, m, spin, ago) for (m, spin), ago in zip(moments, since, strict=True))
    return Log(v.id, samples, _shake(car, [m for m, _ in moments if m.phase == "take-up"]))


def _with_fault(car: _Car, moments: Sequence[Moment], around_mm: float) -> list[tuple[Moment, float]]:
    """Lay the fault on the drive; each moment with the speed of the driven wheels [km/h].

    Slip: of engine speed, 6 to 18 % at full throttle, rising from nothing at 60 % of the pedal, lagging by 0.5 s.
    Drag: with the pedal down in first gear the plate carries the car off at 2 to 4 km/h; moving off starts from there.
    Wheel spin: the driven wheels run 15 to 40 % ahead at full throttle in first gear; the clutch holds.
    """
    first = kmh_per_rpm(car.v.gearbox.ratios[0], car.v.gearbox.final, around_mm)
    found, slip, creep = [], 0.0, 0.0
    for m in moments:
        engine, speed, ahead = m.engine_rpm, m.speed_km_h, 0.0
        closed = m.pedal_pct < 20 and m.gear > 0 and m.phase != "take-up"
        if car.fault == "slip":
            wanted = (0.06 + 0.12 * car.size) * max(0.0, (m.throttle_pct - 60) / 40) if closed else 0.0
            slip += (wanted - slip) * STEP_S / 0.5
            engine = engine / (1 - slip) if closed else engine
        if car.fault == "drag" and m.phase == "first gear, pedal down":
            creep += (2 + 2 * car.size - creep) * STEP_S / 1.2
            speed, engine = creep, engine - 60 - 60 * car.size
        if car.fault == "drag" and m.phase == "take-up":
            speed = max(speed, creep)
        if car.fault == "wheel spin" and m.phase == "full throttle, first gear":
            ahead = 0.15 + 0.25 * car.size
            engine *= 1 + ahead
        turning = max(m.input_rpm, speed / first) if creep and speed == creep else m.input_rpm
        now = Moment(
            m.t_s, m.phase, min(engine, car.v.engine.limiter_rpm), turning, speed, m.pedal_pct, m.throttle_pct, m.gear
        )
        spun = 1 + ahead if engine <= car.v.engine.limiter_rpm else car.v.engine.limiter_rpm / m.engine_rpm
        found.append((now, speed * (spun if ahead else 1.0)))
    return found


def _since_load_change(moments: Sequence[tuple[Moment, float]]) -> list[float]:
    """Seconds since the throttle last moved by more than 30 % with the clutch closed in gear; 99 before that."""
    ago, found, before = 99.0, [], 0.0
    for m, _ in moments:
        jump = abs(m.throttle_pct - before) > 30 and m.pedal_pct < 20 and m.gear > 1
        ago, before = (0.0 if jump else ago + STEP_S), m.throttle_pct
        found.append(ago)
    return found


def _sample(car: _Car, m: Moment, driven_km_h: float, ago: float) -> Sample:
    """Read the instruments, with noise; a counter of road speed shows 0 below 0.3 km/h."""
    noise = car.rng.gauss
    speed, driven = m.speed_km_h + noise(0, KMH_NOISE), driven_km_h + noise(0, KMH_NOISE)
    shake = sqrt(_level_g(car, m, ago) ** 2 + noise(0, G_NOISE) ** 2)
    return Sample(
        m.t_s, round(m.engine_rpm + noise(0, RPM_NOISE)), round(speed, 1) if m.speed_km_h >= 0.3 else 0.0,
        round(driven, 1) if m.speed_km_h >= 0.3 else 0.0, round(m.pedal_pct), round(m.throttle_pct), m.gear, round(shake, 3),
    )  # fmt: skip


def _level_g(car: _Car, m: Moment, ago: float) -> float:
    """R.m.s. of the shake [g]: a quiet car, and what the fault adds where it shows.

    Judder: while the plate slips on moving off. Worn mount: a thump that fades after each change of load, and a
    little on moving off. Damper rattle: at idle in neutral with the pedal up, gone with the pedal down.
    """
    quiet = 0.012 + 0.012 * m.engine_rpm / 3000 + 0.0002 * m.speed_km_h
    big = 0.10 + 0.10 * car.size
    extra = 0.0
    if car.fault.startswith("judder") and m.phase == "take-up":
        extra = big * _fading(m.engine_rpm - m.input_rpm)
    if car.fault == "worn mount":
        extra = big * max(0.0, 1 - ago / THUMP_S) + (0.02 if m.phase == "take-up" else 0.0)
    if car.fault == "damper rattle" and m.gear == 0 and m.pedal_pct < 50 and m.speed_km_h == 0:
        extra = big
    return sqrt(quiet**2 + extra**2)


def _fading(slip_rpm: float) -> float:
    """Judder ends when the plate no longer slips: full above 60 rpm of slip."""
    return min(1.0, max(0.0, slip_rpm) / 60)


def _shake(car: _Car, moments: Sequence[Moment]) -> tuple[Shake, ...]:
    """Sample the move-off at SHAKE_HZ, speeds drawn evenly between the moments.

    Judder from friction keeps the driveline's own frequency; judder from geometry comes once in every turn of slip.
    Firing strokes are there in every car.
    """
    each = round(SHAKE_HZ * STEP_S)
    found, turns_of_slip, fired = [], 0.0, 0.0
    for before, after in zip(moments, moments[1:], strict=False):
        for i in range(each):
            share = i / each
            engine = before.engine_rpm + share * (after.engine_rpm - before.engine_rpm)
            turning = before.input_rpm + share * (after.input_rpm - before.input_rpm)
            t = before.t_s + share * STEP_S
            turns_of_slip += max(0.0, engine - turning) / 60 / SHAKE_HZ
            fired += firing_frequency_hz(engine, cylinders=car.v.engine.cylinders) / SHAKE_HZ
            g = 0.02 * sin(2 * pi * fired) + _judder_g(car, t, engine - turning, turns_of_slip) + car.rng.gauss(0, 0.01)
            found.append(Shake(round(t, 3), round(g, 4), round(engine), round(turning)))
    return tuple(found)


def _judder_g(car: _Car, t: float, slip_rpm: float, turns_of_slip: float) -> float:
    law: dict[str, Callable[[], float]] = {
        "judder from friction": lambda: sin(2 * pi * car.natural_hz * t),
        "judder from geometry": lambda: sin(2 * pi * turns_of_slip),
    }
    if car.fault not in law:
        return 0.0
    return sqrt(2) * (0.10 + 0.10 * car.size) * _fading(slip_rpm) * law[car.fault]()
