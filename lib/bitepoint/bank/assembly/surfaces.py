"""Lesson 9, assembly: clean faces, grease and the bearing."""

from bitepoint.bank.assembly.common import GREASE, greased_tube
from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


@exercise("assembly.grease-where", lesson="assembly", outcome=GREASE, minutes=2.5, title="Where grease goes")
def grease_where(draw: Draw) -> Several:
    car = draw.vehicle()
    first = draw.form(2) == 0
    fork = first or greased_tube(car)
    opening = "You fit the clutch of" if first else "A colleague asks you where grease goes on"
    options = [
        needed(
            "The splines of the input shaft: a thin film, then wiped",
            "leaves the splines dry",
            "The splines are missing. Dry splines rust, the plate hangs, and gears grind.",
        ),
        wrong(
            "The facings of the plate, against rust",
            "greases the facings",
            "Grease on a facing makes the clutch slip and judder from the first take-up on.",
        ),
        wrong(
            "The flywheel bolts",
            "greases the flywheel bolts",
            "Less friction: the same torque stretches the bolt. The flywheel can come loose.",
            critical=True,
        ),
        wrong(
            "The dowels of the cover",
            "greases the dowels",
            "Grease there is thrown onto the faces, and dowels need none. The clutch judders.",
        ),
    ]
    if fork:
        options.append(
            needed(
                "Fork tips and ball pivot, where there is a fork: a thin film",
                "leaves fork and pivot dry",
                "Fork and pivot are missing. Dry, they squeak, wear and make the pedal rough.",
            )
        )
    tube = "The guide tube of the release bearing"
    if greased_tube(car):
        options.append(
            needed(
                f"{tube}: a thin film",
                "leaves a steel tube dry",
                "The tube is missing. On this sheet it is steel and gets a thin film. Dry, the bearing sticks.",
            )
        )
    else:
        options.append(
            wrong(
                tube,
                "greases a tube that stays dry",
                "This sheet wants it dry. Grease catches dust there, and bearing or seal sticks.",
            )
        )
        options.append(
            needed(
                "Nothing more than the sheet names",
                "puts grease where the sheet names none",
                "One line is missing: what the sheet does not name stays dry. Extra grease ends up on the facings.",
            )
        )
    return Several.of(
        draw,
        options=options,
        ask=f"{opening} {car.name}. Its guide tube: {car.release.guide_tube}. What is right about grease? Pick all.",
        why="Thin, and only where parts slide on each other. Everything else is thrown onto the facings.",
        step="Ask of each place: do two parts slide there? And what does the sheet say about the tube?",
        solution="Splines: thin, wiped. Fork tips and pivot: thin, where there is a fork. "
        f"Guide tube: {'a thin film' if greased_tube(car) else 'dry'}. Nothing on faces, bolts, dowels.",
        source="common-practice",
        vehicle=car.id,
    )


@exercise("assembly.clean-face", lesson="assembly", outcome=GREASE, minutes=1.5, title="Clean faces")
def clean_face(draw: Draw) -> Choice:
    minutes = draw.integer(5, 30)
    cases = (
        Case(
            f"The flywheel lies on the bench for {minutes} minutes. You find a rust line on the crankshaft flange. What now?",
            "Take the rust off by hand, then wipe flange and seat clean",
            (
                Mistake(
                    "Leave it: the bolts press it flat",
                    "thinks that bolts press dirt flat",
                    "Dirt under the seat tilts the flywheel. It judders, and the bolts work loose.",
                    True,
                ),
                Mistake(
                    "Go over it with a wire wheel in a drill",
                    "takes too hard a tool",
                    "A wire wheel digs hollows. The flywheel then has no even seat and runs out.",
                ),
                Mistake(
                    "Put a film of grease under the flywheel",
                    "greases the seat",
                    "The joint holds by dry friction. With grease it can slip on the bolts and shear them.",
                    True,
                ),
            ),
            "The seat must be bare, dry metal. A hair of dirt near the middle is a large run-out at the rim.",
            "What lies between two parts that must sit flat on each other?",
        ),
        Case(
            f"The friction faces were degreased {minutes} minutes ago. There is a shiny thumb print on one now. What do you do?",
            "Degrease that face again with a lint-free cloth",
            (
                Mistake(
                    "Leave it: skin is clean",
                    "thinks that a thumb print does nothing",
                    "Skin fat burns into the facing. The first take-ups judder, and the customer is back.",
                ),
                Mistake(
                    "Rub it off with your sleeve",
                    "wipes with anything at hand",
                    "A sleeve brings more oil than it takes, and lint as well. The clutch judders.",
                ),
                Mistake(
                    "Sand the print away",
                    "sands a new face",
                    "Sanding leaves grit and an uneven face. Grit in the clutch scores it from the first day.",
                ),
            ),
            "Friction faces go in clean and dry. Clean hands or clean gloves, just before the plate goes on.",
            "What takes fat away and leaves nothing behind?",
        ),
        Case(
            f"The splines got grease {minutes} minutes ago. You slid the plate on once, and a ring of grease stands at the hub. What now?",
            "Wipe the ring off, down to a thin film",
            (
                Mistake(
                    "Leave it as a store",
                    "thinks that more grease is better",
                    "Turning, the ring is thrown onto the facings. The clutch judders or slips.",
                ),
                Mistake(
                    "Add a little, so that it lasts",
                    "thinks that more grease is better still",
                    "What the splines cannot hold flies outward. The facings soak it up, and the plate is scrap.",
                ),
                Mistake(
                    "Wash plate and shaft in solvent",
                    "washes the plate",
                    "Facings soak solvent up and judder. A new plate is never washed.",
                ),
            ),
            "About a match-head of grease does for all splines. What is pushed up comes off.",
            "Where does the ring go when the shaft turns several thousand times a minute?",
        ),
    )
    return choice_from(draw, cases[draw.form(3)])


