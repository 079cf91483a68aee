"""Assembly: when the flywheel lock is in and out, and how often a cover fits its dowels."""

from bitepoint.mechanics.limits import within
from bitepoint.pictures.canvas import BLUE, METAL, SHADE, SKY, WHITE, Canvas, on_circle
from bitepoint.pictures.registry import Drawing, picture

_STEPS = (
    ("flywheel bolts", "in", "the bolts would turn the engine"),
    ("run-out check", "out", "the flywheel must turn"),
    ("cover bolts", "in", "the bolts would turn the engine"),
    ("turn by hand, gearbox on", "out", "left in, the starter breaks teeth"),
)


@picture("lock-timeline")
def lock_timeline() -> Drawing:
    """Draw the four spells of the job with the lock in or out, and the reason below each."""
    canvas = Canvas(400)
    canvas.text(20, 34, "Flywheel lock: in, out, in, out", 24, anchor="start", bold=True)
    for row, (step, state, reason) in enumerate(_STEPS):
        y = 56 + row * 82.0
        inside = state == "in"
        canvas.rect(20, y, 130, 64, SHADE if inside else WHITE, round=10)
        canvas.text(85, y + 42, state.upper(), 28, bold=True)
        canvas.arrow((156, y + 32), (190, y + 32), BLUE, 4)
        canvas.text(204, y + 26, step, 22, anchor="start", bold=True)
        canvas.text(204, y + 54, reason, 19, anchor="start")
    return canvas.drawing(
        alt="Four rows from top to bottom. "
        + " ".join(f"{step.capitalize()}: lock {state}, because {reason}." for step, state, reason in _STEPS),
        caption="The lock goes in twice and out twice. Count it with the tools before the gearbox goes up.",
    )


_RING, _HOLES, _DOWELS = 118.0, 96.0, 110.0


@picture("cover-on-dowels")
def cover_on_dowels(*, moved_deg: int = 12) -> Drawing:
    """Draw a cover with four even dowels beside one that has a dowel moved, and count the positions of each.

    Neither is a training vehicle's, so that a learner counts the own one.
    """
    within("moved_deg", moved_deg, 5, 40, "°", "Choose how far one dowel is moved.")
    canvas = Canvas(400)
    even, moved = (0, 90, 180, 270), (0, 90 + moved_deg, 180, 270)
    for x, dowels in ((180.0, even), (540.0, moved)):
        count = _positions(dowels)
        canvas.circle((x, 150), _RING + 10, METAL)
        canvas.circle((x, 150), 52, WHITE)
        for angle in range(22, 360, 45):
            canvas.circle(on_circle(x, 150, _HOLES, angle), 8, WHITE)
        for angle in dowels:
            canvas.circle(on_circle(x, 150, _DOWELS, angle), 11, SKY, BLUE, 4)
        canvas.text(x, 308, f"{_TIMES[count]} position{'s' if count > 1 else ''}", 24, bold=True)
    canvas.arrow(on_circle(540, 150, 146, 80), on_circle(540, 150, 146, 80 + moved_deg + 6), BLUE, 4)
    canvas.line((360, 40), (360, 320), SHADE, 2, dash="10 6")
    canvas.circle((150, 362), 11, SKY, BLUE, 4)
    canvas.text(172, 369, "dowel", 20, anchor="start")
    canvas.circle((330, 362), 8, WHITE)
    canvas.text(350, 369, "bolt", 20, anchor="start")
    return canvas.drawing(
        alt="Two clutch covers from the gearbox side, eight bolts each. Left: four dowels, evenly spaced; each quarter "
        f"turn brings all of them home, so it fits in four positions. Right: one dowel is moved by {moved_deg} degrees; "
        "only a whole turn brings all home, so it fits in one position.",
        caption="Turn the dowels in your mind until all of them lie where dowels were.",
    )


_TIMES = {1: "one", 4: "four"}


def _positions(dowels: tuple[int, ...]) -> int:
    return sum(all((d + turn) % 360 in dowels for d in dowels) for turn in range(360))
