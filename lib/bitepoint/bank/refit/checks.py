"""Lesson 11, final checks with the car standing: order, engine speed, gears, reverse."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.refit.outcomes import STANDS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order


@exercise("refit.static-order", lesson="refit", outcome=STANDS, minutes=3.5, title="Check it standing, in order")
def static_order(draw: Draw) -> Order:
    car = draw.vehicle()
    return form_of(draw).order(draw, vehicle=car.id, car=car.name, hours=draw.integer(4, 9))


@exercise("refit.rev-test", lesson="refit", outcome=STANDS, minutes=2, title="How far to rev")
def rev_test(draw: Draw) -> Choice:
    car = draw.vehicle()
    top = car.engine.static_test_max_rpm
    own = min(draw.integer(31, 38) * 100, round(top) - 200)
    return form_of(draw).choice(
        draw,
        vehicle=car.id,
        car=car.name,
        opened=f"{car.name[0].upper()}{car.name[1:]}",
        top=f"{top:g}",
        ceiling=f"{min(5000.0, top):g}",
        limiter=f"{car.engine.limiter_rpm:g}",
        own=own,
        bay_c=draw.integer(12, 24),
        oil_c=draw.integer(15, 30),
    )


@exercise("refit.gears-where", lesson="refit", outcome=STANDS, minutes=1.5, title="Where gears are tried")
def gears_where(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, cm=draw.integer(10, 60))


@exercise("refit.reverse", lesson="refit", outcome=STANDS, minutes=2, title="Reverse grates")
def reverse(draw: Draw) -> Choice:
    early, late, long = draw.integer(1, 2), draw.integer(3, 4), draw.integer(8, 12)
    oil_c = draw.integer(8, 16)
    return form_of(draw).choice(draw, early=early, late=late, long=long, oil_c=oil_c, cold=late + 3)
