"""What the class agreed on for marking: the pass share, the due date, the criteria to observe."""

from collections.abc import Mapping
from datetime import date, datetime, time
from math import ceil
from pathlib import Path
from typing import Any, Literal
from unicodedata import normalize

import msgspec
from msgspec import Struct

from bitepoint.bank import Exercise, exercises
from bitepoint.bank.coverage import left_out
from bitepoint.errors import BadInput
from bitepoint.logbook.class_keys import check_keys, checked_opening
from bitepoint.logbook.identity import checked_vehicles
from bitepoint.logbook.own_files import FOLDER, use_folder, use_shipped
from bitepoint.logbook.toml_file import MAX_TOML, decode_toml
from bitepoint.marking.reading.files import open_regular, whole
from bitepoint.marking.reading.limits import Counter
from bitepoint.marking.zones import checked_zone, in_zone, said
from bitepoint.questions.draw import STANDARD
from bitepoint.workshop.datafiles import once_a_set

PASS_SHARE = 0.8
APPEAL_DAYS = 10
_FIRST_YEAR, _LAST_YEAR = 2000, 2999


class ClassRules(Struct, frozen=True, kw_only=True):
    """The rules of a class for marking.

    Parameters
    ----------
    pass_share : float
        Share of the exercises (those that are not “Go deeper”) that must be right, above 0 to 1.
    due : datetime or None
        When work should be in, with its zone; None: no date.
    zone : str
        Name of the class's time zone; "" means this computer's, so that another computer may take another moment for due.
    criteria : tuple of str
        What must be observed as done right at the vehicle.
    lessons : tuple of str
        Keys of the lessons that are assessed; none means all.
    supervisor : str
        Who was to supervise the sitting. Whether it was supervised, the register says.
    vehicles : tuple of str
        Letters of the class's cars, in its order.
    retakes : int or None
        How many sittings after the first count in a lesson; None: no number was agreed on.
    counts : str
        Which of several sittings counts: "last" or "best".
    appeal_days : int
        For how many days after the marking a learner may appeal; 0: the class has no such date.
    appeal_to : str
        Whom a learner asks; "" for the assessor.
    title : str
        What the class is called.
    withheld : bool
        Whether the class gets its feedback after the hand-in.
    """

    pass_share: float = PASS_SHARE
    due: datetime | None = None
    zone: str = ""
    criteria: tuple[str, ...] = ()
    lessons: tuple[str, ...] = ()
    supervisor: str = ""
    vehicles: tuple[str, ...] = STANDARD
    retakes: int | None = None
    counts: Literal["last", "best"] = "last"
    appeal_days: int = APPEAL_DAYS
    appeal_to: str = ""
    title: str = ""
    withheld: bool = False

    def assessed(self) -> list[Exercise]:
        """Return the exercises of the lessons that count and that a car of the class can serve, in the bank's order."""
        return list(_assessed(self.lessons, self.vehicles))

    def wanted(self) -> list[Exercise]:
        """Return the exercises under the pass rule: those that are not “Go deeper”."""
        return list(_wanted(self.lessons, self.vehicles))

    def wanted_ids(self) -> frozenset[str]:
        """Return the ids of the exercises under the pass rule."""
        return _wanted_ids(self.lessons, self.vehicles)

    def wanted_by_outcome(self) -> Mapping[str, frozenset[str]]:
        """Return by outcome the ids of the exercises under the pass rule, in the bank's order."""
        return _by_outcome(self.lessons, self.vehicles)

    @property
    def due_said(self) -> str:
        """When work should be in, with the zone; "" when no date was agreed on."""
        return said(self.due, self.zone) if self.due else ""

    def needed(self, count: int) -> int:
        """Return how many of `count` exercises must be right."""
        return ceil(self.pass_share * count - 1e-9)


@once_a_set
def _assessed(lessons: tuple[str, ...], vehicles: tuple[str, ...]) -> tuple[Exercise, ...]:
    gone = left_out(vehicles, lessons)
    return tuple(e for e in exercises().values() if (not lessons or e.lesson in lessons) and e.id not in gone)


@once_a_set
def _wanted(lessons: tuple[str, ...], vehicles: tuple[str, ...]) -> tuple[Exercise, ...]:
    return tuple(e for e in _assessed(lessons, vehicles) if not e.beyond)


@once_a_set
def _wanted_ids(lessons: tuple[str, ...], vehicles: tuple[str, ...]) -> frozenset[str]:
    return frozenset(e.id for e in _wanted(lessons, vehicles))


@once_a_set
def _by_outcome(lessons: tuple[str, ...], vehicles: tuple[str, ...]) -> dict[str, frozenset[str]]:
    found: dict[str, list[str]] = {}
    for exercise in _wanted(lessons, vehicles):
        found.setdefault(exercise.outcome, []).append(exercise.id)
    return {outcome: frozenset(ids) for outcome, ids in found.items()}


