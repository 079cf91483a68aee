"""How pages of marking are made: the templates, what they all show, and how days, times and ids stand in them."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bitepoint.bank.version import bank_digest
from bitepoint.marking.marks import decimal
from bitepoint.marking.passing import OBSERVATION
from bitepoint.marking.result import OUTCOMES
from bitepoint.marking.version import VERSION
from bitepoint.templates import environment

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

TRAINING = "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR"
PRACTICE_ONLY = (
    "Unsupervised work is practice evidence only. It shows what was practised, not who did it, and not what "
    "a learner can do at a vehicle. For that it takes a supervised sitting, a declaration and observation at "
    "the vehicle."
)
_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]  # fmt: skip
_PIECES_KEPT = 8192
_DIGITS = re.compile(r"(\d+)", re.ASCII)


def render(template: str, **values: Any) -> str:
    """Return a page from one of the templates beside this module."""
    common = {
        "training": TRAINING,
        "practice_only": PRACTICE_ONLY,
        "observation": OBSERVATION,
        "version": VERSION,
        "bank": bank_digest(),
        "outcomes": OUTCOMES,
    }
    return _environment().get_template(template).render(**common, **values)


@lru_cache(maxsize=_PIECES_KEPT, typed=True)
def piece(name: str, *values: Any) -> "Markup":
    """Return a macro of pieces.html.jinja filled in, made once for the same values.

    Made for figures and for words of the course, which come again with every learner; not for what a learner wrote.
    """
    made: Markup = getattr(_environment().get_template("pieces.html.jinja").module, name)(*values)
    return made


def pieces(name: str, each: Iterable[Sequence[Any]]) -> "Markup":
    """Return a piece for each of these values, one after the other."""
    from markupsafe import Markup

    return Markup("".join([piece(name, *values) for values in each]))


def day(at: str) -> str:
    """Return a day as it is read, from a time or date as it is stored."""
    try:
        found = date.fromisoformat(at[:10]) if at[4:5] == "-" else datetime.fromisoformat(at).date()
    except ValueError:
        return "an unreadable date"
    return f"{found.day} {_MONTHS[found.month - 1]} {found.year}"


def moment(at: datetime) -> str:
    """Return day, time and zone.

    Examples
    --------
    >>> moment(datetime.fromisoformat("2026-06-30T15:04+02:00"))
    '30 June 2026, 15:04 (UTC+02:00)'
    """
    return (
        f"{day(at.isoformat())}, {at:%H:%M} ({at.tzname() if at.utcoffset() is None else 'UTC' + at.isoformat()[-6:]})"
    )


def numbered(name: str) -> list[tuple[int, str]]:
    """Return what puts names in the order of their numbers.

    Examples
    --------
    >>> sorted(["L100-B", "L11-A", "L9-C"], key=numbered)
    ['L9-C', 'L11-A', 'L100-B']
    """
    parts = _DIGITS.split(name.casefold())
    return [(int(part[:30]), "") if part.isdecimal() else (-1, part) for part in parts if part]


@lru_cache(maxsize=1)
def _environment() -> "Environment":
    filters: dict[str, Callable[..., str]] = {
        "decimal": decimal,
        "day": day,
        "number": lambda n: piece("number", n),
        "bar": lambda counts, of: piece("bar", _in_order(counts), of, OUTCOMES),
        "counts": lambda counts: piece("counts", _in_order(counts), OUTCOMES),
        "minutes": lambda s: f"{s / 60:.1f}",
        "titles": lambda found: "; ".join([one.title for one in found]),
        "percent": lambda share: f"{100 * share:.0f} %",
    }
    return environment(Path(__file__).parent, filters=filters)


def _in_order(counts: Mapping[str, int]) -> tuple[int, ...]:
    return tuple([counts[outcome] for outcome in OUTCOMES])
