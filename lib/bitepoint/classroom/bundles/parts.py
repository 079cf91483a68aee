"""What the course needs to run, down to the last package, as it is installed here."""

import re
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

from msgspec import Struct

from bitepoint import places
from bitepoint.errors import CannotRun

COURSE = "bitepoint"


class RunTimePart(Struct, frozen=True):
    """An installed package: its name, and who asks for which versions of it."""

    name: str
    asked_by: dict[str, str]

    @property
    def installed(self) -> Distribution:
        """The package as Python finds it installed."""
        return distribution(self.name)


def plain(name: str) -> str:
    """Return a package's name in the one spelling by which names are compared."""
    return re.sub(r"[-_.]+", "-", name).lower()


def run_time_parts() -> list[RunTimePart]:
    """Return every package that the course needs on this computer, sorted by name, without the course itself.

    Raises
    ------
    CannotRun
        One is not installed.
    """
    asked: dict[str, dict[str, str]] = defaultdict(dict)
    extras: dict[str, set[str]] = {COURSE: {""}}
    waiting = [COURSE]
    while waiting:
        name = waiting.pop()
        for wanted, versions, more in _asked_for(name, extras[name]):
            asked[wanted][name] = versions
            if not {"", *more} <= extras.get(wanted, set()):
                extras.setdefault(wanted, set()).update({"", *more})
                waiting.append(wanted)
    return [RunTimePart(name, dict(sorted(by.items()))) for name, by in sorted(asked.items()) if name != COURSE]


def _asked_for(name: str, extras: set[str]) -> Iterator[tuple[str, str, set[str]]]:
    """Yield name, versions and extras of what a package asks for on this computer."""
    from packaging.requirements import Requirement

    try:
        lines = _of_checkout() if name == COURSE and places.checkout() else distribution(name).requires or []
    except PackageNotFoundError:
        raise CannotRun(
            f"{name} is not installed here, and the course needs it. Next: bitepoint check-machine"
        ) from None
    for line in lines:
        wanted = Requirement(line)
        if wanted.marker is None or any(wanted.marker.evaluate({"extra": extra}) for extra in extras):
            yield plain(wanted.name), str(wanted.specifier), wanted.extras


def _of_checkout() -> list[str]:
    """Return what the course asks for where it runs from a checkout: what was installed may say what it asked for before."""
    found = tomllib.loads(((places.checkout() or Path()) / "pyproject.toml").read_text(encoding="utf-8"))
    return list(found["project"]["dependencies"])


def least_python(parts: list[RunTimePart], mine: tuple[int, int, int]) -> str:
    """Return the oldest Python of this minor version that every package takes, at most this one."""
    from packaging.specifiers import SpecifierSet

    asked = [SpecifierSet((part.installed.metadata.get_all("Requires-Python") or [""])[0]) for part in parts]
    major, minor, micro = mine
    candidates = (f"{major}.{minor}.{older}" for older in range(micro))
    return next((least for least in candidates if all(least in one for one in asked)), f"{major}.{minor}.{micro}")
