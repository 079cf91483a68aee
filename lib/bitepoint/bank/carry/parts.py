"""Lesson 1, how a clutch carries torque: pointing at parts of the section, and naming what a letter points at."""

from bitepoint.bank.carry.common import TRACES
from bitepoint.bank.lettered_parts import LETTERS, Bad, confusion, spots
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake, Picture
from bitepoint.questions.region import Region
from bitepoint.workshop.part_names import SECTION, section_part

_POINT: tuple[tuple[str, tuple[str, ...], Bad], ...] = (
    (
        "pressure-plate",
        ("cover", "flywheel", "facings", "diaphragm", "hub"),
        {
            "cover": "The cover never touches the plate. Measured for flatness there, a burnt face is missed.",
            "flywheel": "It is the other friction face. Both have to be looked at, so keep them apart.",
            "diaphragm": "It makes the force but never rubs. Looked for there, heat cracks stay unseen.",
        },
    ),
    (
        "release-bearing",
        ("pilot-bearing", "fork", "guide-tube", "input-shaft", "diaphragm"),
        {
            "pilot-bearing": "It sits at the other end of the shaft. Changed for a noise at the pedal, the noise stays.",
            "guide-tube": "It stands still. Greased as if it were a bearing, it throws grease at the facings.",
            "fork": "It only rocks. Blamed for a howl, it is changed for nothing and the noise comes back.",
        },
    ),
    (
        "hub",
        ("facings", "damper", "input-shaft", "flywheel", "guide-tube"),
        {
            "facings": "Grease is meant for the splines. Put here, it makes the clutch slip and it is scrap.",
            "damper": "It turns against springs. Greased in place of the splines, it slings grease outwards.",
            "input-shaft": "It belongs to the gearbox. Its splines are checked too, but you order a plate, not a shaft.",
        },
    ),
    (
        "flywheel-bolt",
        ("cover-bolt", "flywheel", "crankshaft", "ring-gear", "cover"),
        {
            "cover-bolt": "It is smaller and takes far less torque. Figures swapped, one breaks and the other comes loose.",
            "ring-gear": "A lock holds it, no wrench. Turned there, nothing is tightened.",
        },
    ),
)  # fmt: skip
"""What is asked for, what else has a letter, what a mix-up leads to."""


@exercise("carry.name-parts", lesson="carry", title="Point at the part", outcome=TRACES, minutes=1.5)
def name_parts(draw: Draw) -> Region:
    form = draw.form(4)
    key, others, bad = _POINT[form]
    target = section_part(key)
    vehicle = "D" if form == 1 else draw.pick("A", "C", "D") if form == 2 else draw.pick("A", "B", "C", "D")
    keys = draw.shuffle([key, *others])
    by_name = draw.pick(True, False)
    asked = f"Point at the {target.name}." if by_name else f"Point at the part that {target.job}."
    return Region(
        ask=f"The clutch of training vehicle {vehicle} in section, pedal up. {asked}",
        picture=Picture("clutch-lettered", {"vehicle": vehicle, "places": [_place(k) for k in keys]}),
        spots=spots(target, [(letter, section_part(k)) for letter, k in zip(LETTERS, keys, strict=False)], bad),
        why=target.told,
        step=f"In the picture, look for this: {target.seen}.",
        solution=f"{LETTERS[keys.index(key)].upper()}. {target.told}",
        source="common-practice",
        vehicle=vehicle,
    )


def _place(key: str) -> int:
    return next(i for i, part in enumerate(SECTION) if part.key == key)


_NAME: tuple[tuple[str, tuple[tuple[str, str], ...], tuple[str, ...]], ...] = (
    (
        "cover",
        (
            ("pressure-plate", "That one rubs on the plate and sits inside. It comes with its cover. Ordered alone, nothing comes."),
            ("flywheel", "That one is bolted to the crankshaft. Mixed up, the wrong torque goes onto the wrong bolts."),
            ("ring-gear", "That one has the teeth for the starter. The lock goes there, never here: this sheet would bend."),
        ),
        ("pressure-plate", "flywheel", "ring-gear", "diaphragm"),
    ),
    (
        "diaphragm",
        (
            ("strap", "That one is a short leaf. Who looks there for worn finger tips finds none and fits a bad cover."),
            ("damper", "That one works round the axis, this one along it. Blamed for rattle, a good cover is thrown away."),
            ("fork", "That one stands still beside the turning parts. A hand that trusts this one to stand gets hurt."),
        ),
        ("strap", "damper", "fork", "release-bearing"),
    ),
    (
        "damper",
        (
            ("facings", "Those rub, this part gives way in turning. Who measures wear here measures nothing."),
            ("diaphragm", "That one presses along the axis. Mixed up, rattle is put down to the clamp load."),
            ("release-bearing", "That one is outside the cover. Changed for a rattle in neutral, the rattle stays."),
        ),
        ("facings", "diaphragm", "release-bearing", "hub"),
    ),
    (
        "facings",
        (
            ("pressure-plate", "That one is iron and is pressed on. Measured for wear in its place, a thin plate is overlooked."),
            ("strap", "That one only draws back. Looked at for oil, it says nothing about slip."),
            ("hub", "That one slides on the shaft. A worn lining shows further out, so it is missed there."),
        ),
        ("pressure-plate", "strap", "hub", "flywheel"),
    ),
)  # fmt: skip
"""What the letter points at, wrong names with what they lead to, what else has a letter."""


@exercise("carry.which-part", lesson="carry", title="What is this part?", outcome=TRACES, minutes=1.5)
def which_part(draw: Draw) -> Choice:
    form = draw.form(4)
    key, wrong, others = _NAME[form]
    target = section_part(key)
    vehicle = draw.pick("A", "C", "D")
    keys = draw.shuffle([key, *others])
    letter = LETTERS[keys.index(key)].upper()
    return Choice.of(
        draw,
        ask=f"The clutch of training vehicle {vehicle} in section, pedal up. What is at letter {letter}?",
        picture=Picture("clutch-lettered", {"vehicle": vehicle, "places": [_place(k) for k in keys]}),
        right=f"The {target.name}",
        wrong=tuple(
            Mistake(f"The {section_part(k).name}", confusion(target.name, section_part(k).name), says)
            for k, says in wrong
        ),
        why=target.told,
        step="Follow the line to its dot. Ask what this part touches, and what it is bolted or hung to.",
        solution=f"{letter}: the {target.name}.",
        source="common-practice",
        vehicle=vehicle,
    )
