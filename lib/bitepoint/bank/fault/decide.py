"""Lesson 3, finding the fault: clutch, not the clutch, or stop and ask."""

from bitepoint.bank.fault.common import DECIDES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

_CLUTCH = "The clutch: write the figure down and have the order signed"
_ELSEWHERE = "Not the clutch: wheels and shafts next"
_ASK = "Stop and ask: put right what was found, then measure again"

_ENOUGH = Mistake(
    _ASK,
    "asks where the evidence is complete",
    "Asking is never wrong in itself. Here every check is done and they agree, so the customer waits for nothing.",
)
_NO_CLUTCH = Mistake(
    _ELSEWHERE,
    "sends the search elsewhere",
    "Nothing here turns with the wheels alone. Tyres get changed, and the fault stays in the car.",
)
_OPEN_IT = Mistake(
    "Gearbox out, then we shall see",
    "opens it to find out",
    "Opening is no check: it costs hours. What hangs outside is missed, and the customer has not agreed.",
)
_SAYS_CLUTCH = Mistake(
    _CLUTCH,
    "decides for the clutch without proof",
    "The evidence does not carry that. A new clutch goes in and the complaint drives home with it.",
)

_CASES: tuple[tuple[tuple[tuple[str, str], ...], str, tuple[Mistake, ...], str, str], ...] = (
    (
        (
            ("Slip at full load, two runs", "{high} % and {higher} %, each ± 3 %"),
            ("Slip at part throttle", "0.4 % ± 3 %"),
            ("Free play, fluid, return of the pedal", "as on the sheet"),
            ("Mounts, fault memory", "sound, empty"),
        ),
        _CLUTCH,
        (_ENOUGH, _NO_CLUTCH, _OPEN_IT),
        "The slip is clear, it repeats, it comes with load only, and everything outside is in order.",
        "Does every line point the same way? Is one still open?",
    ),
    (
        (
            ("Shake", "at {kmh} km/h in every gear"),
            ("Rolling in neutral at {kmh} km/h", "shakes as before"),
            ("Standing, same engine speed", "smooth"),
            ("Slip at full load", "0.3 % ± 3 %"),
        ),
        _ELSEWHERE,
        (_SAYS_CLUTCH, _ENOUGH, _OPEN_IT),
        "It goes with road speed even in neutral, so engine and clutch have no part in it.",
        "What still turns in neutral, and what stood still in the standing test?",
    ),
    (
        (
            ("Slip at full load, one run", "{low} % ± 3 %"),
            ("Free play", "none; the sheet asks for some"),
            ("Tyres on the car", "another size than on the sheet"),
            ("Mounts, fault memory", "sound, empty"),
        ),
        _ASK,
        (_SAYS_CLUTCH, _NO_CLUTCH, _OPEN_IT),
        "One run, a doubtful tyre and no free play: each alone can make such a figure. The fitter in charge decides.",
        "How many runs are there, and could the figure come from something that hangs outside?",
    ),
)


@exercise("fault.decide", lesson="fault", outcome=DECIDES, minutes=3)
def decide(draw: Draw) -> Choice:
    rows, best, others, why, step = _CASES[draw.form(3)]
    high = draw.value(8, 14, 0.5)
    said = {
        "high": f"{high:g}",
        "higher": f"{high + draw.pick(0.5, 1, 1.5):g}",
        "low": f"{draw.value(3.1, 3.9, 0.1):g}",
        "kmh": f"{draw.pick(90, 100, 110)}",
    }
    return Choice.of(
        draw,
        ask="The checks of a car are on your sheet. What do you decide?",
        table=(("Check", "Found"), *((a.format(**said), b.format(**said)) for a, b in rows)),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}.",
        source="common-practice",
    )
