"""A form as data: its fields, and what keeps the values that were typed; how a typed value is read."""

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import Literal

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.job.findings import reading
from bitepoint.job.state import JobEntry

Typed = Mapping[str, str]
Keep = Callable[[Path, Typed, str], list[JobEntry]]
"""Keeps what was typed in a job's folder, with the reason for what is warned of ("" for none), and returns the entries."""


class FormField(Struct, frozen=True, kw_only=True):
    """A field: a line of text, one of some options, several of them (typed value: one a line), or a tick ("yes", "")."""

    key: str
    label: str
    control: Literal["text", "choice", "several", "tick"] = "text"
    options: tuple[tuple[str, str], ...] = ()
    hint: str = ""


class EntryForm(Struct, frozen=True, kw_only=True):
    """A form for one kind of entry; `says` stands above its fields."""

    key: str
    title: str
    button: str
    fields: tuple[FormField, ...]
    keep: Keep
    says: str = ""


def number(typed: Typed, key: str, unit: str) -> float | None:
    """Return the figure in a field, with or without its unit; None where it is empty.

    Raises
    ------
    BadInput, NotUnderstood
        It is no number, or in another unit.
    """
    text = typed.get(key, "").strip()
    if not text:
        return None
    value, given = reading(text)
    if given not in ("", unit):
        raise BadInput(f"{key} is wanted in {unit}, but you gave {text[:30]!r}.")
    return value


def needed(typed: Typed, key: str, unit: str, name: str) -> float:
    """Return the figure in a field that must have one."""
    value = number(typed, key, unit)
    if value is None:
        raise BadInput(f"{name} is empty. Write it in {unit}.")
    return value


def day(typed: Typed, key: str, name: str) -> date | None:
    """Return the day in a field; None where it is empty.

    Raises
    ------
    BadInput
        It is no day.
    """
    text = typed.get(key, "").strip()
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        raise BadInput(f"{name} is a day written like 2026-01-31, but you gave {text[:30]!r}.") from None


def one(entry: JobEntry) -> list[JobEntry]:
    """Return an entry as the list that a form returns."""
    return [entry]


def plain(typed: Typed, key: str) -> float | None:
    """Return the figure in a field whatever its unit; None where it is empty."""
    text = typed.get(key, "").strip()
    return reading(text)[0] if text else None
