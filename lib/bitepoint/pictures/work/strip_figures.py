"""Strip-down and inspection: where to look, whose oil it is, teeth in degrees, the order as stages."""

from bitepoint.errors import BadInput
from bitepoint.mechanics.limits import within
from bitepoint.pictures.canvas import (
    BLUE,
    GREEN,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    YELLOW,
    Canvas,
    on_circle,
)
from bitepoint.pictures.registry import Drawing, picture

_PLACES = (
    ("rear seal: dry", 108, 196),
    ("flange: bare, flat", 132, 150),
    ("dowels: straight, tight", 172, 62),
    ("mounts: not torn", 70, 330),
    ("splines: no burr", 438, 196),
    ("guide tube: no step", 500, 178),
    ("input-shaft seal: dry", 532, 212),
    ("fork and pivot: no flat", 512, 286),
    ("push-rod: slides", 596, 312),
    ("housing: no crack", 420, 70),
)


@picture("bare-places")
def bare_places() -> Drawing:
    """Engine end and open gearbox side by side, ten numbered places to look at, and what each should be."""
    canvas = Canvas(590)
    canvas.rect(20, 60, 130, 260, PALE)
    canvas.text(84, 100, "engine", 20, bold=True)
    canvas.rect(150, 150, 26, 92, METAL)
    canvas.circle((150, 196), 18, WHITE)
    canvas.rect(150, 54, 34, 16, SKY)
    canvas.rect(150, 300, 34, 16, SKY)
    canvas.rect(40, 320, 60, 26, ORANGE)
    canvas.polygon([(400, 56), (560, 110), (690, 130), (690, 262), (560, 282), (400, 330)], PALE)
    canvas.text(634, 160, "gearbox", 20, bold=True)
    canvas.rect(360, 188, 190, 16, METAL)
    for i in range(6):
        canvas.line((366 + 12 * i, 188), (366 + 12 * i, 204), INK, 1)
    canvas.rect(470, 178, 84, 36, "none", INK, 3)
    canvas.polygon([(498, 214), (514, 214), (520, 330), (506, 330)], SKY)
    canvas.rect(540, 304, 90, 18, METAL)
    for i, (_, x, y) in enumerate(_PLACES, start=1):
        canvas.circle((x, y), 15, YELLOW)
        canvas.text(x, y + 6, str(i), 17, bold=True)
    for i, (words, _, _) in enumerate(_PLACES):
        canvas.text(20 + 350 * (i // 5), 400 + 36 * (i % 5), f"{i + 1}  {words}", 20, anchor="start")
    return canvas.drawing(
        alt="Left the end of the engine, right the open gearbox with its shaft and fork. Ten numbered places: "
        + "; ".join(words for words, _, _ in _PLACES)
        + ".",
        caption="Ten places that are bare only now. Each is hidden again when the gearbox goes back.",
    )


_TRACES = {
    "rear": ("from the crankshaft outward", (150, 190), ORANGE),
    "input": ("from the input shaft downward", (470, 190), VERMILLION),
    "slave": ("low at the release parts", (548, 282), BLUE),
}


@picture("leak-traces")
def leak_traces(*, trace: str = "rear") -> Drawing:
    """Engine flange and open gearbox with one wet track in the place where it begins.

    Raises
    ------
    BadInput
        There is no such trace.
    """
    if trace not in _TRACES:
        raise BadInput(f"There is no trace {str(trace)[:30]!r}. Choose one of {', '.join(_TRACES)}.")
    words, (x, y), colour = _TRACES[trace]
    canvas = Canvas(400)
    canvas.rect(20, 40, 130, 290, PALE)
    canvas.text(84, 80, "engine", 20, bold=True)
    canvas.rect(150, 144, 24, 92, METAL)
    canvas.polygon([(380, 40), (560, 90), (700, 110), (700, 270), (560, 300), (380, 340)], PALE)
    canvas.text(640, 150, "gearbox", 20, bold=True)
    canvas.rect(330, 180, 250, 18, METAL)
    canvas.rect(530, 262, 100, 20, SKY)
    canvas.text(580, 256, "release", 17)
    for i in range(5):
        canvas.circle((x + 3 * (i % 2), y + 14 * i), 9 - i, colour)
    canvas.arrow((290, 340), (x - 6, y + 74), GREEN, 3)
    canvas.text(20, 384, f"wet track: {words}", 20, anchor="start", bold=True)
    return canvas.drawing(
        alt=f"Engine flange left, open gearbox with input shaft and release parts right. A wet track {words}.",
        caption="Follow a track to the point where it begins: highest and nearest to the middle.",
    )


@picture("teeth-and-degrees")
def teeth_and_degrees(*, teeth: int = 6, ring: int = 132) -> Drawing:
    """A ring gear from the front, with so many of its teeth marked from stop to stop.

    Raises
    ------
    OutOfRange
        Teeth or ring is not what a ring gear has.
    """
    within("ring", ring, 60, 200, "", "Count the teeth of the ring gear.")
    within("teeth", teeth, 1, ring / 4, "", "Count the teeth from stop to stop.")
    canvas = Canvas(430)
    centre, step = (360.0, 640.0), 360 / ring
    canvas.circle(centre, 520, METAL)
    shown = range(-13, 13)
    for i in shown:
        inside = 0 <= i + teeth // 2 < teeth
        angle = (i + 0.5) * step
        points = [
            on_circle(*centre, r, angle + a * step) for r, a in ((520, -0.34), (556, -0.2), (556, 0.2), (520, 0.34))
        ]
        canvas.polygon(points, ORANGE if inside else WHITE)
    first, last = -(teeth // 2) * step, (teeth - teeth // 2) * step
    for angle in (first, last):
        canvas.line(on_circle(*centre, 470, angle), on_circle(*centre, 600, angle), BLUE, 4)
    canvas.text(360, 196, f"stop to stop: {teeth} teeth", 22, bold=True)
    canvas.text(360, 228, f"whole ring: {ring} teeth = 360°", 20)
    canvas.rect(20, 330, 680, 80, WHITE, SHADE, 2, round=8)
    canvas.text(360, 378, "one tooth = 360° ÷ teeth of the ring", 22, bold=True)
    return canvas.drawing(
        alt=f"Part of a ring gear of {ring} teeth. {teeth} teeth between two stops are marked.",
        caption="The free angle is counted in teeth at the ring gear, from stop to stop, without spring force.",
    )


_RUNGS = (
    ("Secured", "cannot roll, start or fall", PALE),
    ("Parted", "linkage, release, starter, shafts", WHITE),
    ("Held", "engine on its beam, gearbox strapped", YELLOW),
    ("Freed", "mount, then the last two bolts", WHITE),
    ("Caught", "dust wet, into the bag", YELLOW),
    ("Let down", "lock in, cover in star half-turns", WHITE),
    ("Looked at", "measure fitted, then off, then decide", PALE),
)


@picture("strip-order")
def strip_order() -> Drawing:
    """Seven words for the order of the strip-down, each with what it stands for."""
    canvas = Canvas(520)
    for i, (name, told, fill) in enumerate(_RUNGS):
        top = 14 + 72.0 * i
        canvas.rect(30, top, 660, 52, fill, round=8)
        canvas.text(52, top + 34, str(i + 1), 23, anchor="start", bold=True)
        canvas.text(92, top + 34, name, 21, anchor="start", bold=True)
        canvas.text(672, top + 34, told, 19, anchor="end")
        if i < len(_RUNGS) - 1:
            canvas.arrow((360, top + 52), (360, top + 72), INK, 3)
    return canvas.drawing(
        alt="Seven boxes from top to bottom: " + "; ".join(f"{name}: {told}" for name, told, _ in _RUNGS) + ".",
        caption="What holds a load comes before what frees it. Yellow: the two steps that protect your body.",
    )
