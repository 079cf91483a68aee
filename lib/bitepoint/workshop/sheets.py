"""A data sheet: clutch, release system, gearbox, wheels, and the whole of a training vehicle; in what type and unit."""

from typing import Annotated, Literal

from msgspec import Meta

from bitepoint.workshop.sheet_flywheel import Flywheel
from bitepoint.workshop.sheet_parts import Bolts, Build, Count, Engine, Masses, Positive, SheetPart, Span

FRAME = "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR"


class Damper(SheetPart, frozen=True, kw_only=True):
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


class Clutch(SheetPart, frozen=True, kw_only=True):
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


class Release(SheetPart, frozen=True, kw_only=True):
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


class Gearbox(SheetPart, frozen=True, kw_only=True):
    """Gearbox and its joint to the engine."""

    code: str
    ratios: tuple[Positive, ...]
    reverse: Positive
    reverse_synchronised: bool
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


class Variant(SheetPart, frozen=True, kw_only=True):
    """A car of the same model that comes in for a kit: what differs from the sheet, and its option code."""

    option: str = "none"
    build: Annotated[str, Meta(pattern=r"^\d{4}-(0[1-9]|1[0-2])$")] | None = None
    gearbox_code: str | None = None
    plate_od_mm: Positive | None = None
    splines: Count | None = None
    flywheel_now: Literal["rigid", "dual-mass"] | None = None
    flywheel_wanted: Literal["rigid", "dual-mass"] | None = None


class Vehicle(SheetPart, frozen=True, kw_only=True):
    """One training vehicle: the invented maker's figures.

    `edition` is the edition of the set of sheets in which this one got its present figures: a figure corrected after
    a release raises it above every other sheet's, and the sheet as it was is kept under retired/.

    Of an own sheet `entered_by` says who entered it, and `missing` are the keys of the figures that it does not have: there
    stands a `Missing`, which nothing can be worked out with. `figures` is the digest over its figures.
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
    entered_by: str = ""
    missing: tuple[str, ...] = ()
    figures: str = ""

    @property
    def name(self) -> str:
        """How prose speaks of it."""
        return f"vehicle {self.id}" if self.entered_by else f"training vehicle {self.id}"

    @property
    def frame(self) -> str:
        """What stands in the frame of every page that shows its figures in the course."""
        if not self.entered_by:
            return FRAME
        return f"TRAINING TASK · SHEET BY {self.entered_by.upper()}, SITUATION INVENTED · NEVER USE ON A CAR"

    @property
    def opening(self) -> str:
        """The name as it opens a sentence."""
        return f"{self.name[0].upper()}{self.name[1:]}"
