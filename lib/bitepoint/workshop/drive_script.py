"""One drive by a fixed script: what driver and car do, second by second, before any fault or noise is added.

The car is a point mass on a level road; the engine's torque curve is a parabola through the greatest torque of
the sheet. Ratios, tyre and masses are the sheet's; all else is invented and stands in the constants below.
"""

from collections.abc import Iterator
from math import pi

from msgspec import Struct

from bitepoint.mechanics.driveline import kmh_per_rpm
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.vehicles import Vehicle

STEP_S = 0.1
LIMIT_KMH = 90.0
TAKE_UP_S, TAKE_UP_RPM = 5.0, 1300.0
SHIFT_S = 0.8
ROLLING_N_PER_KG, AIR_N_PER_KMH2, EFFICIENCY, ADDED_MASS, GRIP = 0.12, 0.031, 0.92, 1.06, 0.55
"""Rolling drag a kilogram, air drag, efficiency of gearbox and final drive, share for turning parts, grip (source: invented)."""


class Moment(Struct, frozen=True):
    """A tenth of a second of the drive. `input_rpm` is the gearbox input's; `phase` names the part of the script."""

    t_s: float
    phase: str
    engine_rpm: float
    input_rpm: float
    speed_km_h: float
    pedal_pct: float
    throttle_pct: float
    gear: int


class Car:
    """A car being driven: its speed, and the marks it leaves in the list of moments."""

    def __init__(self, v: Vehicle, circumference_mm: float | None = None) -> None:
        self.v, self.speed_km_h, self.moments = v, 0.0, list[Moment]()
        around = circumference_mm or rolling_circumference_mm(v)
        self.wheel_m = around / 1000
        driven_kg = v.masses.front_axle_kg if v.drive == "front" else v.masses.rear_axle_kg
        self.grip_n = GRIP * 9.81 * driven_kg
        self.per_rpm = [kmh_per_rpm(ratio, v.gearbox.final, around) for ratio in v.gearbox.ratios]

    def torque_nm(self, rpm: float, throttle_pct: float) -> float:
        """Torque of the engine; below a tenth of the pedal's travel it brakes."""
        away = rpm / self.v.engine.max_torque_rpm - 1
        most = self.v.engine.max_torque_nm * max(0.3, 1 - 0.35 * away * away)
        return most * (throttle_pct - 9) / 91

    def roll(self, gear: int, throttle_pct: float) -> None:
        """Let the car go on for one step; gear 0 coasts."""
        drag = ROLLING_N_PER_KG * self.v.masses.vehicle_kg + AIR_N_PER_KMH2 * self.speed_km_h**2
        push = 0.0
        if gear:
            torque = self.torque_nm(self.speed_km_h / self.per_rpm[gear - 1], throttle_pct)
            ratio = self.v.gearbox.ratios[gear - 1] * self.v.gearbox.final
            push = min(torque * ratio * EFFICIENCY * 2 * pi / self.wheel_m, self.grip_n)
        gain = (push - drag) / (ADDED_MASS * self.v.masses.vehicle_kg)
        self.speed_km_h = max(0.0, self.speed_km_h + 3.6 * gain * STEP_S)

    def note(self, phase: str, *, engine: float, input_rpm: float, pedal: float, throttle: float, gear: int) -> None:
        """Write down one moment."""
        at = round(len(self.moments) * STEP_S, 1)
        self.moments.append(Moment(at, phase, engine, input_rpm, self.speed_km_h, pedal, throttle, gear))

    def stand(self, phase: str, seconds: float, *, pedal: float, gear: int = 0) -> None:
        """Stand with the engine idling."""
        for _ in range(round(seconds / STEP_S)):
            turning = self.v.engine.idle_rpm if pedal < 50 and not gear else 0.0
            self.note(phase, engine=self.v.engine.idle_rpm, input_rpm=turning, pedal=pedal, throttle=0, gear=gear)

    def take_up(self) -> None:
        """Move off in first gear: the slip falls evenly to nothing while the engine is held at one speed."""
        steps = round(TAKE_UP_S / STEP_S)
        for i in range(1, steps + 1):
            share = i / steps
            rise = min(1.0, i * STEP_S / 0.6)
            engine = self.v.engine.idle_rpm + (TAKE_UP_RPM - self.v.engine.idle_rpm) * rise
            self.speed_km_h = TAKE_UP_RPM * share * self.per_rpm[0]
            self.note(
                "take-up", engine=max(engine, TAKE_UP_RPM * share), input_rpm=TAKE_UP_RPM * share,
                pedal=75 - 60 * share, throttle=18, gear=1,
            )  # fmt: skip
        self.drive("pull away", 1, seconds=0.4, throttle=20)

    def drive(self, phase: str, gear: int, *, seconds: float, throttle: float, until_kmh: float = 1e9) -> None:
        """Drive in gear with the clutch closed, until the time or the speed is reached."""
        for _ in range(round(seconds / STEP_S)):
            if self.speed_km_h >= until_kmh:
                break
            self.roll(gear, throttle)
            turning = self.speed_km_h / self.per_rpm[gear - 1]
            self.note(phase, engine=turning, input_rpm=turning, pedal=0, throttle=throttle, gear=gear)

    def shift(self, gear: int) -> None:
        """Change into a gear: pedal down, throttle off; the engine meets the new input speed."""
        steps = round(SHIFT_S / STEP_S)
        before = self.moments[-1].engine_rpm
        for i in range(1, steps + 1):
            self.roll(0, 0)
            turning = self.speed_km_h / self.per_rpm[gear - 1]
            engine = before + (turning - before) * i / steps
            self.note(
                "shift", engine=engine, input_rpm=turning, pedal=100 if i < steps - 1 else 40, throttle=0, gear=gear
            )

    def to_speed(self, phase: str, gear: int, target_kmh: float, throttle: float) -> None:
        """Drive to a speed and hold it there."""
        self.drive(phase, gear, seconds=15, throttle=throttle, until_kmh=target_kmh)


