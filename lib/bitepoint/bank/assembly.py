"""Lesson 9, assembly: clean faces, grease, the bearing, and the flywheel in its one position."""

import re

from bitepoint.bank.assembly_common import FLYWHEEL, GREASE, greased_tube
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque_common import Case, choice_from
from bitepoint.mechanics.joints import clearance_to_thread_end_mm, engagement_mm
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle

_FORCE = "Forced threads are cut and the flywheel sits askew. It can work loose and come off."


@exercise("assembly.grease-where", lesson="assembly", outcome=GREASE, minutes=2.5)
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


@exercise("assembly.clean-face", lesson="assembly", outcome=GREASE, minutes=1.5)
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


@exercise("assembly.bearing", lesson="assembly", outcome=GREASE, minutes=1.5)
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


@exercise("assembly.bolt-length", lesson="assembly", outcome=FLYWHEEL, minutes=2.5)
def bolt_length(draw: Draw) -> Number:
    form = draw.form(3)
    car = draw.vehicle() if form < 2 else vehicle(draw.pick("B", "C"))
    bolt = car.flywheel.bolt
    length, clamped, depth = bolt.length_mm, bolt.hub_clamped_mm, bolt.crank_thread_depth_mm
    told = (
        f"Flywheel bolts of {car.name} are {length:g} mm long under the head. They clamp {clamped:g} mm of metal. "
        f"The threaded hole is {depth:g} mm deep. "
    )
    reach = engagement_mm(length, clamped_mm=clamped)
    if form == 0:
        return _length(
            told + "How far does a bolt reach into the thread, in mm?",
            reach,
            (
                Mistake(length, "forgets the clamped parts", _CLAMPED),
                Mistake(depth, "takes the hole for the bolt", _HOLE),
            ),
            f"It reaches {reach:g} mm into the thread and leaves {depth - reach:g} mm free.",
            f"Take what is clamped away from the length: {length:g} − {clamped:g} mm.",
            f"{length:g} − {clamped:g} = {reach:g} mm.",
            car.id,
        )
    if form == 1:
        free = clearance_to_thread_end_mm(length, clamped_mm=clamped, thread_depth_mm=depth)
        return _length(
            told + "How much thread stays free below the bolt, in mm?",
            free,
            (
                Mistake(reach, "gives the reach", "That is the part inside the thread. Asked is what stays free below. "
                        "Too little of it, and the bolt bottoms."),
                Mistake(length - depth, "forgets the clamped parts", _CLAMPED),
            ),
            f"{free:g} mm stay free, so the bolt cannot bottom.",
            f"The bolt reaches {length:g} − {clamped:g} = {reach:g} mm into the hole.",
            f"{depth:g} − {reach:g} = {free:g} mm.",
            car.id,
        )
    other = car.flywheel.bolt_dmf
    assert other is not None
    early = -clearance_to_thread_end_mm(other.length_mm, clamped_mm=clamped, thread_depth_mm=depth)
    return _length(
        f"Somebody takes bolts of the dual-mass flywheel for the rigid flywheel of {car.name}. "
        f"They are {other.length_mm:g} mm long; {clamped:g} mm are clamped; the hole has {depth:g} mm of thread. "
        "How far does the head stand off when the bolt bottoms, in mm?",
        early,
        (
            Mistake(other.length_mm - depth, "forgets the clamped parts", _CLAMPED),
            Mistake(other.length_mm - clamped, "forgets the hole",
                    "You left the depth of the hole out. So you do not see when the bolt meets the bottom."),
        ),
        f"The head stands {early:g} mm off: the wrench clicks, and nothing is clamped.",
        f"It would have to reach {other.length_mm:g} − {clamped:g} = {other.length_mm - clamped:g} mm into the hole.",
        f"{other.length_mm:g} − {clamped:g} − {depth:g} = {early:g} mm.",
        car.id,
    )


_CLAMPED = "You forgot the metal between head and crankshaft. So a bolt of the wrong length looks right."
_HOLE = "That is the depth of the hole. A short bolt in a deep hole holds by a few turns only."


def _length(
    ask: str, right: float, mistakes: tuple[Mistake, ...], why: str, step: str, solution: str, letter: str
) -> Number:
    return Number(
        ask=ask,
        answer=right,
        unit="mm",
        within=plus_minus(0.2),
        decimals=1,
        mistakes=mistakes,
        why=f"{why} Measure every new bolt against the old one before it goes in.",
        step=step,
        solution=solution,
        source="derived",
        vehicle=letter,
    )


