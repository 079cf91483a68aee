"""Lesson 8, star tightening: the out-of-balance of a half tightened ring as a figure."""

from functools import cache, lru_cache
from itertools import combinations
from math import cos, hypot, radians, sin

from bitepoint.bank.carry.common import count_word
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import CALCULATES, listed, ring_picture
from bitepoint.mechanics.circle import even_circle_deg
from bitepoint.mechanics.tightening import out_of_balance, vector_sum
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import Vehicle

UNEVEN = ("uneven flywheel bolts",)
"""What a car has whose ring of bolts is added up beside the even ones."""


@exercise("star.out-of-balance", lesson="star", outcome=CALCULATES, minutes=4, title="Work out the out-of-balance")
def out_of_balance_now(draw: Draw) -> Number:
    rings = [
        (even_circle_deg(6), "A flywheel has six bolts, evenly spaced.", ""),
        (even_circle_deg(8), "A flywheel has eight bolts, evenly spaced.", ""),
    ]
    if draw.covers(*UNEVEN):
        rings.append(_uneven_ring(draw.cars(*UNEVEN)[0]))
    angles, ring, letter = rings[draw.form(len(rings))]
    tight = draw.pick(*_telling_sets(angles))
    x, y = vector_sum(angles, tight)
    right = out_of_balance(angles, tight)
    return Number(
        ask=f"{ring} Tight so far: bolts {listed(tight)}. Each pulls as one arrow of length 1. "
        "Add their columns, up and across. How long is the arrow of the sum, in bolts?",
        table=_columns(angles),
        answer=right,
        unit="",
        within=plus_minus(0.05),
        decimals=2,
        mistakes=_balance_mistakes(x, y, len(tight)),
        why=f"The length is {right:.2f}. So the part is pulled to one side as if by {right:.2f} bolts alone.",
        step=f"Add the columns first: up {_two(x)}, across {_two(y)}. The length is √(up² + across²).",
        solution=f"√({_two(abs(x))}² + {_two(abs(y))}²) = {right:.2f} bolts.",
        picture=ring_picture(angles),
        source="derived",
        vehicle=letter,
    )


def _uneven_ring(car: Vehicle) -> tuple[tuple[float, ...], str, str]:
    """Return the angles, the words and the letter of a car whose flywheel bolts are unevenly spaced."""
    angles = tuple(map(float, car.flywheel.hole_angles_deg))
    told = f"The flywheel of {car.name} has {count_word(len(angles))} bolts, unevenly spaced."
    return angles, told, car.id


@lru_cache(maxsize=256)
def _columns(angles: tuple[float, ...]) -> tuple[tuple[str, ...], ...]:
    rows = ((str(i), f"{a:g}°", _two(cos(radians(a))), _two(sin(radians(a)))) for i, a in enumerate(angles, 1))
    return (("Bolt", "Angle from the top", "Up", "Across"), *rows)


def _two(value: float) -> str:
    """Return a figure with two decimals and a true minus, and never a minus before zero."""
    return f"{round(value, 2) + 0.0:.2f}".replace("-", "−")


def _balance_mistakes(x: float, y: float, count: int) -> tuple[Mistake, ...]:
    return (
        Mistake(
            float(count),
            "adds the bolts as plain numbers",
            "You counted the bolts. Bolts on two sides pull against each "
            "other. Whoever only counts cannot tell a star from a circle.",
        ),
        Mistake(
            abs(x) + abs(y),
            "adds up and across as plain numbers",
            "Up and across stand square to each other, so they "
            "do not add as plain numbers. The pull comes out too large.",
        ),
        Mistake(
            hypot(x, y) / count,
            "takes the mean",
            "You divided by the number of bolts. The sum is asked, not the mean. "
            "The mean hides how hard one side is pulled.",
        ),
    )


@cache
def _telling_sets(angles: tuple[float, ...]) -> list[tuple[int, ...]]:
    """Return sets of two to four bolts whose right figure and known mistakes all lie clearly apart."""
    found = []
    for count in (2, 3, 4):
        for tight in combinations(range(1, len(angles) + 1), count):
            x, y = vector_sum(angles, tight)
            figures = sorted([hypot(x, y), count, abs(x) + abs(y), hypot(x, y) / count])
            if min(b - a for a, b in zip(figures, figures[1:], strict=False)) > 0.15:
                found.append(tight)
    return found
