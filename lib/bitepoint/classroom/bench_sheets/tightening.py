"""What a tightening card says of one ring of bolts; every figure and order from the data sheet."""

from collections.abc import Callable

from msgspec import Struct

from bitepoint.classroom.bench_sheets.star import ring_drawing
from bitepoint.mechanics.tightening import star_order
from bitepoint.missing import LOOK_UP, MissingFigure, told
from bitepoint.workshop.vehicles import Bolt, Vehicle

PAINT_MARKS = "Second round: paint marks"


class Ring(Struct, frozen=True, kw_only=True):
    """One ring: what it is, its bolts in words, its star order, the stages as rows to tick, and what to mind.

    One without an order is no card: the sheet does not have a figure that it needs.
    """

    title: str
    bolts: str
    order: tuple[int, ...] = ()
    stages: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    drawing: str = ""


def rings(v: Vehicle) -> tuple[Ring, ...]:
    """Return the rings of a vehicle: flywheel, the dual-mass flywheel where it has one, and cover."""
    flywheels = [_card(v, "Flywheel", _flywheel)] + (
        [_card(v, "Dual-mass flywheel", _dual_mass)] if v.flywheel.bolt_dmf else []
    )
    return (*flywheels, _card(v, "Clutch cover", _cover))


def _card(v: Vehicle, title: str, make: Callable[[Vehicle], Ring]) -> Ring:
    """Return the card of a ring; where the sheet does not have a figure for it, no card but what to look up."""
    try:
        return make(v)
    except MissingFigure as error:
        return Ring(
            title=title, bolts=f"No tightening card: the sheet has no {error.key}. {LOOK_UP[0].upper()}{LOOK_UP[1:]}"
        )


def _flywheel(v: Vehicle) -> Ring:
    wheel, how = v.flywheel, v.flywheel.tightening
    kind = "Rigid flywheel" if wheel.bolt_dmf else "Flywheel"
    return Ring(
        title=f"{kind}: {wheel.bolt_count} bolts",
        bolts=f"{_bolt(wheel.bolt)}, {told(lambda: f'{wheel.bolt.length_mm:g} mm long')}. New bolts only; {wheel.bolt.coating}",
        order=star_order(wheel.hole_angles_deg),
        stages=(*_torques(how.stages_nm), *_angle(how.angle_deg), _second(v)),
        notes=(
            *([wheel.bolt.note] if wheel.bolt.note else []),
            *_replacement(v),
            *_turned(v),
            f"Seat: {_degrees(wheel.locating)}",
        ),
        drawing=ring_drawing(wheel.hole_angles_deg),
    )


def _dual_mass(v: Vehicle) -> Ring:
    wheel, bolt = v.flywheel, v.flywheel.bolt_dmf
    assert bolt is not None
    return Ring(
        title=f"Dual-mass flywheel: {wheel.bolt_count} bolts",
        bolts=f"{_bolt(bolt)}, {bolt.length_mm:g} mm long. New bolts only; not the bolts of the rigid flywheel",
        order=star_order(wheel.hole_angles_deg),
        stages=(*_torques(bolt.stages_nm), *_angle(bolt.angle_deg), PAINT_MARKS),
        notes=(f"Seat: {_degrees(wheel.locating)}",),
        drawing=ring_drawing(wheel.hole_angles_deg),
    )


def _cover(v: Vehicle) -> Ring:
    cover = v.clutch.cover
    notes = [f"Seat: {_degrees(f'{cover.dowels_seen}: {cover.dowels_allow}')}"] + (
        [f"Self-adjusting: {cover.self_adjusting}"] if cover.self_adjusting else []
    )
    return Ring(
        title=f"Clutch cover: {cover.n} bolts",
        bolts=f"{_bolt(cover)}",
        order=star_order(cover.hole_angles_deg),
        stages=("Down, half a turn a round", f"Torque: {cover.torque_nm:g} N·m"),
        notes=tuple(notes),
        drawing=ring_drawing(cover.hole_angles_deg),
    )


def _replacement(v: Vehicle) -> tuple[str, ...]:
    return (f"Instead of the dual-mass flywheel: {v.flywheel.replacement}",) if v.flywheel.replacement else ()


def _second(v: Vehicle) -> str:
    how = v.flywheel.tightening
    if how.second_round == "paint marks":
        return PAINT_MARKS
    return f"Second round: {how.final_nm:g} N·m, each once"


def _turned(v: Vehicle) -> tuple[str, ...]:
    limit = v.flywheel.tightening.second_round_limit_deg
    if limit is None:
        return ()
    return (f"In the second round a bolt that turns more than {told(lambda: f'{limit:g}°')}: stop and ask",)


def _torques(stages_nm: tuple[float, ...]) -> tuple[str, ...]:
    return tuple(f"Stage {n}: {torque:g} N·m" for n, torque in enumerate(stages_nm, start=1))


def _angle(angle_deg: float | None) -> tuple[str, ...]:
    return (f"Angle: {angle_deg:g}° (bolts marked first)",) if angle_deg is not None else ()


def _degrees(text: str) -> str:
    return text.replace(" deg", "°")


def _bolt(bolt: Bolt) -> str:
    return f"{told(lambda: bolt.thread)}, class {told(lambda: f'{bolt.prop_class}')}"
