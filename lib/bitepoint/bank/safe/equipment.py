"""Lesson 2, working safely: before anyone touches the car, and equipment that may be used."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.common import LIFTS, SECURES, opened
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import workshop

_AREA = needed("Others told; the area round the car kept free", "leaves the area open",
               "Something is missing. A person who walks in does not know that the car will move or go up.")  # fmt: skip
_CHOCK = needed("Chocks at the wheels that stay down", "leaves out the chocks",
                "Something is missing. A parking brake alone lets a car creep, and people have been rolled over.",
                critical=True)  # fmt: skip
_KEY = needed("Ignition off, key kept on you", "leaves the key in the car",
              "Something is missing. Whoever finds the key can start the engine while your hands are in it.",
              critical=True)  # fmt: skip
_LEVEL = needed("Level, firm floor; parking brake on", "takes any floor",
                "Something is missing. On a slope or a soft floor jack and stands tip.", critical=True)  # fmt: skip
_COOL = needed("Exhaust left to cool", "works at a hot exhaust",
               "Something is missing. After a road test the exhaust burns skin at a touch.")  # fmt: skip
_FIRST_GEAR = wrong("First gear engaged instead of chocks", "trusts a gear",
                    "A gear holds only as long as the clutch and shafts are there. You take both out.",
                    critical=True)  # fmt: skip
_KEY_IN_LOCK = wrong("Key left in its lock for the radio", "keeps the car awake",
                     "With the key there, anyone can start the engine. Hands are in it by then.", critical=True)  # fmt: skip
_GLOVES = wrong("Cloth gloves on, so that hands stay clean", "takes gloves for a safeguard",
                "They protect nothing that counts here. Near turning parts they pull the hand in.")  # fmt: skip


@exercise("safe.before-touching", lesson="safe", outcome=SECURES, minutes=1.5, title="Before you touch the car")
def before_touching(draw: Draw) -> Several:
    car, minutes = draw.vehicle(), draw.integer(5, 20)
    options, ask = (
        (
            (_AREA, _CHOCK, _KEY, _FIRST_GEAR, _GLOVES),
            f"{opened(car)} rolls in for its clutch, {minutes} minutes before the break. "
            "What is done before anyone touches it? Pick all.",
        ),
        (
            (_LEVEL, _KEY, _COOL, _KEY_IN_LOCK, _FIRST_GEAR),
            f"{opened(car)} comes back from a road test of {minutes} minutes. "
            "What is done before you open the bonnet? Pick all.",
        ),
    )[draw.form(2)]
    return Several.of(
        draw,
        options=options,
        ask=ask,
        why="It cannot roll, nobody can start it, and everyone near knows. Then the work begins.",
        step="Ask three things: can it roll, can someone start it, who else could be hurt?",
        solution="\n".join(o.text for o in options if o.right),
        source="hse-working-under-vehicles",
        vehicle=car.id,
    )


_NOTE, _OFF, _KEEP = "Note what the car forgets without power", "Ignition off", "Keep the key on you"
_FAR, _SLEEP = "Take the key out of range", "Wait until the control units sleep"
_MINUS, _COVER, _STARTER = "Negative lead off", "Cover lead and post", "Starter cable off"


@exercise("safe.dead-car", lesson="safe", outcome=SECURES, minutes=2, title="Make the car dead")
def dead_car(draw: Draw) -> Order:
    car, form = draw.vehicle(), draw.form(2)
    key = (_KEEP, _FAR)[form]
    start = ("is started with a key", "starts without a key in a lock")[form]
    example = (_NOTE, _OFF, key, _SLEEP, _MINUS, _COVER, _STARTER)
    rules = (
        Before(_NOTE, _MINUS, "radio, windows and steering angle must be taught in again, and notes save an hour.", "quality"),
        Before(_OFF, key, "the key stops nothing while the ignition is on.", "physical"),
        Before(key, _MINUS, "until then someone can start the engine while hands are in it.", "safety", True),
        Before(_OFF, _SLEEP, "control units fall asleep only after the ignition is off.", "physical"),
        Before(_SLEEP, _MINUS, "a unit that still writes can lose its data.", "quality"),
        Before(_MINUS, _COVER, "only a free lead can be covered.", "physical"),
        Before(_MINUS, _STARTER, "the starter's main cable is live and has no fuse: a spanner across it burns you.",
               "safety", True),  # fmt: skip
        Before(_COVER, _STARTER, "a lead that springs back makes the cable live again.", "safety", True),
    )  # fmt: skip
    return Order.of(
        draw,
        example=example,
        rules=rules,
        ask=f"{opened(car)} {start}. It stands chocked for {draw.integer(3, 30)} minutes. "
        "Make it dead before hands go near the starter. Put the steps in order.",
        why="Notes first, then the key, then the negative lead, then the cable that has no fuse.",
        step=f"It starts with “{_NOTE}”. It ends with “{_STARTER}”.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="common-practice",
        vehicle=car.id,
    )


@exercise("safe.tags", lesson="safe", outcome=LIFTS, minutes=2, title="May it be used?")
def tags(draw: Draw) -> Choice:
    car, lift, form = draw.vehicle(), workshop().lift, draw.form(3)
    late = lift.interval_months + draw.integer(1, 3)
    jack = next(s for s in workshop().supports if s.id == "gearbox jack")
    months, height = draw.integer(2, 10), draw.integer(12, 18) / 10
    by_look = Mistake(
        "Use it: it looks strong and always held",
        "judges strength by its look",
        "An examination finds cracks and worn nuts that you cannot see. What gives way falls on you.",
        True,
    )
    cases = (
        Case(
            f"Tag on the two-post lift: last thorough examination {late} months ago, interval {lift.interval_months} "
            f"months. {opened(car)} is to go up {height:g} m. What do you do?",
            "Leave it down, and report that it is overdue",
            (
                by_look,
                Mistake(
                    f"Lift it: {car.masses.vehicle_kg:g} kg is far below the {lift.rated_kg:g} kg of its plate",
                    "takes the plate for the examination",
                    "The plate holds for a sound lift. Whether it still is sound, nobody knows, and you stand below.",
                    True,
                ),
                Mistake(
                    "Examine it yourself before the first lift",
                    "examines it without being trained and named for it",
                    "The daily look is yours, the thorough examination is not. Overlooked cracks drop the car.",
                    True,
                ),
            ),
            "Overdue means not used, until somebody trained and named for it has examined it. Write down whom you told.",
            "Who may say that a lift is sound, and when did that person say so last?",
        ),
        Case(
            f"The engine beam has no plate and no tag. The engine of {car.name} is to hang on it for "
            f"{months} hours. What do you do?",
            "Leave it until its rating and examination are shown",
            (
                by_look,
                Mistake(
                    "Try it with the engine, close to the floor",
                    "tries it with the load",
                    "A try says nothing about the hours after it. When it gives way, hands are beside the engine.",
                    True,
                ),
                Mistake(
                    "Take it together with the trolley jack",
                    "adds a jack to an unknown beam",
                    "Two doubtful supports make no sure one. A jack sinks, and the beam then takes it all.",
                    True,
                ),
            ),
            "Without a plate nobody knows its load. No rating, no load: stop and ask for another.",
            "What would you compare the mass of the engine with?",
        ),
        Case(
            f"Gearbox jack: plate {jack.rated_kg:g} kg, examined {months} months ago, interval 12 months. "
            f"The gearbox of {car.name} has {car.masses.gearbox_kg:g} kg. What do you do?",
            "Take it, with the gearbox strapped to the cradle",
            (
                Mistake(
                    f"Leave it: {months} months is too long",
                    "takes any age for overdue",
                    "The interval says how long. Whoever refuses good tools ends with worse ones.",
                ),
                Mistake(
                    "Take it without a strap: the cradle holds",
                    "trusts the cradle",
                    "A gearbox turns over when its shaft comes free. It falls past the cradle onto feet and hands.",
                    True,
                ),
                Mistake(
                    "Carry it down with two strong people instead",
                    "takes muscle for a jack",
                    "Overhead nobody can hold and align it. It crushes hands, and its weight bends the shaft.",
                    True,
                ),
            ),
            "Rating above the mass, date within its interval, and strapped. All three are needed.",
            "Compare two figures and one date. What is left that could go wrong?",
        ),
    )
    return choice_from(draw, cases[form], source="hse-loler-6-months", vehicle=car.id)
