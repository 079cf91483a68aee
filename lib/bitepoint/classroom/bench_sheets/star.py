"""A ring of bolts for paper: each bolt with its number, and outside it the place in which it is tightened."""

import re
from collections.abc import Sequence

from bitepoint.mechanics.tightening import star_order
from bitepoint.pictures.canvas import INK, PALE, WHITE, Canvas, on_circle

_SIDE = 560
_PITCH = 150.0
_BOLT = 34.0
_PLACE = _PITCH + _BOLT + 36


def place_name(place: int) -> str:
    """Return 1st, 2nd, 3rd, 4th … for the places of a ring (up to 20)."""
    return f"{place}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(place, 'th') }"


def ring_drawing(angles_deg: Sequence[float]) -> str:
    """Return the drawing (SVG) of a bolt circle with its own star order.

    Parameters
    ----------
    angles_deg : sequence of float, shape (n,)
        Position of each bolt [degrees clockwise from the top], as on the data sheet.
    """
    canvas, centre = Canvas(_SIDE), (_SIDE / 2, _SIDE / 2)
    canvas.circle(centre, 268, PALE, INK, 3)
    canvas.circle(centre, 60, WHITE, INK, 3)
    for bolt, angle in enumerate(angles_deg, start=1):
        canvas.bolt(on_circle(*centre, _PITCH, angle), _BOLT, str(bolt), size=36)
    for place, bolt in enumerate(star_order(angles_deg), start=1):
        x, y = on_circle(*centre, _PLACE, angles_deg[bolt - 1])
        canvas.text(x, y + 11, place_name(place), 32, bold=True)
    alt = f"Ring of {len(angles_deg)} bolts. Order of tightening: {', '.join(map(str, star_order(angles_deg)))}."
    content = str(canvas.drawing(alt=alt, caption="").content)
    # The canvas is 720 wide; a ring is square, and on paper the empty margin would cost its size.
    square = f'<svg role="img" aria-label="{alt}" viewBox="0 0 {_SIDE} {_SIDE}"'
    return re.sub(r'<svg([^>]*?) viewBox="[^"]*" width="[^"]*" height="[^"]*"', rf"{square}\1", content, count=1)
