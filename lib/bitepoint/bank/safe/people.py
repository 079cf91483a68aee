"""Lesson 2, working safely: dust, fluids, what to wear, the road test, and where the rules end."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.outcomes import CLEAN, RUNS, STOPS
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw


@exercise("safe.dust", lesson="safe", outcome=CLEAN, minutes=1.5, title="Grey dust in the housing")
def dust(draw: Draw) -> Choice:
    car = draw.vehicle()
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name)


@exercise("safe.fluid", lesson="safe", outcome=CLEAN, minutes=1.5, beyond=True, title="Brake fluid runs over")
def fluid(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, ml=draw.integer(2, 9) * 10)


@exercise("safe.protection", lesson="safe", outcome=CLEAN, minutes=2, title="What to wear for which task")
def protection(draw: Draw) -> Several:
    return form_of(draw).several(draw)


@exercise("safe.road-test", lesson="safe", outcome=RUNS, minutes=1.5, title="Who drives the road test")
def road_test(draw: Draw) -> Choice:
    car, km = draw.vehicle(), draw.integer(6, 20)
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, opening=car.opening, km=km)


@exercise("safe.stop-and-ask", lesson="safe", outcome=STOPS, minutes=1.5, title="Where the rules end")
def stop_and_ask(draw: Draw) -> Choice:
    car = draw.vehicle()
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, minutes=draw.integer(5, 25))
