"""Strip-down and inspection: where to look while it is bare, and whose oil it is."""

from bitepoint.errors import BadInput
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, SHADE, SKY, WHITE, Canvas
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import IRON, STEEL, hatched, part, smooth

_PLACES = (
    ("rear crankshaft seal: dry", (170, 262)),
    ("flange: bare, flat, no burr", (226, 166)),
    ("dowels: both, straight, tight", (236, 66)),
    ("mounts: rubber whole", (40, 330)),
    ("pilot bearing, if any: turns", (184, 200)),
    ("splines: no burr, no step", (366, 176)),
    ("guide tube: no step, no score", (500, 164)),
    ("input-shaft seal: dry", (588, 236)),
    ("fork, pivot: no flat, no crack", (556, 262)),
    ("slave or cable: slides, whole", (470, 392)),
    ("housing: no crack", (470, 62)),
)
"""What is looked at and how it should be, and where its number stands."""
AXIS = 200.0


def _engine_end(canvas: Canvas) -> None:
    """The rear end of the engine in section: block, seal, crankshaft flange with pilot bearing, dowels, mount."""
    part(canvas, [(20, 36), (196, 36), (196, 328), (20, 328)], IRON, gap=16)
    canvas.rect(60, AXIS - 44, 136, 88, STEEL)
    for y in (AXIS - 62, AXIS + 44):
        canvas.rect(172, y, 24, 18, INK)
        canvas.rect(177, y + 4, 14, 10, SHADE)
    part(canvas, [(196, AXIS - 50), (222, AXIS - 50), (222, AXIS + 50), (196, AXIS + 50)], STEEL, slant_deg=None)
    for y in (AXIS - 38, AXIS + 26):
        canvas.rect(196, y, 26, 12, WHITE)
    canvas.rect(198, AXIS - 12, 24, 24, SKY)
    canvas.line((198, AXIS), (222, AXIS), INK, 1)
    for y in (60.0, 298.0):
        canvas.polygon([(180, y), (222, y), (226, y + 4), (226, y + 10), (222, y + 14), (180, y + 14)], ORANGE)
    canvas.rect(30, 328, 96, 10, METAL)
    canvas.polygon([(36, 338), (120, 338), (130, 366), (26, 366)], "#4A4038")
    canvas.rect(16, 366, 124, 12, METAL)
    canvas.boxed(84, 92, "engine", 20)


def _open_gearbox(canvas: Canvas) -> None:
    """The gearbox in section: bell housing open to the left, input shaft, guide tube, seal, fork on its pivot, slave."""
    for side in (-1, 1):
        wall = [(392, 148), (410, 148), (470, 120), (562, 84), (700, 84), (700, 66), (576, 66), (566, 34), (548, 34), (548, 68), (462, 102), (392, 128)]  # fmt: skip
        part(canvas, [(x, AXIS + side * y) for x, y in wall], IRON, gap=16)
    canvas.rect(566, AXIS - 66, 134, 132, PALE)
    canvas.boxed(640, AXIS - 36, "gearbox", 20)
    canvas.polygon([(322, AXIS - 5), (338, AXIS - 5), (338, AXIS - 9), (700, AXIS - 9), (700, AXIS + 9), (338, AXIS + 9), (338, AXIS + 5), (322, AXIS + 5)], WHITE)  # fmt: skip
    for y in (-5, 0, 5):
        canvas.line((342, AXIS + y), (432, AXIS + y), INK, 1)
    canvas.line((432, AXIS - 9), (432, AXIS + 9), INK, 2)
    for side in (-1, 1):
        tube = [(456, 13), (548, 13), (548, 46), (538, 46), (538, 22), (456, 22)]
        part(canvas, [(x, AXIS + side * y) for x, y in tube], STEEL, slant_deg=135, gap=7)
        canvas.rect(548, AXIS + (10 if side > 0 else -22), 18, 12, INK)
    canvas.polygon([(478, AXIS + 26), (498, AXIS + 26), (524, AXIS + 84), (498, AXIS + 182), (484, AXIS + 178), (504, AXIS + 86)], SKY)  # fmt: skip
    canvas.circle((526, AXIS + 82), 10, METAL)
    canvas.line((536, AXIS + 82), (560, AXIS + 82), INK, 6)
    canvas.rect(396, AXIS + 164, 56, 24, METAL)
    canvas.rect(452, AXIS + 171, 34, 10, WHITE)


UP = -26.0
"""How far the scene is moved, so that no room is left above it."""


def _joint_open(height: float) -> Canvas:
    scene = Canvas(height)
    _engine_end(scene)
    _open_gearbox(scene)
    scene.line((20, AXIS), (712, AXIS), BLUE, 1, dash="18 5 4 5")
    return scene


@picture("bare-places")
def bare_places() -> Drawing:
    """Engine end and open gearbox side by side in section, eleven numbered places to look at, and what each should be."""
    canvas, scene = Canvas(518), _joint_open(518)
    for i, (_, at) in enumerate(_PLACES, start=1):
        scene.circle(at, 15, WHITE, INK, 3)
        scene.text(at[0], at[1] + 6, str(i), 17, bold=True)
    canvas.inset(scene, 0, UP, 1)
    for i, (words, _) in enumerate(_PLACES):
        canvas.text(20 + 352 * (i // 6), 400 + 22 * (i % 6), f"{i + 1}  {words}", 18, anchor="start")
    return canvas.drawing(
        alt="In section, left the end of the engine, right the open gearbox with shaft, guide tube and fork. "
        f"{len(_PLACES)} numbered places: "
        + "; ".join(f"{i} {words}" for i, (words, _) in enumerate(_PLACES, start=1))
        + ".",
        caption="Each is hidden again when the gearbox goes back.",
    )


_TRACES = {
    "rear": ("begins at the crankshaft, under the flange, and runs down the engine block", "#7A5A2E", ((198, 262), (214, 262), (212, 300), (218, 328), (198, 328), (203, 296))),
    "input": ("begins where the input shaft leaves the gearbox and runs down inside the bell housing", "#6B3F1D", ((530, 224), (546, 224), (546, 268), (530, 300), (474, 318), (462, 308), (520, 284))),
    "slave": ("begins low at the release parts, at the rod of the slave cylinder, and drips down", "#56B4E9", ((436, 388), (470, 388), (464, 404), (458, 424), (446, 424), (442, 404))),
}  # fmt: skip


@picture("leak-traces")
def leak_traces(*, trace: str = "rear") -> Drawing:
    """Engine end and open gearbox with one wet track in the place where it begins.

    Raises
    ------
    BadInput
        There is no such trace.
    """
    if trace not in _TRACES:
        raise BadInput(f"There is no trace {str(trace)[:30]!r}. Choose one of {', '.join(_TRACES)}.")
    words, colour, points = _TRACES[trace]
    canvas, scene = Canvas(372), _joint_open(372)
    track = smooth(points, closed=True)
    scene.polygon(track, colour, INK, 2)
    hatched(scene, track, gap=7, slant_deg=80, colour=INK)
    scene.rect(250, 402, 24, 20, colour)
    scene.hatch(250, 402, 24, 20, gap=7)
    scene.text(284, 419, "wet", 18, anchor="start")
    canvas.inset(scene, 28, 0.92 * UP, 0.92)
    return canvas.drawing(
        alt=f"In section, engine end left, open gearbox with input shaft and release parts right. A wet track {words}.",
        caption="Follow the wet track to the point where it begins: highest and nearest to the middle.",
    )
