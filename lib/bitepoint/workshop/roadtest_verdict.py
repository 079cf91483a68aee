"""What a road-test log shows, by calculation: slip a stretch with its uncertainty, orders of the shake, the fault that fits.

Each check looks where its fault shows and nowhere else. Its limit stands beside it; they are sized for the logs of the
course (source: invented) and are no limits for a car.
"""

from collections.abc import Callable, Sequence
from itertools import accumulate, groupby
from math import cos, hypot, pi, sin, sqrt
from statistics import fmean, median
from typing import Literal

from msgspec import Struct

from bitepoint.errors import BadData
from bitepoint.mechanics.driveline import gear_in_use, slip_percent, slip_uncertainty_percent
from bitepoint.mechanics.vibration import JUDDER_BAND_HZ
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.simulator import KMH_NOISE, RPM_NOISE, SHAKE_HZ, Fault, Log, Sample, Shake
from bitepoint.workshop.vehicles import Vehicle, vehicle

COVERAGE, CIRCUMFERENCE_U = 2.0, 0.006
"""Coverage factor, and the relative standard uncertainty of the rolling circumference (source: invented)."""
SPIN_PERCENT, CREEP_KMH, ROUGH_G, RATTLE_TIMES = 5.0, 0.8, 0.05, 2.5
SETTLE, SHORTEST = 5, 8
"""Samples left out after the clutch or the throttle moved, and the fewest that make a stretch."""

Reference = Literal["time", "slip", "engine", "input"]


class Stretch(Struct, frozen=True):
    """A part of a log in one gear with one throttle, clutch closed: slip with its expanded uncertainty [%].

    `gear_found` is the gear that engine and wheel speed fit, None if none does; `spin_percent` how far the driven
    wheels run ahead of the others.
    """

    start_s: float
    end_s: float
    gear: int
    gear_found: int | None
    throttle_pct: float
    slip_percent: float
    uncertainty_percent: float
    spin_percent: float

    @property
    def full_load(self) -> bool:
        """Whether it was driven at full throttle."""
        return self.throttle_pct >= 90

    @property
    def slips(self) -> bool:
        """Whether the slip is larger than its uncertainty."""
        return self.slip_percent > self.uncertainty_percent


class RoadTestVerdict(Struct, frozen=True):
    """Which fault fits, the reasons in words, and the stretches they rest on. Several faults when several checks hold."""

    faults: tuple[Fault, ...]
    reasons: tuple[str, ...]
    stretches: tuple[Stretch, ...]


def stretches(log: Log) -> list[Stretch]:
    """Return every stretch long enough to work slip out of."""
    v = vehicle(log.vehicle)
    found = []
    for key, run in groupby(log.samples, key=lambda s: (s.gear, round(s.throttle_pct), s.pedal_pct < 5)):
        part = list(run)[SETTLE:]
        if key[0] and key[2] and key[1] >= 20 and len(part) >= SHORTEST:
            found.append(_stretch(v, part))
    return found


def _stretch(v: Vehicle, part: Sequence[Sample]) -> Stretch:
    rpm, driven = fmean(s.engine_rpm for s in part), fmean(s.driven_wheel_km_h for s in part)
    around, root = rolling_circumference_mm(v), sqrt(len(part))
    gear = part[0].gear
    slip, uncertainty = slip_in_gear(
        v, gear, rpm=rpm, driven_km_h=driven, rpm_u=RPM_NOISE / rpm / root, km_h_u=KMH_NOISE / driven / root
    )
    fits = gear_in_use(
        rpm,
        road_speed_kmh=driven,
        gear_ratios=v.gearbox.ratios,
        final_ratio=v.gearbox.final,
        rolling_circumference_mm=around,
    )
    spin = 100 * (driven / fmean(s.speed_km_h for s in part) - 1)
    return Stretch(part[0].t_s, part[-1].t_s, gear, fits, part[0].throttle_pct, slip, uncertainty, spin)


