"""The two files of a road-test log: NAME.csv, ten lines a second, and NAME-shake.csv, the move-off at 200 lines a second."""

import csv
from collections.abc import Sequence
from math import isfinite
from pathlib import Path
from typing import TypeVar

from bitepoint.errors import BadData
from bitepoint.workshop.drive_script import STEP_S
from bitepoint.workshop.simulator import SHAKE_HZ, Log, Sample, Shake
from bitepoint.workshop.vehicles import FRAME, vehicles

Line = TypeVar("Line", Sample, Shake)
RANGES = {
    "t_s": (0, 600), "engine_rpm": (300, 12_000), "speed_km_h": (-5, 350), "driven_wheel_km_h": (-5, 350),
    "pedal_pct": (0, 100), "throttle_pct": (0, 100), "gear": (0, 8), "input_rpm": (0, 12_000),
}  # fmt: skip
LARGEST_G = {Sample: (0, 20), Shake: (-20, 20)}
MOST_BYTES = 4_000_000


def read_log(path: Path, shake_path: Path) -> Log:
    """Read a log and the fast record of its move-off.

    Raises
    ------
    BadData
        Names the file, the line and the rule.
    """
    letter, samples = _read(path, Sample, STEP_S)
    other, shake = _read(shake_path, Shake, 1 / SHAKE_HZ)
    if letter != other:
        raise BadData(
            f"{shake_path.name}: line 2: names training vehicle {other}, but {path.name} names {letter}. Pair them again."
        )
    return Log(letter, tuple(samples), tuple(shake))


def _read(path: Path, kind: type[Line], step_s: float) -> tuple[str, list[Line]]:
    rows = list(csv.reader(_text(path).splitlines()))
    fields = list(kind.__struct_fields__)
    heads = {1: [f"# {FRAME}"], 3: fields}
    for line, wanted in heads.items():
        if len(rows) < line or rows[line - 1] != wanted:
            raise _wrong(path, line, f"must be {','.join(wanted)}")
    letter = ",".join(rows[1])[len("# training vehicle ") :][:1]
    if not ",".join(rows[1]).startswith("# training vehicle ") or letter not in vehicles():
        raise _wrong(path, 2, f"must be '# training vehicle' and one of {', '.join(vehicles())}")
    found = [_line(path, number, row, kind) for number, row in enumerate(rows[3:], start=4)]
    if len(found) < 20:
        raise _wrong(path, len(rows), "must be followed by more; a log has at least 20 lines")
    for number, (before, after) in enumerate(zip(found, found[1:], strict=False), start=5):
        if abs(after.t_s - before.t_s - step_s) > 2e-3:
            raise _wrong(path, number, f"t_s must be {step_s:g} s after the line before")
    return letter, found


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > MOST_BYTES:
            raise BadData(f"{path.name}: must be at most {MOST_BYTES:,} bytes. Cut the log.")
        return path.read_text(encoding="utf-8")
    except OSError as error:
        raise BadData(f"{path.name}: cannot be read ({error.strerror}). Put the log back in its folder.") from None
    except UnicodeDecodeError:
        raise BadData(f"{path.name}: must be text in UTF-8. Save it again.") from None


def _line(path: Path, number: int, row: Sequence[str], kind: type[Line]) -> Line:
    fields = kind.__struct_fields__
    if len(row) != len(fields):
        raise _wrong(path, number, f"must hold {len(fields)} figures, but holds {len(row)}")
    values: dict[str, float] = {}
    for name, text in zip(fields, row, strict=True):
        low, high = LARGEST_G[kind] if name == "vibration_g" else RANGES[name]
        value = _figure(text)
        if value is None or not low <= value <= high or (name == "gear" and value != int(value)):
            raise _wrong(
                path,
                number,
                f"{name} must be {'a whole number' if name == 'gear' else 'a number'} from {low} to {high}, but is {text[:30]!r}",
            )
        values[name] = int(value) if name == "gear" else value
    return kind(**values)  # type: ignore[arg-type]


def _figure(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if isfinite(value) else None


def _wrong(path: Path, line: int, rule: str) -> BadData:
    return BadData(f"{path.name}: line {line}: {rule}. Correct that line or make the logs again.")


def written(letter: str, lines: Sequence[Sample] | Sequence[Shake]) -> str:
    """Return the text of one of the two files."""
    fields = lines[0].__struct_fields__
    rows = [",".join(f"{getattr(line, name):g}" for name in fields) for line in lines]
    return "\n".join([f"# {FRAME}", f"# training vehicle {letter}", ",".join(fields), *rows, ""])
