"""Lesson 3, finding the fault: the slip test on the road and the drag test on the ground."""

from bitepoint.bank.fault.common import TESTS, gear_word
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.vehicles import Vehicle


@exercise("fault.slip-test", lesson="fault", outcome=TESTS, minutes=3)
def slip_test(draw: Draw) -> Choice:
    car = draw.vehicle()
    rpm = car.engine.max_torque_rpm
    ask, best, others, why, step = (_which_gear, _who_drives, _how)[draw.form(3)](car)
    speeds = ((gear_word(g).capitalize(), f"{road_speed_kmh(car, gear=g, rpm=rpm):.0f} km/h") for g in _gears(car))
    return Choice.of(
        draw,
        ask=ask.format(limit=90, road=draw.pick("dry", "dry and level")),
        table=(("Gear", f"Speed at {rpm:g} rpm (greatest torque)"), *speeds),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}.",
        source="common-practice",
        vehicle=car.id,
    )


def _gears(car: Vehicle) -> range:
    return range(2, len(car.gearbox.ratios) + 1)


_Told = tuple[str, str, tuple[Mistake, ...], str, str]


def _which_gear(car: Vehicle) -> _Told:
    gear, top, rpm = car.gearbox.slip_test_gear, len(car.gearbox.ratios), car.engine.max_torque_rpm
    second = Mistake(
        "In second gear, because there it pulls hardest",
        "tests in a low gear",
        "In a low gear the wheels spin first, or the test is over in a moment. A slipping clutch passes.",
    )
    if gear < top:
        wrongs: tuple[Mistake, ...] = (
            Mistake(
                f"In {gear_word(top)}, because the book says high gear",
                "takes top gear whatever the speed",
                "Look at its speed in the table: far above the limit. At that speed a mistake kills.",
                True,
            ),
            second,
        )
    else:
        wrongs = (
            Mistake(
                "In third gear, as on every car",
                "takes one gear for every car",
                "This engine has its torque low down. In so low a gear the test ends before the slip shows.",
            ),
            second,
        )
    return (
        f"Slip test of training vehicle {car.id}, limit {{limit}} km/h, road {{road}}, straight and empty. In which gear?",
        f"In {gear_word(gear)}, through {rpm:g} rpm",
        wrongs,
        "It is the highest gear in which the speed of greatest torque stays below the limit of the road.",
        "Go down the table and stop before the speed passes the limit.",
    )


def _who_drives(car: Vehicle) -> _Told:
    return (
        f"Slip test of training vehicle {car.id}, limit {{limit}} km/h, road {{road}}, straight and empty. Who does what?",
        "A licensed, insured driver whom the workshop authorised drives; you note the figures",
        (
            Mistake(
                "You drive, because you know what to look for",
                "drives without being authorised",
                (
                    "Knowing the test gives neither licence nor insurance. If it goes wrong, "
                    "people are hurt and nobody pays."
                ),
                True,
            ),
            Mistake(
                "The authorised driver drives and reads the figures too",
                "lets the driver read the figures",
                "Eyes on the dials at full throttle are not on the road. That is how cars leave it.",
                True,
            ),
            Mistake(
                "The customer drives, because it is the customer's car",
                "lets the customer make the test",
                "Customers do not know when to stop. The workshop answers for its own test.",
            ),
        ),
        "One person only drives, the other only notes. The workshop decides who may drive.",
        "Who may drive, and who has time to read?",
    )


def _how(car: Vehicle) -> _Told:
    return (
        f"Slip test of training vehicle {car.id}, limit {{limit}} km/h, road {{road}}, straight and empty, car warm. How?",
        "Full throttle from below up through the greatest torque, once or twice, then cool",
        (
            Mistake(
                "In top gear against the parking brake, until it stalls",
                "makes the stall test first",
                "It heats one spot and can jump forward at someone. A last resort only, chocked, area clear.",
                True,
            ),
            Mistake(
                "Five hill starts in a row with a trailer",
                "takes more load for a better test",
                "That ruins a clutch that was good. Then it slips because of the test.",
            ),
            Mistake(
                "With a light foot, to spare the clutch",
                "tests without load",
                "With a light foot even a worn clutch holds. The car comes back on a rope.",
            ),
        ),
        "Slip shows only where the torque is greatest, and each run heats the facing.",
        "Where is the torque greatest, and what does each run do to the facing?",
    )


_DRAG: tuple[tuple[str, str, tuple[Mistake, ...], str, str], ...] = (
    (
        (
            "You test for drag: engine idling at about {rpm} rpm, pedal down, five seconds, "
            "reverse. Where and how does the car stand?"
        ),
        "On the ground, chocked, parking brake and foot brake on, nobody in front or behind",
        (
            Mistake(
                "On the lift, in gear, to see whether the wheels turn",
                "runs a car in gear on a lift",
                "If the clutch bites, the wheels spin and the car can walk off its arms. Somebody stands below.",
                True,
            ),
            Mistake(
                "On the ground, brakes on, a mate in front to listen",
                "lets someone stand in front",
                "If the clutch drags hard, the car jumps. Whoever stands there is hit.",
                True,
            ),
            Mistake(
                "On the ground, foot off the brake so that you feel it creep",
                "lets the car creep on purpose",
                "Creeping is moving without control. The brake holds what the clutch may not release.",
                True,
            ),
        ),
        "A dragging clutch drives the wheels. So they stand on the ground, held twice, and the way is free.",
        "What happens if the clutch does not come free at all?",
    ),
    (
        (
            "Drag test, car warm: after {s} s with the pedal down reverse still grates, and all "
            "gears go in hard. What next?"
        ),
        "Drag: release system first, travel and air, before anything comes off",
        (
            Mistake(
                "Gearbox out, the plate is stuck",
                "takes the longest way first",
                "An air bubble costs minutes, the gearbox costs hours. Both look the same from the seat.",
            ),
            Mistake(
                "The synchroniser of reverse is worn",
                "mixes up drag and synchroniser",
                "One gear alone would speak for that. Here all are hard, so the gearbox is opened for nothing.",
            ),
            Mistake(
                "Nothing: reverse always grates a little",
                "takes drag for normal",
                "After that time the plate should stand. Left so, the car creeps at the next crossing.",
            ),
        ),
        (
            "The plate should stand after about five seconds. It does not, so it is driven: "
            "travel is missing first of all."
        ),
        "What is the cheapest cause that makes every gear hard?",
    ),
)


@exercise("fault.drag-test", lesson="fault", outcome=TESTS, minutes=2)
def drag_test(draw: Draw) -> Choice:
    ask, best, others, why, step = _DRAG[draw.form(2)]
    return Choice.of(
        draw,
        ask=ask.format(rpm=draw.value(760, 880, 10), s=draw.integer(6, 9)),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}.",
        source="common-practice",
    )
