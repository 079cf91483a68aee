"""Lesson 2, working safely: dust, fluids, what to wear."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.common import CLEAN
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

_AIR = Mistake(
    "Air-line, with a face mask on",
    "thinks that a mask solves it",
    "The mask is on your face only. The dust hangs in the air for hours, and the others breathe it.",
    True,
)
_BRUSH = Mistake(
    "Dry brush and dustpan",
    "thinks that only air is bad",
    "A dry brush throws up the same fine dust. It may hold asbestos, and it stays in the lungs.",
    True,
)
_VACUUM = Mistake(
    "The workshop vacuum with its paper bag",
    "thinks that any vacuum holds fine dust",
    "Without a filter for fine dust it blows the finest part out again, into every lung in the room.",
    True,
)


@exercise("safe.dust", lesson="safe", outcome=CLEAN, minutes=1.5, title="Grey dust in the housing")
def dust(draw: Draw) -> Choice:
    car, form, people = draw.vehicle(), draw.form(3), draw.integer(2, 8)
    cases = (
        Case(
            f"Grey dust covers the bell housing of {car.name}. {people} people work in the room. How do you remove it?",
            "Wet wiping; cloths into a closed, marked bag",
            (_AIR, _BRUSH, _VACUUM),
            "Wet dust does not fly. The bag keeps it from drying and coming back.",
            "Which way keeps every grain out of the air?",
        ),
        Case(
            f"A plate of unknown make lies in {car.name}. Someone says: “No asbestos since long ago.” "
            f"{people} people work near. How do you clean?",
            "Like every clutch: wet, or with a class H vacuum",
            (
                Mistake(
                    "Dry: modern dust is harmless",
                    "believes that modern dust is harmless",
                    "You cannot see what is in it, and old or foreign plates turn up. Any fine dust harms lungs.",
                    True,
                ),
                _AIR,
                Mistake(
                    "Dry, but with all doors open",
                    "takes an open door for extraction",
                    "The draught carries the dust through the whole room. Everybody gets some of it.",
                    True,
                ),
            ),
            "By looking nobody can tell. So every clutch is treated alike, old or new.",
            "What if that someone is wrong, and when would you find out?",
        ),
        Case(
            f"The wiping cloths from {car.name} are grey with dust. {people} bins stand in the room. Where do they go?",
            "Into a closed, marked bag for dusty waste",
            (
                Mistake(
                    "Into the open household bin",
                    "uses the open bin",
                    "Dry again, they give the dust back at every touch. Cleaners and classmates breathe it.",
                ),
                Mistake(
                    "Shaken out first, then into the wash",
                    "shakes them out",
                    "Shaking puts all of it into the air at once. What you caught wet, everyone now breathes.",
                    True,
                ),
                Mistake(
                    "Into the oil drum",
                    "mixes the waste",
                    "Mixed waste cannot be treated, and the dust lands where nobody expects it.",
                ),
            ),
            "Closed and marked, the dust stays where it is, and the next person knows what is inside.",
            "When the cloth is dry again, where does the dust go?",
        ),
    )
    return choice_from(draw, cases[form], source="osha-1910-1001-f", vehicle=car.id)


@exercise("safe.fluid", lesson="safe", outcome=CLEAN, minutes=1.5, title="Brake fluid runs over")
def fluid(draw: Draw) -> Choice:
    form, ml = draw.form(2), draw.integer(2, 9) * 10
    cases = (
        Case(
            f"About {ml} ml of brake fluid run over your glove and onto the wing. What do you do?",
            "Change the glove, wash skin and paint with plenty of water at once",
            (
                Mistake(
                    "Finish the line first, then wipe with a dry cloth",
                    "thinks that it acts slowly",
                    "It softens paint within minutes, and a dry cloth rubs it in. A damaged wing is the result.",
                ),
                Mistake(
                    "Take it off with brake cleaner",
                    "fights it with solvent",
                    "Solvent spreads it over more paint and through the glove. Paint and skin suffer twice.",
                ),
                Mistake(
                    "Rub it off with the same glove",
                    "keeps the wet glove",
                    "That glove carries fluid to everything you touch, at last to your eye.",
                ),
            ),
            "Water thins it and carries it off. The rest is soaked up and goes into its own container.",
            "What mixes with this fluid and is always at hand?",
        ),
        Case(
            f"Bleeding, the hose jumps off. About {ml} ml spray out, some into your eye. What comes first?",
            "Rinse the eye at once with the eye-wash, and call for help",
            (
                Mistake(
                    "Close the bleed screw first, it drips",
                    "saves the car before the eye",
                    "A floor can be wiped. In the eye each second counts, and sight may be lost.",
                    True,
                ),
                Mistake(
                    "Rub the eye with a clean cloth",
                    "rubs the eye",
                    "Rubbing spreads it and scratches the eye. Damage that would have healed then stays.",
                    True,
                ),
                Mistake(
                    "Wait whether it really burns",
                    "waits for pain",
                    "By then it has worked for minutes. Eyes do not get better by waiting.",
                    True,
                ),
            ),
            "Water at once and for long, then a doctor. Goggles would have caught it.",
            "What can be replaced here, and what cannot?",
        ),
    )
    return choice_from(draw, cases[form])


@exercise("safe.protection", lesson="safe", outcome=CLEAN, minutes=2, title="What to wear for which task")
def protection(draw: Draw) -> Several:
    form, minutes = draw.form(2), draw.integer(2, 9) * 5
    sets = (
        (
            needed("Bleeding: goggles and nitrile gloves", "bleeds without goggles",
                   "Something is missing. Fluid under pressure goes into the eye before the lid closes.", critical=True),
            needed("Plate and cover: cut-resistant gloves", "handles sharp edges bare",
                   "Something is missing. Plate edges and spring fingers cut to the bone."),
            needed("Gearbox on its jack: safety shoes", "leaves out the shoes",
                   "Something is missing. What slips off a jack lands on toes."),
            wrong("At the running belt: leather gloves", "thinks that gloves always protect",
                  "Turning parts pull a glove in, and the hand with it.", critical=True),
            wrong("Wet dust: an air-line and a mask", "thinks that a mask solves it",
                  "The air-line spreads to everyone what the water held down.", critical=True),
        ),
        (
            needed("Wet cleaning: goggles and nitrile gloves", "cleans wet without goggles",
                   "Something is missing. Drops with dust and cleaner fly into eyes and onto skin."),
            needed("Rev test: ear protection, and distance", "leaves the ears open",
                   "Something is missing. Ears do not heal."),
            needed("Circlips and chips: goggles", "takes circlips for harmless",
                   "Something is missing. A circlip flies faster than an eyelid closes.", critical=True),
            wrong("Drilling: cloth gloves", "thinks that gloves always protect",
                  "The drill winds the cloth up, and fingers break inside it.", critical=True),
            wrong("Gearbox above you: a cap instead of a strap", "takes a cap for a strap",
                  "A cap catches nothing that heavy. What is not strapped falls on people.", critical=True),
        ),
    )  # fmt: skip
    options = sets[form]
    return Several.of(
        draw,
        options=options,
        ask=f"Five tasks for the next {minutes} minutes, each with what somebody would wear or use. Pick all that are right.",
        why="Protection fits the danger: eyes from splashes, hands from edges, ears from noise, none near turning parts.",
        step="For each line: what could hit, cut or catch here? Does the thing named keep that away?",
        solution="\n".join(o.text for o in options if o.right),
        source="common-practice",
    )
