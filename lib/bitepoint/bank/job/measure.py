"""Lesson 12, the whole job: run-out of the new seat, and a figure so near its limit that its uncertainty decides."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.job.outcomes import INSPECTS, OWN_KIT, own_first
from bitepoint.bank.job.story import story_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.decisions import CANNOT_TELL, OUTSIDE, WITHIN, decide, guard_band
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise(
    "job.run-out",
    lesson="job",
    outcome=INSPECTS,
    minutes=3,
    title="Work out the run-out of the new seat",
    needs=OWN_KIT,
)
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
    result = (
        "Over the limit: off again, look for dirt, then new bolts." if right > limit else "Within the limit: go on."
    )
    return Number(
        ask=f"{told} You turn {story.car.name} by hand and read the gauge at {len(readings)} places. "
        "What is the run-out in mm?",
        table=(
            ("place", *map(str, range(1, len(readings) + 1))),
            ("mm", *map(_signed, readings)),
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
        why=f"From {_signed(low)} to {_signed(high)} mm. The limit is {limit:.2f} mm. {result}",
        step=f"The lowest reading is {_signed(low)} mm. Now look for the highest, and take the way between them.",
        solution=f"{_signed(high)} − ({_signed(low)}) = {right:.2f} mm; limit {limit:.2f} mm. {result}",
        source="tm-9-2815-202-34",
        vehicle=story.car.id,
    )


def _signed(mm: float) -> str:
    """Return a reading as the sheet has it: two decimals, with its sign, nought without one."""
    return f"{mm:+.2f}".replace("-", "−") if mm else "0.00"


UNCERTAINTY_MM = 0.03
"""Standard uncertainty of a finger level read with a depth gauge (source: invented)."""
_OFFERS = {
    WITHIN: ("go-on", "ask", "new-cover", "bend"),
    OUTSIDE: ("off-again", "go-on", "new-cover", "bend"),
    CANNOT_TELL: ("ask", "go-on", "new-cover", "bend"),
}
"""What is offered, the right decision first. To seat a cover afresh takes minutes: it is offered only where it is right."""
_NEARNESS = {WITHIN: (-15, -8), CANNOT_TELL: (-4, 4), OUTSIDE: (8, 15)}
"""How far from the limit the figure lies, in hundredths of a millimetre; the guard band is five wide."""


@exercise(
    "job.finger-level", lesson="job", outcome=INSPECTS, minutes=3, title="Decide close to the limit", needs=OWN_KIT
)
def finger_level(draw: Draw) -> Choice:
    car, zone = draw.vehicle(), tuple(_NEARNESS)[draw.form(3)]
    limit = car.clutch.finger_coplanarity_limit_mm
    found = limit + draw.integer(*_NEARNESS[zone]) / 100
    guard = guard_band(UNCERTAINTY_MM)
    offers = _OFFERS[decide(found, upper=limit, uncertainty=UNCERTAINTY_MM)]
    return form_of(draw).choice(
        draw,
        right=offers[0],
        offers=offers,
        vehicle=car.id,
        car=car.name,
        found=f"{found:.2f}",
        limit=f"{limit:.2f}",
        uncertainty=f"{UNCERTAINTY_MM:g}",
        guard=f"{guard:.2f}",
        below=f"{limit - guard:.2f}",
        above=f"{limit + guard:.2f}",
    )