def slip_in_gear(
    v: Vehicle, gear: int, *, rpm: float, driven_km_h: float, rpm_u: float, km_h_u: float
) -> tuple[float, float]:
    """Return slip in a gear with its expanded uncertainty [%], from mean speeds and their relative standard uncertainties."""
    slip = slip_percent(
        rpm,
        road_speed_kmh=driven_km_h,
        gear_ratio=v.gearbox.ratios[gear - 1],
        final_ratio=v.gearbox.final,
        rolling_circumference_mm=rolling_circumference_mm(v),
    )
    u = slip_uncertainty_percent(slip, engine_speed_u=rpm_u, road_speed_u=km_h_u, circumference_u=CIRCUMFERENCE_U)
    return slip, COVERAGE * u


def verdict(log: Log) -> RoadTestVerdict:
    """Return the fault that fits a log, with reasons; "healthy" when no check finds anything."""
    driven = stretches(log)
    if not any(s.full_load for s in driven):
        raise BadData("This log holds no stretch at full throttle, so it cannot tell slip. Drive the test again.")
    checks: tuple[Callable[[], tuple[Fault | None, str]], ...] = (
        lambda: _slip(driven), lambda: _spin(driven), lambda: _drag(log), lambda: _rattle(log), lambda: _mount(log), lambda: _judder(log),
    )  # fmt: skip
    results = [check() for check in checks]
    faults = tuple(fault for fault, _ in results if fault)
    return RoadTestVerdict(faults or ("healthy",), tuple(words for _, words in results), tuple(driven))


def _slip(driven: Sequence[Stretch]) -> tuple[Fault | None, str]:
    full = [s for s in driven if s.full_load]
    light = [s for s in driven if not s.full_load]
    worst = max(full, key=lambda s: s.slip_percent - s.uncertainty_percent)
    told = (
        f"Slip at full throttle in gear {worst.gear}, {worst.start_s:g} to {worst.end_s:g} s: {worst.slip_percent:.1f} % "
        f"± {worst.uncertainty_percent:.1f} %"
    )
    if worst.slips and not any(s.slips for s in light):
        return "slip", f"{told}, more than its uncertainty; with a light foot there is none."
    if worst.slips:
        return None, f"{told}, but the light stretches show it too: a ratio or the tyre is wrong, not the clutch."
    return None, f"{told}: no slip to be seen."


def _spin(driven: Sequence[Stretch]) -> tuple[Fault | None, str]:
    worst = max(driven, key=lambda s: s.spin_percent)
    told = f"Driven wheels at most {worst.spin_percent:.1f} % ahead of the others, in gear {worst.gear}"
    if worst.spin_percent > SPIN_PERCENT:
        return "wheel spin", f"{told}: they spin. Engine and driven wheels keep their ratio, so the clutch holds."
    return None, f"{told}: they grip."


def _drag(log: Log) -> tuple[Fault | None, str]:
    fastest = 0.0
    for held, run in groupby(log.samples, key=lambda s: s.pedal_pct >= 95 and s.gear > 0 and s.throttle_pct < 5):
        part = list(run)
        if held and part[0].speed_km_h < CREEP_KMH:
            fastest = max(fastest, *(s.speed_km_h for s in part))
    told = f"Pedal down, first gear, level ground: fastest {fastest:.1f} km/h"
    return ("drag", f"{told}: the plate is not free.") if fastest > CREEP_KMH else (None, f"{told}: the plate is free.")


def _rattle(log: Log) -> tuple[Fault | None, str]:
    standing = [s for s in log.samples if s.gear == 0 and s.speed_km_h == 0]
    up = fmean(s.vibration_g for s in standing if s.pedal_pct < 5)
    down = fmean(s.vibration_g for s in standing if s.pedal_pct > 95)
    told = f"Neutral, idle: {up:.3f} g with the pedal up, {down:.3f} g with it down"
    if up > ROUGH_G and up > RATTLE_TIMES * down:
        return "damper rattle", f"{told}: it goes with the turning gearbox input."
    return None, f"{told}: no rattle."


