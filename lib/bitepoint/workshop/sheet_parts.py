"""The parts of a data sheet that need no other: engine, build, masses, every kind of bolt."""

from typing import Annotated, Literal

import msgspec
from msgspec import Meta

Positive = Annotated[float, Meta(gt=0)]
Count = Annotated[int, Meta(ge=1)]
Span = tuple[float, float]


class SheetPart(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Base of the data-sheet parts: frozen, and a misspelt key is an error."""


class Engine(SheetPart, frozen=True, kw_only=True):
    """Engine figures."""

    code: str
    fuel: Literal["petrol", "diesel"]
    cylinders: Count
    max_torque_nm: Positive
    max_torque_rpm: Positive
    idle_rpm: Positive
    limiter_rpm: Positive
    static_test_max_rpm: Positive
    crank_end_float_new_mm: Span
    crank_end_float_limit_mm: Positive
    crank_sensor_target: str
    crank_sensor_on: Literal["crank pulley", "flywheel"]


class Build(SheetPart, frozen=True, kw_only=True):
    """What identifies the vehicle."""

    vin_sample: str
    build_date: str
    kit_split: str


class Masses(SheetPart, frozen=True, kw_only=True):
    """Masses and where they sit."""

    vehicle_kg: Positive
    front_axle_kg: Positive
    rear_axle_kg: Positive
    wheelbase_mm: Positive
    gearbox_kg: Positive
    gearbox_cg_ahead_of_front_axle_mm: float
    flywheel_kg: Positive
    cover_kg: Positive
    plate_kg: Positive
    flywheel_handling: str
    dmf_kg: Positive | None = None


class Bolt(SheetPart, frozen=True, kw_only=True):
    """A bolt as a part: ISO metric thread and ISO 898-1 property class."""

    d_mm: Positive
    pitch_mm: Positive
    prop_class: Literal["8.8", "10.9", "12.9"]

    @property
    def thread(self) -> str:
        """Thread as written on a drawing, such as M10×1.25."""
        return f"M{self.d_mm:g}×{self.pitch_mm:g}"


class FlywheelBolt(Bolt, frozen=True, kw_only=True):
    """A flywheel bolt with what decides its length; `ring_mm`: a reinforcing ring under the heads, part of what is clamped."""

    length_mm: Positive
    hub_clamped_mm: Positive
    coating: str
    head_washer_face_mm: Positive
    crank_thread_depth_mm: Positive
    ring_mm: Positive | None = None
    note: str = ""


class DmfBolt(Bolt, frozen=True, kw_only=True):
    """The other bolt that fits the same crankshaft: the one of the dual-mass flywheel."""

    length_mm: Positive
    hub_clamped_mm: Positive
    stages_nm: tuple[Positive, ...]
    angle_deg: Positive
    nut_factor: Positive
    joint_stiffness_kn_per_mm: Positive


class Bolts(Bolt, frozen=True, kw_only=True):
    """A set of equal bolts tightened to one torque."""

    n: Count
    torque_nm: Positive
    nut_factor: Positive