@exercise("assembly.odd-hole", lesson="assembly", outcome=FLYWHEEL, minutes=2)
def odd_hole(draw: Draw) -> Choice:
    bolt, form = draw.integer(1, 6), draw.form(3)
    round_again = "Take it off, turn it by one hole and try again until all six start"
    ream = Mistake(
        "Enlarge the holes that do not fit",
        "makes holes fit by force",
        "The holes are uneven on purpose. Enlarged ones let the flywheel move, and it can come off.",
        True,
    )
    pull = Mistake(
        "Tighten those that start; they pull it round",
        "lets bolts pull the part into place",
        _FORCE,
        True,
    )
    drive = Mistake("Start the others with an impact tool", "forces a bolt by impact", _FORCE, True)
    cases = (
        Case(
            "The rigid flywheel of training vehicle C is offered up. Four of its six bolts start by hand, two do not. What now?",
            round_again,
            (pull, ream, drive),
            "In a wrong position four of six start. Its uneven holes allow one position only.",
            "Its holes sit at 0, 52, 120, 180, 240 and 300°. What happens when it is one hole out?",
        ),
        Case(
            f"The rigid flywheel of training vehicle C is offered up. Five of its six bolts start by hand; bolt {bolt} does not. "
            "What now?",
            f"Look for damage at bolt {bolt} and its thread before anything is tightened",
            (
                pull,
                Mistake(
                    "Turn the flywheel by one hole at a time, all the way round",
                    "tries positions although this one is right",
                    "In a wrong position only four start, never five. You search for an hour, and the damage stays.",
                ),
                drive,
            ),
            "Five of six is the right position with a damaged bolt, thread or dirt. Repair comes first, or stop and ask.",
            "How many bolts start in a wrong position of this flywheel, and how many here?",
        ),
        Case(
            f"All six bolts of training vehicle C start by hand. Bolt {bolt} then binds after two turns. What do you do?",
            f"Take bolt {bolt} out and look at both threads",
            (
                Mistake(
                    "Go on with the ratchet: it has started",
                    "turns a binding bolt on",
                    "It is crossed or dirty. Turned on, it cuts the crankshaft's thread and clamps nothing.",
                    True,
                ),
                drive,
                Mistake(
                    "Put a drop of oil on it",
                    "oils a bolt that must stay dry",
                    "Oil hides the cause and lowers the friction. The bolt is stretched and locks no more.",
                    True,
                ),
            ),
            "A bolt runs in by hand until its head nearly touches. One that binds tells you something.",
            "Which causes make a bolt bind: thread, dirt, or a wrong bolt? Where would you see them?",
        ),
    )
    return choice_from(draw, cases[form], source="invented", vehicle="C")


@exercise("assembly.ring-left-out", lesson="assembly", outcome=FLYWHEEL, minutes=2)
def ring_left_out(draw: Draw) -> Choice:
    car, bolt, form = vehicle("B"), vehicle("B").flywheel.bolt, draw.form(3)
    ring = float(re.findall(r"([\d.]+) mm reinforcing ring", bolt.note)[0])
    reach = engagement_mm(bolt.length_mm, clamped_mm=bolt.hub_clamped_mm - ring)
    done = draw.integer(3, 8)
    told = (
        f"The rigid kit of {car.name} holds a reinforcing ring, {ring:g} mm thick. Without it the bolts would reach "
        f"{reach:g} mm into {bolt.crank_thread_depth_mm:g} mm of thread. "
    )
    clicked = Mistake(
        "Go on: the bolts clicked",
        "thinks that torque means clamping",
        "A bolt that bottoms clicks too. It clamps nothing, and the flywheel comes off.",
        True,
    )
    washers = Mistake(
        "Put washers of the same thickness under the heads",
        "replaces a ring by washers",
        "Washers are soft and uneven. They settle, the bolts lose their pull, and the flywheel works loose.",
        True,
    )
    short = Mistake(
        "Take other bolts, 8 mm shorter",
        "makes up a bolt",
        "Ring and bolts of a kit belong together. With bolts of your own nobody knows the joint holds.",
        True,
    )
    cases = (
        Case(
            told + f"It is still in the box when {done} bolts are tight. What do you do?",
            "All out, ring in, new bolts, from the first stage",
            (clicked, washers, short),
            "The bolts meet the bottom of the holes before they clamp. Click or no click, the flywheel is loose.",
            "Compare the two lengths. What does the bolt meet before its head clamps the flywheel?",
        ),
        Case(
            told + f"You find it in the box while {done} bolts are started by hand. What do you do?",
            "All out by hand, ring in, start again",
            (
                washers,
                short,
                Mistake(
                    "Go on and tighten a little less",
                    "makes up a torque",
                    "Bolts that bottom do not clamp at any torque. The flywheel comes off.",
                    True,
                ),
            ),
            "Started by hand they are not used yet, so they may go in again. The ring makes the length right.",
            "Which part makes the clamped length longer, so that the bolts fit?",
        ),
        Case(
            told + f"Your kit's box is empty: the ring is missing. {done} people wait for the car. What do you do?",
            "Stop and ask: the kit is not complete",
            (
                washers,
                short,
                Mistake(
                    "Take the ring of an old job",
                    "takes a part of unknown origin",
                    "Nobody knows its thickness and what it has been through. Bolts can bottom, and the flywheel comes off.",
                    True,
                ),
            ),
            "Nothing in a workshop replaces that ring. A call costs an hour, a loose flywheel much more.",
            "Is there any part here that somebody answers for in its place?",
        ),
    )
    return choice_from(draw, cases[form], source="invented", vehicle="B")
