"""Lesson 8, star tightening: the drills on one ring of bolts."""

from collections.abc import Sequence

import msgspec

from bitepoint.bank.carry.common import count_word
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import ORDERS, ring_picture, spaced, turned
from bitepoint.mechanics.circle import even_circle_deg
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.draw import Draw
from bitepoint.questions.pulls import Stage
from bitepoint.questions.question import Picture
from bitepoint.questions.tightening import Tightening

ONE_STAGE = (Stage("order", "One stage", "order"),)
PARTS = ("flywheel", "clutch cover", "practice ring")
TYPED = "Typed, the answer is the bolt numbers with a space between."
ACROSS = (
    "Each bolt once, and across every time. Then the pull stays about one bolt out of balance. "
    "The part goes down flat and seats square."
)


def _ring(draw: Draw, angles_deg: Sequence[float], **words: str) -> Tightening:
    """Return a drill of one stage on a ring that is turned and numbered as the draw says."""
    backwards = draw.pick(False, True)
    angles = turned(angles_deg, draw.pick(0, 90, 180, 270), backwards=backwards)
    order = star_order(angles)
    way = "anticlockwise" if backwards else "clockwise"
    placed = f"Bolt 1 sits at {angles[0]:g}°, measured clockwise from the top. The numbers run {way}."
    return Tightening(
        ask=f"{words['ask']} {placed} In which order do you tighten this stage?",
        typed_as=TYPED,
        angles_deg=angles,
        stages=ONE_STAGE,
        picture=ring_picture(angles),
        why=words["why"],
        step=words["step"],
        solution=f"One good order is {spaced(order)}. Any other order that stays as balanced is right too.",
        source=words["source"],
        vehicle=words.get("vehicle", ""),
    )


def _even(draw: Draw, bolts: int, word: str, step: str, source: str) -> Tightening:
    part = PARTS[draw.form(len(PARTS))]
    stage = draw.pick("first", "second", "last")
    ask = f"A {part} has {word} bolts, evenly spaced. You are at the {stage} stage, the wrench is set."
    return _ring(draw, even_circle_deg(bolts), ask=ask, why=ACROSS, step=step, source=source)


@exercise("star.six-bolts", lesson="star", outcome=ORDERS, minutes=2, title="Tighten six bolts")
def six_bolts(draw: Draw) -> Tightening:
    step = (
        "Start at bolt 1. The bolt on the far side is 1 + 3 = 4. From there go to a bolt not yet done, "
        "and across again."
    )
    return _even(draw, 6, "six", step, "mil-hdbk-60")


@exercise("star.eight-bolts", lesson="star", outcome=ORDERS, minutes=2, title="Tighten eight bolts")
def eight_bolts(draw: Draw) -> Tightening:
    step = (
        "Start at bolt 1. Across from it is 1 + 4 = 5. The next pair lies a quarter turn away: which two "
        "bolts are that?"
    )
    return _even(draw, 8, "eight", step, "mil-hdbk-60")


@exercise("star.nine-bolts", lesson="star", outcome=ORDERS, beyond=True, minutes=3, title="Tighten nine bolts")
def nine_bolts(draw: Draw) -> Tightening:
    step = (
        "Nine is odd, so no bolt lies exactly opposite. Go on by four places each time: 1, 5, 9. "
        "After nine you count on from one."
    )
    return _even(draw, 9, "nine", step, "derived")


