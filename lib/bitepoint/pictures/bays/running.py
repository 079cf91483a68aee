"""A workshop bay: a car on the ground, the engine about to run in steps after the repair."""

from collections.abc import Sequence

from bitepoint.pictures.bays import parts as bay
from bitepoint.pictures.bays.scene import FLOOR, finish, start
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SHADE, SKY, WHITE, Canvas, on_circle
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import bend, smooth


@picture("bay-engine-running")
def bay_engine_running(*, wrong: Sequence[str] = ()) -> Drawing:
    """A car about to be started; `wrong` names the places that are drawn as hazards.

    Raises
    ------
    BadInput
        A place is named that cannot be a hazard here.
    """
    canvas, scene = start("bay-engine-running")
    bad = scene.check(wrong)
    bay.car(canvas, 150, 468, bonnet_open=True)
    _driver(canvas)
    if "chocks" not in bad:
        bay.chock(canvas, 442, FLOOR, facing=-1)
        bay.chock(canvas, 510, FLOOR)
    helper = 300.0 if "helper" in bad else 392.0
    bay.person(canvas, helper, 506, facing=-1, overall=ORANGE)
    _tail_pipe(canvas, hose="tail-pipe" not in bad)
    _belt_and_lead(canvas, clear="lamp-lead" not in bad)
    bay.extinguisher(canvas, 40, 300)
    if "extinguisher" in bad:
        _boxes(canvas)
    _gate(canvas, neutral="gear-lever" not in bad)
    return finish(
        canvas,
        scene,
        bad,
        {
            "tail-pipe": ((540, 396, 122, 62), (606, 376)),
            "helper": ((helper - 34, 330, 66, 180), (helper, 306)),
            "chocks": ((416, 396, 122, 76), (476, 494)),
            "gear-lever": ((424, 84, 140, 140), (580, 96)),
            "lamp-lead": ((92, 186, 116, 184), (78, 166)) if "lamp-lead" in bad else ((4, 186, 140, 76), (78, 166)),
            "extinguisher": ((16, 270, 84, 200), (114, 300))
            if "extinguisher" in bad
            else ((28, 280, 58, 84), (114, 300)),
            "driver": ((326, 324, 40, 44), (346, 292)),
            "bonnet": ((160, 280, 100, 64), (228, 290)),
        },
    )


def _driver(canvas: Canvas) -> None:
    canvas.circle((346, 346), 15, bay.SKIN)
    canvas.polyline([on_circle(346, 346, 17, angle) for angle in range(-40, 41, 10)], INK, 4)
    canvas.line((352, 332), (352, 342), INK, 4)
    canvas.rect(346, 340, 12, 15, INK, round=5)
    canvas.circle((337, 344), 1.6, INK)
    canvas.polygon([(330, 364), (362, 364), (362, 361), (346, 360), (334, 361)], SKY)
    canvas.line((316, 362), (330, 346), INK, 4)


def _tail_pipe(canvas: Canvas, *, hose: bool) -> None:
    canvas.line((548, 440), (572, 440), INK, 8)
    canvas.polygon([(636, 60), (664, 60), (664, 78), (636, 78)], METAL)
    if hose:
        bend(
            canvas,
            smooth([(650, 76), (664, 180), (690, 300), (676, 410), (620, 442), (568, 440)]),
            fill=SHADE,
            width=18,
        )
        canvas.rect(556, 428, 20, 24, METAL, INK, 3)
        return
    for k in range(3):
        canvas.circle((590 + 22 * k, 436 - 9 * k), 9 + 3 * k, "#E2E2E2", INK, 2)
    bend(canvas, smooth([(640, 76), (650, 140), (610, 190), (640, 236), (680, 210), (664, 160)]), fill=SHADE, width=16)


def _belt_and_lead(canvas: Canvas, *, clear: bool) -> None:
    canvas.circle((190, 372), 15, METAL)
    canvas.circle((218, 384), 11, METAL)
    belt = smooth([(190, 357), (218, 373), (229, 384), (218, 395), (190, 387), (175, 372)], closed=True)
    canvas.polyline(belt, INK, 4)
    canvas.rect(96, 190, 44, 26, SHADE, INK, 3)
    canvas.line((118, 190), (118, 150), INK, 3)
    canvas.line((100, 150), (136, 150), INK, 4)
    if clear:
        canvas.polyline(smooth([(96, 204), (70, 222), (40, 238), (0, 244)]), INK, 4)
    else:
        canvas.polyline(smooth([(140, 204), (172, 240), (190, 300), (196, 362)]), INK, 4)


def _boxes(canvas: Canvas) -> None:
    for left, top, width in ((20, 418, 74), (26, 366, 64), (22, 314, 62)):
        canvas.rect(left, top, width, 52, "#D9C3A0", INK, 3)
        canvas.line((left, top + 13), (left + width, top + 13), INK, 2)


def _gate(canvas: Canvas, *, neutral: bool) -> None:
    canvas.circle((494, 152), 68, WHITE, INK, 3)
    for x in (458, 494, 530):
        canvas.line((x, 118), (x, 186), INK, 5)
    canvas.line((458, 152), (530, 152), INK, 5)
    for x, y, words in (
        (458, 109, "1"),
        (446, 184, "2"),
        (510, 118, "3"),
        (510, 196, "4"),
        (546, 136, "5"),
        (546, 182, "R"),
    ):
        canvas.text(x, y, words, 17, bold=True)
    canvas.circle((494, 152) if neutral else (458, 124), 11, BLUE)
    canvas.line((414, 340), (468, 216), INK, 2, dash="6 5")
