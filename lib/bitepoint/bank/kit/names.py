"""Lesson 4, the right kit: pointing at the parts of a kit that lies on the bench."""

from bitepoint.bank.kit.common import CHECKS
from bitepoint.bank.lettered_parts import LETTERS, Bad, spots
from bitepoint.bank.registry import exercise
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.questions.region import Region
from bitepoint.workshop.part_names import KIT, kit_part
from bitepoint.workshop.vehicles import Vehicle

_FORMS: tuple[tuple[str, str, str, Bad], ...] = (
    (
        "cover",
        "the part that brings the diaphragm spring and the pressure plate with it",
        "Fingers round a hole: that is where the release bearing pushes.",
        {
            "plate": "Its springs soften beats, they do not clamp. Ticked as the cover, a missing cover is overlooked.",
            "flywheel": "It is one friction face, the other comes with the cover. Mixed up, one of them is not counted.",
        },
    ),
    (
        "plate",
        "the part whose splines must agree with the gearbox shaft",
        "Facings outside, springs round a splined hub: only the plate has both.",
        {
            "cover": "Its hole has fingers, no splines. Splines counted there are counted nowhere.",
            "flywheel": "Its middle has bolt holes. Who looks there for splines orders a plate that does not slide on.",
        },
    ),
    (
        "flywheel-bolts",
        "the parts that are always new and hold the flywheel on the crankshaft",
        "The longer ones: they pass through the flywheel into the crankshaft.",
        {
            "cover-bolts": "They are shorter and thinner. In the crankshaft too few threads hold, and the flywheel comes loose.",
            "sheet": "It only says their number and torque. The parts themselves have to lie in the box.",
        },
    ),
    (
        "release",
        "the part that pushes the diaphragm fingers; in a clutch job it is always new",
        "The pedal moves it, and it pushes the fingers of the cover.",
        {
            "cover": "It has the fingers, but something has to push them. Left out, an old bearing howls in a week.",
            "grease": "It helps something slide, it pushes nothing. Counted as the release part, that part is missing.",
        },
    ),
)  # fmt: skip
"""What is asked for, its job in words, why, what a mix-up leads to."""


@exercise("kit.name-parts", lesson="kit", title="Point at the part of the kit", outcome=CHECKS, minutes=1.5)
def name_parts(draw: Draw) -> Region:
    car = draw.vehicle()
    key, job, why, bad = _FORMS[draw.form(4)]
    target, letters = kit_part(key), "".join(draw.shuffle(LETTERS))
    asked = draw.pick(f"Point at {_called(key, car)}.", f"Point at {job}.")
    letter = letters[[part.key for part in KIT].index(key)].upper()
    return Region(
        ask=f"A kit that changes a car to a rigid flywheel lies on the bench. {asked}",
        picture=Picture("kit-lettered", {"vehicle": car.id, "letters": letters}),
        spots=spots(target, list(zip(letters, KIT, strict=True)), bad),
        why=why,
        step=f"In the picture, look for this: {target.seen}.",
        solution=f"{letter}: {_called(key, car)}. {why}",
        source="common-practice",
        vehicle=car.id,
        form=key,
    )


def _called(key: str, car: Vehicle) -> str:
    if key != "release":
        return f"the {kit_part(key).name}"
    return "the concentric slave cylinder" if car.release.slave_outer_mm else "the release bearing"
