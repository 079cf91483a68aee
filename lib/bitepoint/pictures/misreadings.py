"""Typical wrong readings of each instrument that is drawn: the wrong figure, its name, and what to say to it."""

from collections.abc import Callable, Sequence
from math import floor
from statistics import fmean
from typing import NamedTuple

from bitepoint import units
from bitepoint.errors import BadInput
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.mechanics.scales import micrometer_setting, vernier_setting
from bitepoint.pictures.gauges import LEAVES_MM


class Misreading(NamedTuple):
    """A wrong figure in the instrument's own unit, what went wrong, and what to say to it."""

    value: float
    name: str
    says: str


Found = list[tuple[float, str, str]]


def misreadings(
    key: str,
    value: float,
    *,
    resolution: float = 0.02,
    preload_mm: float = 1.0,
    start_deg: float = 0.0,
    rest_mm: float = 0.0,
    first: int = 1,
    leaves_mm: Sequence[float] = LEAVES_MM,
    readings: Sequence[float] = (),
) -> list[Misreading]:
    """Return the typical wrong readings of a picture, each different from the right one and from the others.

    Parameters
    ----------
    key : str
        Key of the picture.
    value : float
        The right reading: mm, N·m, degrees turned, teeth; for the sweep the run-out of `readings`.
    resolution, preload_mm, start_deg, rest_mm, first, leaves_mm, readings
        As the picture of that key takes them; the others are not used.

    Raises
    ------
    BadInput
        There is no such instrument.

    Source
    ------
    common-practice

    Examples
    --------
    >>> [(wrong, name) for wrong, name, _ in misreadings("micrometer", 12.66)]
    [(12.16, 'half-millimetre line missed'), (12.67, 'mark beside'), (12.82, 'thimble mark taken twice')]
    """
    makers: dict[str, Callable[[], Found]] = {
        "vernier": lambda: _vernier(value, resolution),
        "micrometer": lambda: _micrometer(value),
        "dial-gauge": lambda: _dial_gauge(value, preload_mm),
        "run-out-sweep": lambda: _sweep(readings),
        "torque-wrench-scale": lambda: _wrench(value),
        "angle-gauge": lambda: _angle(value, start_deg),
        "feeler-and-straight-edge": lambda: _feeler(value, leaves_mm),
        "flywheel-teeth": lambda: _teeth(value, first),
        "pedal-rule": lambda: _pedal(value, rest_mm),
    }
    if key not in makers:
        raise BadInput(f"There are no misreadings for {str(key)[:60]!r}. Choose one of {', '.join(makers)}.")
    kept: list[Misreading] = []
    for wrong, name, says in makers[key]():
        found = Misreading(round(wrong, 4), name, says)
        if all(abs(found.value - other) > 1e-4 for other in (value, *(m.value for m in kept))):
            kept.append(found)
    return kept


def _vernier(value: float, resolution: float) -> Found:
    main, line = vernier_setting(value, least_count_mm=resolution)
    right = main + line * resolution
    return [
        (
            right + resolution,
            "vernier line beside",
            "One line further meets nothing. Look for the line that meets exactly.",
        ),
        (float(main), "main scale only", "The vernier was left out. Add the line that meets."),
        (main + line / 100, "line number taken for hundredths", "Each line counts what is printed on the slider."),
        (
            right + 1,
            "next whole millimetre taken",
            "Read the whole millimetre before the vernier's zero, not after it.",
        ),
    ]


def _micrometer(value: float) -> Found:
    _, half, mark = micrometer_setting(value)
    missed = (
        (
            value - 0.5,
            "half-millimetre line missed",
            "A half line stands uncovered below the long line: half a millimetre more.",
        )
        if half
        else (value + 0.5, "half-millimetre line added", "No half line is uncovered after the last whole one.")
    )
    return [
        missed,
        (value + 0.01, "mark beside", "Read the mark that stands at the long line, straight in front of it."),
        (value + mark / 100, "thimble mark taken twice", "One mark is 0.01 mm: one turn is 0.5 mm, not 1 mm."),
    ]


def _dial_gauge(value: float, preload_mm: float) -> Found:
    return [
        (
            value - 1 if value > 0 else value + 1,
            "one turn missed",
            "Read the small hand first: each turn is a whole millimetre.",
        ),
        (value + preload_mm, "wrong zero", "What both hands showed when it was set must be taken off."),
        (-value, "wrong sign", "Plunger in is plus, on the outer scale; plunger out is minus."),
        (value * 10, "a line taken for a tenth", "The dial says it: one line is 0.01 mm."),
    ]


def _sweep(readings: Sequence[float]) -> Found:
    right = run_out_mm(readings)
    return [
        (max(readings), "highest reading alone", "Run-out is the highest less the lowest; minus counts too."),
        (right / 2, "halved", "Half the swing is the offset; run-out is the whole swing."),
        (fmean(readings), "mean taken", "Only highest and lowest count."),
        (abs(readings[-1] - readings[0]), "last less first", "Neither has to be the highest or the lowest."),
    ]


def _wrench(value: float) -> Found:
    tens, ring = floor(value / 10 + 1e-9) * 10, value % 10
    return [
        (units.convert(value, "N·m", "lbf·ft"), "other scale", "That is the lbf·ft side. Read the unit first."),
        (float(tens), "ring left out", "The ring on the grip adds single N·m."),
        (tens + 10 + ring, "line above the edge", "Take the last line that the edge uncovers, then add the ring."),
        (tens + 10 * ring, "ring taken ten times", "A figure of the ring is one N·m."),
    ]


def _angle(value: float, start_deg: float) -> Found:
    return [
        ((start_deg + value) % 360, "start not zeroed", "Take off where the pointer stood before the turn."),
        (360 - value, "wrong way round", "The bolt was turned clockwise."),
        (value + 10, "a figure too far", "Count on from the figure before the pointer."),
    ]


def _feeler(value: float, leaves_mm: Sequence[float]) -> Found:
    place = list(leaves_mm).index(value)
    return [
        (leaves_mm[place + 1], "leaf that does not go", "The gap is smaller than the leaf that stops."),
        (value + leaves_mm[place + 1], "leaves added", "Leaves are added only when they are used together."),
        (leaves_mm[0], "thinnest leaf taken", "Thicker ones go as well: take the thickest that goes."),
    ]


def _teeth(value: float, first: int) -> Found:
    return [
        (value + 1, "marked tooth counted as well", "Count steps from tooth to tooth; the marked tooth is 0."),
        (value + first, "counted from the edge", "Begin at the paint mark, not at the edge of the picture."),
        (value - 1, "one tooth missed", "Count up to the tooth at the fixed mark, that one too."),
    ]


def _pedal(value: float, rest_mm: float) -> Found:
    return [
        (value + rest_mm, "start not zeroed", "Take off what the rule showed with the pedal at rest."),
        (value + 10, "a figure too far", "Count on from the figure before the mark."),
        (value - 1, "line beside", "Look at the mark squarely, not from the side."),
    ]