@exercise(
    "star.uneven-six",
    lesson="star",
    outcome=ORDERS,
    minutes=3,
    needs=("one of six flywheel bolts out of place",),
    title="Tighten an uneven ring",
)
def uneven_six(draw: Draw) -> Tightening:
    car = draw.vehicle()
    ((hole, off),) = car.flywheel.out_of_place_deg.items()
    asks = (
        f"The flywheel of {car.name} has six bolts. One hole sits out of its even place, "
        "so the part fits in one position only.",
        f"You fit the rigid flywheel of {car.name}. Its six holes are unevenly spaced. The wrench is set.",
        f"A colleague says: “Uneven holes, so no star.” The part is the six-bolt flywheel of {car.name}.",
    )
    question = _ring(
        draw,
        car.flywheel.hole_angles_deg,
        ask=asks[draw.form(len(asks))],
        why=f"{count_word(off).capitalize()} degrees off changes little: the bolt across is still the best next one. "
        "So the star works here too. The part goes down flat.",
        step="",
        source="invented",
        vehicle=car.id,
    )
    odd = _number_of(question, car.flywheel.hole_angles_deg, hole)
    across = (odd + 2) % 6 + 1
    step = (
        f"Bolt {odd} sits {off:g}° off its even place. The bolt most nearly across from it is still bolt {across}. "
        "Across from bolt 1 is bolt 4."
    )
    return msgspec.structs.replace(question, step=step)


def _number_of(question: Tightening, holes_deg: Sequence[float], hole: int) -> int:
    """Return the number which a hole of the sheet has on the ring as it is turned and numbered in a question."""
    sits = (holes_deg[hole - 1] - holes_deg[0] + question.angles_deg[0]) % 360
    return 1 + min(range(len(holes_deg)), key=lambda i: abs(question.angles_deg[i] - sits))


_PRINTED: dict[int, tuple[tuple[int, ...], ...]] = {
    6: ((2, 5, 6, 3, 4, 1), (4, 1, 3, 6, 5, 2), (1, 2, 4, 5, 3, 6), (3, 4, 6, 1, 2, 5)),
    8: (
        (2, 6, 3, 7, 8, 4, 1, 5),
        (1, 2, 5, 6, 3, 7, 4, 8),
        (4, 8, 6, 2, 1, 5, 7, 3),
        (5, 6, 1, 2, 7, 3, 8, 4),
    ),
}
"""Orders printed on invented sheets; some are no star, and win all the same."""


@exercise("star.printed-order", lesson="star", outcome=ORDERS, minutes=3, title="Keep to a printed order")
def printed_order(draw: Draw) -> Tightening:
    form = draw.form(3)
    bolts = draw.pick(6, 8)
    order = draw.pick(*_PRINTED[bolts])
    angles = turned(even_circle_deg(bolts), draw.pick(0, 90, 180, 270))
    ask, table = _printed(form, order)
    return Tightening(
        ask=f"{ask} In which order do you tighten?",
        typed_as=TYPED,
        table=table,
        angles_deg=angles,
        stages=ONE_STAGE,
        printed_order=order,
        picture=Picture("bolt-ring", {"angles_deg": list(angles)}),
        why="A printed order wins over the rule of thumb. Its maker may know what you cannot see: "
        "a dowel, a thin spot, a seal.",
        step=(f"Look for the bolt that comes first: it is bolt {order[0]}. Then look for the second: bolt {order[1]}."),
        solution=f"The sheet gives {spaced(order)}. Keep to it in every stage.",
        source="invented",
    )


def _printed(form: int, order: tuple[int, ...]) -> tuple[str, tuple[tuple[str, ...], ...]]:
    """Return the words and the table of a sheet that prints this order in one of three ways."""
    places = [str(order.index(bolt) + 1) for bolt in range(1, len(order) + 1)]
    if form == 0:
        rows = tuple((str(bolt), place) for bolt, place in enumerate(places, start=1))
        return "The sheet of a gearbox part prints beside each bolt when its turn is.", (
            ("Bolt", "Turn"),
            *rows,
        )
    if form == 1:
        rows = tuple((f"{i}.", str(bolt)) for i, bolt in sorted(enumerate(order, start=1), key=lambda r: r[1]))
        return (
            "The sheet of a cast cover lists place and bolt. The rows stand by bolt number, not by place.",
            (("Place in the order", "Bolt"), *rows),
        )
    return (
        f"The sheet of a pump flange prints the order {'-'.join(map(str, order))}. "
        "You would have gone another way, across each time.",
        (),
    )
