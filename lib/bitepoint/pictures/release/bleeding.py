"""Bleeding a hydraulic release system, one step a picture."""

from bitepoint.pictures.canvas import INK, METAL, SHADE, SKY, VERMILLION, WHITE, Canvas
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.release import parts
from bitepoint.pictures.release.parts import ARM, PEDAL, label
from bitepoint.pictures.strokes import STEEL, bend, callout, capsule, choice, coil, smooth

STEPS = (
    (
        "Get ready",
        "Sealed fluid of the right kind; tank full.",
        "Clear hose on the nipple, its end in clean fluid.",
        0.0,
        False,
        False,
    ),
    (
        "Open, then push slowly",
        "One of you pushes, the other opens the nipple.",
        "Air and fluid go into the jar.",
        0.55,
        True,
        True,
    ),
    (
        "Close while the pedal is down",
        "“Down” – close the nipple – “closed”.",
        "Only then may the pedal come up.",
        1.0,
        False,
        False,
    ),
    (
        "Pedal up by hand, fill the tank",
        "Again from step 2 until no bubble comes.",
        "Never let the tank run empty: brakes may share it.",
        0.0,
        False,
        False,
    ),
    (
        "Finish",
        "Nipple to its torque, cap on, tank to its mark.",
        "Ten slow strokes; firm, and nothing wet.",
        0.0,
        False,
        False,
    ),
)
CARE = ("Brake fluid harms eyes, skin and paint:", "goggles, gloves, water at hand.")
SPOT = (398.0, 330.0)


@picture("bleeding")
def bleeding(*, step: int = 2) -> Drawing:
    """One of five steps: pedal, nipple, bubbles, tank, hose and jar as they stand in it."""
    choice("step", step, range(1, len(STEPS) + 1))
    title, first, second, down, opened, bubbles = STEPS[step - 1]
    last = step == len(STEPS)
    canvas = Canvas(606)
    canvas.text(20, 32, f"Bleeding, step {step} of {len(STEPS)}: {title}", 22, anchor="start", bold=True)
    out = _system(canvas, down, opened)
    if not last:
        _hose_and_jar(canvas, bubbles)
        _named_jar(canvas, bubbles)
    else:
        _cap(canvas)
        callout(canvas, "cap on", (SPOT[0] + 60, SPOT[1] - 84), (SPOT[0] + 26, SPOT[1] - 60))
    if step == 4:
        canvas.arrow((140, 344), (52, 344), VERMILLION, 5)
        canvas.text(96, 372, "up by hand", 18, bold=True)
        canvas.arrow((372, 52), (298, 52), VERMILLION, 4)
        canvas.text(382, 58, "fill with sealed fluid", 17, anchor="start")
    label(canvas, "slave cylinder", (SPOT[0] + 90, SPOT[1] + 70), (SPOT[0] + 50, SPOT[1] + 18))
    label(canvas, "master cylinder", (270, out[1] + 58), (240, out[1] + 18))
    canvas.rect(20, 444, 680, 84, "#F2F2F2")
    canvas.text(36, 478, first, 20, anchor="start")
    canvas.text(36, 510, second, 20, anchor="start")
    for row, line in enumerate(CARE):
        canvas.text(20, 560 + row * 26.0, line, 18, anchor="start", bold=True)
    regions = (
        Shape("pedal", "pedal", "rect", (20, 90, 150, 260)),
        Shape("tank", "fluid tank", "rect", (216, 44, 92, 62)),
        Shape("nipple", "bleed nipple", "circle", (SPOT[0] + 22, SPOT[1] - 44, 26)),
        Shape("jar", "jar", "rect", (590, 250, 96, 140)),
    )
    nipple = "open" if opened else "closed"
    return canvas.drawing(
        alt=(
            f"Bleeding a release system, step {step} of {len(STEPS)}: {title}. Pedal {'up' if not down else 'going down' if opened else 'down'}, bleed nipple {nipple}, "
            f"{'cap on' if last else 'clear hose from the nipple into clean fluid in a jar' + (', bubbles rising' if bubbles else '')}. {first} {second}"
        ),
        caption=f"Step {step}: {title.lower()}. The nipple is {nipple}.",
        regions=regions[:3] if last else regions,
    )


_PANEL, _SMALL = (236.0, 214.0), 0.325
_SHORT = (
    ("Sealed fluid, tank full,", "hose in clean fluid"),
    ("Nipple open, then", "push slowly"),
    ("Nipple closed while", "the pedal is down"),
    ("Pedal up by hand,", "fill, again from 2"),
    ("Nipple tight, cap on,", "hold 1 minute: dry?"),
)


