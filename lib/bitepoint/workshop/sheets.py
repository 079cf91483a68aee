"""The parts of a data sheet: what stands on it, of what type, in what unit."""

from typing import Annotated, Literal

import msgspec
from msgspec import Meta

Positive = Annotated[float, Meta(gt=0)]
Count = Annotated[int, Meta(ge=1)]
Span = tuple[float, float]


class _Sheet(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Base of the data-sheet parts: frozen, and a misspelt key is an error."""


class Engine(_Sheet, frozen=True, kw_only=True):
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


class Build(_Sheet, frozen=True, kw_only=True):
    """What identifies the vehicle."""

    vin_sample: str
    build_date: str
    kit_split: str


class Masses(_Sheet, frozen=True, kw_only=True):
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


class Bolt(_Sheet, frozen=True, kw_only=True):
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


class FlywheelTightening(_Sheet, frozen=True, kw_only=True):
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


class DmfLimits(_Sheet, frozen=True, kw_only=True):
    """Limits for a dual-mass flywheel measured on the engine."""

    free_angle_teeth_max: Count
    free_angle_deg_max: Positive
    rock_at_rim_mm_max: Positive
    grease_loss: str
    heat: str


class InertiaModel(_Sheet, frozen=True, kw_only=True):
    """Figures of a two-inertia model, for the vibration exercise only [kg·m², N·m/°]."""

    engine_rigid_kgm2: Positive
    input_rigid_kgm2: Positive
    primary_dmf_kgm2: Positive
    secondary_dmf_kgm2: Positive
    dmf_nm_per_deg: Positive
    short_damper_nm_per_deg: Positive


class Flywheel(_Sheet, frozen=True, kw_only=True):
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
        holes = self.hole_angles_deg
        turns = {round((a - b) % 360, 3) for a in holes for b in holes} - {0.0}
        return max(sum(any(abs((h + t - k) % 360) < 0.01 for k in holes) for h in holes) for t in turns)

    @property
    def out_of_place_deg(self) -> dict[int, float]:
        """Bolts that sit off the even places which most of the others keep, by number, each with how far [degrees]."""
        step, holes = 360 / self.bolt_count, self.hole_angles_deg
        from_each = [[(hole - start + step / 2) % step - step / 2 for hole in holes] for start in holes]
        found = [{n: abs(off) for n, off in enumerate(ring, start=1) if abs(off) > 0.01} for ring in from_each]
        return min(found, key=len)


class Damper(_Sheet, frozen=True, kw_only=True):
    """Torsion damper of the plate."""

    kind: str
    stiffness_nm_per_deg: Positive
    travel_deg: Positive


class Cover(Bolts, frozen=True, kw_only=True):
    """Clutch cover: its bolts, dowels and kind."""

    kind: Literal["conventional", "self-adjusting"]
    hole_angles_deg: tuple[float, ...]
    pcd_mm: Positive
    dowels: Count
    dowel_angles_deg: tuple[float, ...]
    dowels_seen: str
    dowels_allow: str
    positions: Count
    self_adjusting: str = ""


class Clutch(_Sheet, frozen=True, kw_only=True):
    """Plate and cover; `mark` stands on the side of the plate that looks to `mark_faces`."""

    plate_od_mm: Positive
    plate_id_mm: Positive
    mu_design: Positive
    clamp_load_new_n: Positive
    plate_thickness_new_mm: Positive
    plate_thickness_min_mm: Positive
    rivet_depth_new_mm: Positive
    rivet_depth_min_mm: Positive
    plate_runout_limit_mm: Positive
    splines: Count
    spline_major_mm: Positive
    hub_play_at_rim_limit_mm: Positive
    marking: str
    mark: str
    mark_faces: Literal["flywheel", "gearbox"]
    damper: Damper
    cover: Cover
    finger_coplanarity_limit_mm: Positive
    lever_ratio: Positive
    plate_lift_required_mm: Positive
    release_load_max_n: Positive


class Release(_Sheet, frozen=True, kw_only=True):
    """Release system; which of the optional figures are there depends on its kind.

    `play_set_at` says where the free play is set by hand, if it is.
    """

    kind: Literal["mechanical", "hydraulic concentric slave", "hydraulic external slave and fork"]
    detail: str
    pedal_ratio: Positive
    pedal_travel_mm: Positive
    free_play_mm: Span
    free_play_set_mm: Positive
    efficiency_travel: Positive
    efficiency_force: Positive
    bearing_travel_required_mm: Positive
    bearing_travel_max_mm: Positive
    guide_tube: str
    guide_tube_greased: bool
    play_set_at: Literal["cable", "push-rod"] | None = None
    fluid: str = ""
    fluid_grade: Literal["DOT 3", "DOT 4", "DOT 5.1"] | None = None
    outer_lever_ratio: Positive | None = None
    fork_ratio: Positive | None = None
    master_bore_mm: Positive | None = None
    slave_bore_mm: Positive | None = None
    slave_outer_mm: Positive | None = None
    slave_inner_mm: Positive | None = None
    slave_bolts: Bolts | None = None
    bleed_volume_ml: Positive | None = None


class Gearbox(_Sheet, frozen=True, kw_only=True):
    """Gearbox and its joint to the engine."""

    code: str
    ratios: tuple[Positive, ...]
    reverse: Positive
    final: Positive
    oil_litre: Positive
    input_radial_play_limit_mm: Positive
    bell_bolts: tuple[Bolts, ...]
    dowels: Count
    slip_test_gear: Count
    pilot_bearing_depth_mm: Span | None = None
    pilot_bearing_type: str = ""


class Wheels(Bolts, frozen=True, kw_only=True):
    """Tyres and wheel bolts; `hub_nut` says how the hub nut is slackened, where the car has driven front wheels.

    "on the ground": slackened on the ground, not run off, car not moved. "raised just clear": the bearing must not
    be loaded, so the wheel hangs just clear and a second person holds the foot brake.
    """

    tyre_width_mm: Positive
    tyre_aspect_pct: Positive
    rim_in: Positive
    hub_nut: Literal["on the ground", "raised just clear"] | None = None

    @property
    def tyre(self) -> str:
        """Size as written on the tyre."""
        return f"{self.tyre_width_mm:g}/{self.tyre_aspect_pct:g} R{self.rim_in:g}"


class Variant(_Sheet, frozen=True, kw_only=True):
    """A car of the same model that comes in for a kit: what differs from the sheet, and its option code."""

    option: str = "none"
    build: Annotated[str, Meta(pattern=r"^\d{4}-(0[1-9]|1[0-2])$")] | None = None
    gearbox_code: str | None = None
    plate_od_mm: Positive | None = None
    splines: Count | None = None
    flywheel_now: Literal["rigid", "dual-mass"] | None = None
    flywheel_wanted: Literal["rigid", "dual-mass"] | None = None


class Vehicle(_Sheet, frozen=True, kw_only=True):
    """One training vehicle: the invented maker's figures.

    `edition` is the edition of the set of sheets in which this one got its present figures: a figure corrected after
    a release raises it above every other sheet's, and the sheet as it was is kept under retired/.
    """

    id: Annotated[str, Meta(pattern=r"^[A-Z][A-Z0-9]{0,3}$")]
    edition: Count = 1
    summary: str
    layout: str
    drive: Literal["front", "rear"]
    job_date: str
    book_time_h: Positive
    engine: Engine
    build: Build
    masses: Masses
    flywheel: Flywheel
    clutch: Clutch
    release: Release
    gearbox: Gearbox
    wheels: Wheels
    variants: tuple[Variant, ...] = ()

    @property
    def name(self) -> str:
        """How prose speaks of it."""
        return f"training vehicle {self.id}"

    @property
    def opening(self) -> str:
        """The name as it opens a sentence."""
        return f"{self.name[0].upper()}{self.name[1:]}"
