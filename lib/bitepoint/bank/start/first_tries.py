"""Lesson 0, start here: a number, a drill and a picture to try the forms."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import ring_picture, spaced, turned
from bitepoint.mechanics.circle import even_circle_deg
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.pulls import Stage
from bitepoint.questions.question import Mistake, Picture
from bitepoint.questions.region import Region, Spot
from bitepoint.questions.tightening import Tightening
from bitepoint.units import FOOT_M, POUND_FORCE_N, STANDARD_GRAVITY

TRIES = "Answers with a figure, a picture or a drill"


@exercise("start.number", lesson="start", outcome=TRIES, minutes=2, title="A torque in another unit")
def number(draw: Draw) -> Number:
    old = draw.form(2) == 1
    given = draw.value(2, 12, 0.5) if old else float(draw.integer(15, 90))
    factor = STANDARD_GRAVITY if old else POUND_FORCE_N * FOOT_M
    unit, told = ("kgf·m", "9.807") if old else ("lbf·ft", "1.356")
    name = "kilogram-force metre" if old else "pound-foot"
    sheet = "An old" if old else "A foreign"
    upside = Mistake(
        given / factor,
        "divides instead of multiplying",
        (
            f"One {name} is more than one N·m, so the figure in N·m must be the larger one. Tightened to "
            "yours, the bolt stays far too loose."
        ),
    )
    same = Mistake(
        given,
        "takes the figure without its unit",
        (
            "You kept the figure and changed only the unit. A torque is a figure with its unit: read "
            "both, or the bolt stays too loose."
        ),
    )
    return Number(
        ask=f"{sheet} sheet asks for {given:g} {unit}. One {unit} is {told} N·m. What is that in N·m?",
        answer=given * factor,
        unit="N·m",
        within=percent(1),
        decimals=1,
        mistakes=(upside, same),
        why=(f"{given:g} × {told} = {given * factor:.1f}. With the unit beside the figure nobody can mistake it."),
        step=f"The unit on the sheet is the larger one, so multiply: {given:g} × {told}.",
        solution=f"{given:g} × {told} = {given * factor:.1f} N·m.",
        source="nist-sp-811",
    )


@exercise("start.tightening", lesson="start", outcome=TRIES, minutes=2, title="Four bolts, one stage")
def tightening(draw: Draw) -> Tightening:
    part = ("practice plate", "wheel", "pump flange")[draw.form(3)]
    angles = turned(even_circle_deg(4), draw.pick(0, 45), backwards=draw.pick(False, True))
    good = star_order(angles)
    return Tightening(
        ask=f"A {part} has four bolts, bolt 1 at {angles[0]:g}° clockwise from the top, "
        f"bolt 2 at {angles[1]:g}°. "
        "In which order do you tighten one stage?",
        typed_as="Typed, the answer is the bolt numbers with a space between.",
        angles_deg=angles,
        stages=(Stage("order", "One stage", "order"),),
        picture=ring_picture(angles),
        why="Each bolt once, and across each time. So no side is drawn down first, and the part seats flat.",
        step="Start at bolt 1. Across from it is bolt 3. Two bolts are left.",
        solution=f"{spaced(good)}, for example.",
        source="asme-pcc-1-legacy",
    )


@exercise("start.region", lesson="start", outcome=TRIES, minutes=1, title="Places on the torque wrench")
def region(draw: Draw) -> Region:
    pulls = draw.form(2) == 0
    spots = _hand_spots() if pulls else _drive_spots()
    reach = draw.integer(20, 60)
    return Region(
        ask=f"You tighten a bolt to {reach} N·m. Where does your hand pull the torque wrench?"
        if pulls
        else f"You set a torque wrench to {reach} N·m. Where does the socket go on?",
        spots=spots,
        picture=Picture("wrench-grip"),
        why=(
            "The wrench is calibrated for a hand at the mark on the grip. Elsewhere the lever is "
            "another, and so may be the torque."
        )
        if pulls
        else ("The square drive sits in the head. From its centre to the mark on the grip you measure the lever."),
        step="Look for the end with the mark." if pulls else "Look for the end with the square drive.",
        solution="At the grip, in the middle, square to the handle." if pulls else "On the square drive in the head.",
        source="navedtra-14113" if pulls else "common-practice",
    )


def _hand_spots() -> tuple[Spot, ...]:
    shaft = "A hand on the shaft shortens the lever. The wrench then clicks at another torque than the one set."
    head = (
        "At the head there is no lever at all. The hand adds a push that the wrench does not measure, "
        "and the socket tips off."
    )
    return (
        Spot("grip", "the grip", right=True),
        Spot("shaft", "the shaft", name="holds the shaft", says=shaft),
        Spot("head", "the head", name="pushes on the head", says=head),
    )


def _drive_spots() -> tuple[Spot, ...]:
    grip = "The grip is for the hand, and on many wrenches it sets the torque. A socket finds no drive there."
    shaft = "The shaft only carries the pull. A socket finds no drive there, and a clamp on it would bend the wrench."
    return (
        Spot("grip", "the grip", name="takes the grip for the drive", says=grip),
        Spot("shaft", "the shaft", name="takes the shaft for the drive", says=shaft),
        Spot("head", "the head", right=True),
    )
