"""A bolt in its hole, cut open: what is clamped, how much thread is engaged, and whether the tip meets its end."""

from bitepoint.mechanics.joints import clearance_to_thread_end_mm, engagement_mm
from bitepoint.pictures.axes import figure, label
from bitepoint.pictures.canvas import INK, METAL, ORANGE, SKY, VERMILLION, WHITE, Canvas
from bitepoint.pictures.registry import Drawing, picture


@picture("bolt-in-hole")
def bolt_in_hole(*, length_mm: float = 34, clamped_mm: float = 20, depth_mm: float = 18, d_mm: float = 10) -> Drawing:
    """A section through clamped part and threaded hole with the bolt in it, to scale; a gap if it bottoms."""
    room = clearance_to_thread_end_mm(length_mm, clamped_mm=clamped_mm, thread_depth_mm=depth_mm)
    engaged = engagement_mm(length_mm, clamped_mm=clamped_mm)
    gap = max(0.0, -room)
    tall = max(gap + clamped_mm + depth_mm, length_mm) + d_mm * 0.7
    scale = min(236 / tall, 90 / d_mm)
    canvas = Canvas(372)
    head = 56 + 0.7 * d_mm * scale
    part = head + gap * scale
    block = part + clamped_mm * scale
    floor, half, centre = block + depth_mm * scale, d_mm * scale / 2, 230.0
    _clamped_and_threaded(canvas, centre, half, (part, block, floor), clamped_mm > 0)
    end = head + length_mm * scale
    _bolt(canvas, centre, half, (head, end, min(max(block, head), end)))
    right = 420.0
    canvas.lines(
        right,
        max(part + clamped_mm * scale / 2, 90),
        ("clamped part,", f"{figure(clamped_mm)} mm thick"),
        20,
        anchor="start",
    )
    canvas.lines(
        right,
        max(block + 40, 150),
        (
            f"engaged {figure(min(engaged, depth_mm))} mm" if engaged > 0 else "does not reach",
            f"thread {figure(depth_mm)} mm deep",
        ),
        20,
        anchor="start",
    )
    canvas.text(84, floor + 24, "crankshaft", 17, anchor="start")
    told = "bottoms: the head stands off" if room < 0 else f"{figure(room)} mm of room below"
    if engaged <= 0:
        told = "does not reach the thread"
    canvas.text(
        20,
        34,
        f"Bolt {figure(length_mm)} mm: {told}" + (f" by {figure(gap)} mm" if gap else ""),
        22,
        anchor="start",
        bold=True,
    )
    if gap:
        canvas.line((centre - 2.6 * half, part), (centre - 2.6 * half, head), VERMILLION, 8)
        label(canvas, (centre - 2.6 * half - 8, (part + head) / 2 + 6), f"{figure(gap)} mm", 19, anchor="end")
    return canvas.drawing(
        alt=(
            f"Section through a bolt {figure(length_mm)} mm long, {figure(clamped_mm)} mm clamped, in a "
            f"thread {figure(depth_mm)} mm "
            f"deep: {figure(engaged)} mm would engage; it "
            f"{told if told.startswith(('bottoms', 'does')) else 'has ' + told}."
        ),
        caption=(
            f"Drawn to scale. Bolt {figure(length_mm)} mm, clamped {figure(clamped_mm)} mm, thread "
            f"{figure(depth_mm)} mm: {told}."
        ),
    )


def _clamped_and_threaded(
    canvas: Canvas, centre: float, half: float, heights: tuple[float, float, float], clamped: bool
) -> None:
    """The part that is clamped over the part with the thread, cut open; the hole ends in the cone of the drill."""
    part, block, floor = heights
    canvas.rect(70, block, 320, max(floor + 34 - block, 30), METAL)
    tip = floor + half * 0.55
    hole = [
        (centre - half, block),
        (centre + half, block),
        (centre + half, floor),
        (centre, tip),
        (centre - half, floor),
    ]
    canvas.polygon(hole, WHITE)
    for y in range(int(block) + 6, int(floor) - 3, 9):
        for side in (-1, 1):
            canvas.line((centre + side * half, y), (centre + side * (half + 6), y + 4))
    if clamped:
        for left, wide in ((90.0, centre - half - 96), (centre + half + 6, 364 - centre - half)):
            canvas.rect(left, part, wide, block - part, SKY)
            canvas.hatch(left, part, wide, block - part, INK, 22)


def _bolt(canvas: Canvas, centre: float, half: float, heights: tuple[float, float, float]) -> None:
    """A bolt with hexagon head and flange; its thread is drawn from the lowest of the three heights to the tip."""
    head, end, thread = heights
    chamfer = min(half * 0.4, (end - head) / 3)
    canvas.polygon(
        [
            (centre - half, head),
            (centre + half, head),
            (centre + half, end - chamfer),
            (centre + half * 0.7, end),
            (centre - half * 0.7, end),
            (centre - half, end - chamfer),
        ],
        ORANGE,
    )
    for y in range(int(thread) + 4, int(end - chamfer), 8):
        canvas.line((centre - half, y), (centre + half, y + 4))
    top, flange = 56.0, 10.0
    canvas.rect(centre - 1.5 * half, top, 3 * half, head - flange - top, ORANGE)
    for x in (centre - 0.75 * half, centre + 0.75 * half):
        canvas.line((x, top), (x, head - flange))
    canvas.polygon(
        [
            (centre - 1.6 * half, head - flange),
            (centre + 1.6 * half, head - flange),
            (centre + 1.9 * half, head),
            (centre - 1.9 * half, head),
        ],
        ORANGE,
    )
