"""Looks: a person read changed words of a released question and found that they mean the same. Kept where a reviewer sees it."""

import datetime
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.workshop.reading import read_toml


class Look(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Who found on which day, and why, that these words of a question mean what the released ones meant."""

    exercise: str
    revision: int
    words: str
    by: str
    why: str
    date: datetime.date


class _File(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    look: tuple[Look, ...] = ()


def read_looks(path: Path) -> tuple[Look, ...]:
    """Read the looks, none where there is no file.

    Raises
    ------
    BadData
        Names the file and what is wrong with it.
    """
    return read_toml(path, _File, what="list of looks").look if path.exists() else ()


def newest(looks: tuple[Look, ...]) -> dict[tuple[str, int], str]:
    """Return the digest of the words looked at last, by exercise and revision."""
    return {(look.exercise, look.revision): look.words for look in looks}


def add_look(path: Path, look: Look) -> None:
    """Add a look at the end of the file.

    Raises
    ------
    BadInput
        Nobody is named, or no reason is given.
    """
    for name, text in (("--by", look.by), ("--why", look.why)):
        if not text.strip() or len(text) > 200 or not text.isprintable():
            raise BadInput(f"{name} must be one line of 1 to 200 characters.")
    rows = [
        "",
        "[[look]]",
        *(f"{name} = {msgspec.json.encode(getattr(look, name)).decode('utf-8')}" for name in ("exercise", "revision")),
        f'words = "{look.words}"',
        *(f"{name} = {msgspec.json.encode(getattr(look, name)).decode('utf-8')}" for name in ("by", "why")),
        f"date = {look.date.isoformat()}",
        "",
    ]
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("a", encoding="utf-8", newline="\n") as file:
        file.write("\n".join(rows))
