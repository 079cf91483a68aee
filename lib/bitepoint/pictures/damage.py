"""What a fitter finds on the bench: ten parts, each sound or damaged, and where the damage is seen."""

from collections.abc import Callable

from bitepoint.pictures import damage_faces as faces
from bitepoint.pictures import damage_parts as parts
from bitepoint.pictures.canvas import Canvas
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import choice

Part = tuple[Callable[[Canvas, bool], Shape], str, str, str]
FINDINGS: dict[str, Part] = {
    "hot-spots": (
        faces.hot_spots,
        "Friction face of the flywheel",
        "an even grey face",
        "five dark blue patches, spread round the friction face",
    ),
    "heat-cracks": (
        faces.heat_cracks,
        "Friction face of the flywheel",
        "an even grey face",
        "short radial cracks side by side in the friction face",
    ),
    "oil-on-facing": (
        parts.oil_on_facing,
        "Facing of the plate",
        "a dry facing with clean grooves",
        "dark, wet streaks that run from the hub out over the facing, grooves filled",
    ),
    "worn-rivets": (
        parts.worn_rivets,
        "Facing in section, with a rivet",
        "the rivet head well below the surface of the facing",
        "the rivet head level with the surface of the facing, and bright",
    ),
    "bent-fingers": (
        parts.bent_fingers,
        "Fingers of the diaphragm spring from the side",
        "all tips on one line",
        "two tips that stand below the line of the others",
    ),
    "worn-splines": (
        parts.worn_splines,
        "Splines of the input shaft",
        "straight teeth over the whole length",
        "a step in the teeth where the hub sat, with rust beside it",
    ),
    "leaking-seal": (
        parts.leaking_seal,
        "Crankshaft end with its seal",
        "a dry ring round the seal",
        "a brown track of oil that begins at the seal and runs down the block",
    ),
    "torn-mount": (
        parts.torn_mount,
        "Engine mount",
        "rubber whole between its brackets",
        "a tear through the rubber, the bracket has sunk",
    ),
    "worn-guide-tube": (
        parts.worn_guide_tube,
        "Guide tube of the release bearing",
        "a smooth tube",
        "a step worn into the tube and scores along it",
    ),
    "bent-dowel": (
        parts.bent_dowel,
        "Dowel in the face of the engine",
        "a dowel square to the face",
        "a dowel that leans, its hole torn wide at one edge",
    ),
}
"""Key of each finding: how it is drawn, the part, how it looks sound, how it looks damaged."""


@picture("damage")
def damage(*, what: str = "hot-spots", ok: bool = False) -> Drawing:
    """One part as found on the bench; `ok` draws it sound. The words in the picture name the part, not the finding."""
    choice("what", what, tuple(FINDINGS))
    draw, name, sound, damaged = FINDINGS[what]
    canvas = Canvas(430)
    canvas.text(20, 34, name, 22, anchor="start", bold=True)
    spot = draw(canvas, ok)
    return canvas.drawing(alt=f"{name}: {sound if ok else damaged}.", caption=f"{name}, as found.", regions=(spot,))
