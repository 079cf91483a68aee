"""Working safely: nine things to look at in a bay, each as it should be or not, and the gearbox on its jack."""

from collections.abc import Callable, Sequence

from bitepoint.errors import BadInput
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, SHADE, SKY, VERMILLION, WHITE, YELLOW, Canvas
from bitepoint.pictures.registry import Drawing, Shape, picture

_WIDE, _HIGH = 216.0, 160.0

Tile = Callable[[Canvas, float, float, bool], None]
"""Draws one thing into its tile (left, top), wrong or as it should be."""


def _arm(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    for i in range(6):
        canvas.rect(x + 28 + 28 * i, y + 66, 14, 18, METAL)
    canvas.rect(x + 22, y + 84, 172, 20, METAL)
    drop = 0 if wrong else 26
    canvas.polygon(
        [(x + 84, y + 18 + drop), (x + 122, y + 18 + drop), (x + 110, y + 58 + drop), (x + 99, y + 58 + drop)], SKY
    )
    canvas.text(x + 140, y + 40, "lock", 17, anchor="start")


def _pad(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 16, y + 20, 184, 34, PALE)
    for notch in (92, 124):
        canvas.polygon([(x + notch - 6, y + 54), (x + notch + 6, y + 54), (x + notch, y + 42)], INK)
    canvas.text(x + 108, y + 42, "here", 16)
    left = x + (150 if wrong else 80)
    canvas.rect(left, y + 56, 56, 16, ORANGE)
    canvas.rect(left + 20, y + 72, 16, 34, METAL)


def _gearbox(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.polygon([(x + 46, y + 22), (x + 94, y + 34), (x + 172, y + 40), (x + 172, y + 66), (x + 46, y + 74)], METAL)
    canvas.rect(x + 60, y + 74, 104, 10, SHADE)
    canvas.rect(x + 102, y + 84, 18, 32, SKY)
    if not wrong:
        canvas.polyline([(x + 88, y + 84), (x + 88, y + 30), (x + 106, y + 30), (x + 106, y + 84)], BLUE, 6)
        canvas.text(x + 130, y + 28, "strap", 17, anchor="start")


def _engine(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 66, y + 46, 84, 44, METAL, round=6)
    if wrong:
        canvas.polygon([(x + 96, y + 92), (x + 120, y + 92), (x + 160, y + 114), (x + 70, y + 114)], SKY)
        for wheel in (x + 78, x + 152):
            canvas.circle((wheel, y + 117), 6, INK)
        canvas.text(x + 18, y + 112, "jack", 17, anchor="start")
        return
    canvas.rect(x + 22, y + 14, 172, 12, ORANGE)
    canvas.line((x + 108, y + 26), (x + 108, y + 46), INK, 4)
    canvas.text(x + 120, y + 42, "beam", 17, anchor="start")


def _airline(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.polygon([(x + 20, y + 30), (x + 96, y + 16), (x + 96, y + 108), (x + 20, y + 94)], PALE)
    canvas.text(x + 56, y + 67, "housing", 16)
    if wrong:
        canvas.polyline([(x + 204, y + 30), (x + 160, y + 66), (x + 110, y + 84), (x + 62, y + 84)], BLUE, 6)
        return
    for r in (36, 26, 16):
        canvas.circle((x + 154, y + 62), r, "none", BLUE, 5)


def _tag(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 20, y + 12, 176, 100, YELLOW, round=8)
    rows = ("lift examined", "06.2025" if wrong else "02.2026", "every 6 months", "today 04.2026")
    for i, row in enumerate(rows):
        canvas.text(x + 108, y + 34 + 24 * i, row, 17, bold=i == 1)


def _boxes(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 16, y + 22, 184, 12, SHADE)
    for leg in (22, 186):
        canvas.line((x + leg, y + 34), (x + leg, y + 114), INK, 4)
    for i, left in enumerate((44, 112)):
        canvas.rect(x + left, y + 66 - 8 * i, 60, 48 + 8 * i, PALE)


def _bin(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.polygon([(x + 72, y + 40), (x + 146, y + 40), (x + 138, y + 114), (x + 80, y + 114)], METAL)
    canvas.rect(x + 64, y + 28, 90, 12, SHADE)


def _lamp(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.line((x + 108, y + 44), (x + 108, y + 92), INK, 4)
    canvas.polyline([(x + 72, y + 114), (x + 108, y + 92), (x + 144, y + 114)], INK, 4)
    canvas.rect(x + 84, y + 20, 48, 26, YELLOW, round=6)


def _exhaust(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 10, y + 30, 70, 60, PALE, round=10)
    canvas.rect(x + 80, y + 62, 40, 14, METAL)
    if wrong:
        for i in range(3):
            canvas.circle((x + 136 + 22 * i, y + 66 - 12 * i), 9 + 3 * i, WHITE, SHADE)
        return
    canvas.rect(x + 108, y + 52, 30, 34, SKY)
    canvas.polyline([(x + 138, y + 69), (x + 176, y + 69), (x + 190, y + 14)], BLUE, 9)


def _person(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 44, y + 38, 128, 50, PALE, round=14)
    canvas.rect(x + 78, y + 44, 8, 38, ORANGE)
    canvas.line((x + 82, y + 8), (x + 82, y + 118), INK, 2, dash="6 5")
    canvas.text(x + 94, y + 20, "line of the clutch", 16, anchor="start")
    centre = (x + 82, y + 106) if wrong else (x + 22, y + 63)
    canvas.circle(centre, 12, BLUE)
    canvas.text(x + 112, y + 69, "car", 16, anchor="start")


def _chocks(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.line((x + 16, y + 108), (x + 200, y + 108), INK, 3)
    canvas.circle((x + 108, y + 66), 42, METAL)
    canvas.circle((x + 108, y + 66), 18, WHITE)
    if not wrong:
        for side in (-1, 1):
            canvas.polygon(
                [(x + 108 + side * 34, y + 108), (x + 108 + side * 74, y + 108), (x + 108 + side * 44, y + 84)], ORANGE
            )


def _lever(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    for column in (60, 108, 156):
        canvas.line((x + column, y + 22), (x + column, y + 106), INK, 3)
    canvas.line((x + 60, y + 64), (x + 156, y + 64), INK, 3)
    for i, column in enumerate((60, 108, 156)):
        canvas.text(x + column + 20, y + 32, str(2 * i + 1), 16)
        canvas.text(x + column + 14, y + 112, str(2 * i + 2) if i < 2 else "R", 16)
    canvas.circle((x + 60, y + 26) if wrong else (x + 108, y + 64), 12, BLUE)


def _lead(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    for centre in (58, 140):
        canvas.circle((x + centre, y + 76), 28, METAL)
    canvas.line((x + 58, y + 48), (x + 140, y + 48), INK, 5)
    canvas.line((x + 58, y + 104), (x + 140, y + 104), INK, 5)
    canvas.text(x + 172, y + 110, "belt", 16, anchor="start")
    if wrong:
        canvas.polyline([(x + 14, y + 16), (x + 70, y + 40), (x + 110, y + 60), (x + 204, y + 30)], VERMILLION, 5)
    else:
        canvas.polyline([(x + 14, y + 16), (x + 120, y + 18), (x + 204, y + 22)], VERMILLION, 5)
    canvas.text(x + 150, y + 14, "lamp lead", 16)


def _bonnet(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.polygon([(x + 20, y + 92), (x + 196, y + 92), (x + 196, y + 114), (x + 20, y + 114)], PALE)
    canvas.line((x + 186, y + 90), (x + 44, y + 20), INK, 7)
    top = (x + 92, y + 44)
    canvas.circle(top, 6, WHITE)
    if wrong:
        canvas.line((x + 70, y + 92), (x + 108, y + 66), BLUE, 5)
    else:
        canvas.line((x + 70, y + 92), top, BLUE, 5)
    canvas.text(x + 30, y + 80, "stay", 16)


def _tester(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 120, y + 40, 70, 58, SKY, round=8)
    canvas.polyline([(x + 120, y + 70), (x + 80, y + 40), (x + 30, y + 30)], INK, 4)
    canvas.rect(x + 70, y + 28, 14, 24, ORANGE)
    canvas.text(x + 60, y + 74, "tied", 16)


def _extinguisher(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.rect(x + 88, y + 38, 40, 74, VERMILLION, round=12)
    canvas.rect(x + 98, y + 24, 20, 14, INK)
    canvas.polyline([(x + 98, y + 30), (x + 76, y + 46), (x + 76, y + 80)], INK, 4)


def _tray(canvas: Canvas, x: float, y: float, wrong: bool) -> None:
    canvas.polygon([(x + 36, y + 76), (x + 180, y + 76), (x + 166, y + 106), (x + 50, y + 106)], METAL)
    canvas.circle((x + 108, y + 56), 6, BLUE)


_LIFT: tuple[tuple[str, str, Tile, str, str], ...] = (
    ("arm", "Arm lock", _arm, "lock down between the teeth", "lock above the teeth"),
    ("pad", "Pad and lifting point", _pad, "pad between the marks", "pad beside the marks"),
    ("gearbox", "Gearbox on its jack", _gearbox, "strapped", "no strap"),
    ("engine", "What holds the engine", _engine, "hangs on a beam", "stands on a trolley jack, nothing else"),
    ("air-line", "Air-line", _airline, "rolled up beside the housing", "its end lies in the housing"),
    ("tag", "Tag of the lift", _tag, "examined 02.2026, every 6 months, today 04.2026",
     "examined 06.2025, every 6 months, today 04.2026"),
    ("boxes", "Boxes under the bench", _boxes, "two boxes under a bench", ""),
    ("bin", "Waste bin", _bin, "lid closed", ""),
    ("lamp", "Lamp on its stand", _lamp, "on a stand", ""),
)  # fmt: skip
_RUN: tuple[tuple[str, str, Tile, str, str], ...] = (
    ("exhaust", "Tail pipe", _exhaust, "hose of the extraction over it", "no hose over it"),
    ("person", "Where a person stands", _person, "in front of the car", "beside the car in line with the clutch"),
    ("chocks", "Wheel", _chocks, "chocks on both sides", "no chocks"),
    ("lever", "Gear lever", _lever, "in the middle, neutral", "in first"),
    ("lead", "Lamp lead", _lead, "clear of the belt", "hangs over the belt"),
    ("bonnet", "Stay of the bonnet", _bonnet, "in its hole", "beside its hole"),
    ("tester", "Lead of the tester", _tester, "tied back", ""),
    ("extinguisher", "Fire extinguisher", _extinguisher, "on the wall", ""),
    ("tray", "Drip tray", _tray, "under a drop", ""),
)
LIFT_HAZARDS = tuple(row[0] for row in _LIFT if row[4])
"""Things in the lifting bay that can be wrong."""
RUN_HAZARDS = tuple(row[0] for row in _RUN if row[4])
"""Things in the bay with the engine running that can be wrong."""
LABELS = {row[0]: row[1] for row in (*_LIFT, *_RUN)}
"""What each thing is called."""


def _bay(rows: tuple[tuple[str, str, Tile, str, str], ...], wrong: Sequence[str], title: str) -> Drawing:
    known = [row[0] for row in rows if row[4]]
    for key in wrong:
        if key not in known:
            raise BadInput(f"{str(key)[:40]!r} cannot be wrong here. Choose from {', '.join(known)}.")
    canvas = Canvas(570)
    canvas.text(20, 34, title, 22, anchor="start", bold=True)
    regions, told = [], []
    for i, (key, label, tile, good, bad) in enumerate(rows):
        x, y = 20 + 232.0 * (i % 3), 52 + 172.0 * (i // 3)
        canvas.rect(x, y, _WIDE, _HIGH, WHITE, SHADE, 2, round=6)
        tile(canvas, x, y, key in wrong)
        canvas.text(x + _WIDE / 2, y + _HIGH - 10, key, 19, bold=True)
        regions.append(Shape(key, label, "rect", (x, y, _WIDE, _HIGH)))
        told.append(f"{label}: {bad if key in wrong else good}.")
    return canvas.drawing(
        alt=f"Nine tiles, each with one thing of the bay. {' '.join(told)}",
        caption="Look at each thing: how should it be?",
        regions=tuple(regions),
    )


@picture("lift-bay")
def lift_bay(*, wrong: Sequence[str] = ()) -> Drawing:
    """Nine things in a bay with a car on the two-post lift; `wrong` names those that are not as they should be.

    Raises
    ------
    BadInput
        A thing is named that cannot be wrong.
    """
    return _bay(_LIFT, wrong, "The bay: the car is up, the gearbox is coming out")


@picture("run-bay")
def run_bay(*, wrong: Sequence[str] = ()) -> Drawing:
    """Nine things in a bay just before the engine is started; `wrong` names those that are not as they should be.

    Raises
    ------
    BadInput
        A thing is named that cannot be wrong.
    """
    return _bay(_RUN, wrong, "The bay: on the ground, the engine is about to be started")


_DEAD = (
    ("Note", "what the car forgets"),
    ("Ignition off", "key on you, keyless: out of range"),
    ("Wait", "until the control units sleep"),
    ("Negative off", "lead and post covered"),
    ("Starter cable", "only now: it has no fuse"),
)


@picture("make-it-dead")
def make_it_dead() -> Drawing:
    """Five steps from the noted settings to the starter cable."""
    canvas = Canvas(400)
    for i, (name, told) in enumerate(_DEAD):
        top = 14 + 76.0 * i
        last = i == len(_DEAD) - 1
        canvas.rect(30, top, 660, 54, YELLOW if last else PALE if i % 2 else WHITE, round=8)
        canvas.text(52, top + 35, str(i + 1), 24, anchor="start", bold=True)
        canvas.text(92, top + 35, name, 21, anchor="start", bold=True)
        canvas.text(672, top + 35, told, 19, anchor="end")
        if not last:
            canvas.arrow((360, top + 54), (360, top + 76), INK, 3)
    return canvas.drawing(
        alt="Five boxes from top to bottom: " + "; ".join(f"{name}: {told}" for name, told in _DEAD) + ".",
        caption="The starter cable comes last. Covered posts keep a spanner from closing the circuit.",
    )
