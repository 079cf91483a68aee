"""Pictures of measuring and deciding: end float, two feeler leaves, and the three decisions."""

from bitepoint.mechanics.limits import within
from bitepoint.mechanics.scales import dial_gauge_reading_mm, micrometer_reading_mm, vernier_reading_mm
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    VERMILLION,
    WHITE,
    YELLOW,
    Canvas,
    on_circle,
)
from bitepoint.pictures.registry import Drawing, picture


@picture("end-float-stops")
def end_float_stops(*, first: float = 0.05, second: float = 0.21) -> Drawing:
    """A crankshaft between its two stops, a dial gauge reading at each."""
    for name, value in (("first", first), ("second", second)):
        within(name, value, -1, 1, "mm", "Read the dial gauge at the stop.")
    canvas = Canvas(300)
    for y, shift, reading, words in ((70.0, 0.0, first, "pushed in"), (196.0, 36.0, second, "pulled out")):
        canvas.rect(230, y - 58, 26, 116, SHADE)
        canvas.rect(404, y - 58, 26, 116, SHADE)
        canvas.rect(160 + shift, y - 16, 300, 32, METAL)
        canvas.rect(256 + shift, y - 44, 112, 88, METAL)
        canvas.rect(460 + shift, y - 50, 30, 100, METAL)
        canvas.line((490 + shift, y), (590, y), BLUE, 4)
        canvas.circle((632, y), 42, WHITE, INK, 3)
        canvas.text(632, y + 7, f"{reading:+.2f}", 20, bold=True)
        canvas.text(30, y + 6, words, 19, anchor="start", bold=True)
    canvas.text(360, 286, f"end float = {second:+.2f} − ({first:+.2f}) = {abs(second - first):.2f} mm", 22, bold=True)
    return canvas.drawing(
        alt=f"A crankshaft in its thrust bearing, twice. Pushed in, the dial gauge shows {first:+.2f} mm; pulled out, "
        f"{second:+.2f} mm. End float is the difference, {abs(second - first):.2f} mm. The gap is drawn too large.",
        caption="End float is the way from one stop to the other. The gap is drawn much too large.",
    )


@picture("two-leaves")
def two_leaves(*, goes: float = 0.05, stops: float = 0.08, limit: float = 0.06) -> Drawing:
    """A gap known to lie between two feeler leaves, and the limit beside it."""
    within("goes", goes, 0.01, 1, "mm", "Give the thickest leaf that goes.")
    within("stops", stops, goes + 0.001, 1, "mm", "Give the thinnest leaf that does not go.")
    within("limit", limit, 0.01, 1, "mm", "Take the limit from the data sheet.")
    canvas = Canvas(346)
    end = max(stops, limit) * 1.35

    def at(value: float) -> float:
        return 60 + 600 * value / end

    canvas.rect(at(goes), 110, at(stops) - at(goes), 70, YELLOW)
    canvas.line((60, 180), (660, 180), INK, 4)
    for value, words in ((goes, "goes"), (stops, "does not go")):
        canvas.line((at(value), 96), (at(value), 194), INK, 3)
        canvas.text(at(value), 222, f"{value:.2f}", 20, bold=True)
        canvas.text(at(value), 84, words, 18)
    canvas.line((at(limit), 50), (at(limit), 240), VERMILLION, 4, dash="10 6")
    canvas.text(at(limit), 40, f"limit {limit:.2f}", 20, bold=True, colour=VERMILLION)
    canvas.text(360, 262, "thickness of the leaf, mm", 19)
    between = goes < limit < stops
    told = "The limit lies between: not settled." if between else "The limit lies outside the pair: settled."
    canvas.lines(360, 296, ("The gap lies somewhere in the yellow field.", told), 19)
    return canvas.drawing(
        alt=f"A scale of leaf thickness. Leaf {goes:.2f} mm goes, leaf {stops:.2f} mm does not; the gap lies between. "
        f"The limit is {limit:.2f} mm. {told}",
        caption="Two leaves give two bounds, never a figure.",
    )


