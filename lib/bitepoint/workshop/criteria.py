"""Reuse, replace, or stop and ask: what is decided about a part, by a figure or by what is seen, and why.

A greatest or least value on a sheet includes the value itself. A guard band is kept only where an uncertainty is given.
"""

from collections.abc import Iterable
from operator import attrgetter
from pathlib import Path
from typing import Annotated, Literal, TypeVar

from msgspec import Meta

from bitepoint.errors import BadData
from bitepoint.mechanics.decisions import CANNOT_TELL, WITHIN, decide
from bitepoint.missing import is_missing, look_up
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_sources, check_unique, read_toml
from bitepoint.workshop.vehicles import Vehicle, vehicles

Decision = Literal["reuse", "replace", "stop and ask"]
Weight = Annotated[int, Meta(ge=1, le=3)]


class Criterion(StrictStruct, frozen=True, kw_only=True):
    """What a criterion by figure and one by sight have in common."""

    id: str
    part: str
    because: str
    weight: Weight
    source: str = "common-practice"


class Measured(Criterion, frozen=True, kw_only=True):
    """A part judged by a figure; `limit` and `lower` are keys of the data sheet, greatest and least value."""

    what: str
    unit: Literal["mm", "teeth"]
    limit: str = ""
    lower: str = ""
    outside: Literal["replace", "stop and ask"]
    otherwise: str


class Seen(Criterion, frozen=True, kw_only=True):
    """A part judged by what is seen or felt."""

    finding: str
    decision: Decision


_Item = TypeVar("_Item", bound=Criterion)


class PartVerdict(StrictStruct, frozen=True, kw_only=True):
    """What to do with a part, and why; weight 1 money or comfort, 2 the job comes back, 3 somebody could be hurt."""

    part: str
    decision: Decision
    reason: str
    source: str
    weight: int


class Criteria(WholeFile, frozen=True, kw_only=True):
    """Every criterion."""

    measured: tuple[Measured, ...]
    seen: tuple[Seen, ...]


def read_criteria(path: Path) -> Criteria:
    """Read the criteria.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    read = read_toml(path, Criteria, what="list of criteria")
    check_unique(path, "id", [item.id for item in (*read.measured, *read.seen)])
    check_sources(path, [(f"{item.id} source", item.source) for item in (*read.measured, *read.seen)])
    for item in read.measured:
        if not item.limit and not item.lower:
            raise broken(path, item.id, "must have limit or lower")
        for key in filter(None, (item.limit, item.lower)):
            if all(_on_sheet(v, key) is None for v in vehicles().values()):
                raise broken(path, item.id, f"{key!r} is on no data sheet")
    return read


@once_a_set
def criteria() -> Criteria:
    """Return every criterion."""
    return read_criteria(data_files().path("criteria.toml"))


def measured_on(v: Vehicle, *, ought: bool = False) -> tuple[Measured, ...]:
    """Criteria with a figure that apply to this vehicle, because its sheet has the limit; or `ought` to have it."""

    def applies(item: Measured) -> bool:
        keys = filter(None, (item.lower, item.limit))
        return limits_of(item, v) != (None, None) or (ought and any(is_missing(_value(v, key)) for key in keys))

    return tuple(filter(applies, criteria().measured))


def limits_of(item: Measured, v: Vehicle) -> tuple[float | None, float | None]:
    """Least and greatest value of a criterion on the sheet of a vehicle; None where there is none."""
    return _on_sheet(v, item.lower), _on_sheet(v, item.limit)


def judge(name: str, measured: float, v: Vehicle, *, uncertainty: float | None = None) -> PartVerdict:
    """Decide about a part by a measured figure.

    Parameters
    ----------
    name : str
        Id of the criterion, such as "flywheel-runout".
    measured : float
        The figure in the unit of the criterion (mm, or teeth).
    v : Vehicle
        The vehicle whose sheet has the limit; the limit itself is still within.
    uncertainty : float or None
        Standard uncertainty in the same unit; given, a guard band of 1.645 times it is kept, and inside the band
        the answer is "stop and ask".

    Raises
    ------
    BadData
        There is no such criterion, or this vehicle has no limit for it.

    Source
    ------
    iso-14253-1 for the guard band; each criterion names its own.
    """
    item = _find(name, criteria().measured)
    lower, upper = limits_of(item, v)
    if lower is None and upper is None:
        for key in filter(None, (item.lower, item.limit)):
            look_up(_value(v, key))
        raise BadData(f"{v.name} has no limit for {name!r}. Choose one of {_names(measured_on(v))}.")
    result = decide(measured, lower=lower, upper=upper, uncertainty=uncertainty)
    told = f"{item.what} {measured:g} {item.unit}, {_limit(lower, upper, item.unit)}"
    if result == WITHIN:
        return _verdict(item, "reuse", f"{told}: {item.because}.")
    if result == CANNOT_TELL:
        doubt = "it lies nearer to the limit than the measurement is sure of: measure again, better, and ask"
        return _verdict(item, "stop and ask", f"{told}: {doubt}.")
    return _verdict(item, item.outside, f"{told}: {item.otherwise}.")


def judge_seen(name: str) -> PartVerdict:
    """Decide about a part by what is seen: id of the finding, such as "flywheel-crack"."""
    item = _find(name, criteria().seen)
    return _verdict(item, item.decision, f"{item.finding}: {item.because}.")


def _verdict(item: Criterion, decision: Decision, reason: str) -> PartVerdict:
    told = f"{reason[0].upper()}{reason[1:]}"
    return PartVerdict(part=item.part, decision=decision, reason=told, source=item.source, weight=item.weight)


def _limit(lower: float | None, upper: float | None, unit: str) -> str:
    least = f"least {lower:g} {unit}" if lower is not None else ""
    most = f"greatest {upper:g} {unit}" if upper is not None else ""
    return ", ".join(filter(None, (least, most)))


def _on_sheet(v: Vehicle, key: str) -> float | None:
    value = _value(v, key) if key else None
    return float(value) if isinstance(value, (int, float)) else None


def _value(v: Vehicle, key: str) -> object:
    try:
        return attrgetter(key)(v)
    except AttributeError:
        return None


def _names(items: Iterable[Criterion]) -> str:
    return ", ".join(item.id for item in items)


def _find(name: str, items: tuple[_Item, ...]) -> _Item:
    for item in items:
        if item.id == name:
            return item
    raise BadData(f"There is no criterion {name!r}. Choose one of {_names(items)}.")
