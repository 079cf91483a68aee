"""The label of a changed flywheel type, filled, and the three places where it is found."""

from bitepoint.pictures.canvas import BLUE, INK, METAL, PALE, SHADE, WHITE, Canvas
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.vehicle_kits import rigid_kits
from bitepoint.workshop.vehicles import vehicle


@picture("label-places")
def label_places() -> Drawing:
    """A filled label as it is stuck on, and the three places of it: housing, engine bay, service record."""
    canvas = Canvas(480)
    canvas.rect(150, 16, 420, 176, WHITE, line=3, round=8)
    canvas.rect(150, 16, 420, 40, INK, round=8)
    canvas.text(360, 44, "FLYWHEEL TYPE CHANGED", 20, bold=True, colour=WHITE)
    date, km = vehicle("B").job_date, "132,400 km"
    lines = (
        ("Fitted", "rigid flywheel,"),
        ("", "long-travel plate"),
        ("Order by", f"{rigid_kits('B')[0]}, not by engine code"),
        ("Date, km", f"{date}, {km}"),
    )
    for i, (name, words) in enumerate(lines):
        canvas.text(166, 86 + 30 * i, name, 16, anchor="start", bold=True)
        canvas.text(268, 86 + 30 * i, words, 16, anchor="start")
    for x, name, who, place in (
        (124, "bell housing", "seen at the gearbox", _housing),
        (360, "engine bay", "seen before ordering", _engine_bay),
        (596, "service record", "stays if a label falls off", _record),
    ):
        canvas.arrow((360 + (x - 360) * 0.5, 196), (x, 236), BLUE)
        place(canvas, x)
        canvas.text(x, 384, name, 19, bold=True)
        canvas.text(x, 410, who, 16)
    canvas.frame(frame_words())
    told = "; ".join(f"{name} {words}".strip() for name, words in lines)
    return canvas.drawing(
        alt=f"A filled label: flywheel type changed; {told}. Arrows lead to three places: bell housing, engine bay, service record.",
        caption="The codes of the car still name the old type. The label in three places names the new one.",
    )


def _small_label(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x, y, 36, 22, WHITE)
    canvas.rect(x, y, 36, 7, INK)


def _housing(canvas: Canvas, x: float) -> None:
    """A gearbox from the side: the wide bell housing at the left, the narrow case behind it."""
    canvas.polygon(
        [
            (x - 88, 250),
            (x - 76, 250),
            (x - 76, 256),
            (x - 10, 276),
            (x - 10, 334),
            (x - 76, 352),
            (x - 76, 358),
            (x - 88, 358),
        ],
        METAL,
    )
    canvas.polygon([(x - 10, 278), (x + 70, 284), (x + 70, 328), (x - 10, 332)], SHADE)
    canvas.rect(x + 70, 294, 18, 24, METAL)
    canvas.rect(x - 100, 301, 12, 8, WHITE)
    for rib in (10, 28, 46):
        canvas.line((x + rib, 282), (x + rib, 330))
    _small_label(canvas, x - 62, 292)


def _engine_bay(canvas: Canvas, x: float) -> None:
    """The bonnet up, an engine between the wings."""
    canvas.polygon([(x - 84, 290), (x - 66, 242), (x + 66, 242), (x + 84, 290)], METAL)
    canvas.polygon([(x - 92, 292), (x + 92, 292), (x + 84, 356), (x - 84, 356)], PALE)
    canvas.rect(x - 40, 304, 80, 44, SHADE)
    canvas.rect(x - 32, 296, 64, 12, METAL)
    canvas.circle((x + 62, 326), 14, METAL)
    _small_label(canvas, x - 18, 254)


def _record(canvas: Canvas, x: float) -> None:
    """An open booklet with lines of entries."""
    canvas.polygon([(x, 262), (x - 74, 250), (x - 74, 346), (x, 358)], WHITE)
    canvas.polygon([(x, 262), (x + 74, 250), (x + 74, 346), (x, 358)], WHITE)
    for i in range(5):
        canvas.line((x - 64, 268 + 16 * i), (x - 10, 277 + 16 * i), SHADE)
        if i > 1:
            canvas.line((x + 10, 277 + 16 * i), (x + 64, 268 + 16 * i), SHADE)
    _small_label(canvas, x + 18, 268)
