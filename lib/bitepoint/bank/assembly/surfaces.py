"""Lesson 9, assembly: clean faces, grease and the bearing."""

from bitepoint.bank.assembly.outcomes import GREASE
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw


@exercise("assembly.grease-where", lesson="assembly", outcome=GREASE, minutes=2.5, title="Put grease where it belongs")
def grease_where(draw: Draw) -> Several:
    car, form = draw.vehicle(), form_of(draw)
    greased = car.release.guide_tube_greased
    fork = ["fork-and-pivot"] if greased or form.key == "fitting" else []
    tube = ["tube-film"] if greased else ["tube", "nothing-more"]
    return form.several(
        draw,
        offers=["splines", "facings", "flywheel-bolts", "cover-dowels", *fork, *tube],
        vehicle=car.id,
        car=car.name,
        on_sheet=car.release.guide_tube,
        tube="a thin film" if greased else "dry",
    )


@exercise("assembly.clean-face", lesson="assembly", outcome=GREASE, minutes=1.5, title="Clean what the next part hides")
def clean_face(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, minutes=draw.integer(5, 30))


@exercise("assembly.bearing", lesson="assembly", outcome=GREASE, minutes=1.5, title="Fit a bearing")
def bearing(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, pulls=draw.integer(2, 6))