@picture("three-decisions")
def three_decisions() -> Drawing:
    """How a finding becomes reuse, replace, or stop and ask."""
    canvas = Canvas(430)
    canvas.rect(210, 20, 300, 70, PALE, round=10)
    canvas.lines(360, 50, ("a finding: seen or measured,", "written down as it is"), 18)
    canvas.arrow((360, 92), (360, 124))
    canvas.rect(160, 128, 400, 70, WHITE, round=10)
    canvas.lines(
        360, 158, ("Which limit or rule of the sheet belongs to it?", "Is the figure sure enough to decide?"), 17
    )
    for x, name, when, fill in (
        (120.0, "reuse", ("within, or on the limit;", "a burr dressed flush"), WHITE),
        (360.0, "replace", ("a wear part over its", "limit; or always new"), METAL),
        (600.0, "stop and ask", ("engine, gearbox, no", "limit, guard band"), ORANGE),
    ):
        canvas.arrow((360 + (x - 360) * 0.6, 200), (x, 256))
        canvas.rect(x - 105, 260, 210, 120, fill, round=10)
        canvas.text(x, 296, name, 22, bold=True)
        canvas.lines(x, 328, when, 17)
    canvas.text(360, 414, "Stop and ask is a decision, not a failure.", 19, bold=True)
    return canvas.drawing(
        alt="A finding, seen or measured, leads to the question which limit belongs to it and whether the figure is sure. "
        "From there three ways: reuse, within or on the limit, or a burr dressed flush; replace, a wear part over its limit or "
        "always new; stop and ask, engine, gearbox, no limit or guard band.",
        caption="Three decisions. A doubt goes to the third, with the figure.",
    )


@picture("rivet-readings")
def rivet_readings(
    *, depths: tuple[float, ...] = (0.45, 0.4, 0.5, 0.35, 0.4, 0.2, 0.45, 0.5), least: float = 0.3
) -> Drawing:
    """Depth of the rivets at eight places against the least value."""
    within("least", least, 0.01, 5, "mm", "Take the least value from the data sheet.")
    for depth in depths:
        within("depth", depth, 0, 5, "mm", "Read the depth gauge.")
    canvas = Canvas(292)
    base, scale = 226.0, 200 / (max(*depths, least) * 1.1)
    for i, depth in enumerate(depths):
        x = 190.0 + i * 490 / len(depths)
        lowest = depth == min(depths)
        canvas.rect(
            x - 3, base - depth * scale, 52, depth * scale, ORANGE if lowest else METAL, line=4 if lowest else 2
        )
        canvas.text(x + 23, base - 10, f"{depth:.2f}", 18, bold=lowest)
        canvas.text(x + 23, base + 24, str(i + 1), 18)
    canvas.line((50, base - least * scale), (690, base - least * scale), VERMILLION, 4, dash="10 6")
    canvas.text(54, base - least * scale - 8, f"least {least:.2f}", 18, anchor="start", bold=True, colour=VERMILLION)
    canvas.line((70, base), (690, base), INK, 3)
    canvas.text(380, base + 56, "place · rivet depth in mm above", 19)
    kept = "above" if min(depths) >= least else "below"
    mean = sum(depths) / len(depths)
    return canvas.drawing(
        alt=f"Bars of {len(depths)} rivet depths, {', '.join(f'{d:.2f}' for d in depths)} mm. The smallest, "
        f"{min(depths):.2f} mm, is {kept} the least value of {least:.2f} mm; the mean is {mean:.2f} mm.",
        caption=f"The mean is {mean:.2f} mm, but the smallest counts: {min(depths):.2f} mm, {kept} the least value.",
    )


@picture("three-scales")
def three_scales(
    *,
    main: int = 18,
    line: int = 8,
    sleeve: int = 7,
    half: bool = True,
    thimble: int = 12,
    hand: int = 7,
    turns: int = 1,
) -> Drawing:
    """A vernier, a micrometer and a dial gauge, each with the figures that its scales show."""
    caliper = vernier_reading_mm(main, line=line, least_count_mm=0.05)
    micrometer = micrometer_reading_mm(sleeve, half_line=half, thimble=thimble)
    gauge = dial_gauge_reading_mm(hand, turns=turns)
    canvas = Canvas(430)
    _vernier(canvas, main, line)
    _micrometer(canvas, sleeve, half, thimble)
    _dial(canvas, (590.0, 175.0), hand, turns)
    for x, title, working in (
        (130, "vernier", f"{main} + {line} × 0.05 = {caliper:.2f}"),
        (360, "micrometer", f"{sleeve + 0.5 * half:g} + {thimble} × 0.01 = {micrometer:.2f}"),
        (590, "dial gauge", f"{turns} + {hand}/100 − 1 = {gauge:.2f}"),
    ):
        canvas.text(x, 36, title, 20, bold=True)
        canvas.text(x, 360, working, 17, bold=True)
    canvas.text(360, 408, "all in mm; the dial gauge was set with 1 mm of preload", 18)
    return canvas.drawing(
        alt=f"Three instruments. Vernier: {main} mm before the zero, line {line} of 0.05 mm meets, {caliper:.2f} mm. "
        f"Micrometer: {sleeve} mm, {'a half line' if half else 'no half line'}, mark {thimble}, {micrometer:.2f} mm. "
        f"Dial gauge: small hand past {turns}, large hand on {hand}, 1 mm preload off, {gauge:.2f} mm.",
        caption="Coarse scale first, fine scale after, and off with what was there at the start.",
    )


