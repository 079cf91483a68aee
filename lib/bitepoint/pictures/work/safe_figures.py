"""Working safely: making the car dead, step by step."""

from bitepoint.pictures.canvas import INK, PALE, WHITE, YELLOW, Canvas
from bitepoint.pictures.registry import Drawing, picture

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
