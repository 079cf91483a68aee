"""Lesson 10, the release system: right fluid, no pedal before the gearbox is on, bleeding step by step."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.outcomes import BLEEDS
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order


@exercise("release.box-off", lesson="release", outcome=BLEEDS, minutes=1.5, title="Say when the pedal stays up")
def box_off(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, metres=f"{draw.value(0.5, 1.5, 0.1):g}")


@exercise(
    "release.fluid",
    lesson="release",
    outcome=BLEEDS,
    minutes=1.5,
    title="Choose the bottle",
    needs=("hydraulic release",),
)
def fluid(draw: Draw) -> Choice:
    car, months = draw.vehicle(), draw.integer(5, 14)
    grade = car.release.fluid_grade or ""
    # A college need not write the words, only the grade.
    on_sheet = car.release.fluid or f"brake fluid, grade {grade}"
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, on_sheet=on_sheet, grade=grade, months=months)


@exercise(
    "release.bleeding",
    lesson="release",
    outcome=BLEEDS,
    minutes=4,
    title="Bleed it in order",
    needs=("hydraulic release",),
)
def bleeding(draw: Draw) -> Order:
    car, ml = draw.vehicle(), draw.integer(15, 30) * 10
    return form_of(draw).order(draw, vehicle=car.id, car=car.name, ml=ml)
