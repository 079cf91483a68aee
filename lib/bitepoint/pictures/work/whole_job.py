"""The whole job as a picture: its stages down one side and up the other, and how far it is."""

from collections.abc import Sequence

from bitepoint.mechanics.limits import one_of
from bitepoint.pictures.canvas import BLUE, GREEN, INK, PALE, WHITE, WIDTH, Canvas
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.operations import job

_HOLDS = {
    "diagnose": "ask, look, drive, decide",
    "identify": "codes, agreement, kit",
    "plan": "tools, parts, time",
    "remove": "make safe, support, lower",
    "strip": "dust, lock, cover, flywheel",
    "inspect": "look, measure, decide",
    "assemble": "clean, tighten, centre",
    "refit": "oil, battery, wheels",
    "check": "pedal, revs, gears, road",
    "hand-over": "label, record, car, waste",
}
"""What each stage holds, in a few words; the words of the operations themselves stand in the list of operations."""
_BOX, _GAP, _TOP = (314.0, 92.0), 26.0, 52.0
_LEFT, _RIGHT = 22.0, WIDTH - 22.0 - 314.0


@picture("whole-job")
def whole_job(done: Sequence[str] = ()) -> Drawing:
    """Draw the ten stages: down the left the job is understood and taken apart, up the right it is built and proved.

    Parameters
    ----------
    done : sequence of str
        Ids of the stages that are done, such as "diagnose"; the first other one is what comes now.
    """
    stages = job().stages
    for name in done:
        one_of("done", name, tuple(stage.id for stage in stages), "Name each stage that is done.")
    now = next((stage.id for stage in stages if stage.id not in done), "") if done else ""
    rows = (len(stages) + 1) // 2
    canvas = Canvas(_TOP + rows * _BOX[1] + (rows - 1) * _GAP + 20)
    canvas.text(_LEFT, 34, "Down: know it, take it apart", 20, anchor="start", bold=True)
    canvas.text(_RIGHT, 34, "Up: build it, prove it", 20, anchor="start", bold=True)
    told = []
    for at, stage in enumerate(stages):
        count = sum(step.stage == stage.id for step in job().operations)
        state = "done" if stage.id in done else "now" if stage.id == now else ""
        _stage(canvas, at, rows, (stage.title, _HOLDS[stage.id], _many(count), state))
        if at:
            _way(canvas, at, rows)
        told.append(f"{at + 1} {stage.title}{f', {state}' if state else ''}: {_HOLDS[stage.id]}, {_many(count)}")
    alt = f"The whole job as {len(stages)} boxes joined by arrows, down on the left and up on the right. {'. '.join(told)}."
    return canvas.drawing(
        alt=alt,
        caption=f"The whole job: {len(stages)} stages, {len(job().operations)} operations; no car has them all.",
    )


def _many(count: int) -> str:
    return f"{count} operation{'' if count == 1 else 's'}"


def _corner(at: int, rows: int) -> tuple[float, float]:
    """Return the upper left corner of a stage's box."""
    row = at if at < rows else 2 * rows - 1 - at
    return (_LEFT if at < rows else _RIGHT), _TOP + row * (_BOX[1] + _GAP)


def _stage(canvas: Canvas, at: int, rows: int, words: tuple[str, str, str, str]) -> None:
    title, holds, count, state = words
    x, y = _corner(at, rows)
    edge, line = {"done": (GREEN, 3.0), "now": (BLUE, 5.0), "": (INK, 2.0)}[state]
    canvas.rect(x, y, *_BOX, PALE if state == "done" else WHITE, edge, line, round=10)
    canvas.circle((x + 32, y + 46), 21, WHITE, edge, line)
    if state == "done":
        canvas.polyline([(x + 22, y + 47), (x + 30, y + 56), (x + 43, y + 36)], GREEN, 5)
    else:
        canvas.text(x + 32, y + 53, str(at + 1), 20, bold=True)
    canvas.text(x + 64, y + 30, title, 20, anchor="start", bold=True)
    canvas.text(x + 64, y + 55, holds, 18, anchor="start")
    canvas.text(x + 64, y + 79, f"{count}, {state}" if state else count, 17, anchor="start", bold=bool(state))


def _way(canvas: Canvas, at: int, rows: int) -> None:
    """Draw the arrow that leads to a stage from the one before it."""
    (x, y), (x0, y0) = _corner(at, rows), _corner(at - 1, rows)
    middle = _BOX[0] / 2
    if at == rows:
        canvas.arrow((x0 + _BOX[0] + 4, y0 + 46), (x - 4, y + 46), INK, 4)
    elif at < rows:
        canvas.arrow((x + middle, y0 + _BOX[1] + 2), (x + middle, y - 2), INK, 4)
    else:
        canvas.arrow((x + middle, y0 - 2), (x + middle, y + _BOX[1] + 2), INK, 4)
