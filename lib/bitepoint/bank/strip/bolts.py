"""Lesson 5, strip-down and inspection: cover bolts let down in a star, a bolt that rounds off, teeth to degrees."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import ring_picture, spaced, turned
from bitepoint.bank.strip.common import READS, UNDOES
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.vehicles import vehicle


@exercise("strip.cover-round", lesson="strip", outcome=UNDOES, minutes=2, beyond=True, title="One round of half-turns")
def cover_round(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    angles = turned(car.clutch.cover.hole_angles_deg, (0, 90, 180)[form], backwards=draw.pick(False, True))
    bolts, order = len(angles), star_order(angles)
    ring = tuple(range(1, bolts + 1))
    after = ("first", "second", "third")[form]
    return Choice.of(
        draw,
        ask=f"The flywheel of {car.name} is locked. Its clutch cover has {bolts} bolts, numbered round the ring. "
        f"With socket and bar you slacken them, half a turn each, in the {after} round. Which order do you take?",
        right=spaced(order),
        wrong=(
            Mistake(
                spaced(ring),
                "slackens round the circle",
                "Round the circle one side lets go first. The spring tips the cover and bends it.",
            ),
            _third_mistake(form, order),
            Mistake(
                spaced(order[:-1]),
                "forgets a bolt",
                f"Bolt {order[-1]} is left out. It then holds the spring alone, and the cover can jump.",
                True,
            ),
        ),
        picture=ring_picture(angles),
        why="Across each time, the cover comes away level. No bolt is left alone with the spring.",
        step=f"Start at bolt {order[0]}, then cross to bolt {order[1]}. Go on to a bolt not yet done, and across again.",
        solution=f"{spaced(order)}: each bolt once, and across the ring each time.",
        source="tm-5-3810-300-24",
        vehicle=car.id,
    )


def _third_mistake(form: int, order: tuple[int, ...]) -> Mistake:
    ring = tuple(range(1, len(order) + 1))
    if form == 0:
        return Mistake(
            spaced(sorted(ring, key=lambda bolt: min(bolt - 1, len(ring) + 1 - bolt))),
            "works outwards from one bolt",
            "One side is loose while the other still holds. The cover tips, and the last bolts bend.",
        )
    if form == 1:
        return Mistake(
            spaced((*order, order[0])),
            "turns one bolt twice",
            f"Bolt {order[0]} gets a whole turn in this round. That side comes up first, and the cover tips.",
        )
    return Mistake(
        spaced(ring[::-1]),
        "goes round the other way",
        "Round the circle is one-sided whichever way you go. The spring tips the cover and bends it.",
    )


@exercise("strip.half-turns", lesson="strip", outcome=UNDOES, minutes=1.5, title="Star and small steps")
def half_turns(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    bolts, kilo = len(car.clutch.cover.hole_angles_deg), car.clutch.clamp_load_new_n / 1000
    cases = (
        Case(
            f"The cover of {car.name} has {bolts} bolts and presses with about {kilo:.1f} kN when new. How do you let it down?",
            "In star order, half a turn each round, until the spring is free",
            (
                Mistake(
                    "One after the other, each right out",
                    "takes the cover for a lid",
                    "The last bolts then hold all the force. The cover bends or jumps, and so does the tool in your hand.",
                    True,
                ),
                Mistake(
                    "In star order, each right out at once",
                    "keeps the order without the small steps",
                    "Order alone does not help: after a few bolts the rest carry it all. The cover bends.",
                ),
                Mistake(
                    "Round the circle, half a turn each round",
                    "keeps the small steps without the star",
                    "Round the circle it tilts at each step. The plate jams, and the cover is bent for good.",
                ),
            ),
            "Order and small steps belong together. So no side carries the spring alone.",
            "How much of the force does the last bolt carry in each of these ways?",
        ),
        Case(
            f"After {draw.pick('three', 'four')} rounds of half-turns the bolts of the cover of {car.name} turn by finger. "
            "It still sits on its dowels. What now?",
            "Two bolts stay in as hooks; ease it off evenly",
            (
                Mistake(
                    "All bolts out, then a hammer from one side",
                    "lets the cover go without hooks",
                    f"Freed on one side it drops, {car.masses.cover_kg:g} kg with sharp fingers, on hands or feet.",
                    True,
                ),
                Mistake(
                    "Lever it off between cover and flywheel face",
                    "levers on the friction face",
                    "The bar digs into the face. Cover or flywheel goes to scrap.",
                ),
                Mistake(
                    "Let someone turn the engine to shake it off",
                    "turns the engine at an open clutch",
                    "Fingers are at the rim, and the cover falls out of the turning flywheel.",
                    True,
                ),
            ),
            "The spring is free, the weight is not. Two bolts, run out far enough, catch cover and plate.",
            "The force is gone. What else can still hurt you?",
        ),
        Case(
            f"You want to slacken the cover of {car.name}, {bolts} bolts. At the first pull the whole flywheel turns with it. "
            "What do you do?",
            "Fit the lock at the ring gear, then start again",
            (
                Mistake(
                    "Wedge a screwdriver in the teeth",
                    "locks with a screwdriver",
                    "It jumps out under load or breaks a tooth. Then your hand goes into the ring gear.",
                    True,
                ),
                Mistake(
                    "Let a helper hold the flywheel by its rim",
                    "holds a flywheel by hand",
                    "A hand is weaker than a bar. Fingers go between ring gear and housing.",
                    True,
                ),
                Mistake(
                    "Use the impact wrench, it needs no lock",
                    "thinks that impact needs no lock",
                    "It runs one bolt right out at once. The cover tilts under the spring and bends.",
                ),
            ),
            "The lock takes the pull, so nothing turns and no finger is drawn in.",
            "Where does the force of your bar go while nothing holds the flywheel?",
        ),
    )
    return choice_from(draw, cases[form], source="tm-5-3810-300-24", vehicle=car.id)


_CHISEL = Mistake(
    "Drive it round with a chisel",
    "works with a chisel at the flange",
    "Chips fly, and the flange gets a dent. The new flywheel then never seats true.",
)


@exercise(
    "strip.stuck-bolt", lesson="strip", outcome=UNDOES, minutes=1.5, beyond=True, title="A flywheel bolt rounds off"
)
def stuck_bolt(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(2)
    bolts = car.flywheel.bolt_count
    out = draw.integer(bolts // 2, bolts - 1)
    cases = (
        Case(
            f"Old flywheel bolts of {car.name}: {out} of {bolts} are out, and the next one begins to round off. "
            "The flywheel is locked. What now?",
            "Six-point socket on square, one shock with a drift, then a removal socket",
            (
                Mistake(
                    "Impact wrench until it gives",
                    "thinks that force wins",
                    "The head breaks off, and the rest sits in the crankshaft. Nobody drills there without asking.",
                ),
                _CHISEL,
                Mistake(
                    "A flame on the head at once",
                    "heats without asking",
                    "Seal and fuel lines are near. The seal is ruined, and fuel catches fire.",
                    True,
                ),
            ),
            "A better grip comes before more force. If that fails: stop and ask, before the head is gone.",
            "What is the mildest thing that may still work?",
        ),
        Case(
            f"One flywheel bolt of {car.name} has sheared; {out} are out already. The stump sits in the crankshaft. What now?",
            "Stop and ask",
            (
                Mistake(
                    "Drill it out in the bay",
                    "drills at the crankshaft",
                    "A drill that wanders ruins the thread or the crankshaft. That costs an engine, not a bolt.",
                ),
                Mistake(
                    f"Leave it in; {bolts - 1} bolts will do",
                    "leaves a bolt out",
                    "The others carry more than they were made for. A flywheel that comes loose goes through the floor.",
                    True,
                ),
                Mistake(
                    "Weld a nut on it yourself, next to the seal",
                    "welds beside the seal",
                    "Heat hardens seal and flange, and the current goes through bearings. The engine suffers.",
                ),
            ),
            "Work in the crankshaft is decided by somebody senior. Until then nothing is lost.",
            "What is at stake if it goes wrong: a bolt, or more?",
        ),
    )
    return choice_from(draw, cases[form], vehicle=car.id)


@exercise("strip.teeth", lesson="strip", outcome=READS, minutes=2, beyond=True, title="Free angle in teeth and degrees")
def teeth(draw: Draw) -> Number:
    form = draw.form(4)
    car = vehicle(("B", "C")[form % 2])
    ring, moved = car.flywheel.ring_gear_teeth, 3 + form + draw.pick(0, 4)
    right = 360 * moved / ring
    return Number(
        ask=f"You turn the outer half of the dual-mass flywheel of {car.name} by hand, from stop to stop, without "
        f"spring force. It moves by {moved} teeth. The ring gear has {ring} teeth. How many degrees is that?",
        answer=right,
        unit="°",
        within=percent(1),
        decimals=1,
        mistakes=(
            Mistake(
                moved * ring / 360,
                "turns the ratio round",
                "You turned the ratio round. A full turn shares its degrees among the teeth. "
                "A worn flywheel would look new, and it knocks on.",
            ),
            Mistake(
                float(moved),
                "takes teeth for degrees",
                "A tooth is almost three degrees. Taken for one, a worn flywheel would pass and knock on.",
            ),
        ),
        why=f"One tooth is {360 / ring:.2f}°. So {moved} teeth are {right:.1f}°. On the sheet the limit is in teeth.",
        step=f"One tooth is 360° / {ring} = {360 / ring:.2f}°.",
        solution=f"{moved} × 360 / {ring} = {right:.1f}°.",
        source="invented",
        picture=Picture("teeth-and-degrees", {"teeth": moved, "ring": ring}),
        vehicle=car.id,
    )
