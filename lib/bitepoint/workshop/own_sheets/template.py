"""The form of an own sheet: every key in order, with what it means, its unit, and “look it up” until somebody did."""

import re
from collections.abc import Mapping, Sequence
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import msgspec
from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.missing import LOOK_UP
from bitepoint.workshop.own_sheets.filling import NOT_WRITTEN, unit_of
from bitepoint.workshop.sheets import Vehicle

_ID = re.compile(r"[A-Z][A-Z0-9]{1,3}", re.ASCII)
DRIVES = ("front", "rear")
RELEASES = {
    "cable": "mechanical",
    "concentric": "hydraulic concentric slave",
    "external": "hydraulic external slave and fork",
}
_HEAD = """\
# A vehicle's figures, entered from its repair data. Write only what stands in that document, in its own unit if you like:
# torque_nm = "62 lbf·ft" is read as well as torque_nm = 84. What does not stand there stays “look it up”: no page and no
# exercise puts a figure in its place. A second person compares every figure with the document:
#   bitepoint vehicle check FILE                       what is missing, and what is questioned
#   bitepoint vehicle check FILE --checked-by NAME     after the second person has compared all of it
# The vehicle's own repair data and local rules come first, always.
"""
_HINTS = {
    "summary": "one line a fitter would say, such as: van, four-cylinder diesel engine, front-wheel drive",
    "layout": "how engine and gearbox lie",
    "book_time_h": "time the repair data gives for the job",
    "engine.static_test_max_rpm": "highest speed for the rev test standing still",
    "engine.crank_end_float_new_mm": "from, to",
    "engine.crank_sensor_target": "where the ring or pattern for the crankshaft sensor sits, in words",
    "build.vin_sample": "an invented one: no customer's number belongs here",
    "build.build_date": "year and month of the training car, such as 2019-05",
    "build.kit_split": "what decides between two kits, in words",
    "masses.gearbox_cg_ahead_of_front_axle_mm": "balance point of the gearbox; behind the axle is negative",
    "masses.flywheel_handling": "how it is carried and by how many, in words",
    "flywheel.hole_angles_deg": "one angle a bolt, clockwise from the first, as on the drawing",
    "flywheel.pcd_mm": "diameter of the bolt circle",
    "flywheel.locating": "dowel, odd hole or nothing, in words",
    "flywheel.dowel_deg": "angle of the dowel, if there is one",
    "flywheel.runout_radius_mm": "radius at which run-out is measured",
    "flywheel.bolt.hub_clamped_mm": "what lies between head and crankshaft, rings and washers included",
    "flywheel.bolt.crank_thread_depth_mm": "depth of usable thread in the crankshaft",
    "flywheel.bolt.ring_mm": "thickness of a reinforcing ring, if there is one; part of what is clamped",
    "flywheel.tightening.stages_nm": "every torque stage in order",
    "flywheel.tightening.angle_deg": "the angle after the last torque; leave the line out where there is none",
    "clutch.mu_design": "friction the maker reckons with; seldom in repair data",
    "clutch.mark": "the words on the plate",
    "clutch.mark_faces": "where the side with these words looks",
    "clutch.lever_ratio": "of the fingers; seldom in repair data",
    "clutch.cover.positions": "in how many positions it goes on its dowels",
    "release.free_play_mm": "from, to, at the pedal",
    "release.efficiency_travel": "share of travel that arrives, 0 to 1; seldom in repair data",
    "release.efficiency_force": "share of force that arrives, 0 to 1; seldom in repair data",
    "release.play_set_at": "where the free play is set by hand; leave the line out where it is not",
    "gearbox.slip_test_gear": "the highest gear in which the engine speed of greatest torque lies within the road's limit",
    "gearbox.bell_bolts": "one table a kind of bolt",
    "gearbox.reverse_synchronised": "true or false; with a synchroniser a silent reverse shows nothing of the clutch",
    "wheels.hub_nut": "how it is slackened",
}
_NUT = "friction of the thread as a factor: T = K d F; seldom in repair data"
_OPTIONAL = {
    *("flywheel.dowel_deg", "flywheel.bolt.ring_mm", "release.play_set_at", "flywheel.replacement"),
    *("flywheel.replacement_kinds", "clutch.cover.self_adjusting", "release.fluid", "flywheel.tightening.angle_deg"),
    *("gearbox.pilot_bearing_depth_mm", "gearbox.pilot_bearing_type", "flywheel.bolt.note"),
}
"""Keys written as comments: most vehicles go without."""


class Choices(Struct, frozen=True, kw_only=True):
    """What decides which keys a sheet has."""

    id: str
    drive: Literal["front", "rear"]
    release: str
    flywheel: Literal["rigid", "dual-mass"] = "rigid"
    cover: Literal["conventional", "self-adjusting"] = "conventional"


