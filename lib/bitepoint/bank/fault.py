"""Lesson 3, finding the fault: noise, judder and a pulsing pedal named by evidence."""

from bitepoint.bank.fault_common import DECIDES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.noises import NoisyPart, noises, noisy_parts

_FREE = "up"
_NEVER_RUN = "flywheel-bolts"
"""Nobody goes on listening to loose flywheel bolts, so they are a suspect here and never the case."""


@exercise("fault.noise", lesson="fault", title="Which part makes the noise?", outcome=DECIDES, minutes=4)
def noise(draw: Draw) -> Enquiry:
    car = draw.vehicle()
    parts = noisy_parts(car)
    cases = [part for part in parts if part.id != _NEVER_RUN]
    case = cases[draw.form(len(cases))]
    positions = {p.id: p.text for p in noises().positions}
    weeks = draw.integer(2, 9)
    return Enquiry(
        ask=(
            f"For {weeks} weeks training vehicle {car.id} makes a noise. {positions[_FREE]}: {case.heard[_FREE]}. "
            "Listen at one more place at a time. Name the part when only one is left, with the fewest questions."
        ),
        observations=tuple(Observation(key, text, case.heard[key]) for key, text in positions.items()),
        suspects=tuple(_suspect(part, case) for part in draw.shuffle(parts)),
        free=(_FREE,),
        why=f"{case.text}: {case.because}.",
        step="Strike out every part that does not fit what you heard. Then choose the place where those left differ.",
        solution="\n".join(f"{positions[key]}: {sound}." for key, sound in case.heard.items()) + f"\n{case.text}.",
        source=case.source,
        vehicle=car.id,
    )


def _suspect(part: NoisyPart, case: NoisyPart) -> Suspect:
    """Return a part as a suspect; what is not known of it agrees with everything, so it rules nothing out."""
    heard = {key: sound or case.heard[key] for key, sound in part.heard.items()}
    label = part.text.partition(":")[0]
    if part.id == case.id:
        return Suspect(part.id, label, heard, right=True)
    return Suspect(part.id, label, heard, name=f"blames: {label}", says=_says(part, case))


def _says(part: NoisyPart, case: NoisyPart) -> str:
    positions = {p.id: p.text for p in noises().positions}
    for key, sound in part.heard.items():
        if sound and sound != case.heard[key]:
            return (
                f"{positions[key]}: of this part you would hear “{sound}”. You hear “{case.heard[key]}”.\n"
                "Changed all the same, the noise stays and the work was for nothing."
            )
    return "What you heard does not point there. Changed all the same, the noise stays."


_NEW_CLUTCH = Mistake(
    "The new clutch is bad: take the gearbox out",
    "thinks that the last work must be guilty",
    "A look at what is outside takes ten minutes, the gearbox takes hours. It would shake on with a third clutch.",
)
_DRIVER = Mistake(
    "The driver lets the pedal up wrongly",
    "blames the driver",
    "Let a second driver try before you say so. The fault is still in the car, and the customer is gone.",
)

_JUDDER: tuple[tuple[str, str, tuple[Mistake, ...], str, str], ...] = (
    (
        (
            "It shakes hard at take-up from idle, the engine rocks visibly. The clutch is "
            "{months} months old. What first?"
        ),
        "Load the mounts and shaft joints with a bar",
        (_NEW_CLUTCH, _DRIVER),
        "An engine that rocks shows where to look. A torn mount makes a good clutch shake.",
        "What holds the engine, and how would you test that with your hands?",
    ),
    (
        (
            "It shakes at take-up only, the mounts are sound. Oil runs from the housing's lowest "
            "point. Clutch {months} months old. What is likely?"
        ),
        "Oil on the facing: find the leak, then renew the plate",
        (
            Mistake(
                "Renew the plate, the leak can wait",
                "cures the sign and leaves the cause",
                "The next plate drinks the same oil. In a few weeks it shakes again at your cost.",
            ),
            Mistake(
                "Wash the facing with cleaner and fit it again",
                "thinks that a facing can be washed",
                "The facing has drunk the oil; heat brings it out again. The job is done twice.",
            ),
        ),
        "Oil makes the facing grab and let go. Only the seal and a new plate end it.",
        "What does oil do to friction, and where did it come from?",
    ),
    (
        (
            "It shakes also when it pulls with the clutch fully closed. A misfire is stored. "
            "Clutch {months} months old. What first?"
        ),
        "Cure the misfire, then test again",
        (
            _NEW_CLUTCH,
            Mistake(
                "Clear the memory and renew the flywheel",
                "clears evidence and guesses",
                "A cleared memory tells the next fitter nothing. The misfire shakes the new flywheel as well.",
            ),
        ),
        "A closed clutch has no slip that could judder. What shakes then comes from engine, mounts or wheels.",
        "Can a clutch judder while nothing slips?",
    ),
)


@exercise("fault.judder", lesson="fault", outcome=DECIDES, minutes=2)
def judder(draw: Draw) -> Choice:
    ask, best, others, why, step = _JUDDER[draw.form(3)]
    return Choice.of(
        draw,
        ask=ask.format(months=draw.integer(2, 9)),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}.",
        source="common-practice",
    )


@exercise("fault.pulse-count", lesson="fault", outcome=DECIDES, minutes=2)
def pulse_count(draw: Draw) -> Number:
    beats = draw.integer(12, 20)
    rpm = 60 * beats
    back = draw.form(2) == 1
    ask = (
        f"A four-cylinder engine is held at {rpm} rpm. How many pulses a second would a bent finger give?"
        if back
        else f"In a slow-motion film of the pedal you count {beats} pulses in one second, engine speed steady. "
        "At which engine speed is that one pulse a turn?"
    )
    return Number(
        ask=ask,
        answer=beats if back else rpm,
        unit="Hz" if back else "rpm",
        within=percent(2),
        decimals=0,
        mistakes=(
            Mistake(
                beats * 2 if back else rpm / 2,
                "thinks of firing strokes",
                "Firing gives two beats a turn on four cylinders. Mixed up, the bent finger is never looked for.",
            ),
            Mistake(
                rpm if back else beats,
                "leaves minutes as seconds",
                "Engine speed is per minute, the count per second. Left so, nothing fits and the fault stays.",
            ),
        ),
        why="One pulse a turn comes from fingers, cover or flywheel. It goes with engine speed, not with the road.",
        step="A minute has 60 seconds. One pulse a turn means: pulses a minute are turns a minute.",
        solution=f"{rpm} ÷ 60 = {beats} a second." if back else f"{beats} × 60 = {rpm} rpm.",
        source="engine-orders",
    )