def _mount(log: Log) -> tuple[Fault | None, str]:
    lines = log.samples
    closed = [s.vibration_g for s in lines if s.gear > 1 and s.pedal_pct < 5]
    jumps = [
        i for i in range(1, len(lines) - 3)
        if abs(lines[i].throttle_pct - lines[i - 1].throttle_pct) > 30 and lines[i].gear > 1 and lines[i].gear == lines[i - 1].gear
        and max(lines[i].pedal_pct, lines[i - 1].pedal_pct) < 5
    ]  # fmt: skip
    if not jumps:
        return None, "The throttle was never moved suddenly in gear: mounts not tested."
    thump = median(max(lines[i + k].vibration_g for k in range(3)) for i in jumps) - median(closed)
    told = f"After {len(jumps)} sudden changes of load the shake rises by {thump:.3f} g"
    return (
        ("worn mount", f"{told} and fades: the engine moves in its mounts.")
        if thump > ROUGH_G
        else (None, f"{told}: no thump.")
    )


def _judder(log: Log) -> tuple[Fault | None, str]:
    moving = [s.vibration_g for s in log.samples if s.gear == 1 and 15 < s.pedal_pct < 80]
    level = fmean(moving) if moving else 0.0
    if level <= ROUGH_G:
        return None, f"Moving off: {level:.3f} g: smooth."
    kind, told = judder_kind(log.shake, SHAKE_HZ)
    words = {
        "judder from geometry": "It comes once a turn of slip: something is not true.",
        "judder from friction": "Its frequency stays while the slip falls: grabbing friction shakes the driveline.",
    }
    return kind, f"Moving off: {level:.3f} g. {told}. {words[kind]}"


def judder_kind(shake: Sequence[Shake], rate_hz: float) -> tuple[Fault, str]:
    """Return which judder a move-off shows, whatever its size, and the two heights that decide it."""
    low, high = JUDDER_BAND_HZ
    steady_hz, steady = max(orders_of(shake, "time", rate_hz, low=low, high=high, step=0.25), key=lambda p: p[1])
    order, turning = max(orders_of(shake, "slip", rate_hz, low=0.8, high=1.2, step=0.02), key=lambda p: p[1])
    told = f"Steady at {steady_hz:.1f} Hz: {steady:.3f} g; order {order:.2f} of the slip: {turning:.3f} g"
    return ("judder from geometry" if turning > steady else "judder from friction"), told


def spectrum(log: Log, reference: Reference, *, low: float, high: float, step: float) -> list[tuple[float, float]]:
    """Return (order, amplitude [g]) of the move-off, counted in turns of the reference; in Hz for "time".

    Parameters
    ----------
    reference : str
        "time", "slip" (engine less input), "engine" or "input".
    low, high, step : float
        Orders (Hz for "time") to work out, at most 1000 of them.

    Source
    ------
    derived
    """
    return orders_of(log.shake, reference, SHAKE_HZ, low=low, high=high, step=step)


def orders_of(
    shake: Sequence[Shake], reference: Reference, rate_hz: float, *, low: float, high: float, step: float
) -> list[tuple[float, float]]:
    """Return (order, amplitude [g]) of a move-off sampled so many times a second; the rest as for `spectrum`."""
    if not (step > 0 and 0 <= low <= high and (high - low) / step <= 1000):
        raise BadData(
            f"Orders from {low:g} to {high:g} in steps of {step:g} cannot be worked out. Give 1 to 1000 orders."
        )
    turned = list(accumulate(_turns(shake, reference, rate_hz)))
    middle = fmean(s.vibration_g for s in shake)
    signal = [s.vibration_g - middle for s in shake]
    found = []
    for i in range(int((high - low) / step + 1e-9) + 1):
        order = low + i * step
        angles = [2 * pi * order * t for t in turned]
        across = sum(g * cos(a) for g, a in zip(signal, angles, strict=True))
        along = sum(g * sin(a) for g, a in zip(signal, angles, strict=True))
        found.append((order, 2 * hypot(across, along) / len(signal)))
    return found


def _turns(shake: Sequence[Shake], reference: Reference, rate_hz: float) -> list[float]:
    """Return turns of the reference in each sample of the fast record."""
    rpm: dict[str, Callable[[Shake], float]] = {
        "time": lambda s: 60.0,
        "slip": lambda s: max(0.0, s.engine_rpm - s.input_rpm),
        "engine": lambda s: s.engine_rpm,
        "input": lambda s: s.input_rpm,
    }
    if reference not in rpm:
        raise BadData(f"There is no reference {reference!r}. Choose one of {', '.join(rpm)}.")
    return [rpm[reference](s) / 60 / rate_hz for s in shake]