def template(chosen: Choices) -> str:
    """Return the text of a new own sheet.

    Raises
    ------
    BadInput
        The id is none, or there is no such release system.
    """
    if not _ID.fullmatch(chosen.id):
        raise BadInput(
            f"--id must be two to four capitals or digits, a capital first, such as K7V, but you gave {chosen.id[:20]!r}."
        )
    if chosen.release not in RELEASES:
        raise BadInput(f"--release must be one of {', '.join(RELEASES)}, but you gave {chosen.release[:20]!r}.")
    lines = [_HEAD, *_table(Vehicle, "", _known(chosen), chosen), *_PEOPLE]
    return "\n".join(lines) + "\n"


_PEOPLE = (
    "",
    "[entered]  # who wrote the figures in, from which document, which pages, and when",
    'by = ""',
    'document = ""',
    'pages = ""',
    "date = 2026-01-31",
)


def _known(c: Choices) -> dict[str, Any]:
    return {
        "id": c.id,
        "drive": c.drive,
        "flywheel.factory_type": c.flywheel,
        "flywheel.fitted_now": c.flywheel,
        "clutch.cover.kind": c.cover,
        "release.kind": RELEASES[c.release],
    }


def _table(kind: type[Struct], at: str, known: Mapping[str, Any], c: Choices) -> list[str]:
    """Return the lines of one part of the sheet: its own keys, then the tables in it."""
    hints = get_type_hints(kind, include_extras=True)
    own, inner = [], []
    for field in msgspec.structs.fields(kind):
        key = f"{at}.{field.name}" if at else field.name
        if field.name in NOT_WRITTEN or field.name in ("edition", "variants", "job_date") or not _wanted(key, c):
            continue
        part, many = _struct(hints[field.name])
        if part:
            opened = f"[[{key}]]" if many else f"[{key}]"
            inner += ["", _said(opened, _HINTS.get(key, "")), *_table(part, key, known, c)]
        else:
            own.append(_line(key, hints[field.name], known))
    return [*own, *inner]


def _wanted(key: str, c: Choices) -> bool:
    """Whether a sheet of this vehicle has the key: no bore without hydraulics, no hub nut without a driven wheel."""
    hydraulic, name = c.release != "cable", key.rpartition(".")[2]
    return {
        "flywheel.bolt_dmf": False,
        "flywheel.inertia_model": False,
        "flywheel.rigid_option": False,
        "flywheel.start_stop_option": False,
        "flywheel.dmf_limits": c.flywheel == "dual-mass",
        "flywheel.tightening.second_round": False,
        "flywheel.tightening.joint_stiffness_kn_per_mm": False,
        "masses.dmf_kg": c.flywheel == "dual-mass",
        "clutch.cover.self_adjusting": c.cover == "self-adjusting",
        "release.outer_lever_ratio": not hydraulic,
        "release.fork_ratio": c.release == "external",
        "release.slave_bore_mm": c.release == "external",
        "release.slave_outer_mm": c.release == "concentric",
        "release.slave_inner_mm": c.release == "concentric",
        "release.slave_bolts": False,
        "wheels.hub_nut": c.drive == "front",
        "gearbox.pilot_bearing_type": c.drive == "rear",
        "gearbox.pilot_bearing_depth_mm": c.drive == "rear",
    }.get(key, hydraulic or name not in ("master_bore_mm", "fluid", "fluid_grade", "bleed_volume_ml"))


def _line(key: str, hint: Any, known: Mapping[str, Any]) -> str:
    value = known.get(key, LOOK_UP)
    unit = unit_of(key)
    options = _options(hint)
    told = "; ".join(
        filter(
            None, (f"[{unit}]" if unit else "", _HINTS.get(key, _NUT if key.endswith("nut_factor") else ""), options)
        )
    )
    line = _said(f"{key.rpartition('.')[2]} = {_toml(value)}", told)
    return f"# {line}" if key in _OPTIONAL else line


def _toml(value: Any) -> str:
    return msgspec.json.encode(value).decode("utf-8") if not isinstance(value, list) else str(value)


def _options(hint: Any) -> str:
    for part in (hint, *get_args(hint)):
        if get_origin(part) is Literal:
            return f"one of: {', '.join(map(str, get_args(part)))}"
    return ""


def _said(line: str, told: str) -> str:
    return f"{line}  # {told}" if told else line


def _struct(hint: Any) -> tuple[type[Struct] | None, bool]:
    """Return the type of sheet part within a type, and whether there may be several."""
    if isinstance(hint, type) and issubclass(hint, Struct):
        return hint, False
    if get_origin(hint) in (Union, UnionType, tuple):
        parts: Sequence[Any] = get_args(hint)
        found = next((part for part, _ in map(_struct, parts) if part), None)
        return found, found is not None and get_origin(hint) is tuple
    return None, False
