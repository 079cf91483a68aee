"""The flywheel on a data sheet: its bolts, how they are tightened, its limits."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Literal

from bitepoint.workshop.sheet_parts import Count, DmfBolt, FlywheelBolt, Positive, SheetPart


class FlywheelTightening(SheetPart, frozen=True, kw_only=True):
    """How the flywheel bolts are tightened; `second_round` is a torque again, or a look at paint marks."""

    stages_nm: tuple[Positive, ...]
    nut_factor: Positive
    second_round: Literal["torque", "paint marks"]
    angle_deg: Positive | None = None
    second_round_limit_deg: Positive | None = None
    joint_stiffness_kn_per_mm: Positive | None = None

    @property
    def final_nm(self) -> float:
        """Torque of the last torque stage [N·m]."""
        return self.stages_nm[-1]


class DmfLimits(SheetPart, frozen=True, kw_only=True):
    """Limits for a dual-mass flywheel measured on the engine."""

    free_angle_teeth_max: Count
    free_angle_deg_max: Positive
    rock_at_rim_mm_max: Positive
    grease_loss: str
    heat: str


class InertiaModel(SheetPart, frozen=True, kw_only=True):
    """Figures of a two-inertia model, for the vibration exercise only [kg·m², N·m/°]."""

    engine_rigid_kgm2: Positive
    input_rigid_kgm2: Positive
    primary_dmf_kgm2: Positive
    secondary_dmf_kgm2: Positive
    dmf_nm_per_deg: Positive
    short_damper_nm_per_deg: Positive


class Flywheel(SheetPart, frozen=True, kw_only=True):
    """Flywheel, its bolts and its limits.

    `rigid_option` is the option code that a car needs for a rigid flywheel, `start_stop_option` the one of a car with
    start-stop, which rules it out.
    """

    factory_type: Literal["rigid", "dual-mass"]
    fitted_now: Literal["rigid", "dual-mass"]
    replacement: str = ""
    replacement_kinds: tuple[Literal["rigid", "dual-mass"], ...] = ()
    rigid_option: str = ""
    start_stop_option: str = ""
    friction_face_od_mm: Positive
    hole_angles_deg: tuple[float, ...]
    pcd_mm: Positive
    locating: str
    dowel_deg: float | None = None
    bolt: FlywheelBolt
    bolt_dmf: DmfBolt | None = None
    tightening: FlywheelTightening
    face_runout_limit_mm: Positive
    runout_radius_mm: Positive
    flatness_limit_mm: Positive
    scoring_depth_limit_mm: Positive
    ring_gear_teeth: Count
    dmf_limits: DmfLimits | None = None
    inertia_model: InertiaModel | None = None

    @property
    def bolt_count(self) -> int:
        """Number of flywheel bolts."""
        return len(self.hole_angles_deg)

    @property
    def bolts_when_turned(self) -> int:
        """Most holes that meet one of the crankshaft's when the flywheel is offered up in another position."""
        return _most_that_meet(tuple(self.hole_angles_deg))

    @property
    def out_of_place_deg(self) -> dict[int, float]:
        """Bolts that sit off the even places which most of the others keep, by number, each with how far [degrees]."""
        return dict(_out_of_place(tuple(self.hole_angles_deg)))


@lru_cache(maxsize=64)
def _most_that_meet(holes: tuple[float, ...]) -> int:
    turns = {round((a - b) % 360, 3) for a in holes for b in holes} - {0.0}
    return max(sum(any(abs((h + t - k) % 360) < 0.01 for k in holes) for h in holes) for t in turns)


@lru_cache(maxsize=64)
def _out_of_place(holes: tuple[float, ...]) -> Mapping[int, float]:
    step = 360 / len(holes)
    from_each = [[(hole - start + step / 2) % step - step / 2 for hole in holes] for start in holes]
    found = [{n: abs(off) for n, off in enumerate(ring, start=1) if abs(off) > 0.01} for ring in from_each]
    return min(found, key=len)
