"""What a car has that an exercise may need: each trait with its test and with the words for a car that lacks it."""

from collections.abc import Callable, Iterable

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.missing import MissingFigure
from bitepoint.workshop.sheets import Vehicle
from bitepoint.workshop.vehicle_kits import kinds_for, kits_of_engine, one_kit_fits, rigid_kits


class Trait(Struct, frozen=True):
    """One property of a data sheet; `lacks` completes “It has …” for a car without it."""

    key: str
    has: Callable[[Vehicle], bool]
    lacks: str


def _rows() -> Iterable[Trait]:
    yield Trait("front-wheel drive", lambda v: v.drive == "front", "no driven front wheels")
    yield Trait("rear-wheel drive", lambda v: v.drive == "rear", "no driven rear wheels")
    yield Trait(
        "hub nut on the ground", lambda v: v.wheels.hub_nut == "on the ground", "no hub nut slackened on the ground"
    )
    yield Trait(
        "hub nut raised",
        lambda v: v.wheels.hub_nut == "raised just clear",
        "no hub nut slackened with the wheel raised",
    )
    yield Trait("cable release", lambda v: v.release.kind == "mechanical", "no clutch cable")
    yield Trait("hydraulic release", lambda v: v.release.master_bore_mm is not None, "no hydraulic release")
    yield Trait("concentric slave", lambda v: v.release.slave_outer_mm is not None, "no concentric slave cylinder")
    yield Trait("external slave", lambda v: v.release.slave_bore_mm is not None, "no external slave cylinder")
    yield Trait("release fork", lambda v: v.release.slave_outer_mm is None, "no release fork")
    yield Trait(
        "free play set by hand", lambda v: v.release.play_set_at is not None, "no free play that is set by hand"
    )
    yield Trait(
        "adjustable push-rod", lambda v: v.release.play_set_at == "push-rod", "no push-rod at which free play is set"
    )
    yield Trait("self-adjusting cover", lambda v: v.clutch.cover.kind == "self-adjusting", "no self-adjusting cover")
    yield Trait("conventional cover", lambda v: v.clutch.cover.kind == "conventional", "no conventional cover")
    yield Trait(
        "one cover position", lambda v: v.clutch.cover.positions == 1, "no cover that fits in one position only"
    )
    yield Trait(
        "several cover positions", lambda v: v.clutch.cover.positions > 1, "no cover that fits in several positions"
    )
    yield Trait("dual-mass flywheel", lambda v: v.flywheel.fitted_now == "dual-mass", "no dual-mass flywheel")
    yield Trait("rigid flywheel", lambda v: v.flywheel.fitted_now == "rigid", "no rigid flywheel")
    yield Trait(
        "change to rigid", lambda v: v.flywheel.bolt_dmf is not None, "no flywheel that may be changed to a rigid one"
    )
    yield Trait(
        "start-stop condition",
        lambda v: bool(v.flywheel.rigid_option),
        "no option code that rules a rigid flywheel out",
    )
    yield Trait(
        "kit with a condition", _kit_with_a_condition, "no condition that stands beside the columns of the kit list"
    )
    yield Trait(
        "telling part in the rigid kit", _telling_part, "no rigid kit with a ring or cover that tells a wrong delivery"
    )
    yield Trait("kit in the list", lambda v: one_kit_fits(v.id), "no kit list in which exactly one kit fits")
    yield Trait("rigid kit fits", lambda v: bool(rigid_kits(v.id)), "no kit with a rigid flywheel that fits it")
    yield Trait("two kits for its engine", lambda v: len(kits_of_engine(v.id)) > 1, "no second kit for its engine")
    yield Trait("rigid kit in the list", lambda v: "rigid" in kinds_for(v.id), "no rigid kit in the kit list")
    yield Trait(
        "dual-mass kit in the list", lambda v: "dual-mass" in kinds_for(v.id), "no dual-mass kit in the kit list"
    )
    yield Trait(
        "target ring on the flywheel",
        lambda v: v.engine.crank_sensor_on == "flywheel",
        "no target ring on its flywheel",
    )
    yield Trait("flywheel dowel", lambda v: v.flywheel.dowel_deg is not None, "no dowel for its flywheel")
    yield Trait(
        "uneven flywheel bolts", lambda v: bool(v.flywheel.out_of_place_deg), "no unevenly spaced flywheel bolts"
    )
    yield Trait(
        "one of six flywheel bolts out of place",
        lambda v: v.flywheel.bolt_count == 6 and len(v.flywheel.out_of_place_deg) == 1,
        "no ring of six flywheel bolts with one out of place",
    )
    yield Trait(
        "angle stage", lambda v: v.flywheel.tightening.angle_deg is not None, "no angle stage at its flywheel bolts"
    )
    yield Trait(
        "torque stages only",
        lambda v: v.flywheel.tightening.angle_deg is None,
        "no flywheel bolts tightened by torque alone",
    )
    yield Trait(
        "slip test below top gear",
        lambda v: v.gearbox.slip_test_gear < len(v.gearbox.ratios),
        "no gear above that of its slip test",
    )
    yield Trait("pilot bearing", lambda v: v.gearbox.pilot_bearing_depth_mm is not None, "no pilot bearing")
    yield Trait("inertia figures", lambda v: v.flywheel.inertia_model is not None, "no figures for its turning masses")
    yield Trait(
        "reinforcing ring",
        lambda v: v.flywheel.bolt.ring_mm is not None,
        "no reinforcing ring under its flywheel bolts",
    )


def _kit_with_a_condition(v: Vehicle) -> bool:
    kinds = kinds_for(v.id)
    by_option = v.flywheel.rigid_option and "rigid" in kinds and "dual-mass" in kinds
    return bool(by_option) or (v.flywheel.bolt_dmf is not None and v.engine.crank_sensor_on == "flywheel")


def _telling_part(v: Vehicle) -> bool:
    target_ring = v.release.slave_outer_mm is not None and v.engine.crank_sensor_on == "flywheel"
    telling = v.flywheel.bolt.ring_mm is not None or v.clutch.cover.kind == "self-adjusting" or target_ring
    return v.flywheel.bolt_dmf is not None and "rigid" in kinds_for(v.id) and telling


TRAITS: dict[str, Trait] = {trait.key: trait for trait in _rows()}
"""Every trait by its key; an exercise names what it needs by these keys, never a car by its letter."""


def trait(key: str) -> Trait:
    """Return the trait with this key.

    Raises
    ------
    BadInput
        There is no such trait.
    """
    if key not in TRAITS:
        raise BadInput(f"There is no trait {key!r}. Choose one of {', '.join(TRAITS)}.")
    return TRAITS[key]


def has_all(v: Vehicle, keys: Iterable[str]) -> bool:
    """Whether a car has every one of these traits; of one that its sheet does not tell, it has not."""
    return all(_has(v, key) for key in keys)


def _has(v: Vehicle, key: str) -> bool:
    try:
        return trait(key).has(v)
    except MissingFigure:
        return False


def lacking(v: Vehicle, keys: Iterable[str]) -> str:
    """Return what a car lacks of these traits, in words; "" when it lacks nothing."""
    return " and ".join(trait(key).lacks for key in keys if not _has(v, key))
