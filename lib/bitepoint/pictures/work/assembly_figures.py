"""Assembly: when the flywheel lock is in and out, and how often a cover fits its dowels."""

from bitepoint.pictures.canvas import BLUE, METAL, SHADE, SKY, WHITE, Canvas, on_circle
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.vehicles import vehicle as sheet

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


@picture("cover-on-dowels")
def cover_on_dowels(*, vehicle: str = "A") -> Drawing:
    """Draw the ring of cover bolts with its dowels and say in how many positions the cover fits.

    Raises
    ------
    BadData
        There is no such training vehicle.
    """
    cover = sheet(vehicle).clutch.cover
    dowels = tuple(round(angle) for angle in cover.dowel_angles_deg)
    fits = sum(all((d + turn) % 360 in dowels for d in dowels) for turn in range(0, 360))
    canvas = Canvas(430)
    x, y = 220.0, 200.0
    canvas.circle((x, y), 165, METAL)
    canvas.circle((x, y), 70, WHITE)
    for angle in range(0, 360, round(360 / cover.n)):
        canvas.circle(on_circle(x, y, 125, angle + 20), 11, WHITE)
    for angle in dowels:
        canvas.circle(on_circle(x, y, 150, angle), 13, SKY, BLUE, 4)
    canvas.circle((455, 90), 13, SKY, BLUE, 4)
    canvas.text(480, 97, "dowel", 21, anchor="start")
    canvas.circle((455, 140), 11, WHITE)
    canvas.text(480, 147, "bolt", 21, anchor="start")
    canvas.text(440, 215, f"fits in {fits} position{'s' if fits > 1 else ''}", 24, anchor="start", bold=True)
    canvas.lines(440, 260, ("Dowels centre,", "bolts only clamp."), 20, anchor="start")
    canvas.frame("TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR")
    return canvas.drawing(
        alt=(
            f"Clutch cover of training vehicle {vehicle} from the gearbox side: dowels at "
            f"{', '.join(f'{d}' for d in dowels)} degrees clockwise from the top, bolts between them. "
            f"It fits in {fits} position{'s' if fits > 1 else ''}."
        ),
        caption=f"Training vehicle {vehicle}: turn the dowels in your mind until they meet dowels again.",
    )
