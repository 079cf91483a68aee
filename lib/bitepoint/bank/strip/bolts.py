"""Lesson 5, strip-down and inspection: cover bolts let down in a star, a bolt that rounds off, a dual-mass flywheel."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import ring_picture, spaced, turned
from bitepoint.bank.strip.outcomes import READS, UNDOES
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw

_TURNED_DEG = {"first-round": 0, "second-round": 90, "third-round": 180}
"""How far the ring is turned in each form."""
_CONVENTIONAL = ("conventional cover",)


@exercise(
    "strip.cover-round",
    lesson="strip",
    outcome=UNDOES,
    minutes=2,
    beyond=True,
    title="Slacken one round",
    others=(_CONVENTIONAL,),
)
def cover_round(draw: Draw) -> Choice:
    own, form = draw.vehicle(), form_of(draw)
    car = own if own.clutch.cover.kind == "conventional" else draw.pick(*draw.cars(*_CONVENTIONAL))
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


@exercise("strip.half-turns", lesson="strip", outcome=UNDOES, minutes=1.5, title="Let the cover down")
def half_turns(draw: Draw) -> Choice:
    form, own = form_of(draw), draw.vehicle()
    fitting = draw.cars(*form.needs)
    car = own if own in fitting else draw.pick(*fitting)
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        bolts=car.clutch.cover.n,
        kilonewtons=f"{car.clutch.clamp_load_new_n / 1000:.1f}",
        rounds=draw.pick("eight", "nine"),
        cover_kg=f"{car.masses.cover_kg:g}",
    )


@exercise("strip.stuck-bolt", lesson="strip", outcome=UNDOES, minutes=1.5, beyond=True, title="Free a flywheel bolt")
def stuck_bolt(draw: Draw) -> Choice:
    car = draw.vehicle()
    bolts = car.flywheel.bolt_count
    out = draw.integer(bolts // 2, bolts - 1)
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, bolts=bolts, out=out, one_less=bolts - 1)


@exercise(
    "strip.dual-mass",
    lesson="strip",
    outcome=READS,
    minutes=2,
    beyond=True,
    title="Measure a dual-mass flywheel on the engine",
    others=(("dual-mass flywheel",),),
)
def dual_mass(draw: Draw) -> Choice:
    form, car = form_of(draw), draw.pick(*draw.cars("dual-mass flywheel"))
    limits = car.flywheel.dmf_limits
    most = int(limits.free_angle_teeth_max) if limits else 0
    return form.choice(draw, vehicle=car.id, opening=car.opening, teeth=draw.integer(2, most - 1), max=most)
