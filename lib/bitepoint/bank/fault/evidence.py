"""Lesson 3, finding the fault: a noise named by evidence; clutch, not the clutch, or stop and ask."""

from msgspec import structs

from bitepoint.bank.fault.outcomes import DECIDES
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.noises import NoisyPart, noises, noisy_parts
from bitepoint.workshop.vehicles import vehicle

_FREE = "up"
_NEVER_RUN = "flywheel-bolts"
"""Nobody goes on listening to loose flywheel bolts, so they are a suspect here and never the case."""


@exercise("fault.noise", lesson="fault", title="Which part makes the noise?", outcome=DECIDES, minutes=4)
def noise(draw: Draw) -> Enquiry:
    letter = draw.vehicle().id
    cases = _cases(letter)
    asked = _which_part(letter, cases[draw.form(len(cases))])
    return structs.replace(asked, suspects=tuple(draw.shuffle(asked.suspects)))


@once_a_set
def _cases(letter: str) -> tuple[str, ...]:
    return tuple(part.id for part in noisy_parts(vehicle(letter)) if part.id != _NEVER_RUN)


@once_a_set
def _which_part(letter: str, noisy: str) -> Enquiry:
    """Return the question about a car and the part that is worn on it, its suspects in the order of the table."""
    car, positions = vehicle(letter), {p.id: p.text for p in noises().positions}
    parts = noisy_parts(car)
    case = next(part for part in parts if part.id == noisy)
    return Enquiry(
        ask=(
            f"{car.opening} makes a noise, engine warm. {positions[_FREE]}: {case.heard[_FREE]}. "
            "Listen in one more way at a time. Name the part when only one is left, with the fewest questions."
        ),
        observations=tuple(Observation(key, text, case.heard[key]) for key, text in positions.items()),
        suspects=tuple(_suspect(part, case) for part in parts),
        free=(_FREE,),
        why=f"{case.text}: {case.because}.",
        step="Strike out every part that does not fit what you heard. Then choose the place where those left differ.",
        solution="\n".join(f"{positions[key]}: {sound}." for key, sound in case.heard.items()) + f"\n{case.text}.",
        source=case.source,
        vehicle=car.id,
        form=case.id,
    )


def _suspect(part: NoisyPart, case: NoisyPart) -> Suspect:
    """Return a part as a suspect; what is not known of it agrees with everything, so it rules nothing out."""
    heard = {key: sound or case.heard[key] for key, sound in part.heard.items()}
    label = part.text.partition(":")[0]
    if part.id == case.id:
        return Suspect(part.id, label, heard, right=True)
    return Suspect(
        part.id,
        label,
        heard,
        name=f"blames: {label}",
        says="What you heard does not point there. Changed all the same, the noise stays.",
        against={
            key: _says(key, sound, case) for key, sound in part.heard.items() if sound not in ("", case.heard[key])
        },
    )


def _says(key: str, sound: str, case: NoisyPart) -> str:
    position = next(p.text for p in noises().positions if p.id == key)
    return (
        f"{position}: of this part you would hear “{sound}”. Of this car you hear “{case.heard[key]}”.\n"
        "Changed all the same, the noise stays and the work was for nothing."
    )


@exercise("fault.decide", lesson="fault", outcome=DECIDES, minutes=3)
def decide(draw: Draw) -> Choice:
    form, high = form_of(draw), draw.value(8, 14, 0.5)
    return form.choice(
        draw,
        right=form.key,
        high=f"{high:g}",
        higher=f"{high + draw.pick(0.5, 1, 1.5):g}",
        low=f"{draw.value(3.1, 3.9, 0.1):g}",
        kmh=draw.pick(90, 100, 110),
    )