def _vernier(canvas: Canvas, main: int, line: int) -> None:
    """Draw a main scale in mm and a vernier of 20 lines on 39 mm, so that its lines can be told apart."""
    left, step = 20.0, 5.0
    zero = left + 2 * step + line / 20 * step
    canvas.rect(10, 90, 240, 60, PALE)
    canvas.rect(10, 150, 240, 60, WHITE)
    for i in range(46):
        x = left + i * step
        if x > 248:
            break
        number_here = main - 2 + i
        canvas.line((x, 150), (x, 150 - (28 if number_here % 5 == 0 else 16)))
        if number_here % 10 == 0:
            canvas.text(x, 112, str(number_here), 16)
    for k in range(21):
        x = zero + k * 39 / 20 * step
        meets = k == line
        canvas.line((x, 150), (x, 182 if meets or k % 5 == 0 else 168), VERMILLION if meets else INK, 4 if meets else 2)
        if meets or k == 0:
            canvas.text(x, 202, str(k), 16, bold=meets)
    canvas.text(130, 246, "line that meets: thick", 16)


def _micrometer(canvas: Canvas, sleeve: int, half: bool, thimble: int) -> None:
    """Draw the sleeve with whole lines above and half lines below, and the thimble with its marks."""
    edge, step = 380.0, 14.0
    canvas.rect(270, 120, edge - 270, 70, PALE)
    canvas.line((270, 155), (edge, 155), INK, 3)
    shown = sleeve + 0.5 * half + thimble / 100
    for i in range(sleeve + 1):
        x = edge - (shown - i) * step
        if x >= 272:
            canvas.line((x, 155), (x, 133))
            if i % 5 == 0:
                canvas.text(x, 114, str(i), 16)
        if x + step / 2 >= 272 and i + 0.5 < shown:
            newest = half and i == sleeve
            canvas.line((x + step / 2, 155), (x + step / 2, 177), VERMILLION if newest else INK, 4 if newest else 2)
    canvas.rect(edge, 90, 76, 130, METAL)
    for k in range(-5, 6):
        mark = (thimble + k) % 50
        y = 155 - k * 12
        canvas.line(
            (edge, y), (edge + (26 if mark % 5 == 0 else 14), y), VERMILLION if k == 0 else INK, 3 if k == 0 else 2
        )
        if mark % 5 == 0:
            canvas.text(edge + 32, y + 6, str(mark), 16, anchor="start")
    canvas.text(360, 246, "half line: thick, below", 16)


def _dial(canvas: Canvas, centre: tuple[float, float], hand: int, turns: int) -> None:
    """Draw a dial of 100 lines with its large hand and the small one that counts turns."""
    canvas.circle(centre, 112, WHITE, INK, 4)
    for i in range(0, 100, 2):
        long = i % 10 == 0
        canvas.line(on_circle(*centre, 112, i * 3.6), on_circle(*centre, 96 if long else 104, i * 3.6))
        if long:
            x, y = on_circle(*centre, 80, i * 3.6)
            canvas.text(x, y + 6, str(i), 16)
    small = (centre[0], centre[1] + 38)
    canvas.circle(small, 24, PALE)
    canvas.line(small, on_circle(*small, 20, (turns + hand / 100) * 36), VERMILLION, 4)
    canvas.text(small[0] + 44, small[1] + 6, f"{turns}", 16, bold=True)
    canvas.arrow(centre, on_circle(*centre, 100, hand * 3.6), BLUE, 4)
    canvas.text(centre[0], 316, "small hand: whole turns", 16)
