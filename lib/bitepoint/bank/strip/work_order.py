"""Lesson 5, strip-down and inspection: the order of the work, the hub nut, the card for the bolts."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.strip.common import ORDERS, UNDOES
from bitepoint.bank.work_cards import later_card, never_cards, rules_of, strip_at
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.operations import job, operation, operations_for, sample_order
from bitepoint.workshop.vehicles import vehicle

_LEFT_OUT = ("R5", "R6", "R9", "R12")
"""Steps of no great danger: the drill stays short enough to be thought through."""


@exercise("strip.gearbox-out", lesson="strip", outcome=ORDERS, minutes=6, title="The gearbox out")
def gearbox_out(draw: Draw) -> WorkOrder:
    car = draw.vehicle()
    ids = tuple(step.id for step in operations_for(car, stages=["remove"]) if step.id not in _LEFT_OUT)
    example = tuple(operation(name).short for name in ids)
    later = draw.pick(*(o.id for o in job().operations if o.stage in ("assemble", "refit") and o.core and not o.only))
    left = draw.integer(3, 6)
    return WorkOrder.of(
        draw,
        example=example,
        rules=rules_of(ids),
        strangers=[*never_cards([draw.pick("X5", "X8", "X3")]), later_card(later)],
        stages=strip_at("remove"),
        ask=f"Everything for {car.name} is planned, and {left} hours are left today. Take the gearbox out. "
        "Pick one card after the other, each only when it is safe. Two cards do not belong here.",
        why="First nothing can roll, start or fall. Then all that holds the gearbox. The last bolts with the jack under it.",
        step=f"It starts with “{example[0]}” and ends with “{example[-1]}”. What holds a load comes before what frees it.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="common-practice",
        vehicle=car.id,
    )


@exercise("strip.clutch-off", lesson="strip", outcome=ORDERS, minutes=4, title="The clutch off")
def clutch_off(draw: Draw) -> WorkOrder:
    car, form = draw.vehicle(), draw.form(2)
    ids = [step.id for step in operations_for(car, stages=["strip"])]
    ids += ["I1"] if form == 0 else ["I2", "I7"]
    order = sample_order(ids, lambda free: next(i for i in ids if i in free))
    example = tuple(operation(name).short for name in order)
    minutes = draw.integer(4, 9) * 10
    last = ("up to the first look at the bare flange", "up to the decision about every part")[form]
    return WorkOrder.of(
        draw,
        example=example,
        rules=rules_of(tuple(ids)),
        strangers=[*never_cards(["X5"]), later_card(draw.pick("A12", "F2", "A5"))],
        stages=strip_at("strip"),
        ask=f"The gearbox of {car.name} stands on its rack, {minutes} minutes to the break. Take the clutch off, {last}. "
        "Pick one card after the other. Two cards do not belong here.",
        why="Dust first, then the lock, then the spring let down evenly. What can only be measured fitted is measured fitted.",
        step=f"It starts with “{example[0]}” and ends with “{example[-1]}”.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="common-practice",
        vehicle=car.id,
    )


_LONG_BAR = Mistake(
    "Up on the lift, with a long bar",
    "pulls a long bar on a raised car",
    "A pull of several hundred newton at the wheel walks the car off its pads. It falls on the one who pulls.",
    True,
)
_IMPACT = Mistake(
    "Up on the lift, impact wrench at full power",
    "thinks that impact makes no side force",
    "Bearing and shaft joint take every blow, and the raised car still moves. First hold it as the sheet says.",
    True,
)


@exercise("strip.hub-nut", lesson="strip", outcome=UNDOES, minutes=1.5, title="The hub nut")
def hub_nut(draw: Draw) -> Choice:
    form = draw.form(3)
    car = vehicle(("A", "B", "C")[form] if form != 2 else draw.pick("A", "C"))
    torque = draw.integer(20, 30) * 10
    ground = "Wheel on the ground, brake on; slacken it, not run off"
    raised = "Raised just clear, a second person on the foot brake"
    roll = Mistake(
        "On the ground, nut right off, then roll onto the lift",
        "rolls the car on a loose hub nut",
        "With the nut off the bearing comes apart under the load. The wheel can tip and the car sinks.",
        True,
    )
    cases = (
        Case(
            f"Hub nut of {car.name}: its sheet says “{car.wheels.hub_nut}”. The nut holds {torque} N·m and more. "
            "How do you slacken it?",
            ground,
            (_LONG_BAR, _IMPACT, roll),
            "The ground holds the car against the pull. The nut stays on until the wheel hangs free.",
            "Where does your pull go when the wheel is in the air? And what holds the bearing together?",
        ),
        Case(
            f"Hub nut of {car.name}: its sheet says “{car.wheels.hub_nut}”, because the bearing must not carry the car "
            f"slack. The nut holds {torque} N·m and more. How do you slacken it?",
            raised,
            (
                _LONG_BAR,
                Mistake(
                    "Wheel on the ground, as on the last car",
                    "works as on the last car",
                    "This bearing must not carry the car with its nut slack. It breaks up inside, and later the wheel tilts.",
                    True,
                ),
                Mistake(
                    "Raised just clear, first gear engaged, alone",
                    "holds a hub with a gear",
                    "A gear holds one side only as long as the other side does not turn. The bar slips, and you fall.",
                    True,
                ),
            ),
            "The sheet decides. Just clear of the ground, with the brake held, neither bearing nor car is at risk.",
            "Two things must be held: the hub, and the car. Who holds which?",
        ),
        Case(
            f"The hub nut of {car.name} is slack by one turn; it held {torque} N·m. "
            "The car still stands on the ground, in the wrong bay. What now?",
            "Leave the car where it is; lift it here, or tighten the nut first",
            (
                Mistake(
                    "Push it over by hand, slowly",
                    "rolls the car on a loose hub nut",
                    "Slow makes no difference. The bearing halves shift under the load, and the hub can come apart.",
                    True,
                ),
                Mistake(
                    "Turn the nut finger-tight and drive over",
                    "takes finger-tight for tight",
                    "Finger-tight holds no bearing together. With engine power in the shaft it loosens at once.",
                    True,
                ),
                Mistake(
                    "Jack up the front and pull it over on the jack",
                    "moves a car on its jack",
                    "A jack with a car on it tips at the first crack in the floor.",
                    True,
                ),
            ),
            "Nobody stands or rolls a car on a wheel whose nut is loose.",
            "What carries the car at this wheel while the nut is slack?",
        ),
    )
    return choice_from(draw, cases[form], vehicle=car.id)


@exercise("strip.bolt-card", lesson="strip", outcome=ORDERS, minutes=1.5, title="Bolts of several lengths")
def bolt_card(draw: Draw) -> Choice:
    form, bolts, lengths = draw.form(2), draw.integer(7, 9), draw.pick("two", "three")
    tray = Mistake(
        "All into one tray; each fits only where it belongs",
        "thinks that a bolt shows its place",
        "A bolt too long runs out of thread and cracks the housing. Too short, it strips the few turns it has.",
    )
    memory = Mistake(
        "Remember it: you did this car last week",
        "works from memory",
        "Two builds differ, and a break comes between. A long bolt in a short hole breaks the housing.",
    )
    cases = (
        Case(
            f"{bolts} bell-housing bolts of {lengths} lengths come out. How does each get back to its own hole?",
            "Draw the housing on a card and push each bolt through its place",
            (tray, memory, Mistake(
                "Sort them by length into bags",
                "sorts by length only",
                "The bags tell the lengths, not the holes. One guess wrong, and a thread is gone.",
            )),
            "The card shows place and length, also straps and dowel holes, and it works after a holiday too.",
            "What must you know when you refit: which bolts there are, or where each one goes?",
        ),
        Case(
            f"You refit {bolts} bolts of {lengths} lengths, and one is left over with an empty hole beside it. "
            "It stops far out, although it turns in easily. What now?",
            "Stop, and go through all places with the card",
            (Mistake(
                "Pull it home with the wrench",
                "pulls a wrong bolt home",
                "It stands on the end of its hole. More torque cracks the housing or tears the block's thread out.",
            ), Mistake(
                "Put washers under it",
                "fills up with washers",
                "The washers hide that two bolts are swapped. The other one, too short, comes loose.",
            ), Mistake(
                "Cut it to length",
                "cuts a bolt to length",
                "Somewhere now a short bolt sits in the deep hole. It has few turns and strips.",
            )),
            "A bolt that stops early is a swapped bolt, so another one is wrong too. The card finds both.",
            "If this one is too long here, where is the one that belongs here?",
        ),
    )  # fmt: skip
    return choice_from(draw, cases[form])
