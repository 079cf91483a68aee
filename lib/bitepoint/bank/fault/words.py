"""Lesson 3, finding the fault: the words on the phone, and whether the car may be driven."""

from bitepoint.bank.fault.common import ASKS, DECIDES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

_ON_THE_SHEET = (
    Mistake(
        "“Clutch slips, mileage {km} thousand”",
        "writes a diagnosis in place of the words",
        "That is your guess, not what was noticed. Later nobody can check whether the complaint is gone.",
    ),
    Mistake(
        "“Renew clutch as customer wishes”",
        "takes a wish for a fault",
        "The customer knows the trouble, not its cause. A new clutch may leave the trouble as it was.",
    ),
    Mistake(
        "“Engine too weak uphill, check turbo”",
        "writes another guess",
        "A weak engine does not howl. Such a line sends the next fitter to the wrong end of the car.",
    ),
)

_PRICE = Mistake(
    "What a new clutch would cost",
    "promises a price before the test",
    "Before the test nobody knows what is broken. A price promised now becomes a quarrel later.",
)

_WORDS: tuple[tuple[str, str, tuple[Mistake, ...], str], ...] = (
    (
        (
            "On the phone: “Uphill the engine howls, but the car gets no faster. For {weeks} "
            "weeks now.” What goes on the job sheet?"
        ),
        "“Uphill engine howls, car no faster, for {weeks} weeks”, date and mileage",
        _ON_THE_SHEET,
        "Which line could a stranger test on the road, before and after the repair?",
    ),
    (
        "On the phone: “It shakes when I start off. It began {weeks} weeks ago.” What do you ask next?",
        "Cold or warm, which gear, hill or trailer, and any work done before",
        (
            _PRICE,
            Mistake(
                "Whether the driver rides the clutch",
                "blames the driver first",
                "A question like that sounds like blame, and the rest stays unsaid. You lose what would settle it.",
            ),
            Mistake(
                "Nothing: shaking is the clutch",
                "takes a symptom for a part",
                "Torn mounts and a misfire shake too. The gearbox would come out for nothing.",
            ),
        ),
        "Which answers would tell clutch, mounts and engine apart?",
    ),
    (
        "The customer says: “It makes a noise, for {weeks} weeks.” Which question tells you most?",
        "Does it change when you press the pedal, and when you roll in neutral?",
        (
            _PRICE,
            Mistake(
                "How loud is it?",
                "asks for loudness",
                "Loud is different for everyone and names no part. You would still not know where to listen.",
            ),
            Mistake(
                "Is it the release bearing?",
                "puts an answer into the question",
                "The customer will say yes to be polite. Then the wrong part is on the sheet.",
            ),
        ),
        "What changes inside the clutch when the pedal goes down?",
    ),
)


@exercise("fault.words", lesson="fault", title="The words on the phone", outcome=ASKS, minutes=2)
def words(draw: Draw) -> Choice:
    ask, best, others, step = _WORDS[draw.form(3)]
    said = {"weeks": draw.integer(2, 9), "km": draw.integer(70, 190)}
    best = best.format(**said)
    return Choice.of(
        draw,
        ask=ask.format(**said),
        right=best,
        wrong=[Mistake(m.value.format(**said), m.name, m.says) for m in others],
        why="Words and conditions can be tested before and after. A guess on the sheet cannot.",
        step=step,
        solution=best,
        source="common-practice",
    )


_COME_SLOWLY = Mistake(
    "Come slowly, in a low gear",
    "lets an unsafe car be driven",
    "Slow does not give the driver control back. At the first crossing the car may not come free or not stop.",
    True,
)

