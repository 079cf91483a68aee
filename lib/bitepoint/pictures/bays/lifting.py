"""A workshop bay: a car goes up on a two-post lift."""

from collections.abc import Sequence

from bitepoint.pictures.bays import parts as bay
from bitepoint.pictures.bays.scene import FLOOR, finish, start
from bitepoint.pictures.canvas import INK, METAL, ORANGE, SHADE, SKY, WHITE, Canvas
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import capsule

_JOINTS = {"front-pad": (330.0, 328.0, 294.0), "rear-pad": (376.0, 426.0, 392.0)}
"""Where an arm turns, where its lifting point is, where a pad stands beside it."""


@picture("bay-lifting")
def bay_lifting(*, wrong: Sequence[str] = ()) -> Drawing:
    """A car going up; `wrong` names the places that are drawn as hazards.

    Raises
    ------
    BadInput
        A place is named that cannot be a hazard here.
    """
    canvas, scene = start("bay-lifting")
    bad = scene.check(wrong)
    bay.post(canvas, 352, 70, FLOOR)
    examined = "06 2025" if "tag" in bad else "02 2026"
    bay.tag(canvas, 24, 66, ("lift examined", examined, "every 6 months", "today 04 2026"), 138)
    bay.car(canvas, 160, 262, boot_open="boot" in bad)
    if "boot" in bad:
        canvas.rect(482, 128, 50, 30, "#B5683A", INK, 3)
        canvas.polyline([(496, 128), (496, 118), (518, 118), (518, 128)], INK, 4)
    pads = {name: beside if name in bad else point for name, (_, point, beside) in _JOINTS.items()}
    for name, (joint, point, _) in _JOINTS.items():
        canvas.polygon([(point - 10, 208), (point + 10, 208), (point, 227)], INK)
        canvas.polygon(capsule((joint, 284), (pads[name], 270), 8), SHADE, INK, 3)
        canvas.rect(pads[name] - 7, 240, 14, 26, METAL)
        canvas.rect(pads[name] - 17, 230, 34, 11, ORANGE, INK, 3)
    canvas.rect(320, 268, 64, 36, SHADE, INK, 3)
    helper = 214.0 if "helper" in bad else 112.0
    bay.person(canvas, helper, 466, reach=(240, 268) if "helper" in bad else None, facing=1)
    _operator(canvas)
    bay.bin_closed(canvas, 16, FLOOR)
    _arm_lock(canvas, engaged="arm-lock" not in bad)
    return finish(
        canvas,
        scene,
        bad,
        {
            "tag": ((20, 62, 146, 104), (182, 80)),
            "front-pad": ((pads["front-pad"] - 24, 204, 62, 66), (284, 304)),
            "rear-pad": ((392 - 20, 204, 76, 66), (440, 304)),
            "boot": ((476, 62, 130, 110), (624, 96)) if "boot" in bad else ((486, 110, 78, 88), (584, 122)),
            "helper": ((helper - 32, 292, 64, 178), (helper - 48, 316)),
            "operator": ((566, 290, 106, 180), (692, 300)),
            "arm-lock": ((400, 334, 128, 128), (402, 440)),
            "bin": ((8, 380, 64, 92), (40, 364)),
        },
    )


def _operator(canvas: Canvas) -> None:
    bay.person(canvas, 640, 466, reach=(596, 350), facing=-1, goggles=True)
    canvas.rect(572, 318, 26, 152, METAL, INK, 3)
    canvas.rect(577, 330, 16, 34, WHITE)
    for y, colour in ((338, INK), (354, ORANGE)):
        canvas.circle((585, y), 5, colour)


def _arm_lock(canvas: Canvas, *, engaged: bool) -> None:
    canvas.circle((464, 398), 62, WHITE, INK, 3)
    canvas.line((384, 296), (418, 357), INK, 2, dash="6 5")
    rack = [(416.0, 438.0), (416.0, 406.0)]
    for valley in (430, 464, 498):
        rack += [(valley - 12, 406), (valley - 5, 428), (valley + 5, 428), (valley + 12, 406)]
    canvas.polygon([*rack, (512, 406), (512, 438)], METAL, INK, 3)
    y = 376.0 if engaged else 344.0
    tooth = [
        (448, y),
        (480, y),
        (480, y + 16),
        (472, y + 24),
        (468, y + 47),
        (460, y + 47),
        (456, y + 24),
        (448, y + 16),
    ]
    canvas.polygon(tooth, SKY, INK, 3)
