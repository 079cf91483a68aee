"""The road-test logs that come with the course: made by one command, read and checked here.

`python -m bitepoint.workshop.roadtests` writes them all into assets/road-tests: NAME.csv, ten lines a second, and
NAME-shake.csv, the move-off at 200 lines a second. The names say the vehicle, not what is wrong.

Any other number up to 999, such as "b-417", is a log too: simulated when asked for, its fault drawn from the number.
So every question can have a log of its own, and whoever knows its name can open it again.
"""

import csv
from collections.abc import Iterator, Sequence
from functools import lru_cache
from hashlib import blake2b
from math import isfinite
from pathlib import Path
from typing import TypeVar

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop.drive_script import STEP_S
from bitepoint.workshop.simulator import FAULTS, SHAKE_HZ, Fault, Log, Sample, Shake, simulate
from bitepoint.workshop.vehicles import FRAME, vehicle, vehicles

Line = TypeVar("Line", Sample, Shake)

RECIPES: dict[str, tuple[str, Fault, int]] = {
    "a-1": ("A", "slip", 11),
    "a-2": ("A", "worn mount", 12),
    "a-3": ("A", "healthy", 13),
    "a-4": ("A", "drag", 14),
    "b-1": ("B", "judder from geometry", 21),
    "b-2": ("B", "wheel spin", 22),
    "b-3": ("B", "damper rattle", 23),
    "b-4": ("B", "healthy", 24),
    "b-5": ("B", "slip", 25),
    "b-6": ("B", "judder from friction", 26),
    "b-7": ("B", "drag", 27),
    "b-8": ("B", "worn mount", 28),
    "c-1": ("C", "damper rattle", 31),
    "c-2": ("C", "healthy", 32),
    "c-3": ("C", "judder from geometry", 33),
    "c-4": ("C", "slip", 34),
    "d-1": ("D", "healthy", 41),
    "d-2": ("D", "wheel spin", 42),
    "d-3": ("D", "judder from friction", 43),
    "d-4": ("D", "slip", 44),
}
"""Vehicle, fault and seed of every log that comes with the course."""
RANGES = {
    "t_s": (0, 600), "engine_rpm": (300, 12_000), "speed_km_h": (-5, 350), "driven_wheel_km_h": (-5, 350),
    "pedal_pct": (0, 100), "throttle_pct": (0, 100), "gear": (0, 8), "input_rpm": (0, 12_000),
}  # fmt: skip
LARGEST_G = {Sample: (0, 20), Shake: (-20, 20)}
MOST_BYTES = 4_000_000
MOST_NUMBER = 999
_FAULT_OF: dict[str, Fault] = {
    str(n): FAULTS[blake2b(f"road test {n}".encode(), digest_size=1).digest()[0] % len(FAULTS)]
    for n in range(1, MOST_NUMBER + 1)
}
"""What is wrong in the simulated log of each number, the same for every vehicle."""


def names() -> list[str]:
    """Return the names of all logs."""
    return sorted(RECIPES)


@lru_cache(maxsize=64)
def road_test(name: str) -> Log:
    """Return the log with this name: read from its two files, or simulated if it is none of those.

    Raises
    ------
    BadData
        There is no such log, or a file of it breaks a rule.
    """
    letter, fault, seed = recipe(name)
    if name not in RECIPES:
        return simulate(vehicle(letter), fault, seed=seed)
    folder = places.assets() / "road-tests"
    return read_log(folder / f"{name}.csv", folder / f"{name}-shake.csv")


def recipe(name: str) -> tuple[str, Fault, int]:
    """Return vehicle, fault and seed of a log.

    Raises
    ------
    BadData
        There is no such log.
    """
    if name in RECIPES:
        return RECIPES[name]
    letter, _, number = str(name).partition("-")
    known = {v.casefold(): v for v in vehicles()}
    if letter not in known or number not in _FAULT_OF:
        raise BadData(
            f"There is no road test {str(name)[:40]!r}. Choose one of {', '.join(names())}, "
            f"or one of {', '.join(known)} with a number up to {MOST_NUMBER}, such as b-417."
        )
    return known[letter], _FAULT_OF[number], int(number)


def log_with(letter: str, fault: Fault, nth: int) -> str:
    """Return the name of a simulated log of this vehicle with this fault; `nth` counts them, from 0, and goes round."""
    own = [number for number, drawn in _FAULT_OF.items() if drawn == fault and int(number) >= 100]
    return f"{letter.casefold()}-{own[nth % len(own)]}"


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


def files() -> Iterator[tuple[str, str]]:
    """Yield name and text of every file that the command writes."""
    for name, (letter, fault, seed) in sorted(RECIPES.items()):
        log = simulate(vehicle(letter), fault, seed=seed)
        yield f"{name}.csv", _written(letter, log.samples)
        yield f"{name}-shake.csv", _written(letter, log.shake)


def _written(letter: str, lines: Sequence[Sample] | Sequence[Shake]) -> str:
    fields = lines[0].__struct_fields__
    rows = [",".join(f"{getattr(line, name):g}" for name in fields) for line in lines]
    return "\n".join([f"# {FRAME}", f"# training vehicle {letter}", ",".join(fields), *rows, ""])


def write_logs(folder: Path) -> int:
    """Write every log into a folder; return how many files."""
    folder.mkdir(parents=True, exist_ok=True)
    made = list(files())
    for name, text in made:
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return len(made)


if __name__ == "__main__":
    print(f"{write_logs(places.assets() / 'road-tests')} files written.")
