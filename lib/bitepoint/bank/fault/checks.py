"""Lesson 3, finding the fault: the words on the phone, checks without dismantling, the tests for slip and drag."""

from bitepoint.bank.fault.outcomes import ASKS, CHECKS, DECIDES, TESTS, gear_word
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.workshop.figures import road_speed_kmh

_LIMIT_KMH = 90


@exercise("fault.words", lesson="fault", title="The words on the phone", outcome=ASKS, minutes=2)
def words(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, weeks=draw.integer(2, 9), km=draw.integer(70, 190))


@exercise("fault.may-drive", lesson="fault", title="May it be driven?", outcome=ASKS, minutes=2)
def may_drive(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, km=draw.integer(3, 18), weeks=draw.integer(2, 6))


@exercise("fault.not-proof", lesson="fault", title="Not proof of a worn clutch", outcome=DECIDES, minutes=2)
def not_proof(draw: Draw) -> Several:
    return form_of(draw).several(draw, s=draw.integer(5, 9), kmh=draw.pick(90, 100, 110, 120))


@exercise("fault.checks-order", lesson="fault", title="Order of the checks", outcome=CHECKS, minutes=3)
def checks_order(draw: Draw) -> Order:
    return form_of(draw).order(draw)


@exercise("fault.soft-pedal", lesson="fault", outcome=CHECKS, minutes=2, beyond=True)
def soft_pedal(draw: Draw) -> Choice:
    count = draw.integer(4, 9)
    return form_of(draw).choice(draw, strokes=count, seconds=count, weeks=count)


@exercise("fault.driveline-play", lesson="fault", outcome=CHECKS, minutes=1.5, title="A clonk when the load changes")
def driveline_play(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, kmh=draw.pick(20, 30, 40), km=draw.integer(90, 220))


@exercise("fault.never-lets-go", lesson="fault", outcome=CHECKS, minutes=2, title="Slip, but is it the plate?")
def never_lets_go(draw: Draw) -> Choice:
    slip, play = draw.value(6, 12, 0.5), draw.integer(0, 3)
    minutes, mm = draw.integer(3, 8) * 5, draw.integer(8, 20)
    return form_of(draw).choice(draw, slip=f"{slip:g}", play=play, minutes=minutes, mm=mm)


@exercise("fault.slip-test", lesson="fault", outcome=TESTS, minutes=3)
def slip_test(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    gear, gears, rpm = car.gearbox.slip_test_gear, len(car.gearbox.ratios), car.engine.max_torque_rpm
    speeds = [f"{road_speed_kmh(car, gear=g, rpm=rpm):.0f} km/h" for g in range(2, gears + 1)]
    too_fast_or_too_low = "top-gear" if gear < gears else "third-gear"
    return form.choice(
        draw,
        offers=("test-gear", too_fast_or_too_low, "second-gear", "any-gear") if form.key == "which-gear" else (),
        table=(
            ("Gear", f"Speed at {rpm:g} rpm (greatest torque)"),
            *((gear_word(g).capitalize(), speed) for g, speed in enumerate(speeds, start=2)),
        ),
        vehicle=car.id,
        car=car.name,
        limit=_LIMIT_KMH,
        road=draw.pick("dry", "dry and level"),
        rpm=f"{rpm:g}",
        gear=gear_word(gear),
        top_gear=gear_word(gears),
    )


@exercise("fault.drag-test", lesson="fault", outcome=TESTS, minutes=2)
def drag_test(draw: Draw) -> Choice:
    rpm, lost = draw.value(760, 880, 10), draw.value(120, 200, 10)
    return form_of(draw).choice(draw, rpm=f"{rpm:g}", low=f"{rpm - lost:g}", s=draw.integer(6, 9))
