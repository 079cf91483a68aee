"""Lesson 12, the whole job: run-out of the new seat, and a figure so near its limit that its uncertainty decides."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.job.common import INSPECTS, own_first
from bitepoint.bank.job.story import story_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.decisions import CANNOT_TELL, OUTSIDE, WITHIN, decide, guard_band
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise("job.run-out", lesson="job", outcome=INSPECTS, minutes=3, title="Run-out of the new seat")
def run_out(draw: Draw) -> Number:
    story, form = story_of(draw), own_first(draw, 2)
    readings = (story.first_readings_mm, story.second_readings_mm)[form]
    limit = story.car.flywheel.face_runout_limit_mm
    right = round(run_out_mm(readings), 2)
    high, low = max(readings), min(readings)
    told = (
        "The flywheel is tight for the first time, the lock is out.",
        "The flywheel came off once more, a chip lay under it. Now it is tight again, with new bolts.",
    )[form]
    result = "Over the limit: off again, look for dirt." if right > limit else "Within the limit: go on."
    return Number(
        ask=f"{told} You turn {story.car.name} by hand and read the gauge at {len(readings)} places. "
        "What is the run-out in mm?",
        table=(
            ("place", *map(str, range(1, len(readings) + 1))),
            ("mm", *(f"{r:+.2f}".replace("-", "−") if r else "0.00" for r in readings)),
        ),
        answer=right,
        unit="mm",
        within=plus_minus(0.004),
        decimals=2,
        mistakes=(
            Mistake(
                high,
                "reads the highest only",
                "The gauge goes below nought too. Who leaves that out passes a flywheel that wobbles.",
            ),
            Mistake(
                right / 2,
                "halves the swing",
                "Run-out is the whole swing, not half. Halved, a bad seat looks good and the clutch judders.",
            ),
        ),
        why=f"From {low:+.2f} to {high:+.2f} mm. The limit is {limit:g} mm. {result}",
        step=f"The lowest reading is {low:+.2f} mm. Now look for the highest, and take the way between them.",
        solution=f"{high:.2f} − ({low:.2f}) = {right:.2f} mm; limit {limit:g} mm. {result}",
        source="tm-9-2815-202-34",
        vehicle=story.car.id,
    )


UNCERTAINTY_MM = 0.03
"""Standard uncertainty of a finger level read with a depth gauge (source: invented)."""
GO = "Within: go on, and write the figure beside the limit"
OFF = "Over: slacken the cover, look for dirt, tighten and measure again"
ASK = "Cannot be told: measure more finely, and ask"
_BEND = Mistake(
    "Press the highest finger down until it fits",
    "bends a finger",
    "A bent finger breaks at speed, and its pieces come through the housing. Fingers are never bent.",
    True,
)
_RIGHT = {WITHIN: GO, OUTSIDE: OFF, CANNOT_TELL: ASK}
_NEARNESS = {WITHIN: (-15, -8), CANNOT_TELL: (-4, 4), OUTSIDE: (8, 15)}
"""How far from the limit the figure lies, in hundredths of a millimetre; the guard band is five wide."""


@exercise("job.finger-level", lesson="job", outcome=INSPECTS, minutes=3, title="Close to the limit")
def finger_level(draw: Draw) -> Choice:
    car, zone = draw.vehicle(), tuple(_NEARNESS)[draw.form(3)]
    limit = car.clutch.finger_coplanarity_limit_mm
    found = limit + draw.integer(*_NEARNESS[zone]) / 100
    guard = guard_band(UNCERTAINTY_MM)
    case = Case(
        f"The cover of {car.name} is tightened. Highest less lowest finger: {found:.2f} mm, the sheet allows {limit:g} mm. "
        f"The measuring card gives a standard uncertainty of {UNCERTAINTY_MM:g} mm; the guard band is 1.645 times that. "
        "What do you decide?",
        _RIGHT[decide(found, upper=limit, uncertainty=UNCERTAINTY_MM)],
        (*(_not_so(text, zone) for other, text in _RIGHT.items() if other != zone), _BEND),
        f"Sure is only what lies below {limit - guard:.2f} or above {limit + guard:.2f} mm. You have {found:.2f} mm.",
        f"The guard band is 1.645 × {UNCERTAINTY_MM:g} = {guard:.2f} mm. Lay it on both sides of {limit:g} mm.",
    )
    return choice_from(draw, case, source="iso-14253-1", vehicle=car.id)


def _not_so(text: str, zone: str) -> Mistake:
    if text == GO:
        says = "That is not proved. If the cover sits askew, the clutch judders and the gearbox comes out again."
        return Mistake(text, "passes what is not proved", says)
    if text == OFF:
        says = "That is not proved either. You would take a cover off again that may sit well."
        return Mistake(text, "condemns what is not proved", says)
    says = "Here the figure is clear of the band. Asking is never wrong, but the figure decides by itself."
    return Mistake(text, "asks where the figure decides", says)