def checked_share(value: object, where: str = "pass_share") -> float:
    """Return a pass share.

    Raises
    ------
    BadInput
        It is no number above 0 and up to 1.
    """
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not 0 < value <= 1:
        raise BadInput(
            f"{where} must be a number above 0 and up to 1, but you gave {str(value)[:40]}. Write 0.8 for 80 %."
        )
    return float(value)


def read_rules(path: Path) -> ClassRules:
    """Read the rules out of a class file (TOML); it has no other keys than those of a class file.

    Raises
    ------
    BadInput
        The file cannot be read or a rule cannot be used; or a key is none of a class file; names the file and the key.
    """
    try:
        with open_regular(path) as file:
            content = whole(file, Counter(MAX_TOML))
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None
    try:
        found: dict[str, Any] = decode_toml(content, dict)
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}. Write one “key = value” a line.") from None
    try:
        _check_says_something(found)
        check_keys(found)
        use_own_of(path, found.get("own", ""))
        zone = checked_zone(found.get("zone", ""))
        return ClassRules(
            zone=zone,
            pass_share=checked_share(found.get("pass_share", PASS_SHARE)),
            due=_due(found.get("due"), zone),
            criteria=_texts(found, "criteria"),
            lessons=_lessons(found),
            supervisor=_line(found, "supervisor", "A. Assessor"),
            vehicles=checked_vehicles(found.get("vehicles", STANDARD)),
            retakes=_retakes(found.get("retakes")),
            counts=_counts(found.get("counts", "last")),
            appeal_days=_appeal_days(found.get("appeal_days", APPEAL_DAYS)),
            appeal_to=_line(found, "appeal_to", "B. Head, room 12"),
            title=_line(found, "title", "Autumn group"),
            withheld=checked_opening(found) == "after hand-in",
        )
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None


def _check_says_something(found: dict[str, Any]) -> None:
    """Refuse a file without a key: what a disk or a copy that stopped left of a class file would mark by other rules."""
    if not found:
        raise BadInput("says nothing. Put the class file back from a copy, or leave --class-file out.")


def use_own_of(path: Path, digest: object) -> None:
    """Read the own files of the class of this class file from now on, or the shipped ones alone where it has none.

    Raises
    ------
    BadInput
        The digest is none, or not that of the files beside the class file.
    """
    if not isinstance(digest, str):
        raise BadInput("own must be the digest of the class's own files, in quotes.")
    if digest:
        use_folder(path.parent / FOLDER, digest)
    else:
        use_shipped()


def rules_of(class_file: Path | None, pass_share: float | None = None) -> ClassRules:
    """Return the rules of a class file, or the ordinary ones, with the pass share if one is given.

    Raises
    ------
    BadInput
        As read_rules, or the share cannot be used.
    """
    found = read_rules(class_file) if class_file else ClassRules()
    if pass_share is None:
        return found
    return msgspec.structs.replace(found, pass_share=checked_share(pass_share, "--pass-share"))


def _due(value: object, zone: str) -> datetime | None:
    if value is None:
        return None
    try:
        day = date.fromisoformat(value) if isinstance(value, str) else value
    except ValueError:
        day = None
    if not isinstance(day, date) or not _FIRST_YEAR <= day.year <= _LAST_YEAR:
        raise BadInput(f"due must be a date such as 2026-06-30, but it is {str(value)[:40]!r}.")
    return in_zone(day if isinstance(day, datetime) else datetime.combine(day, time(23, 59, 59)), zone)


def _retakes(value: object) -> int | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= 20:
        raise BadInput(f"retakes must be a whole number from 0 to 20, but it is {str(value)[:40]!r}.")
    return value


def _counts(value: object) -> Literal["last", "best"]:
    if value == "best":
        return "best"
    if value != "last":
        raise BadInput(f'counts must be "last" or "best", but it is {str(value)[:40]!r}.')
    return "last"


def _appeal_days(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= 365:
        raise BadInput(f"appeal_days must be a whole number from 0 to 365, but it is {str(value)[:40]!r}.")
    return value


def _line(found: dict[str, Any], key: str, example: str) -> str:
    value = found.get(key, "")
    if not isinstance(value, str) or len(value) > 120 or not value.isprintable():
        raise BadInput(f'{key} must be one line of at most 120 characters, such as {key} = "{example}".')
    return value.strip()


def _texts(found: dict[str, Any], key: str) -> tuple[str, ...]:
    value = found.get(key, [])
    if not isinstance(value, list) or not all(isinstance(v, str) and v.strip() for v in value):
        raise BadInput(f"{key} must be a list of texts, such as {key} = [“…”, “…”].")
    return tuple(normalize("NFC", v.strip()) for v in value)


def _lessons(found: dict[str, Any]) -> tuple[str, ...]:
    keys, known = _texts(found, "lessons"), list(dict.fromkeys(e.lesson for e in exercises().values()))
    if "lessons" in found and not keys:
        raise BadInput(f"lessons names none. Leave the line out when all count, or choose from {', '.join(known)}.")
    for key in keys:
        if key not in known:
            raise BadInput(f"lessons names {key[:40]!r}, which is no lesson. Choose from {', '.join(known)}.")
    return keys
