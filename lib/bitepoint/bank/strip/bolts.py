"""Lesson 5, strip-down and inspection: cover bolts let down in a star, a bolt that rounds off, teeth to degrees."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import ring_picture, spaced, turned
from bitepoint.bank.strip.outcomes import READS, UNDOES
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake, Picture

_TURNED_DEG = {"first-round": 0, "second-round": 90, "third-round": 180}
"""How far the ring is turned in each form."""


@exercise("strip.cover-round", lesson="strip", outcome=UNDOES, minutes=2, beyond=True, title="One round of half-turns")
def cover_round(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    angles = turned(car.clutch.cover.hole_angles_deg, _TURNED_DEG[form.key], backwards=draw.pick(False, True))
    order, ring = star_order(angles), tuple(range(1, len(angles) + 1))
    return form.choice(
        draw,
        picture=ring_picture(angles),
        vehicle=car.id,
        car=car.name,
        bolts=len(ring),
        first=order[0],
        second=order[1],
        last=order[-1],
        star=spaced(order),
        circle=spaced(ring),
        one_left_out=spaced(order[:-1]),
        one_twice=spaced((*order, order[0])),
        other_way=spaced(ring[::-1]),
        outwards=spaced(sorted(ring, key=lambda bolt: min(bolt - 1, len(ring) + 1 - bolt))),
    )


@exercise("strip.half-turns", lesson="strip", outcome=UNDOES, minutes=1.5, title="Star and small steps")
def half_turns(draw: Draw) -> Choice:
    car = draw.vehicle()
    return form_of(draw).choice(
        draw,
        vehicle=car.id,
        car=car.name,
        bolts=car.clutch.cover.n,
        kilonewtons=f"{car.clutch.clamp_load_new_n / 1000:.1f}",
        rounds=draw.pick("three", "four"),
        cover_kg=f"{car.masses.cover_kg:g}",
    )


@exercise(
    "strip.stuck-bolt", lesson="strip", outcome=UNDOES, minutes=1.5, beyond=True, title="A flywheel bolt rounds off"
)
def stuck_bolt(draw: Draw) -> Choice:
    car = draw.vehicle()
    bolts = car.flywheel.bolt_count
    out = draw.integer(bolts // 2, bolts - 1)
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, bolts=bolts, out=out, one_less=bolts - 1)


@exercise(
    "strip.teeth",
    lesson="strip",
    outcome=READS,
    minutes=2,
    beyond=True,
    title="Free angle in teeth and degrees",
    others=(("dual-mass flywheel",),),
)
def teeth(draw: Draw) -> Number:
    form, cars = draw.form(4), draw.cars("dual-mass flywheel")
    car = cars[form % len(cars)]
    ring, moved = car.flywheel.ring_gear_teeth, 3 + form + draw.pick(0, 4)
    right = 360 * moved / ring
    return Number(
        ask=f"You turn the outer half of the dual-mass flywheel of {car.name} by hand, from stop to stop, without "
        f"spring force. It moves by {moved} teeth. The ring gear has {ring} teeth. How many degrees is that?",
        answer=right,
        unit="°",
        within=percent(1),
        decimals=1,
        mistakes=(
            Mistake(
                moved * ring / 360,
                "turns the ratio round",
                "You turned the ratio round. A full turn shares its degrees among the teeth. "
                "A worn flywheel would look new, and it knocks on.",
            ),
            Mistake(
                float(moved),
                "takes teeth for degrees",
                "A tooth is almost three degrees. Taken for one, a worn flywheel would pass and knock on.",
            ),
        ),
        why=f"One tooth is {360 / ring:.2f}°. So {moved} teeth are {right:.1f}°. On the sheet the limit is in teeth.",
        step=f"One tooth is 360° / {ring} = {360 / ring:.2f}°.",
        solution=f"{moved} × 360 / {ring} = {right:.1f}°.",
        source="invented",
        picture=Picture("teeth-and-degrees", {"teeth": moved, "ring": ring}),
        vehicle=car.id,
    )
