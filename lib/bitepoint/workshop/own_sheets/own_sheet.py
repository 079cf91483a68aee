"""An own sheet as a file: the vehicle, who entered it from which document, and who checked it against that document."""

import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
from msgspec import Struct

from bitepoint.errors import BadData, BadInput
from bitepoint.workshop.own_sheets.filling import fill
from bitepoint.workshop.people import same_person
from bitepoint.workshop.sheet_rules import FORM, broken_rules
from bitepoint.workshop.sheets import Vehicle

_LONGEST = 200_000
_PEOPLE = ("entered", "checked", "answered")
_LINE = 120
_DEVICES = {"CON", "PRN", "AUX", "NUL", *(f"{port}{n}" for port in ("COM", "LPT") for n in range(10))}
"""Windows opens a device where a file has such a name, whatever its ending (from memory)."""


class Entered(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Who entered the figures, from which document of the vehicle's repair data, which pages, and when."""

    by: str
    document: str
    pages: str
    date: datetime.date


class SheetCheck(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Who compared every figure with the document, when, and the digest of the figures that were compared."""

    by: str
    date: datetime.date
    figures: str


class Answered(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A figure that was questioned and stands in the document as it was entered: which key, who looked, what was found."""

    key: str
    by: str
    why: str


class OwnSheet(Struct, frozen=True, kw_only=True):
    """A vehicle entered by a college.

    `figures` is the digest over all that is entered; `checked` is None until a second person has checked those figures,
    and again when one of them was changed since.
    """

    vehicle: Vehicle
    entered: Entered
    checked: SheetCheck | None
    answered: tuple[Answered, ...]
    figures: str
    changed_since: bool = False

    @property
    def missing(self) -> tuple[str, ...]:
        """Keys of the figures that must be looked up."""
        return self.vehicle.missing

    @property
    def stamp(self) -> str:
        """What stands across every page until a second person has checked the figures; "" after that."""
        return "" if self.checked else "NOT CHECKED"


def is_own_sheet(path: Path) -> bool:
    """Whether a file is an own sheet: it says who entered it."""
    try:
        with path.open("rb") as file:
            return b"[entered]" in file.read(_LONGEST)
    except OSError:
        return False


def read_own_sheet(path: Path) -> OwnSheet:
    """Read an own sheet.

    Raises
    ------
    BadData
        Names the file, the key and what to do.
    """
    if path.exists() and not path.is_file():
        raise BadData(f"{path.name}: is a folder, a pipe or a device, not a file. Name the file of the sheet.")
    try:
        with path.open("rb") as file:
            content = file.read(_LONGEST + 1)
    except OSError as error:
        raise BadData(f"{path.name}: cannot be read ({error.strerror}). Check where it lies.") from None
    try:
        return own_sheet_from(content)
    except BadInput as error:
        raise BadData(f"{path.name}: {error}") from None


def check_checked(path: Path) -> OwnSheet:
    """Return an own sheet that a second person has checked.

    Raises
    ------
    BadData
        It cannot be read.
    BadInput
        Nobody has checked it, or a figure was changed since.
    """
    sheet = read_own_sheet(path)
    if not sheet.checked:
        why = "a figure was changed since it was checked" if sheet.changed_since else "no second person has checked it"
        raise BadInput(
            f"{path.name} is NOT CHECKED: {why}. Let a second person compare it with {sheet.entered.document}, then: "
            f'bitepoint vehicle check {path} --checked-by "NAME"'
        )
    return sheet


def own_sheet_from(content: bytes) -> OwnSheet:
    """Return the own sheet in a text.

    Raises
    ------
    BadInput
        Names the key and what to do.
    """
    raw = decode(content)
    people = {key: raw.pop(key, None) for key in _PEOPLE}
    if people["entered"] is None:
        raise BadInput("[entered] is missing: who entered the figures, from which document, pages, date.")
    entered = _part(people["entered"], Entered, "entered")
    figures = figures_digest(raw)
    # Exercises about wrench dates and labels need a day on which the job is done.
    found, _ = fill({"job_date": entered.date.isoformat(), **raw})
    if len(found.id) < 2:
        raise BadInput(f"id must have two to four capitals or digits, such as K7V, but it is {found.id!r}.")
    if found.id in _DEVICES:
        raise BadInput(f"id is {found.id!r}, a name that some computers keep for a device. Choose another.")
    for rule in broken_rules(found, FORM):
        raise BadInput(f"{rule.key}: {rule.says}. Correct that key.")
    checked = _part(people["checked"], SheetCheck, "checked") if people["checked"] is not None else None
    if checked and same_person(checked.by, entered.by):
        raise BadInput(f"checked.by is {checked.by!r}, who entered the figures. A second person must compare them.")
    holds = checked is not None and checked.figures == figures
    return OwnSheet(
        vehicle=msgspec.structs.replace(found, entered_by=entered.by, figures=figures),
        entered=entered,
        checked=checked if holds else None,
        answered=tuple(_part(one, Answered, "answered") for one in _list(people["answered"])),
        figures=figures,
        changed_since=checked is not None and not holds,
    )


def decode(content: bytes) -> dict[str, Any]:
    """Return the keys of a sheet's text.

    Raises
    ------
    BadInput
        It is too long, or no TOML.
    """
    if len(content) > _LONGEST:
        raise BadInput(f"holds more than {_LONGEST // 1000} kB, too much for a sheet.")
    try:
        return msgspec.toml.decode(content.removeprefix(b"\xef\xbb\xbf"), type=dict[str, Any])
    except (msgspec.MsgspecError, ValueError, RecursionError, OverflowError) as error:
        if isinstance(error, UnicodeDecodeError):
            raise BadInput("is not written in UTF-8. Save it again as UTF-8.") from None
        raise BadInput(f"is no valid TOML ({str(error)[:200]}). Correct that line.") from None


def figures_digest(raw: dict[str, Any]) -> str:
    """Return 16 hexadecimal digits over the figures: not over who entered or checked them, nor over comments."""
    figures = {key: value for key, value in raw.items() if key not in _PEOPLE}
    try:
        text = msgspec.json.encode(figures, order="sorted")
    except (TypeError, ValueError, msgspec.MsgspecError) as error:
        raise BadInput(f"holds a value that is no text or number ({str(error)[:80]}).") from None
    return sha256(text).hexdigest()[:16]


def _part(raw: Any, kind: type[Any], key: str) -> Any:
    try:
        found = msgspec.convert(raw, kind, strict=False)
    except msgspec.ValidationError as error:
        raise BadInput(f"[{key}]: {error}. Write it as in the template.") from None
    for name in found.__struct_fields__:
        text = getattr(found, name)
        if isinstance(text, str) and (not text.strip() or len(text) > _LINE or not text.isprintable()):
            raise BadInput(f"{key}.{name} must be one line of 1 to {_LINE} characters, but it is {text[:40]!r}.")
    return found


def _list(raw: Any) -> list[Any]:
    if raw is None:
        return []
    if not isinstance(raw, list):
        raise BadInput("answered must be a list, each begun with [[answered]].")
    return raw