def script(car: Car) -> Iterator[str]:
    """Drive the whole script; yields the name of each part when it is done.

    Stand in neutral with the pedal up, down, in first gear with the pedal down on level ground; move off; full
    throttle in first; up through the gears with a light foot; light foot, then full throttle in the gear of the
    slip test; throttle off and on twice; coast down; stand in neutral again.
    """
    test = car.v.gearbox.slip_test_gear
    end_kmh = min(LIMIT_KMH - 1, car.v.engine.max_torque_rpm * car.per_rpm[test - 1])
    begin_kmh = 0.7 * end_kmh
    car.stand("neutral, pedal up", 6, pedal=0)
    car.stand("neutral, pedal down", 5, pedal=100)
    car.stand("first gear, pedal down", 5, pedal=100, gear=1)
    yield "standing"
    car.take_up()
    car.drive(
        "full throttle, first gear",
        1,
        seconds=2.5,
        throttle=100,
        until_kmh=0.7 * car.v.engine.limiter_rpm * car.per_rpm[0],
    )
    yield "moving off"
    for gear in range(2, test + 1):
        car.shift(gear)
        aim = begin_kmh if gear == test else min(begin_kmh, 0.9 * car.v.engine.max_torque_rpm * car.per_rpm[gear - 1])
        car.to_speed("up through the gears", gear, aim, 55)
    car.drive("light foot", test, seconds=5, throttle=30)
    yield "up"
    car.drive("full throttle, test gear", test, seconds=9, throttle=100, until_kmh=end_kmh)
    for part in ("throttle off", "throttle on", "throttle off", "throttle on", "throttle off"):
        car.drive(part, test, seconds=1.6, throttle=0 if part == "throttle off" else 45)
    yield "pull"
    while car.speed_km_h > 0.4 and len(car.moments) < 1100:
        car.speed_km_h = max(0.0, car.speed_km_h - 3.6 * 2.4 * STEP_S)
        car.note("stopping", engine=car.v.engine.idle_rpm, input_rpm=0, pedal=100, throttle=0, gear=0)
    car.speed_km_h = 0.0
    car.stand("neutral, pedal up", 6, pedal=0)
    yield "home"


def drive(v: Vehicle, *, circumference_mm: float | None = None) -> list[Moment]:
    """Return the whole drive of a vehicle, one moment every 0.1 s; `circumference_mm` is that of the tyres fitted."""
    car = Car(v, circumference_mm)
    for _ in script(car):
        pass
    return car.moments
