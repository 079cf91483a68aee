"""Lesson 1, how a clutch carries torque: the parts of the section, the path of the torque, and what turns when."""

from typing import NamedTuple

from bitepoint.bank.carry.common import TRACES
from bitepoint.bank.forms import form_of
from bitepoint.bank.lettered_parts import LETTERS, Bad, spots
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.questions.question import Picture
from bitepoint.questions.region import Region
from bitepoint.workshop.part_names import SECTION, section_part
from bitepoint.workshop.vehicles import Vehicle

_FORK = ("release fork",)


class _Asked(NamedTuple):
    """A part to point at: traits of a car that shows it and all beside it, what else has a letter, where mix-ups lead."""

    part: str
    needs: tuple[str, ...]
    beside: tuple[str, ...]
    leads_to: Bad


_POINT = (
    _Asked(
        "pressure-plate",
        (),
        ("cover", "flywheel", "facings", "diaphragm", "hub"),
        {
            "cover": "The cover never touches the plate. Measured for flatness there, a burnt face is missed.",
            "flywheel": "It is the other friction face. Both have to be looked at, so keep them apart.",
            "diaphragm": "It makes the force but never rubs. Looked for there, heat cracks stay unseen.",
        },
    ),
    _Asked(
        "release-bearing",
        ("pilot bearing", *_FORK),
        ("pilot-bearing", "fork", "guide-tube", "input-shaft", "diaphragm"),
        {
            "pilot-bearing": "It sits at the other end of the shaft. Changed for a noise at the pedal, the noise stays.",
            "guide-tube": "It stands still. Greased as if it were a bearing, it throws grease at the facings.",
            "fork": "It only rocks. Blamed for a howl, it is changed for nothing and the noise comes back.",
        },
    ),
    _Asked(
        "hub",
        _FORK,
        ("facings", "damper", "input-shaft", "flywheel", "guide-tube"),
        {
            "facings": "Grease is meant for the splines. Put here, it makes the clutch slip and it is scrap.",
            "damper": "It turns against springs. Greased in place of the splines, it slings grease outwards.",
            "input-shaft": "It belongs to the gearbox. Its splines are checked too, but you order a plate, not a shaft.",
        },
    ),
    _Asked(
        "flywheel-bolt",
        (),
        ("cover-bolt", "flywheel", "crankshaft", "ring-gear", "cover"),
        {
            "cover-bolt": "It is smaller and takes far less torque. Figures swapped, one breaks and the other comes loose.",
            "ring-gear": "A lock holds it, no wrench. Turned there, nothing is tightened.",
        },
    ),
)  # fmt: skip


@exercise("carry.name-parts", lesson="carry", title="Point at the part", outcome=TRACES, minutes=1.5)
def name_parts(draw: Draw) -> Region:
    drawable = [row for row in _POINT if draw.covers(*row.needs)]
    row = drawable[draw.form(len(drawable))]
    target, cars = section_part(row.part), draw.cars(*row.needs)
    car = draw.pick(*cars) if len(cars) > 1 else cars[0]
    keys = draw.shuffle([row.part, *row.beside])
    by_name = draw.pick(True, False)
    asked = f"Point at the {target.name}." if by_name else f"Point at the part that {target.job}."
    return Region(
        ask=f"The clutch of {car.name} in section, pedal up. {asked}",
        picture=_lettered(car, keys),
        spots=spots(
            target, [(letter, section_part(k)) for letter, k in zip(LETTERS, keys, strict=False)], row.leads_to
        ),
        why=target.told,
        step=f"In the picture, look for this: {target.seen}.",
        solution=f"{LETTERS[keys.index(row.part)].upper()}. {target.told}",
        source="common-practice",
        vehicle=car.id,
    )


def _lettered(car: Vehicle, keys: list[str]) -> Picture:
    places = {part.key: place for place, part in enumerate(SECTION)}
    return Picture("clutch-lettered", {"vehicle": car.id, "places": [places[key] for key in keys]})


_BESIDE = {
    "cover": ("pressure-plate", "flywheel", "ring-gear", "diaphragm"),
    "diaphragm": ("strap", "damper", "fork", "release-bearing"),
    "damper": ("facings", "diaphragm", "release-bearing", "hub"),
    "facings": ("pressure-plate", "strap", "hub", "flywheel"),
}
"""What else has a letter when this part is asked for."""
_NAMES = {part.key.replace("-", "_"): part.name for part in SECTION}


@exercise("carry.which-part", lesson="carry", title="What is this part?", outcome=TRACES, minutes=1.5, others=(_FORK,))
def which_part(draw: Draw) -> Choice:
    form, car = form_of(draw), draw.pick(*draw.cars(*_FORK))
    keys = draw.shuffle([form.key, *_BESIDE[form.key]])
    return form.choice(
        draw,
        vehicle=car.id,
        picture=_lettered(car, keys),
        car=car.name,
        letter=LETTERS[keys.index(form.key)].upper(),
        told=section_part(form.key).told,
        **_NAMES,
    )


@exercise("carry.torque-path", lesson="carry", title="The way of the torque", outcome=TRACES, minutes=4)
def torque_path(draw: Draw) -> Order:
    form = form_of(draw)
    return form.order(draw, path="\n".join(f"{i}. {step.text}." for i, step in enumerate(form.steps, 1)))


@exercise("carry.what-turns", title="What turns and what stands", lesson="carry", outcome=TRACES, minutes=2)
def what_turns(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, rpm=10 * draw.integer(75, 95))