@picture("bleeding-steps")
def bleeding_steps() -> Drawing:
    """All five steps side by side, small: pedal, nipple, hose and jar as they stand in each."""
    canvas = Canvas(456)
    for at, (_, _, _, down, opened, bubbles) in enumerate(STEPS):
        left, top = 6 + at % 3 * (_PANEL[0] + 2), 6 + at // 3 * (_PANEL[1] + 12)
        canvas.rect(left, top, *_PANEL, WHITE, round=8)
        one = Canvas(440)
        _system(one, down, opened, word=False)
        if at + 1 < len(STEPS):
            _hose_and_jar(one, bubbles)
        else:
            _cap(one)
        canvas.inset(one, left, top + 6, _SMALL)
        state = "open" if opened else "closed"
        canvas.text(left + 12, top + 30, f"{at + 1}", 24, anchor="start", bold=True)
        canvas.text(left + 190, top + 30, state, 18, bold=True, colour=VERMILLION if opened else INK)
        canvas.lines(left + 14, top + 168, _SHORT[at], 18, anchor="start")
    left, top = 6 + 2 * (_PANEL[0] + 2), 6 + _PANEL[1] + 12
    care = ("Brake fluid harms", "eyes, skin and paint:", "goggles, gloves,", "water at hand.")
    for row, line in enumerate(care):
        canvas.text(left + 16, top + 66 + row * 30, line, 17, anchor="start", bold=True)
    told = " ".join(
        f"{at + 1}: {' '.join(_SHORT[at])}; nipple {'open' if step[4] else 'closed'}." for at, step in enumerate(STEPS)
    )
    return canvas.drawing(
        alt=f"Bleeding with a helper in five small pictures. {told} {' '.join(care)}",
        caption="Five steps: the nipple is open in the second alone, while the pedal goes down.",
    )


def _system(canvas: Canvas, down: float, opened: bool, *, word: bool = True) -> tuple[float, float]:
    """Draw pedal, master, pipe and slave; return where the master's pipe leaves."""
    rod = parts.pedal(canvas, down, under=ARM / 6)
    out = parts.master(canvas, (rod[0], PEDAL[1] + ARM / 6), 34 * down)
    parts.pipe(canvas, [out, (362, out[1] + 6), (368, out[1] + 60), (362, SPOT[1] - 40), (370, SPOT[1] - 4), SPOT])
    _slave(canvas, 30 * down, opened, word=word)
    return out


def _cap(canvas: Canvas) -> None:
    canvas.polygon(capsule((SPOT[0] + 22, SPOT[1] - 66), (SPOT[0] + 22, SPOT[1] - 54), 9), INK)


def _slave(canvas: Canvas, stroke: float, opened: bool, *, word: bool) -> None:
    x, y = SPOT
    canvas.rect(x, y - 22, 92, 44, METAL)
    canvas.rect(x + 6, y - 15, 86, 30, SKY)
    canvas.rect(x + 26 + stroke, y - 15, 22, 30, STEEL)
    canvas.rect(x + 48 + stroke, y - 15, 44 - stroke, 30, WHITE)
    canvas.line((x + 48 + stroke, y), (x + 150 + stroke, y), INK, 6)
    coil(canvas, (x + 92, y), (x + 126 + stroke, y), 12, 4)
    canvas.rect(x + 12, y - 40, 20, 18, METAL)
    canvas.polygon([(x + 16, y - 40), (x + 28, y - 40), (x + 25, y - 62), (x + 19, y - 62)], WHITE)
    tip = (x - 84, y - 64) if opened else (x - 92, y - 32)
    canvas.polygon(capsule((x + 14, y - 32), tip, 6), SHADE)
    canvas.circle((x + 22, y - 32), 15, SHADE)
    canvas.polygon(
        [(x + 14, y - 40), (x + 30, y - 40), (x + 34, y - 32), (x + 30, y - 24), (x + 14, y - 24), (x + 10, y - 32)],
        METAL,
    )
    if word:
        text = "OPEN" if opened else "CLOSED"
        canvas.text(x - 100, y - 76 if opened else y - 52, text, 20, bold=True, colour=VERMILLION)


def _hose_and_jar(canvas: Canvas, bubbles: bool) -> None:
    x, y = SPOT
    jar = (600.0, 268.0)
    canvas.rect(jar[0], jar[1], 76, 116, WHITE, round=6)
    canvas.rect(jar[0], jar[1] + 46, 76, 70, SKY, round=6)
    hose = smooth(
        [(x + 22, y - 58), (x + 24, y - 110), (x + 90, y - 138), (jar[0] + 34, jar[1] - 24), (jar[0] + 40, jar[1] + 96)]
    )
    bend(canvas, hose, fill=SKY, width=7)
    canvas.rect(jar[0], jar[1], 76, 116, "none", round=6)
    if bubbles:
        for bx, by, r in (
            (jar[0] + 52, jar[1] + 92, 5),
            (jar[0] + 60, jar[1] + 74, 6),
            (jar[0] + 52, jar[1] + 58, 5),
            (x + 58, y - 129, 4),
            (x + 88, y - 137, 4),
            (jar[0] + 20, jar[1] - 36, 4),
        ):
            canvas.circle((bx, by), r, WHITE)
    canvas.line((jar[0] - 14, jar[1] + 46), (jar[0], jar[1] + 46), SHADE, 2)


def _named_jar(canvas: Canvas, bubbles: bool) -> None:
    x, y = SPOT
    jar = (600.0, 268.0)
    if bubbles:
        callout(canvas, "air bubbles", (590, 150), (x + 89, y - 138))
    callout(canvas, ("jar, clean", "fluid"), (632, 410), (jar[0] + 24, jar[1] + 106))
    callout(canvas, "clear hose", (456, 262), (x + 23, y - 94))
