"""A road-test log put into a job: judged for its car, kept with the columns that were judged and no other, under a neutral name."""

import json
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path

from bitepoint.errors import BadInput, NotRecorded
from bitepoint.job.events import RoadTest
from bitepoint.job.reading import read_job
from bitepoint.job.recording import record
from bitepoint.job.state import ROAD_TESTS, JobEntry
from bitepoint.logbook.one_step import write_new, write_together
from bitepoint.workshop.own_log import OwnLog, judge_log, propose_map, read_log, read_map, result_json

_KEPT = {
    "time": ("t_s", "s"),
    "engine": ("engine_rpm", "rpm"),
    "speed": ("speed_km_h", "km/h"),
    "gear": ("gear", ""),
    "throttle": ("throttle_pct", "%"),
    "vibration": ("vibration_g", "g"),
}
_STATED = ("fixed_gear", "engine_u_percent", "speed_u_percent", "speed_delay_s")


def propose_for(log: Path) -> tuple[Path, Sequence[str]]:
    """Write a proposed column map beside a log and return it with what a person must decide; one that is there stays.

    Raises
    ------
    BadInput
        The log is no table, or the map is there already or cannot be written.
    """
    target = log.with_name(f"{log.stem}.map.toml")
    proposal = propose_map(log)
    try:
        write_new(target, proposal.text)
    except FileExistsError:
        raise BadInput(f"{target} is there already. Compare it with the log, then: --map {target}") from None
    except OSError as error:
        raise BadInput(
            f"{target} cannot be written ({error.strerror}). Copy the log to a folder of your own."
        ) from None
    return target, proposal.questions


def road_test(
    folder: Path,
    log: Path,
    column_map: Path,
    *,
    gear: int | None = None,
    part: tuple[float, float] | None = None,
    by: str = "",
) -> JobEntry:
    """Judge a road-test log for the job's car and record the result.

    Raises
    ------
    BadInput
        Log or map cannot be used, as `read_log` and `judge_log`.
    NotRecorded
        The folder cannot be written.
    """
    v = read_job(folder).vehicle
    content = _content(log)
    digest = sha256(content).hexdigest()
    name = f"road-test-{digest[:8]}"
    try:
        read = read_log(content, read_map(column_map), name=f"{name}.csv")
    except BadInput as error:
        # The log's own name may tell whose car it is: it is in the message, and not in the record.
        raise BadInput(str(error).replace(f"{name}.csv", log.name)) from None
    result = judge_log(v, read, gear=gear, part=part)
    kept, its_map = f"{ROAD_TESTS}/{name}.csv", f"{ROAD_TESTS}/{name}.map.toml"
    try:
        (folder / ROAD_TESTS).mkdir(exist_ok=True)
        write_together({folder / kept: _copy(read), folder / its_map: _map_of(read)})
    except OSError as error:
        raise NotRecorded(
            f"The road test was not recorded: {folder / ROAD_TESTS} cannot be written ({error.strerror}). Make room, then try again."
        ) from None
    event = RoadTest(
        name=f"{name}.csv",
        log_sha256=digest,
        words=result.words,
        result=result_json(result),
        log=kept,
        map=its_map,
        by=by,
    )
    return record(folder, event)


def _content(log: Path) -> bytes:
    try:
        if log.stat().st_size > 64_000_000 or not log.is_file():
            raise BadInput(f"{log.name}: is no file, or larger than 64 MB. Cut the log to the drive itself.")
        return log.read_bytes()
    except OSError as error:
        raise BadInput(f"{log.name}: cannot be read ({error.strerror}). Check where the log lies.") from None


def _copy(log: OwnLog) -> bytes:
    """Return the channels that were read, and nothing else that the file held, such as a position."""
    there = {name: getattr(log, field) for name, (field, _) in _KEPT.items() if len(getattr(log, field))}
    rows = zip(*there.values(), strict=True)
    return "\n".join([",".join(there), *(",".join(f"{value:.6g}" for value in row) for row in rows), ""]).encode(
        "ascii"
    )


def _map_of(log: OwnLog) -> bytes:
    stated = {key: value for key in _STATED if (value := getattr(log.map, key)) is not None}
    keys = {"confirmed": True, "separator": ",", "decimal": ".", "header": 1, "first": 2, "encoding": "utf-8", **stated}
    lines = [f"{key} = {json.dumps(value)}" for key, value in keys.items()]
    for name, (field, unit) in _KEPT.items():
        if len(getattr(log, field)):
            lines += ["", f"[{name}]", f'column = "{name}"', *([f'unit = "{unit}"'] if unit else [])]
    return "\n".join([*lines, ""]).encode("utf-8")
