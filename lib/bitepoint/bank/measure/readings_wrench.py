"""Typical wrong readings of torque wrench, angle gauge and pedal rule."""

from math import floor

from bitepoint import units
from bitepoint.bank.measure.readings import misread
from bitepoint.questions.question import Mistake


def torque_wrench(setting_nm: float) -> list[Mistake]:
    """Wrong readings of a torque wrench with tens on the shaft and a ring of single N·m.

    >>> [(m.value, m.name) for m in torque_wrench(65)][:2]
    [(47.9415, 'reads the other scale'), (60.0, 'forgets the ring')]
    """
    tens, ring = floor(setting_nm / 10 + 1e-9) * 10, setting_nm % 10
    return [
        misread(
            units.convert(setting_nm, "N·m", "lbf·ft"),
            "reads the other scale",
            "You read the side in lbf·ft. Look for the unit first. Set by that side, bolts are a third too tight.",
        ),
        misread(
            tens,
            "forgets the ring",
            "You left the ring out. It adds single newton-metres. A small bolt can be torn off by the rest.",
        ),
        misread(
            tens + 10 + ring,
            "takes the line that is still covered",
            "You took a line that the grip still covers. The last one uncovered counts. "
            "Ten newton-metres too few leave a bolt loose.",
        ),
        misread(
            tens + 10 * ring,
            "counts the ring ten times",
            "You counted the ring in tens. One figure of it is one newton-metre. "
            "Who trusts that reading leaves bolts loose.",
        ),
    ]


def angle_gauge(turned_deg: float, *, start_deg: float) -> list[Mistake]:
    """Wrong readings of an angle gauge that did not stand at nought before the turn.

    >>> [(m.value, m.name) for m in angle_gauge(48, start_deg=15)]
    [(63.0, 'forgets where it started'), (312.0, 'goes the wrong way round'), (58.0, 'takes the figure after the pointer')]
    """
    return [
        misread(
            (start_deg + turned_deg) % 360,
            "forgets where it started",
            "You gave where the pointer stands now. Take off where it stood before. "
            "The bolt got another angle than you write down.",
        ),
        misread(
            360 - turned_deg,
            "goes the wrong way round",
            "You went the wrong way round. The bolt was turned clockwise, as the figures run. "
            "Your record would show a torn bolt.",
        ),
        misread(
            turned_deg + 10,
            "takes the figure after the pointer",
            "You counted from the figure after the pointer. Count on from the one before it. "
            "The bolt was turned less than you write, and clamps less.",
        ),
    ]


def pedal(value_mm: float, *, rest_mm: float) -> list[Mistake]:
    """Wrong readings of a rule beside a pedal that rests at `rest_mm`.

    >>> [(m.value, m.name) for m in pedal(18, rest_mm=12)]
    [(30.0, 'measures from the end of the rule'), (28.0, 'takes the figure after the mark'), (17.0, 'takes the line beside')]
    """
    return [
        misread(
            value_mm + rest_mm,
            "measures from the end of the rule",
            "You measured from the rule's nought. The pedal's place at rest comes off. "
            "Play that looks too large is set too small, and the clutch slips.",
        ),
        misread(
            value_mm + 10,
            "takes the figure after the mark",
            "You counted from the figure after the mark. Count on from the one before it. "
            "Then play is set too small, and the clutch slips.",
        ),
        misread(
            value_mm - 1,
            "takes the line beside",
            "You took a line beside the pointer. Look at it squarely, not from the side. "
            "Close to a limit that line decides the wrong way.",
        ),
    ]
