"""Feeler leaves under a straight edge, pedal travel on a rule."""

from collections.abc import Sequence

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SHADE, VERMILLION, Canvas
from bitepoint.pictures.measuring.scale_strips import Strip, stands, window
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.tools import FEELER_LEAVES_MM

PER_MM = 640.0


@picture("feeler-and-straight-edge")
def feeler_and_straight_edge(*, goes_mm: float = 0.06, leaves_mm: Sequence[float] = FEELER_LEAVES_MM) -> Drawing:
    """Every leaf of a set tried under a straight edge, enlarged: those that go, and those that stop at its edge.

    Parameters
    ----------
    goes_mm : float
        The thickest leaf that goes; one of `leaves_mm` but not the last.
    leaves_mm : sequence of float
        3 to 8 leaves from thin to thick, 0.01 to 0.20 mm.
    """
    leaves = list(leaves_mm)
    whole("number of leaves_mm", len(leaves), 3, 8, "Give the leaves that were tried.")
    for leaf in leaves:
        within("leaf", leaf, 0.01, 0.2, "mm", "Flatness is measured with thin leaves.")
    if leaves != sorted(set(leaves)) or goes_mm not in leaves[:-1]:
        rule = "one of leaves_mm (thin to thick) but not the thickest"
        raise OutOfRange("goes_mm", rule, f"{goes_mm:g} mm", "Show a leaf that stops as well.")
    nearest = leaves[leaves.index(goes_mm) + 1]
    gap, step = (goes_mm + nearest) / 2, 640 / len(leaves)
    canvas = Canvas(288)
    face, edge = 188.0, 188.0 - gap * PER_MM
    for i, leaf in enumerate(leaves):
        left = 40 + i * step
        canvas.rect(left, face, step - 12, 40, METAL)
        canvas.rect(left + step * 0.38, edge - 76, step * 0.62 - 12, 76, SHADE)
        into = 0.16 if leaf > goes_mm else 0.62
        canvas.rect(left - (8 if leaf > goes_mm else 0), face - leaf * PER_MM, step * into + 8, leaf * PER_MM, ORANGE)
        canvas.text(left + step / 2 - 6, 252, f"{leaf:.2f}", 20, bold=True)
    canvas.text(40, 26, "grey above: straight edge.  grey below: the face.  orange: leaf", 19, anchor="start")
    canvas.text(40, 280, "leaf, mm; gap and leaves enlarged: which leaf goes under?", 18, anchor="start")
    told = "; ".join(f"{leaf:.2f} {'reaches under it' if leaf <= goes_mm else 'stops at its edge'}" for leaf in leaves)
    return canvas.drawing(
        alt=f"Straight edge over a face, a gap below it, and one feeler leaf after the other tried in it, in mm: {told}.",
        caption="The thickest leaf that goes and the thinnest that does not bound the gap.",
    )


@picture("pedal-rule")
def pedal_rule(*, rest_mm: float = 12, play_mm: float = 18, travel_mm: float = 140) -> Drawing:
    """A rule beside the pedal: at rest, where resistance begins, fully down; each place enlarged below.

    Parameters
    ----------
    rest_mm : float
        What the rule shows at rest, 0 to 40 mm.
    play_mm, travel_mm : float
        Free play 0 to 60 mm and whole travel 60 to 160 mm, both from rest.
    """
    within("rest_mm", rest_mm, 0, 40, "mm", "Hold the rule so that the pedal stands near its start.")
    within("play_mm", play_mm, 0, 60, "mm", "Free play ends where resistance begins.")
    within("travel_mm", travel_mm, 60, 160, "mm", "Travel from rest to fully down.")
    places = (
        (rest_mm, BLUE, "at rest"),
        (rest_mm + play_mm, ORANGE, "resistance begins"),
        (rest_mm + travel_mm, VERMILLION, "fully down"),
    )
    canvas = Canvas(600)
    whole_rule = Strip(canvas, 170, (0, 200), (40.0, 680.0))
    whole_rule.rule(step=5, middle=2, numbered=4)
    for i, (value, fill, _) in enumerate(places, start=1):
        x = whole_rule.x(value)
        canvas.rect(x - 7, 46, 14, 58, fill)
        canvas.line((x, 104), (x, 170), INK, 3)
        canvas.text(x - 12, 92, str(i), 22, anchor="end", bold=True)
    canvas.text(40, 28, "rule beside the pedal pad, mm: a line every 5", 19, anchor="start")
    for i, (value, _, words) in enumerate(places, start=1):
        base = 162 + 128 * i
        low = max(0.0, window(value, 24, grid=5))
        strip = Strip(canvas, base, (low, low + 24), (60.0, 680.0))
        strip.rule(step=1, middle=5, numbered=10, height=40)
        strip.pointer(value, INK, height=40)
        canvas.text(48, base - 12, str(i), 24, bold=True)
        canvas.text(680, base - 68, f"{words}, enlarged: a line every mm", 18, anchor="end")
    told = ", ".join(f"{words} {stands(value, 'mm')}" for value, _, words in places)
    return canvas.drawing(
        alt=f"Rule in mm beside the pedal pad, a line every mm in the enlarged parts. The pad stands, {told}.",
        caption="Free play and travel both begin where the pedal stands at rest, not at the rule's 0.",
    )
