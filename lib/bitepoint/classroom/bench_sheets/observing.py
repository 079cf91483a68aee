"""What an assessor watches at the vehicle, and what counts as done right there."""

from msgspec import Struct

from bitepoint.classroom.bench_sheets.checking import HUB_NUT
from bitepoint.mechanics.tightening import star_order
from bitepoint.missing import told
from bitepoint.workshop.vehicles import Vehicle

STANDARD: dict[str, str] = {
    "Makes the car safe before working under it": "Chocks and parking brake; key kept; negative lead off first and covered, "
    "before the starter cable. Arms on the lifting points, a hand's breadth up, push test, arm locks seen. {hub}",
    "Takes the gearbox out held and strapped": "Engine held before the mount comes off; gearbox ({gearbox} kg) strapped to its "
    "jack under the balance point; nobody under it; drawn straight, never hung on the input shaft.",
    "Keeps the dust out of the air": "Wet, or with a vacuum made for fine dust. No air-line, no dry brush, from the first "
    "look into the housing to the last cloth in its closed bag.",
    "Measures, and decides by the sheet": "Run-out with the lock out and the end float held to one side (at most {runout} mm); "
    "figures written down before deciding; reuse, replace, or stop and ask as the sheet and the finding say.",
    "Chooses and checks the torque wrench": "In date on that day, the torque inside its scale, set as the card says, pulled at the "
    "grip mark; a crow-foot or offset adaptor reckoned with, a straight extension not.",
    "Tightens the flywheel bolts in a star, stage by stage": "New bolts, started by hand; order {flywheel} or another star; every "
    "stage of the card on every bolt ({stages}); no impact tool; second round as the card says.",
    "Fits plate and cover": "Plate the right way round and centred; cover on its dowels, drawn down half a turn a round, order {cover} "
    "or another star, then {cover_nm} N·m. {self}Centring tool slides out and in by hand.",
    "Brings the gearbox home by hand": "Both dowels in, nothing in the joint; slid on until the faces meet all round, and only then the "
    "housing bolts, crosswise. Never drawn on with the bolts.",
    "Checks the clutch before the road": "Pedal with the engine off; start in neutral, extraction running; gears on the ground only, chocked, "
    "foot on the brake, nobody in front or behind. Only an authorised driver drives.",
    "Stops and asks": "Says so by itself where the sheet is silent, a limit is passed or a tool is out of date, and waits for the answer.",
}
"""Criteria that a class can start from, each with what counts as done right. Source: common-practice."""


class ObservedCriterion(Struct, frozen=True):
    """A criterion to watch; `counts` is empty where the class has a criterion of its own."""

    criterion: str
    counts: str


def observed_criteria(v: Vehicle, criteria: tuple[str, ...] = ()) -> tuple[ObservedCriterion, ...]:
    """Return the criteria of a class (the standard ones when it names none) with the figures of a vehicle."""
    known = {key.casefold(): text for key, text in STANDARD.items()}
    figures = _figures(v)
    return tuple(
        ObservedCriterion(text, known.get(text.strip().casefold(), "").format_map(figures))
        for text in criteria or tuple(STANDARD)
    )


def _figures(v: Vehicle) -> dict[str, str]:
    cover, wheel = v.clutch.cover, v.flywheel
    return {
        "hub": "" if v.wheels.hub_nut is None else f"Hub nut: {told(lambda: HUB_NUT[v.wheels.hub_nut or ''])}.",
        "gearbox": told(lambda: f"{v.masses.gearbox_kg:g}"),
        "runout": told(lambda: f"{wheel.face_runout_limit_mm:g}"),
        "flywheel": told(lambda: "-".join(map(str, star_order(wheel.hole_angles_deg)))),
        "stages": told(lambda: _stages(v)),
        "cover": told(lambda: "-".join(map(str, star_order(cover.hole_angles_deg)))),
        "cover_nm": told(lambda: f"{cover.torque_nm:g}"),
        "self": "Self-adjusting cover: preloading tool used. " if cover.kind == "self-adjusting" else "",
    }


def _stages(v: Vehicle) -> str:
    how = v.flywheel.tightening
    stages = " / ".join(f"{torque:g}" for torque in how.stages_nm) + " N·m"
    return f"{stages} + {how.angle_deg:g}°" if how.angle_deg is not None else stages
