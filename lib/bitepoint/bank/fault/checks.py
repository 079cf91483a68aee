"""Lesson 3, finding the fault: checks without dismantling, and the tests for slip and drag."""

from bitepoint.bank.fault.outcomes import CHECKS, TESTS, gear_word
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.workshop.figures import road_speed_kmh

_LIMIT_KMH = 90


@exercise("fault.checks-order", lesson="fault", title="Order of the checks", outcome=CHECKS, minutes=3)
def checks_order(draw: Draw) -> Order:
    return form_of(draw).order(draw)


@exercise("fault.soft-pedal", lesson="fault", outcome=CHECKS, minutes=2, beyond=True)
def soft_pedal(draw: Draw) -> Choice:
    count = draw.integer(4, 9)
    return form_of(draw).choice(draw, strokes=count, seconds=count, weeks=count)


@exercise("fault.driveline-play", lesson="fault", outcome=CHECKS, minutes=1.5, title="A clonk when the load changes")
def driveline_play(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, kmh=draw.pick(20, 30, 40), miles=draw.integer(60, 140))


@exercise("fault.slip-test", lesson="fault", outcome=TESTS, minutes=3)
def slip_test(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    gear, gears, rpm = car.gearbox.slip_test_gear, len(car.gearbox.ratios), car.engine.max_torque_rpm
    speeds = [f"{road_speed_kmh(car, gear=g, rpm=rpm):.0f} km/h" for g in range(2, gears + 1)]
    too_fast_or_too_low = "top-gear" if gear < gears else "third-gear"
    return form.choice(
        draw,
        offers=("test-gear", too_fast_or_too_low, "second-gear") if form.key == "which-gear" else (),
        table=(
            ("Gear", f"Speed at {rpm:g} rpm (greatest torque)"),
            *((gear_word(g).capitalize(), speed) for g, speed in enumerate(speeds, start=2)),
        ),
        vehicle=car.id,
        car=car.id,
        limit=_LIMIT_KMH,
        road=draw.pick("dry", "dry and level"),
        rpm=f"{rpm:g}",
        gear=gear_word(gear),
        top_gear=gear_word(gears),
    )


@exercise("fault.drag-test", lesson="fault", outcome=TESTS, minutes=2)
def drag_test(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, rpm=f"{draw.value(760, 880, 10):g}", s=draw.integer(6, 9))
