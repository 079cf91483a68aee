"""The bleeding card: cautions first and whole, then four ways, each for where it fits, then what proves the work.

Source of open, push, close, let back: tm-5-3810-300-24. Fluid: fmvss-116. All the rest: common-practice.
"""

from typing import Any

from bitepoint.classroom.posters.images import image
from bitepoint.pictures import draw
from bitepoint.sources import SOURCES
from bitepoint.workshop.hazards import hazards

_CUT = (0.0, 46.0, 750.0, 384.0)
CAUTIONS = (
    "Never press the pedal while the gearbox is off: the piston leaves its cylinder. Hang a label on the pedal.",
    "Only the fluid that the vehicle's data name, from a sealed bottle. Wrong fluid swells the seals, in the brakes too.",
    "The tank never runs low: the brakes may share it. Brake pedal soft afterwards? The car stays. Stop and ask.",
    "Hands off fork, lever and slave while somebody is at the pedal.",
)
WAYS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    (
        "By gravity",
        "Slow, but needs no helper and makes no foam.",
        (
            "Tank full. Clear hose on the nipple, its end in clean fluid, below the tank.",
            "Open the nipple and wait. Fill the tank before it runs low.",
            "Close when fluid runs without a bubble.",
        ),
    ),
    (
        "With the pedal",
        "Two people, and each says what is done.",
        (
            "Tank full, hose on. Open the nipple, push the pedal down slowly.",
            "“Down”: close the nipple. “Closed”: only now up, by hand if it stays down.",
            "Fill the tank. Again until no bubble comes. Pumping fast makes foam.",
        ),
    ),
    (
        "By pressure",
        "A bleeder on the tank, with the adaptor that fits.",
        (
            "Hose on. Never more pressure than vehicle and bleeder allow. Adaptor tight before the nipple opens.",
            "Open until fluid runs without a bubble; close. Nobody at the pedal.",
            "Pressure off before you undo the adaptor: else it sprays. Draw the level down to its mark.",
        ),
    ),
    (
        "Dry concentric slave",
        "It sits in the housing, and too long a stroke harms it.",
        (
            "Every housing bolt tight first. Pipe home, clip in, then tug.",
            "Fill by gravity or low pressure, as the vehicle's data say. No pedal before fluid comes without a bubble.",
            "Then slow strokes, pedal raised by hand. Bleed once more. Never pump it hard.",
        ),
    ),
)
PROOFS = (
    "Nipple at its torque, cap on; tank at its mark, lid on; spilt fluid washed off.",
    "Ten slow strokes: firm, and it comes right back.",
    "Pedal held down a minute: nothing wet.",
    "Biting point, again after an hour: moved more than about 5 mm, not finished.",
)


def values() -> dict[str, Any]:
    """Return what the card says; the first caution is the workshop's own entry on brake fluid."""
    fluid = next(one for one in hazards() if one.id == "brake-fluid")
    return {
        "cautions": (f"{fluid.title}: {fluid.danger}. {fluid.caution}.", *CAUTIONS),
        "ways": WAYS,
        "proofs": PROOFS,
        "drawing": image(draw("bleeding", step=2), cut=_CUT, letters=1.2),
        "source": SOURCES["tm-5-3810-300-24"].title.split(":")[0],
        "fluid_source": SOURCES["fmvss-116"].title.split(":")[0],
    }
