"""The bolted joint: preload left after tightening, a part pulled askew, the stages, a bolt as a spring."""

from collections.abc import Sequence

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within
from bitepoint.mechanics.tightening import even_circle_deg, preloads_after, star_order, tilt
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    Canvas,
    Point,
)
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.vehicles import vehicle

EXAMPLE_LOSS = (0.10, 0.03)
"""Example: what a bolt loses when its neighbour, or the next but one, is tightened (source: invented)."""


@picture("preload-bars")
def preload_bars(*, preloads: Sequence[float] = (0.74, 0.87, 1, 0.74, 0.87, 1), target: float = 1) -> Drawing:
    """One bar a bolt, in percent of the target, with a line at the mean."""
    shares = _shares(preloads, target)
    mean = sum(shares) / len(shares)
    canvas = Canvas(326)
    _chart(canvas, (96, 256), (600, 226), shares, step=20, size=20)
    canvas.text(34, 144, "preload, % of target", 18, turn=-90)
    canvas.text(396, 314, "bolt number", 18)
    listed = ", ".join(f"bolt {i} {s:.0f}" for i, s in enumerate(shares, start=1))
    return canvas.drawing(
        alt=f"Bar chart of the preload of each bolt in percent of the target: {listed}. Line at the mean, {mean:.0f} percent.",
        caption=f"Preload left in each bolt. Hatched: the weakest, {min(shares):.0f} %. Dashed: the mean, {mean:.0f} %.",
    )


def _shares(preloads: Sequence[float], target: float) -> list[float]:
    within("target", target, 1e-6, 1e6, "", "Give the preload every bolt should have.")
    if not 2 <= len(preloads) <= 24:
        raise OutOfRange("preloads", "2 to 24 figures", f"{len(preloads)}", "Give one for each bolt.")
    return [
        100 * within("preload", f, 0, 1.5 * target, "", "Give it in the unit of the target.") / target for f in preloads
    ]


def _chart(
    canvas: Canvas, corner: Point, area: tuple[float, float], shares: Sequence[float], *, step: int, size: float
) -> None:
    """Bars from 0 to at least 100 % over the lower left corner; the weakest hatched, the mean dashed."""
    left, base = corner
    top = max(100.0, *shares)
    scale, pitch = area[1] / top, area[0] / len(shares)
    for tick in range(0, 101, step):
        y = base - tick * scale
        canvas.line((left, y), (left + area[0], y), SHADE if tick else INK, 2 if tick else 3)
        canvas.text(left - 8, y + 6, str(tick), 17, anchor="end")
    weakest = min(shares)
    for i, share in enumerate(shares):
        x, height = left + (i + 0.16) * pitch, share * scale
        canvas.rect(x, base - height, 0.68 * pitch, height, SKY)
        if share < weakest + 0.05:
            canvas.hatch(x, base - height, 0.68 * pitch, height)
        canvas.text(x + 0.34 * pitch, base + size + 2, str(i + 1), max(16, size - 2))
    mean = sum(shares) / len(shares)
    canvas.line((left, base - mean * scale), (left + area[0], base - mean * scale), VERMILLION, 3, dash="10 6")
    for i, share in enumerate(shares):
        if len(shares) <= 12:
            canvas.boxed(left + (i + 0.5) * pitch, base - 12, f"{share:.0f}", size)


