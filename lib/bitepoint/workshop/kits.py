"""Which clutch kit fits a car: every column must agree, and for a kit that does not fit, the first that does not.

One decision is asked at a time, in the order in which a fitter can look things up:
engine code, build date, gearbox, option code, plate diameter, splines, flywheel, cover bolts, release.
"""

from collections.abc import Collection, Iterator, Sequence
from typing import Annotated

import msgspec
from msgspec import Meta

from bitepoint.missing import MissingFigure
from bitepoint.workshop.kit_list import Kind, Kit, ReleaseKind, all_kits
from bitepoint.workshop.reading import StrictStruct
from bitepoint.workshop.vehicles import Vehicle

YearMonth = Annotated[str, Meta(pattern=r"^\d{4}-(0[1-9]|1[0-2])$")]
__all__ = [
    "CHECKS",
    "Found",
    "Kit",
    "KitVerdict",
    "all_kits",
    "fitting",
    "found_on",
    "kit_verdict",
    "kit_verdicts",
]

CHECKS = (
    "engine code",
    "build date",
    "gearbox",
    "option code",
    "plate diameter",
    "splines",
    "flywheel",
    "cover bolts",
    "release",
)


_OF_A_CAR = (
    *("engine.code", "build.build_date", "gearbox.code", "clutch.plate_od_mm", "clutch.splines", "clutch.cover.n"),
    "engine.crank_sensor_on",
)
"""What of a sheet is compared with a kit."""


class Found(StrictStruct, frozen=True, kw_only=True):
    """What was read and measured on the car; `options` is None as long as nobody has read the option codes."""

    engine_code: str
    build: YearMonth
    gearbox_code: str
    options: frozenset[str] | None
    plate_od_mm: float
    splines: int
    flywheel_now: Kind
    flywheel_wanted: Kind
    rigid_allowed: bool
    needs_target_ring: bool
    cover_bolts: int
    release: ReleaseKind


class KitVerdict(StrictStruct, frozen=True, kw_only=True):
    """Whether a kit fits; if not, the first check that it does not pass, and the reason."""

    kit: str
    fits: bool
    check: str
    reason: str


def found_on(
    v: Vehicle,
    *,
    options: Collection[str] | None = None,
    flywheel_now: Kind | None = None,
    flywheel_wanted: Kind | None = None,
    gearbox_code: str | None = None,
    build: str | None = None,
    plate_od_mm: float | None = None,
    splines: int | None = None,
) -> Found:
    """What is found on a training vehicle, by its sheet; what differs on the car in the bay is given.

    `flywheel_wanted` is what was agreed with the customer; without it the car keeps the kind it has now.
    """
    now = flywheel_now or v.flywheel.fitted_now
    for key in v.missing:
        if key in _OF_A_CAR:
            raise MissingFigure(v.id, key)
    return msgspec.convert(
        {
            "engine_code": v.engine.code,
            "build": build or v.build.build_date,
            "gearbox_code": gearbox_code or v.gearbox.code,
            "options": None if options is None else sorted(options),
            "plate_od_mm": plate_od_mm or v.clutch.plate_od_mm,
            "splines": splines or v.clutch.splines,
            "flywheel_now": now,
            "flywheel_wanted": flywheel_wanted or now,
            "rigid_allowed": v.flywheel.factory_type == "rigid" or "rigid" in v.flywheel.replacement_kinds,
            "needs_target_ring": v.engine.crank_sensor_on == "flywheel",
            "cover_bolts": v.clutch.cover.n,
            "release": "concentric slave" if v.release.kind == "hydraulic concentric slave" else "bearing for fork",
        },
        type=Found,
    )


def kit_verdicts(found: Found, kits: Sequence[Kit] | None = None) -> tuple[KitVerdict, ...]:
    """For each kit of the list: does it fit what was found, and if not, the first reason in the order of `CHECKS`."""
    return tuple(kit_verdict(found, kit) for kit in (all_kits() if kits is None else kits))


def kit_verdict(found: Found, kit: Kit) -> KitVerdict:
    """Whether one kit fits what was found, and the first reason against it."""
    for check, reason in _reasons(found, kit):
        if reason:
            return KitVerdict(kit=kit.kit, fits=False, check=check, reason=f"{check}: {reason}.")
    return KitVerdict(kit=kit.kit, fits=True, check="", reason="Every column agrees with the car.")


def fitting(found: Found, kits: Sequence[Kit] | None = None) -> tuple[str, ...]:
    """Numbers of the kits that fit; none is an answer too: stop and ask."""
    return tuple(verdict.kit for verdict in kit_verdicts(found, kits) if verdict.fits)


def _reasons(found: Found, kit: Kit) -> Iterator[tuple[str, str]]:
    """Each check in order with what speaks against the kit, empty when nothing does."""
    yield "engine code", _differ(kit.engine_code, found.engine_code)
    yield "build date", _outside(kit, found.build)
    yield "gearbox", _differ(kit.gearbox_code, found.gearbox_code) if kit.gearbox_code else ""
    yield "option code", _option(kit.option, found.options)
    yield "plate diameter", _differ(f"{kit.plate_od_mm:g} mm", f"{found.plate_od_mm:g} mm")
    yield "splines", _differ(str(kit.splines), str(found.splines))
    yield "flywheel", _flywheel(found, kit)
    yield "cover bolts", _differ(str(kit.cover_bolts), str(found.cover_bolts))
    yield "release", _differ(kit.release, found.release)


def _differ(kit_has: str, car_has: str) -> str:
    return "" if kit_has == car_has else f"the kit is for {kit_has}, the car has {car_has}"


def _outside(kit: Kit, build: str) -> str:
    if kit.build_from and build < kit.build_from:
        return f"the kit is for cars from {kit.build_from}, this one was built in {build}"
    if kit.build_to and build > kit.build_to:
        return f"the kit is for cars up to {kit.build_to}, this one was built in {build}"
    return ""


def _option(needed: str, options: frozenset[str] | None) -> str:
    if not needed:
        return ""
    if options is None:
        return f"the kit is only for cars with option code {needed}, and the option codes have not been read yet"
    return "" if needed in options else f"the kit is only for cars with option code {needed}, this one does not have it"


def _flywheel(found: Found, kit: Kit) -> str:
    if kit.flywheel != found.flywheel_wanted:
        return f"the kit is for a {kit.flywheel} flywheel, agreed is a {found.flywheel_wanted} one"
    if kit.flywheel == "rigid" and not found.rigid_allowed:
        return "the data sheet does not allow a rigid flywheel on this car"
    if not kit.flywheel_in_kit and kit.flywheel != found.flywheel_now:
        return f"the kit brings no flywheel, and the car has a {found.flywheel_now} one"
    if kit.flywheel_in_kit and found.needs_target_ring and not kit.target_ring:
        return "its flywheel has no target ring for the speed sensor, and this car reads the sensor there"
    return ""
