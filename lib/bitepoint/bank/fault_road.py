"""Lesson 3, finding the fault: what a road-test log proves."""

from bitepoint.bank.fault_common import LOGS, gear_word
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import road_speed_kmh

_THROTTLE = ("part", "part", "full", "full", "full", "part")
_SHARE_OF_PEAK = (0.72, 0.76, 0.8, 0.86, 0.92, 0.93)
_AHEAD = (1.0, 1.0, 1.06, 1.09, 1.12, 1.0)
_SPIN = (1.0, 1.0, 1.16, 1.2, 1.13, 1.0)

_VERDICTS = (
    Mistake(
        "The clutch slips at full load",
        "calls it slip without the ratio",
        "Work out the ratio of engine and driven wheels in every row. A clutch taken out for this comes back.",
    ),
    Mistake(
        "The driven wheels spin, the clutch holds",
        "calls it wheel spin without comparing wheels",
        "Compare the two columns of wheels first. Spin taken for the fault leaves the real one in the car.",
    ),
    Mistake(
        "A figure is wrong: check tyre and gear first",
        "calls the figures wrong without a pattern",
        "A wrong figure is wrong in every row by the same share. Blamed too soon, it hides the fault.",
    ),
    Mistake(
        "No fault in this log",
        "averages over the whole log",
        "An average hides what happens in single rows. Look row by row, or the fault drives home again.",
    ),
)
_WHY = (
    "At part throttle the ratio is right. At full load the engine runs ahead while both pairs of wheels agree.",
    "Engine and driven wheels keep their ratio all the time. Only the driven wheels run away from the others.",
    "The engine is ahead by the same share in every row, with a light foot too. No clutch does that.",
    "Engine and wheels keep their ratio in every row. In so low a gear that proves little: use the sheet's gear.",
)


@exercise("fault.road-log", lesson="fault", title="A road-test log", outcome=LOGS, minutes=4)
def road_log(draw: Draw) -> Choice:
    form = draw.form(4)
    car = draw.vehicle()
    # Wheels spin in a low gear on a wet road; a log without a fault is made there too, so the road tells nothing.
    wet = form in (1, 3)
    gear = 2 if wet else car.gearbox.slip_test_gear
    road = "wet" if wet else "dry"
    per_1000 = road_speed_kmh(car, gear=gear, rpm=1000)
    peak = road_speed_kmh(car, gear=gear, rpm=car.engine.max_torque_rpm) * draw.value(0.96, 1.04, 0.02)
    wrong_share = draw.pick(1.06, 1.07, 1.08)
    rows = []
    for i, (foot, share) in enumerate(zip(_THROTTLE, _SHARE_OF_PEAK, strict=True)):
        rolls = share * peak
        driven = rolls * (_SPIN[i] if form == 1 else 1)
        rpm = driven / per_1000 * 1000 * draw.value(0.996, 1.004, 0.002)
        rpm *= (_AHEAD[i], 1.0, wrong_share, 1.0)[form]
        rows.append((f"{2 * i} s", foot, f"{rolls:.1f} km/h", f"{driven:.1f} km/h", f"{round(rpm / 10) * 10} rpm"))
    worst = (4, 3, 0, 4)[form]
    best = str(_VERDICTS[form].value)
    return Choice.of(
        draw,
        ask=(
            f"Road-test log of training vehicle {car.id}, {road} road, {gear_word(gear)}: {per_1000:.1f} km/h "
            "belong to 1000 rpm. "
            "Up to 2 % off is the dials. What does the log prove?"
        ),
        table=(("Time", "Throttle", "Wheels not driven", "Driven wheels", "Engine"), *rows),
        right=best,
        wrong=[m for i, m in enumerate(_VERDICTS) if i != form],
        why=_WHY[form],
        step=f"Take the row at {2 * worst} s. Reckon the engine speed from the driven wheels, then compare.",
        solution=f"At {2 * worst} s: {rows[worst][3]} ÷ {per_1000:.1f} × 1000 against {rows[worst][4]}. {best}.",
        source="common-practice",
        vehicle=car.id,
    )
