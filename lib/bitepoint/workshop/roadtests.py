"""The road-test logs: those that come with the course, made by one command, and those that are simulated when asked for.

Which logs are stored stands in road-tests/recipes.csv; another folder of data files may add its own. The names say
the vehicle, not what is wrong. `python -m bitepoint.workshop.roadtests` writes the shipped ones, two files each.

Any other number up to 999, such as "b-417", is a log too: simulated when asked for, its fault drawn from the number.
So every question can have a log of its own, whatever the vehicle, and whoever knows its name can open it again.
"""

from collections.abc import Callable, Iterator
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path
from typing import Annotated

import msgspec
from msgspec import Meta

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.reading import StrictStruct, broken, check_unique, csv_rows
from bitepoint.workshop.roadtest_files import read_log, written
from bitepoint.workshop.simulator import FAULTS, Fault, Log, simulate
from bitepoint.workshop.vehicles import vehicle, vehicles

FOLDER = "road-tests"
MOST_NUMBER = 999
_WHAT = "list of road tests"
_MOST_KEPT = 64
"""Logs of a set of data files that are kept in memory at a time; a log takes about a third of a megabyte."""
_FAULT_OF: dict[str, Fault] = {
    str(n): FAULTS[blake2b(f"road test {n}".encode(), digest_size=1).digest()[0] % len(FAULTS)]
    for n in range(1, MOST_NUMBER + 1)
}
"""What is wrong in the simulated log of each number, the same for every vehicle."""


class Recipe(StrictStruct, frozen=True):
    """What a stored log is simulated from. Its number has at most two figures: questions draw from the longer ones."""

    name: Annotated[str, Meta(pattern=r"^[a-z0-9]+-[0-9]{1,2}$")]
    vehicle: str
    fault: Fault
    seed: int


@once_a_set
def stored() -> dict[str, Recipe]:
    """Return the recipe of every stored log by its name.

    Raises
    ------
    BadData
        Names the file, the line and the rule.
    """
    found: dict[str, Recipe] = {}
    for path in data_files().paths(f"{FOLDER}/recipes.csv"):
        rows = read_recipes(path)
        check_unique(path, "name", [*found, *(row.name for row in rows)])
        found |= {row.name: row for row in rows}
    return found


def read_recipes(path: Path) -> list[Recipe]:
    """Read a list of recipes: name, vehicle, fault, seed.

    Raises
    ------
    BadData
        Names the file, the line and the rule.
    """
    return [_recipe(path, line, row) for line, row in csv_rows(path, what=_WHAT)]


def _recipe(path: Path, line: int, row: dict[str, str]) -> Recipe:
    try:
        found = msgspec.convert(row, type=Recipe, strict=False)
    except msgspec.ValidationError as error:
        raise broken(path, f"line {line}", str(error), what=_WHAT) from None
    if found.vehicle not in vehicles():
        rule = f"vehicle must be one of {', '.join(vehicles())}, but is {found.vehicle[:20]!r}"
        raise broken(path, f"line {line}", rule, what=_WHAT)
    return found


def names() -> list[str]:
    """Return the names of all stored logs."""
    return sorted(stored())


def road_test(name: str) -> Log:
    """Return the log with this name: read from its two files, or simulated if it is none of those.

    Raises
    ------
    BadData
        There is no such log, or a file of it breaks a rule.
    """
    return _logs()(name)


@once_a_set
def _logs() -> Callable[[str], Log]:
    return lru_cache(maxsize=_MOST_KEPT)(_read_or_simulated)


def _read_or_simulated(name: str) -> Log:
    letter, fault, seed = recipe(name)
    if name not in stored():
        return simulate(vehicle(letter), fault, seed=seed)
    files = data_files()
    return read_log(files.path(f"{FOLDER}/{name}.csv"), files.path(f"{FOLDER}/{name}-shake.csv"))


def recipe(name: str) -> tuple[str, Fault, int]:
    """Return vehicle, fault and seed of a log.

    Raises
    ------
    BadData
        There is no such log.
    """
    if name in stored():
        row = stored()[name]
        return row.vehicle, row.fault, row.seed
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
    own = _numbers(fault)
    return f"{letter.casefold()}-{own[nth % len(own)]}"


def logs_with(letter: str, fault: Fault) -> list[str]:
    """Return the names of all simulated logs of this vehicle with this fault."""
    return [f"{letter.casefold()}-{number}" for number in _numbers(fault)]


def first_log(letter: str, fault: Fault) -> str:
    """Return the name of the first stored log of this vehicle with this fault, of a simulated one where none is stored."""
    own = (row.name for row in stored().values() if (row.vehicle, row.fault) == (letter, fault))
    return next(own, log_with(letter, fault, 0))


@lru_cache(maxsize=len(FAULTS))
def _numbers(fault: Fault) -> list[str]:
    return [number for number, drawn in _FAULT_OF.items() if drawn == fault and int(number) >= 100]


def files() -> Iterator[tuple[str, str]]:
    """Yield name and text of every file that the command writes."""
    for name, row in sorted(stored().items()):
        log = simulate(vehicle(row.vehicle), row.fault, seed=row.seed)
        yield f"{name}.csv", written(row.vehicle, log.samples)
        yield f"{name}-shake.csv", written(row.vehicle, log.shake)


def write_logs(folder: Path) -> int:
    """Write every log into a folder; return how many files."""
    folder.mkdir(parents=True, exist_ok=True)
    made = list(files())
    for name, text in made:
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return len(made)


if __name__ == "__main__":
    print(f"{write_logs(places.assets() / FOLDER)} files written.")
