"""Lesson 11, final checks on the road: who drives, and in which gear."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.refit.common import DRIVES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle


@exercise("refit.road-test", lesson="refit", outcome=DRIVES, minutes=2, title="Who drives, and how")
def road_test(draw: Draw) -> Choice:
    form, own = draw.form(3), draw.vehicle()
    # On B the gear of the sheet is the top gear, so the two could not be told apart.
    car = vehicle("D") if own.id == "B" else own
    km = draw.integer(4, 15)
    me = Mistake(
        "You: whoever did the work feels it best",
        "drives because they did the work",
        "Without licence, insurance and the workshop's word nobody drives. One crash, and you pay for life.",
        True,
    )
    any_one = Mistake(
        "Anyone in the workshop who holds a licence",
        "thinks that a licence alone will do",
        "Insurance and the workshop's word are missing. If somebody is hurt, nobody covers it.",
        True,
    )
    customer = Mistake(
        "The customer, on the way home",
        "hands the test to the customer",
        "What is not proven may fail in traffic, and the customer does not know what to listen for.",
        True,
    )
    top = Mistake(
        "Top gear, because the book says a high gear",
        "takes top gear for the test",
        "There the speed is beyond the limit of the road, at full throttle. Others are on that road too.",
        True,
    )
    first = Mistake(
        "First gear: there it pulls most",
        "tests in first gear",
        "In first the wheels spin before a clutch slips. A weak clutch passes and leaves the next hill unclimbed.",
    )
    every = Mistake(
        "Full throttle in each gear, one after the other",
        "repeats full load on new facings",
        "New facings do not bear that. They glaze, and your test has made the fault.",
    )
    five = Mistake(
        "Five full-throttle runs, to be sure",
        "repeats full load on new facings",
        "Each run heats facings that are not bedded in. The test makes the fault it looks for.",
    )
    skip = Mistake(
        "Up and down the yard is enough",
        "takes the yard for the road",
        "Slip needs load and speed. It shows at the first overtaking, with oncoming traffic.",
    )
    other = Mistake(
        "A new route every time, to get variety",
        "compares two different roads",
        "Nothing can be compared with the run before the job. Old noises are taken for new ones.",
    )
    cases = (
        Case(
            f"The car stands ready for {km} km of test route. Who drives?",
            "A licensed, insured driver whom the workshop has authorised; you note",
            (me, any_one, customer),
            "All three are needed. Beside the driver you note gear, speed, engine speed and sounds.",
            "Three things must be settled before the key turns. Who has all of them?",
        ),
        Case(
            f"One full-throttle run shall show that the clutch of {car.name} holds; the route has {km} km. In which gear?",
            "In the gear that its sheet names for this test",
            (top, first, every),
            "That is the highest gear in which the greatest torque comes below the limit of the road.",
            "Which gear loads the clutch most without breaking the limit of the road? Somebody has worked it out.",
        ),
        Case(
            f"The authorised driver asks what to do on {km} km with the new clutch. What do you answer?",
            "The route of before: soft take-ups, all gears, one short loaded run",
            (five, skip, other),
            "The same route compares before and after. One loaded run proves it; more burn new facings.",
            "What makes two drives comparable, and how much load does a new facing bear?",
        ),
    )
    return choice_from(draw, cases[form], vehicle=car.id if form == 1 else "")
