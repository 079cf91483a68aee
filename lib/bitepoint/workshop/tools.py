"""The tools of the training workshop: torque wrenches, lift, jacks, beam, gauges. All of it is invented."""

from datetime import date
from itertools import pairwise
from pathlib import Path
from typing import Annotated, Literal

from msgspec import Meta

from bitepoint.errors import BadData
from bitepoint.mechanics.wrench import WrenchCheck, date_check, range_check
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_unique, read_toml

Positive = Annotated[float, Meta(gt=0)]
NotNegative = Annotated[float, Meta(ge=0)]
FEELER_LEAVES_MM = (0.03, 0.04, 0.05, 0.06, 0.07, 0.08, 0.1)
"""Leaves of the training set [mm] (source: invented)."""


class Tool(StrictStruct, frozen=True, kw_only=True):
    """A tool has a name that is its own."""

    id: str


class TorqueWrench(Tool, frozen=True, kw_only=True):
    """A torque wrench: scale [N·m], permissible deviation [%], lever from drive centre to grip mark [mm]."""

    lowest_nm: Positive
    highest_nm: Positive
    tolerance_pct: Positive
    lever_mm: Positive
    iso_type: Literal["I", "II"]
    iso_class: Literal["A", "B", "C", "D", "E", "F", "G"]
    calibrated: date
    due: date

    def check(self, torque_nm: float, *, on: date) -> WrenchCheck:
        """Whether it may be used for this torque [N·m] on this day, the date first, and why.

        Sources: iso-6789 (date), tm-1-1500-204-23-9 (from 20 % of the scale).
        """
        dated = date_check(self.calibrated, due=self.due, on=on)
        if not dated.ok:
            return dated
        return range_check(torque_nm, lowest_mark_nm=self.lowest_nm, highest_nm=self.highest_nm)


class Lift(StrictStruct, frozen=True, kw_only=True):
    """The vehicle lift and its last thorough examination."""

    kind: str
    rated_kg: Positive
    examined: date
    interval_months: Annotated[int, Meta(ge=1, le=24)]
    holds: bool
    use: str

    @property
    def due(self) -> date:
        """Day by which it is examined again; that day itself still counts."""
        months = self.examined.month - 1 + self.interval_months
        # A day that the month does not have (31 June) becomes the 28th: earlier, so on the safe side.
        return date(self.examined.year + months // 12, months % 12 + 1, min(self.examined.day, 28))


class Support(Tool, frozen=True, kw_only=True):
    """A jack or beam; `holds` says whether a load may be left on it while somebody works."""

    rated_kg: Positive
    holds: bool
    use: str


class Gauge(Tool, frozen=True, kw_only=True):
    """A measuring tool: range and step of its scale [mm]."""

    lowest_mm: NotNegative
    highest_mm: Positive
    step_mm: Positive
    use: str


class Workshop(WholeFile, frozen=True, kw_only=True):
    """Everything in the training workshop; `lent_wrenches` come from the workshop next door where none of its own may be used."""

    name: str
    torque_wrenches: tuple[TorqueWrench, ...]
    lent_wrenches: tuple[TorqueWrench, ...] = ()
    lift: Lift
    supports: tuple[Support, ...]
    gauges: tuple[Gauge, ...]


def read_workshop(path: Path) -> Workshop:
    """Read the list of tools.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    shop = read_toml(path, Workshop, what="list of tools")
    check_unique(
        path, "id", [tool.id for tool in (*shop.torque_wrenches, *shop.lent_wrenches, *shop.supports, *shop.gauges)]
    )
    for wrench in (*shop.torque_wrenches, *shop.lent_wrenches):
        if not wrench.lowest_nm < wrench.highest_nm:
            raise broken(path, f"torque_wrenches {wrench.id} lowest_nm", "must be less than highest_nm")
        if not wrench.calibrated < wrench.due:
            raise broken(path, f"torque_wrenches {wrench.id} due", "must be after calibrated")
    for gauge in shop.gauges:
        if not gauge.lowest_mm + gauge.step_mm < gauge.highest_mm:
            raise broken(path, f"gauges {gauge.id} step_mm", "must fit into the range")
    highest = [wrench.highest_nm for wrench in shop.torque_wrenches]
    if not all(small < large for small, large in pairwise(highest)):
        raise broken(path, "torque_wrenches", "must stand from the smallest to the largest")
    return shop


@once_a_set
def workshop() -> Workshop:
    """Return the training workshop."""
    return read_workshop(data_files().path("workshop.toml"))


def torque_wrench(name: str) -> TorqueWrench:
    """Return the torque wrench with this id; `BadData` lists the ids when there is none."""
    wrenches = (*workshop().torque_wrenches, *workshop().lent_wrenches)
    for wrench in wrenches:
        if wrench.id == name:
            return wrench
    raise BadData(f"There is no tool {name!r} here. Choose one of {', '.join(w.id for w in wrenches)}.")


def wrenches_for(torque_nm: float, *, on: date) -> tuple[TorqueWrench, ...]:
    """Return the torque wrenches that may be used for this torque [N·m] on this day: the workshop's own, else those lent."""
    own, lent = workshop().torque_wrenches, workshop().lent_wrenches
    return _usable(own, torque_nm, on) or _usable(lent, torque_nm, on)


def _usable(wrenches: tuple[TorqueWrench, ...], torque_nm: float, on: date) -> tuple[TorqueWrench, ...]:
    return tuple(wrench for wrench in wrenches if wrench.check(torque_nm, on=on).ok)


def wrench_verdicts(torque_nm: float, *, on: date) -> tuple[tuple[TorqueWrench, WrenchCheck], ...]:
    """For each torque wrench, smallest first: may it be used for this torque [N·m] on this day, and why."""
    return tuple((wrench, wrench.check(torque_nm, on=on)) for wrench in workshop().torque_wrenches)