@exercise("assembly.bearing", lesson="assembly", outcome=GREASE, minutes=1.5, title="The bearings")
def bearing(draw: Draw) -> Choice:
    pulls, form = draw.integer(2, 6), draw.form(3)
    cases = (
        Case(
            f"You push the new release bearing onto its fork. After {pulls} tries one clip has not snapped home. What now?",
            "Take it off, look at fork and clip, and fit it so that both snap",
            (
                Mistake(
                    "Go on: the fork will press it home",
                    "hopes that the fork presses it home",
                    "The bearing jumps off inside the closed housing. The gearbox has to come out again.",
                ),
                Mistake(
                    "Tie it with wire",
                    "makes up a fastening",
                    "Wire breaks and gets between the fingers. In traffic the clutch no longer releases.",
                    True,
                ),
                Mistake(
                    "Bend the clip until it holds",
                    "bends a clip",
                    "A bent clip tires and lets go. Then the clutch no longer releases.",
                ),
            ),
            "Both sides snap, and the bearing slides smoothly over its whole way. Then it stays on.",
            "What holds the bearing when nobody can see it any more?",
        ),
        Case(
            f"A new concentric slave is bolted on, the gearbox is still out. A colleague wants to press the pedal {pulls} times. "
            "What do you say?",
            "“Leave the pedal alone until the gearbox is bolted on”",
            (
                Mistake(
                    "“Go on, but press slowly”",
                    "works a slave without its stop",
                    "Nothing stops the piston. It leaves its bore, fluid runs out, and the new slave is scrap.",
                ),
                Mistake(
                    "“Go on, I hold it with my hands”",
                    "holds a slave by hand",
                    "The pressure of a pedal pushes fingers away. The slave comes apart and you are hurt.",
                    True,
                ),
                Mistake(
                    "“Go on, I grease its seal first”",
                    "greases a seal",
                    "Ordinary grease swells such seals. The slave leaks, and the clutch drags.",
                ),
            ),
            "A concentric slave has its stop only in the clutch fingers. Before that it must not be worked.",
            "What stops the piston on its way out when the clutch is not there yet?",
        ),
        Case(
            f"A pilot bearing goes into the crankshaft. You turn it {pulls} times by hand: smooth. How do you press it in?",
            "By its outer ring, square, to the depth on the sheet",
            (
                Mistake(
                    "By its inner ring",
                    "presses on the wrong ring",
                    "The balls carry the force and get dents. The bearing howls with the clutch pressed.",
                ),
                Mistake(
                    "Until it stops",
                    "presses without measuring",
                    "Too deep, it no longer guides the shaft. The plate drags and the shaft swings.",
                ),
                Mistake(
                    "After packing it with grease",
                    "packs a sealed bearing",
                    "It is sealed and filled already. Extra grease is thrown onto the facings.",
                ),
            ),
            "Force goes only through the ring that sits tight. The depth comes from the sheet.",
            "Which ring sits tight in the crankshaft? Force must not go through the balls.",
        ),
    )
    return choice_from(draw, cases[form])
