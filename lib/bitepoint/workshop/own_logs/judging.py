"""The verdict on a log of one's own, as a record keeps and prints it."""

import msgspec
from msgspec import Struct

from bitepoint.errors import BadInput, BitepointError
from bitepoint.workshop.own_logs.log_map import LogMap
from bitepoint.workshop.own_logs.moving_off import ShakeFinding, moving_off
from bitepoint.workshop.own_logs.reading import OwnLog
from bitepoint.workshop.own_logs.slip import SlipFinding, slip_of
from bitepoint.workshop.vehicles import Vehicle

CAUTION = "A log supports a finding and is none. The vehicle's repair data and local rules come first; whoever answers for the work decides."
_SHORT_OF_TORQUE, _OF_IDLE, _OF_LIMITER = 0.9, 0.8, 1.5


class OwnLogResult(Struct, frozen=True):
    """What a log says of a vehicle in a gear: findings, words to print, the map that was used, the digest of the file (SHA-256).

    `figures` is the digest over the figures of an own sheet, "" for a training vehicle.
    """

    name: str
    digest: str
    vehicle: str
    figures: str
    gear: int
    map: LogMap
    rows: int
    duration_s: float
    read: tuple[str, ...]
    slip: SlipFinding
    shake: ShakeFinding | None
    words: tuple[str, ...]


def judge_log(
    vehicle: Vehicle, log: OwnLog, *, gear: int | None = None, part: tuple[float, float] | None = None
) -> OwnLogResult:
    """Return the verdict on a log.

    Parameters
    ----------
    vehicle : Vehicle
        The data sheet: ratios, tyre, gear of the slip test.
    log : OwnLog
        As read by `read_log`.
    gear : int, optional
        Gear of the test; the map's fixed gear, else the sheet's when left out.
    part : (float, float), optional
        Seconds from the beginning of the log between which the test was driven.

    Raises
    ------
    BadInput
        The gear is none of the sheet's, the part lies outside the log, or the sheet lacks a figure that is needed.
    """
    try:
        ratios = len(vehicle.gearbox.ratios)
        gear = gear or log.map.fixed_gear or vehicle.gearbox.slip_test_gear
        if isinstance(gear, bool) or not isinstance(gear, int) or not 1 <= gear <= ratios:
            raise BadInput(
                f"gear must be one of the sheet's, 1 to {ratios}, but you gave {gear!r}. Look at the gearbox."
            )
        _check_part(log, part)
        _check_engine(vehicle, log)
        slip = slip_of(vehicle, log, gear, part)
        shake = moving_off(vehicle, log)
        words = _words(vehicle, log, gear, slip, shake)
    except BadInput:
        raise
    except BitepointError as error:
        raise BadInput(f"{log.name}: {error}") from None
    return OwnLogResult(
        log.name,
        log.digest,
        vehicle.id,
        vehicle.figures,
        gear,
        log.map,
        log.rows,
        log.t_s[-1],
        log.said,
        slip,
        shake,
        words,
    )


def _check_part(log: OwnLog, part: tuple[float, float] | None) -> None:
    if part and not (0 <= part[0] < part[1] and part[0] < log.t_s[-1]):
        told = f"part must be two times within the log's {log.t_s[-1]:.4g} s, but you gave {part[0]:g} to {part[1]:g} s"
        raise BadInput(f"{told}. Count from the first row.")


def _check_engine(v: Vehicle, log: OwnLog) -> None:
    fastest = max(log.engine_rpm)
    told = f"{log.name}: the engine's {fastest:.0f} rpm at most"
    if fastest < _OF_IDLE * v.engine.idle_rpm:
        raise BadInput(
            f"{told} never reaches the sheet's idle, {v.engine.idle_rpm:g} rpm. Check the unit of the engine speed in the map."
        )
    if fastest > _OF_LIMITER * v.engine.limiter_rpm:
        raise BadInput(
            f"{told} is beyond the sheet's limiter, {v.engine.limiter_rpm:g} rpm. Check the unit of the engine speed in the map."
        )


def _words(v: Vehicle, log: OwnLog, gear: int, slip: SlipFinding, shake: ShakeFinding | None) -> tuple[str, ...]:
    lines = [f"Slip in gear {gear}: {slip.outcome}. {_sentence(slip.decides)}"]
    if slip.pull:
        p = slip.pull
        lines.append(
            f"Pull {p.start_s:.1f} to {p.end_s:.1f} s: engine {p.engine_rpm:.0f} rpm, road {p.speed_km_h:.1f} km/h, "
            f"slip {p.slip_percent:.1f} % ± {p.uncertainty_percent:.1f} %."
        )
        late = 10 * p.gain_km_h_s / p.speed_km_h
        lines.append(f"Each 0.1 s by which the road speed is read late looks like {late:.1f} % of slip in this pull.")
        lines += _cautions(v, log, slip)
    if slip.light:
        s = slip.light
        fits = f"gear {slip.gear_found} fits" if slip.gear_found else "no gear fits to 4 %"
        told = f"{s.slip_percent:.1f} % ± {s.uncertainty_percent:.1f} %; {fits}"
        lines.append(f"Light foot {s.start_s:.1f} to {s.end_s:.1f} s: {told}.")
    if shake:
        lines.append(f"Moving off: {shake.outcome}. {_sentence(shake.decides)}")
        if shake.resampled:
            lines.append(
                f"The times are uneven or very close: worked out at an even {shake.rate_hz:.0f} rows a second."
            )
    return (*lines, CAUTION)


def _cautions(v: Vehicle, log: OwnLog, slip: SlipFinding) -> list[str]:
    found = []
    if not log.throttle_pct:
        found.append(
            "No column says the throttle: the strongest pull was taken for full load. The driver must say that it was."
        )
    if not log.gear and not log.map.fixed_gear:
        found.append("No column says the gear: rows were taken for it by their speeds.")
    if slip.pull and slip.pull.top_rpm < _SHORT_OF_TORQUE * v.engine.max_torque_rpm:
        found.append(
            f"The pull ended at {slip.pull.top_rpm:.0f} rpm, short of the sheet's greatest torque at {v.engine.max_torque_rpm:g} rpm."
        )
    if log.map.engine_u_percent is None or log.map.speed_u_percent is None:
        found.append("What the instruments are worth was not stated and is not in the uncertainty of a single stretch.")
    return found


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def result_json(result: OwnLogResult) -> str:
    """Return the result as one line of JSON, as a record keeps it."""
    return msgspec.json.encode(result).decode()


def result_from(text: str) -> OwnLogResult:
    """Return the result that a record kept.

    Raises
    ------
    BadInput
        It is no such result.
    """
    try:
        return msgspec.json.decode(text, type=OwnLogResult)
    except (msgspec.MsgspecError, ValueError, RecursionError) as error:
        raise BadInput(f"The result of a road test cannot be read ({str(error)[:100]}). Judge the log again.") from None
