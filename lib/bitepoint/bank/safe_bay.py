"""Lesson 2, working safely: the look round the bay, before the lift and before the engine runs."""

from collections.abc import Sequence

from bitepoint.bank.registry import exercise
from bitepoint.bank.safe_common import LIFTS, RUNS
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.questions.region import Spot
from bitepoint.questions.spots import Spots

_LIFT = (
    ("arm", "Arm lock", "looks at the car, not at the lift", True,
     "This lock sits between the teeth. Only a lock beside them lets an arm swing out."),
    ("pad", "Pad and lifting point", "overlooks the pad", True,
     "This pad sits between the marks. Marked by mistake, a good pad is moved to a worse place."),
    ("gearbox", "Gearbox on its jack", "trusts the cradle", True,
     "This gearbox is strapped, so it cannot roll off its cradle. Who doubts it loosens what holds."),
    ("engine", "What holds the engine", "trusts a trolley jack alone", True,
     "This engine hangs on a rated beam. That is how it should be held when the mount comes off."),
    ("air-line", "Air-line", "overlooks the air-line", False,
     "This air-line is rolled up. It only does harm where someone blows dust with it."),
    ("tag", "Tag of the lift", "takes a date for paper only", True,
     "Count the months on this tag once more. It is within its interval."),
    ("boxes", "Boxes under the bench", "ticks everything untidy", False,
     "Tidy is good, but boxes under a bench hurt nobody here. Look for what falls, burns or is breathed."),
    ("bin", "Waste bin", "ticks the waste bin", False,
     "A closed bin is just right. Look for what falls, burns or is breathed."),
    ("lamp", "Lamp on its stand", "ticks the lamp", False,
     "A lamp on its stand is where it belongs. Look for what falls, burns or is breathed."),
)  # fmt: skip
_RUN = (
    ("exhaust", "Tail pipe", "thinks that an open door is enough", True,
     "Here the hose sits on the tail pipe. That is right, and it comes first of all."),
    ("person", "Where a person stands", "thinks that the housing stops everything", True,
     "This person stands in front, out of the line of the clutch, and the car is chocked and in neutral."),
    ("chocks", "Wheel", "overlooks the chocks", True,
     "Both chocks are there. A chocked wheel cannot roll over anyone."),
    ("lever", "Gear lever", "overlooks the gear lever", True,
     "This lever stands in neutral, so the car cannot jump when it starts."),
    ("lead", "Lamp lead", "overlooks the lamp lead", False,
     "This lead is clear of the belt. It does harm only where the belt can catch it."),
    ("bonnet", "Stay of the bonnet", "overlooks the bonnet", False,
     "This stay sits in its hole. The bonnet cannot fall on a head."),
    ("tester", "Lead of the tester", "ticks the tester", False,
     "This lead is tied back, so nothing can catch it. Look for what turns, rolls or is breathed."),
    ("extinguisher", "Fire extinguisher", "ticks the extinguisher", False,
     "An extinguisher on the wall is where you want it. Look for what turns, rolls or is breathed."),
    ("tray", "Drip tray", "ticks the drip tray", False,
     "A tray catches a drop and does no harm. Look for what turns, rolls or is breathed."),
)  # fmt: skip


def _spots(rows: Sequence[tuple[str, str, str, bool, str]], wrong: Sequence[str]) -> tuple[Spot, ...]:
    """What is wrong must be marked; leaving out what could hurt someone is critical, marking too much never is."""
    out = []
    for key, label, name, hurts, says in rows:
        is_wrong = key in wrong
        named = name if is_wrong else f"marks what is right: {label[0].lower()}{label[1:]}"
        out.append(Spot(key, label, is_wrong, named, says, hurts and is_wrong))
    return tuple(out)


def _drawn(draw: Draw, keys: Sequence[str]) -> list[str]:
    """Three to five wrong things, their number changing with each turn, in the order of the picture."""
    chosen = draw.sample(keys, 3 + draw.form(3))
    return [key for key in keys if key in chosen]


@exercise("safe.lift-bay", lesson="safe", outcome=LIFTS, minutes=3, title="Look round: car on the lift")
def lift_bay(draw: Draw) -> Spots:
    wrong = _drawn(draw, [row[0] for row in _LIFT[:6]])
    return Spots(
        ask="The car is up, and the gearbox is coming out. Mark everything that could hurt somebody. "
        "Typed, the answer is the words below the pictures.",
        spots=_spots(_LIFT, wrong),
        picture=Picture("lift-bay", {"wrong": wrong}),
        why="Locks, pads, strap, beam, date: each has dropped a load on somebody where it was missing.",
        step="Ask of each tile: what could fall, roll over, or be breathed?",
        solution="Wrong here: " + ", ".join(wrong) + ".",
        source="hse-working-under-vehicles",
    )


@exercise("safe.run-bay", lesson="safe", outcome=RUNS, minutes=3, title="Look round: engine about to start")
def run_bay(draw: Draw) -> Spots:
    wrong = _drawn(draw, [row[0] for row in _RUN[:6]])
    return Spots(
        ask="The clutch is in, the car is on the ground. Somebody wants to start it and rev it in steps. "
        "Mark everything that must be put right first. Typed, the answer is the words below the pictures.",
        spots=_spots(_RUN, wrong),
        picture=Picture("run-bay", {"wrong": wrong}),
        why="Gas, line of the clutch, chocks, neutral, loose things: all settled before the key turns.",
        step="Ask of each tile: what could be breathed, fly, roll, jump, catch or fall?",
        solution="To be put right: " + ", ".join(wrong) + ".",
        source="hse-mvr-exhaust",
    )
