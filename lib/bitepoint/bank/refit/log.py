"""Lesson 11, final checks on the road: the log of the road test after the repair, read from its plot."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.refit.common import DRIVES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.roadtests import log_with
from bitepoint.workshop.simulator import Fault
from bitepoint.workshop.vehicles import Vehicle

_HOLDS, _SLIPS, _TYRE = "It holds", "It slips under load", "Stop and ask: a figure is wrong, tyre size or gear"
_WRONG = (
    Mistake(
        _HOLDS,
        "overlooks points that left their line",
        "Some kind of point lies off the line of its gear. Handed over so, the customer finds it on a hill.",
    ),
    Mistake(
        _SLIPS,
        "calls every deviation slip",
        "Slip grows with the load and is gone with a light foot. Look again, or a good clutch comes out.",
    ),
    Mistake(
        _TYRE,
        "blames the figures without a pattern",
        "A wrong tyre or gear shifts all points by the same share. Otherwise you hunt for a tyre in vain.",
    ),
    Mistake(
        "Drive it again until the figures agree",
        "drives until the log pleases",
        "The plot already says enough. Run after run heats new facings until they are spoiled.",
    ),
)
_WHY = (
    "Every point lies on the line of its gear within 2 %, at full throttle too.",
    "Rings lie on their line. At full throttle the squares leave it: the engine runs ahead.",
    "Every point is off its line by the same share, with a light foot too. No clutch does that.",
)
_PULL: tuple[tuple[str, Fault], ...] = ((_HOLDS, "healthy"), (_SLIPS, "slip"), (_TYRE, "healthy"))


@exercise("refit.road-log", lesson="refit", outcome=DRIVES, minutes=3.5, title="The log after the repair")
def road_log(draw: Draw) -> Choice:
    form, car, nth = draw.form(4), draw.vehicle(), draw.integer(8, 15)
    return _standing(draw, car, nth) if form == 3 else _pull(draw, car, nth, form)


def _pull(draw: Draw, car: Vehicle, nth: int, form: int) -> Choice:
    best, fault = _PULL[form]
    name = log_with(car.id, fault, nth)
    dial = {"dial": draw.pick(0.92, 0.93, 1.07, 1.08)} if form == 2 else {}
    return choice_from(
        draw,
        Case(
            f"Log {name} of {car.name} after the repair, clutch pedal up. "
            "Up to 2 % off a line is tyres and dials. What does it say?",
            best,
            tuple(m for m in _WRONG if m.value != best),
            _WHY[form],
            f"Look at gear {car.gearbox.slip_test_gear}, the gear of the sheet: first the rings, then the squares. "
            "Which lie on the line?",
        ),
        picture=Picture("slip-plot", {"name": name, **dial}),
        vehicle=car.id,
    )


def _standing(draw: Draw, car: Vehicle, nth: int) -> Choice:
    name = log_with(car.id, "drag", nth)
    return choice_from(
        draw,
        Case(
            f"Log {name} of {car.name} after the repair, level ground, no brake held: its first 21 seconds. "
            "What does it say, and what next?",
            "It drags: back into the bay, release system first",
            (
                Mistake(
                    "It holds: hand the car over",
                    "lets a car that creeps go out",
                    "Look at the wheels while the pedal is down in gear. At the next crossing it rolls into someone.",
                    True,
                ),
                Mistake(
                    "New facings do that: it will bed in",
                    "waits for a creeping car to bed in",
                    "Facings bed in where they rub, not where they should part. Until then it rolls at every red light.",
                    True,
                ),
                Mistake(
                    "The brakes rub: look at the wheels",
                    "takes creeping for rubbing",
                    "A brake that rubs holds a car back. This one moves by itself, and the brakes are opened for nothing.",
                ),
            ),
            "Pedal down, first gear, and the car rolls. The plate is still driven: travel, air, or a tight plate.",
            "Find the seconds with the pedal down and first gear in. What do the wheels do there?",
        ),
        picture=Picture(
            "road-test", {"name": name, "to_s": 21, "channels": ["pedal_pct", "gear", "speed_km_h", "vibration_g"]}
        ),
        vehicle=car.id,
    )
