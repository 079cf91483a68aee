"""Lesson 11, hand-over: label, running-in, warranty evidence, waste."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.refit.outcomes import HANDS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw


@exercise("refit.label", lesson="refit", outcome=HANDS, minutes=2, title="Label a changed flywheel type")
def label(draw: Draw) -> Several:
    return form_of(draw).several(draw, km=draw.integer(60, 190))


@exercise("refit.running-in", lesson="refit", outcome=HANDS, minutes=1.5, title="Advise on running-in")
def running_in(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, weeks=draw.integer(2, 4))


@exercise("refit.warranty", lesson="refit", outcome=HANDS, minutes=2, title="Keep evidence for a claim")
def warranty(draw: Draw) -> Several:
    return form_of(draw).several(draw, km=f"{draw.integer(8, 60) * 100:,}")


@exercise("refit.waste", lesson="refit", outcome=HANDS, minutes=1.5, title="Sort the waste")
def waste(draw: Draw) -> Choice:
    ml = draw.integer(15, 45) * 10
    return form_of(draw).choice(draw, ml=ml, cloths=ml // 50)
