"""Lesson 3, finding the fault: the words on the phone, and whether the car may be driven."""

from bitepoint.bank.fault.outcomes import ASKS, DECIDES
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw


@exercise("fault.words", lesson="fault", title="The words on the phone", outcome=ASKS, minutes=2)
def words(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, weeks=draw.integer(2, 9), km=draw.integer(70, 190))


@exercise("fault.may-drive", lesson="fault", title="May it be driven?", outcome=ASKS, minutes=2)
def may_drive(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, km=draw.integer(3, 18), weeks=draw.integer(2, 6))


@exercise("fault.not-proof", lesson="fault", title="Not proof of a worn clutch", outcome=DECIDES, minutes=2)
def not_proof(draw: Draw) -> Several:
    return form_of(draw).several(draw, s=draw.integer(5, 9), kmh=draw.pick(90, 100, 110, 120))
