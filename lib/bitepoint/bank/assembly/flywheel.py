"""Lesson 9, assembly: the flywheel in its one position, with bolts that fit."""

import re

from bitepoint.bank.assembly.common import FLYWHEEL
from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.joints import clearance_to_thread_end_mm, engagement_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle

_FORCE = "Forced threads are cut and the flywheel sits askew. It can work loose and come off."


@exercise(
    "assembly.bolt-length",
    lesson="assembly",
    outcome=FLYWHEEL,
    minutes=2.5,
    title="Length of the bolts",
)
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
                Mistake(
                    reach,
                    "gives the reach",
                    "That is the part inside the thread. Asked is what stays free below. "
                    "Too little of it, and the bolt bottoms.",
                ),
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
            Mistake(
                other.length_mm - clamped,
                "forgets the hole",
                "You left the depth of the hole out. So you do not see when the bolt meets the bottom.",
            ),
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


@exercise(
    "assembly.odd-hole",
    lesson="assembly",
    outcome=FLYWHEEL,
    minutes=2,
    title="A bolt that does not start",
)
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


@exercise(
    "assembly.ring-left-out",
    lesson="assembly",
    outcome=FLYWHEEL,
    beyond=True,
    minutes=2,
    title="The ring in the box",
)
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
