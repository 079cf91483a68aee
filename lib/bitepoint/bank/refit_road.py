"""Lesson 11, final checks on the road: who drives, which gear, what the log proves."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.refit_common import DRIVES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import road_speed_kmh
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


_HOLDS, _SLIPS, _TYRE = "It holds", "It slips under load", "A figure is wrong: tyre or gear noted wrongly"
_FOOT = (30, 60, 85, 100, 100)
_SPEED_SHARE = (0.78, 0.82, 0.87, 0.93, 0.98)


@exercise("refit.road-log", lesson="refit", outcome=DRIVES, minutes=3.5, title="The log after the repair")
def road_log(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    gear = car.gearbox.slip_test_gear
    per_1000 = round(road_speed_kmh(car, gear=gear, rpm=1000), 1)
    top = road_speed_kmh(car, gear=gear, rpm=car.engine.max_torque_rpm)
    worst, off = draw.pick(0.09, 0.12, 0.15), draw.pick(0.06, 0.07, 0.08)
    rows = []
    for foot, share in zip(_FOOT, _SPEED_SHARE, strict=True):
        ahead = (0.0, worst * max(0, foot - 60) / 40, off)[form]
        kmh = round(share * top * draw.value(0.995, 1.005, 0.001), 1)
        rpm = round(kmh / per_1000 * 1000 * (1 + ahead + draw.value(-0.006, 0.006, 0.002)) / 10) * 10
        rows.append((f"{foot} %", f"{kmh:.1f} km/h", f"{rpm} rpm"))
    says = {
        _HOLDS: (
            "overlooks the engine running ahead",
            "In some rows the engine is far ahead of the wheels. Handed over, the customer finds it on a hill.",
        ),
        _SLIPS: (
            "calls every deviation slip",
            "Slip grows with the load and is gone with a light foot. Look again, or a good clutch comes out.",
        ),
        _TYRE: (
            "blames the figures without a pattern",
            "A wrong tyre or gear is off by the same share in every row. Otherwise you hunt for a tyre in vain.",
        ),
        "Drive it again until the figures agree": (
            "drives until the log pleases",
            "The rows already say enough. Run after run heats new facings until they are spoiled.",
        ),
    }
    right = (_HOLDS, _SLIPS, _TYRE)[form]
    throttle, kmh_text, rpm_text = rows[3]
    expected = float(kmh_text.split()[0]) / per_1000 * 1000
    return choice_from(
        draw,
        Case(
            f"Road log of {car.name} after the repair, in the gear of the sheet. There {per_1000:g} km/h belong to 1000 rpm. "
            "Up to 2 % off is tyres and dials. What does it say?",
            right,
            tuple(Mistake(k, *v) for k, v in says.items() if k != right),
            (
                "Engine and wheels keep their ratio in every row, at full throttle too.",
                "With a light foot the ratio is right. With more throttle the engine runs ahead.",
                "The same share too much in every row, with a light foot too. No clutch does that.",
            )[form],
            f"Take the row at {throttle}: {kmh_text} stand for {expected:.0f} rpm, the log says {rpm_text}. Now the first row.",
        ),
        table=(("Throttle", "Road speed", "Engine speed"), *rows),
        vehicle=car.id,
    )