@picture("preload-story")
def preload_story(*, bolts: int = 6, loss: Sequence[float] = EXAMPLE_LOSS) -> Drawing:
    """Preload left after four ways of tightening training vehicle A's flywheel bolts, computed with example losses."""
    panels = story(bolts, loss)
    canvas = Canvas(750)
    for i, (name, preloads) in enumerate(panels):
        left, base = 62 + 356 * (i % 2), 288 + 334 * (i // 2)
        shares = [100 * f for f in preloads]
        askew = 100 * tilt(even_circle_deg(bolts), preloads)
        canvas.text(left, base - 212, f"{i + 1}. {name}", 20, anchor="start", bold=True)
        _chart(canvas, (left, base), (284, 190), shares, step=50, size=18)
        canvas.text(
            left, base + 48, f"weakest {min(shares):.0f} % · mean {sum(shares) / bolts:.0f} %", 18, anchor="start"
        )
        canvas.text(left, base + 72, f"tilt {askew:.1f} %", 18, anchor="start", bold=True)
    canvas.text(20, 32, "Preload of each bolt, % of target; dashed: mean; hatched: weakest bolt", 18, anchor="start")
    canvas.text(
        20,
        736,
        f"Example: neighbour loses {100 * loss[0]:g} %, next but one {100 * loss[1]:g} %. Invented figures.",
        17,
        anchor="start",
    )
    listed = "; ".join(
        f"{name}: weakest bolt {100 * min(f):.0f} percent, mean {100 * sum(f) / bolts:.0f}, "
        f"tilt {100 * tilt(even_circle_deg(bolts), f):.1f}"
        for name, f in panels
    )
    return canvas.drawing(
        alt=f"Four bar charts of the preload of {bolts} bolts in percent of the target. {listed}.",
        caption="The star takes the tilt away. The stages and the second round bring the preload back.",
    )


def story(bolts: int, loss: Sequence[float]) -> list[tuple[str, tuple[float, ...]]]:
    """Return (name, preloads as shares of the target) for the four ways of the picture."""
    ring, star = tuple(range(1, bolts + 1)), star_order(even_circle_deg(bolts))
    stages = vehicle("A").flywheel.tightening.stages_nm
    staged = [(star, nm / stages[-1]) for nm in stages]
    ways: list[tuple[str, list[tuple[tuple[int, ...], float]]]] = [
        ("One pass, round the circle", [(ring, 1.0)]),
        ("One pass, star", [(star, 1.0)]),
        (f"Star, {len(stages)} stages", staged),
        ("… and a second round", [*staged, (ring, 1.0)]),
    ]
    return [(name, preloads_after(passes, bolts, loss=loss)) for name, passes in ways]


@picture("tilt-side")
def tilt_side() -> Drawing:
    """A flywheel from the side, pulled down at one bolt first, and pulled down at two opposite bolts."""
    canvas = Canvas(470)
    for x, lean, title in ((156.0, 20.0, "One side tight first"), (496.0, 0.0, "Opposite bolts tight")):
        canvas.text(x + 24, 34, title, 22, bold=True)
        _flange(canvas, x)
        _leaning_flywheel(canvas, x, lean)
    canvas.arrow((118, 366), (171, 332), VERMILLION, 3)
    canvas.lines(112, 366, ("gap: it sits", "askew"), 18, anchor="end")
    canvas.text(360, 456, "Drawn far too large on purpose: a real gap is far smaller.", 17)
    return canvas.drawing(
        alt=(
            "Flywheel and crankshaft flange from the side, exaggerated. Left: the upper bolt is tight first, the flywheel is "
            "drawn down on that side and a gap stays open at the lower side. Right: the upper and the opposite lower bolt "
            "are tight, and the flywheel sits flat on the flange."
        ),
        caption="Why across: a part that is pulled down on one side first can seat askew (exaggerated).",
    )


def _flange(canvas: Canvas, x: float) -> None:
    canvas.rect(x - 120, 210, 90, 56, SHADE)
    canvas.rect(x - 30, 138, 36, 200, SHADE)
    canvas.text(x - 90, 204, "crankshaft", 17)


def _leaning_flywheel(canvas: Canvas, x: float, lean: float) -> None:
    def at(out: float, down: float) -> Point:
        """Point of the flywheel: `out` from the flange face, `down` from the upper bolt; leaning grows downwards."""
        return x + 6 + out + lean * (down + 32) / 136, 170 + down - lean * out / 136

    canvas.polygon([at(0, -102), at(46, -102), at(46, 238), at(0, 238)], METAL)
    for down, tight in ((0.0, True), (136.0, lean == 0)):
        gap = 0.0 if tight else 26.0
        canvas.polygon(
            [at(46 + gap, down - 17), at(66 + gap, down - 17), at(66 + gap, down + 17), at(46 + gap, down + 17)], ORANGE
        )
        if gap:
            canvas.polygon([at(46, down - 7), at(46 + gap, down - 7), at(46 + gap, down + 7), at(46, down + 7)], WHITE)
        if tight:
            canvas.arrow((x + 158, at(66, down)[1]), (at(72, down)[0], at(66, down)[1]), BLUE, 4)
            canvas.text(x + 162, at(66, down)[1] + 6, "tight", 18, anchor="start", bold=True)
    canvas.text(at(23, 262)[0], at(0, 262)[1], "flywheel", 17)


@picture("stage-ladder")
def stage_ladder() -> Drawing:
    """Stages of training vehicle A's flywheel bolts, with the second round."""
    sheet = vehicle("A").flywheel
    stages = sheet.tightening.stages_nm
    rungs = [(f"Stage {i}", nm, "star, each bolt once") for i, nm in enumerate(stages, start=1)]
    rungs.append(("Second round", stages[-1], "any order, once each"))
    canvas = Canvas(430)
    base, scale, pitch = 310.0, 280 / stages[-1], 608 / len(rungs)
    canvas.text(30, 180, "torque, N·m", 18, turn=-90)
    for tick in range(0, int(stages[-1]) + 1, 20):
        canvas.line((78, base - tick * scale), (92, base - tick * scale))
        canvas.text(72, base - tick * scale + 6, str(tick), 18, anchor="end")
    for i, (name, nm, how) in enumerate(rungs):
        x, second = 96 + i * pitch, i == len(rungs) - 1
        canvas.rect(x, base - nm * scale, pitch - 10, nm * scale, PALE if second else SKY)
        if second:
            canvas.hatch(x, base - nm * scale, pitch - 10, nm * scale, BLUE, 18)
            canvas.rect(x + 8, base - nm * scale + 10, pitch - 26, 66, WHITE, WHITE, 0)
        canvas.text(x + pitch / 2 - 5, base - nm * scale + 36, f"{nm:g} N·m", 24, bold=True)
        canvas.text(x + pitch / 2 - 5, base - nm * scale + 64, f"{100 * nm / stages[-1]:.0f} %", 20)
        canvas.text(x + pitch / 2 - 5, base + 28, name, 20, bold=True)
        canvas.lines(x + pitch / 2 - 5, base + 50, how.split(", "), 16)
    canvas.line((86, base), (706, base), INK, 3)
    canvas.frame(frame_words())
    listed = "; ".join(f"{name} {nm:g} N·m, {how}" for name, nm, how in rungs)
    return canvas.drawing(
        alt=f"Stages of the {sheet.bolt_count} flywheel bolts of training vehicle A, an invented car: {listed}.",
        caption="Training vehicle A: three stages in the star, then the second round at the last torque.",
    )


@picture("bolt-stretch")
def bolt_stretch() -> Drawing:
    """A bolt as a spring in a blind hole: snug, tightened to a torque, turned on by an angle."""
    canvas = Canvas(402)
    states = (
        ("Snug", ("parts touch,", "bolt hardly pulls"), 8.0, 0.0, 0.0),
        ("Torque", ("the bolt stretches", "and clamps"), 6.0, 12.0, 30.0),
        ("Angle", ("a known turn more,", "a known stretch more"), 4.5, 24.0, 52.0),
    )
    for i, (name, told, coils, deeper, force) in enumerate(states):
        x = 122.0 + 238 * i
        canvas.text(x, 32, name, 24, bold=True)
        _spring_bolt(canvas, x, coils, deeper, force)
        canvas.lines(x, 340, told, 18)
    canvas.text(360, 390, "The bolt's shank is drawn as a spring. Stretch drawn far too large on purpose.", 17)
    return canvas.drawing(
        alt=(
            "Three views of a bolt that clamps a flywheel to a crankshaft, its shank drawn as a spring. Snug: the coils are "
            "close. Torque: the coils are pulled apart, the bolt reaches deeper into its thread and arrows show the clamping "
            "force. Angle: the coils are wider still and the arrows longer."
        ),
        caption="A tight bolt is a stretched spring. Its pull is the preload that clamps the parts (exaggerated).",
    )


def _spring_bolt(canvas: Canvas, x: float, coils: float, deeper: float, force: float) -> None:
    top, seam, floor = 88.0, 186.0, 316.0
    canvas.rect(x - 104, top, 208, seam - top, METAL)
    canvas.rect(x - 104, seam, 208, floor - seam, SHADE)
    canvas.rect(x - 24, top, 48, seam - top, WHITE)
    canvas.rect(x - 19, seam, 38, 98, WHITE)
    canvas.polygon([(x - 42, top), (x - 34, top - 38), (x + 34, top - 38), (x + 42, top)], ORANGE)
    end = seam + 60 + deeper
    canvas.rect(x - 19, seam, 38, end - seam, ORANGE)
    for y in range(int(seam) + 10, int(end), 11):
        canvas.line((x - 19, y), (x + 19, y - 5), INK, 2)
    half = (seam - top) / (2 * coils)
    turns = int(2 * coils)
    zigzag = [(x + (17 if k % 2 else -17), top + (k + 0.5) * half) for k in range(turns)]
    canvas.polyline([(x, top), *zigzag, (x, seam)], INK, 4)
    if force:
        for side in (-66, 66):
            canvas.arrow((x + side, seam - 12 - force), (x + side, seam - 6), VERMILLION, 5)
            canvas.arrow((x + side, seam + 12 + force), (x + side, seam + 6), VERMILLION, 5)
    else:
        canvas.text(x - 98, top + 24, "flywheel", 17, anchor="start")
        canvas.text(x - 98, floor - 9, "crankshaft", 17, anchor="start")