_MAY_DRIVE: tuple[tuple[str, str, tuple[Mistake, ...], str, str], ...] = (
    (
        (
            "“The clutch pedal lies on the floor. The fluid in the tank, shared with the brakes, "
            "is low.” It is {km} km to you. What do you say?"
        ),
        "Leave it standing; we fetch it on a trailer",
        (
            _COME_SLOWLY,
            Mistake(
                "Top it up and come",
                "tops up a leak and drives",
                "Where it went, it goes again. The brakes drink from the same tank and may fail on the way.",
                True,
            ),
            Mistake(
                "Pump the pedal while driving",
                "pumps a failing pedal on the road",
                "It may work once and then not. A car that cannot be freed from its engine pushes on.",
                True,
            ),
        ),
        "No release and a tank shared with the brakes: neither stopping nor parting from the engine is sure.",
        "What else works with this fluid?",
    ),
    (
        (
            "“At idle it knocks deep down, less with the pedal down. The flywheel was off {weeks} "
            "weeks ago.” What do you say?"
        ),
        "Engine off now, and leave it off; we fetch it",
        (
            Mistake(
                "Come by, but keep below 2000 rpm",
                "lets loose flywheel bolts run",
                (
                    "It sounds like loose flywheel bolts. They break at any speed, and the "
                    "flywheel comes through the housing."
                ),
                True,
            ),
            Mistake(
                "Let it run so that you can hear it on the phone",
                "lets it run to listen",
                "Every turn works the bolts further. Parts of a flywheel have hurt people beside a car.",
                True,
            ),
            Mistake(
                "It is the dual-mass flywheel, they all knock",
                "takes a deep knock for normal",
                "After work on the flywheel a deep knock means loose bolts until proved otherwise. It could burst.",
                True,
            ),
        ),
        "A deep knock after work there means: flywheel bolts may be loose. Stop the engine, look first.",
        "What was undone there last, and what if it is loose?",
    ),
    (
        (
            "“Reverse grates and in town the car creeps forward with the pedal down, for {weeks} "
            "weeks.” What do you say?"
        ),
        "Do not drive it in traffic; we fetch it",
        (
            _COME_SLOWLY,
            Mistake(
                "Come, and switch off at each red light",
                "relies on a trick in traffic",
                (
                    "The trick fails the first time someone walks in front. The car moves while "
                    "the driver thinks it is free."
                ),
                True,
            ),
            Mistake(
                "Drive until it gets worse",
                "waits for it to get worse",
                "Worse means that it does not come free at all. Then it pushes into whatever stands in front.",
                True,
            ),
        ),
        "A car that pulls with the pedal down can run into someone. It comes on a trailer.",
        "Who stands in front of it at the next crossing?",
    ),
)


@exercise("fault.may-drive", lesson="fault", title="May it be driven?", outcome=ASKS, minutes=2)
def may_drive(draw: Draw) -> Choice:
    ask, best, others, why, step = _MAY_DRIVE[draw.form(3)]
    return Choice.of(
        draw,
        ask=ask.format(km=draw.integer(3, 18), weeks=draw.integer(2, 6)),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}. Write “may be driven: no” on the sheet.",
        source="manual-drive-trains-2010" if "knocks" in ask else "common-practice",
    )


def _elsewhere(text: str, name: str) -> Option:
    return needed(
        text,
        name,
        "One that comes from somewhere else is missing. Blamed on the clutch, it costs a gearbox-out for nothing.",
    )


_STATEMENTS: tuple[tuple[Option, ...], ...] = (
    (
        _elsewhere("Only second gear grates, and only while driving", "overlooks the synchroniser"),
        _elsewhere("A hum that follows road speed, also in neutral", "overlooks the wheels"),
        _elsewhere("The engine stalls at idle, neutral, pedal up", "overlooks the engine"),
        wrong(
            "At full throttle in a high gear the engine runs away from the road speed",
            "takes slip for something else",
            "That is just what slip does. Sent away with it, the driver is stranded at the next hill.",
        ),
        wrong(
            "Reverse still grates after {s} s with the pedal down",
            "takes drag for a worn gear",
            "After that time the plate should stand. Repaired in the gearbox, it grates on.",
        ),
    ),
    (
        _elsewhere("It jumps out of third gear", "overlooks the gearbox"),
        _elsewhere("Cruise control drops out at a light touch of the pedal", "overlooks the pedal switch"),
        _elsewhere("It shakes at {kmh} km/h, also rolling in neutral", "overlooks the tyres"),
        wrong(
            "It smells burnt after a hill start, and the engine revs up",
            "takes burning for normal",
            "Smell and revs together are slip. Driven on, flywheel and cover are ruined as well.",
        ),
        wrong(
            "The pedal stays on the floor",
            "takes the release for the pedal",
            "The release system belongs to the clutch. Left alone, the car cannot be freed from its engine.",
        ),
    ),
)


@exercise("fault.not-proof", lesson="fault", title="Not proof of a worn clutch", outcome=DECIDES, minutes=2)
def not_proof(draw: Draw) -> Several:
    said = {"s": draw.integer(5, 9), "kmh": draw.pick(90, 100, 110, 120)}
    form = draw.form(2)
    options = [Option(o.text.format(**said), o.right, o.name, o.says) for o in _STATEMENTS[form]]
    found = ", ".join(f"“{o.text}”" for o in options if o.right)
    return Several.of(
        draw,
        options=options,
        ask="Five complaints. Tick those that come from somewhere else than the clutch and its release.",
        why="Synchroniser, wheels, engine, gearbox and switches all imitate the clutch. Each has its own quick test.",
        step="Ask of each: would it change if the clutch were new?",
        solution=found.replace(", ", ".\n") + ".",
        source="common-practice",
    )
