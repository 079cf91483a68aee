"""The log reader: any road-test log, any part of it, read as closely as wanted."""

from collections.abc import Sequence

from bitepoint.errors import NotUnderstood
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, WrongField, calculator
from bitepoint.questions.question import Picture
from bitepoint.workshop.roadtests import MOST_NUMBER, road_test
from bitepoint.workshop.simulator import Sample
from bitepoint.workshop.vehicles import vehicles

_LETTERS = {f"training vehicle {letter}": letter for letter in vehicles()}
_VIEWS = {
    "throttle, engine and wheels": ("throttle_pct", "engine_rpm", "speed_km_h", "driven_wheel_km_h"),
    "pedal, gear, wheels and shake": ("pedal_pct", "gear", "speed_km_h", "vibration_g"),
    "throttle, pedal and shake": ("throttle_pct", "pedal_pct", "vibration_g"),
    "engine against wheels": (),
    "shake of moving off": (),
}
_AGAINST, _APART = tuple(_VIEWS)[3:]
_LONGEST_S = 90


@calculator(
    "read-a-log",
    title="Read a road-test log: choose its part and what is drawn",
    about=(
        "Every log of this course can be opened here by the letter of its vehicle and its number, also the log of a "
        "question. Draw the whole log first. Then bring the two ends together round the place you want to see."
    ),
    vehicle="A",
    source="invented",
    fields=(
        Field(key="car", label="Log of", default="training vehicle A", options=tuple(_LETTERS)),
        Field(key="number", label="Number of the log", default=1, low=1, high=MOST_NUMBER),
        Field(key="view", label="What is drawn", default=next(iter(_VIEWS)), options=tuple(_VIEWS)),
        Field(key="from_s", label="From", unit="s", default=0, low=0, high=_LONGEST_S - 1, slider=True),
        Field(key="to_s", label="To", unit="s", default=_LONGEST_S, low=1, high=_LONGEST_S, slider=True),
    ),
)
def read_a_log(values: Values, choices: Choices) -> Calculation:
    """The chosen part of a log as a plot, with its lines read at a few moments."""
    if values["number"] != int(values["number"]):
        raise WrongField("number", f"Number of the log must be a whole number, but you gave {values['number']:g}.")
    name = f"{_LETTERS[choices['car']].casefold()}-{values['number']:.0f}"
    part = _part(name, values["from_s"], values["to_s"])
    view = choices["view"]
    if view == _AGAINST and not any(s.gear and s.pedal_pct < 5 for s in part):
        raise NotUnderstood("In this part the pedal is never up in a gear. Draw a longer part, or something else.")
    return Calculation(
        results=(
            ("Log", name),
            ("Part", f"{part[0].t_s:g} to {part[-1].t_s:g} s, {len(part)} lines"),
            ("Engine speed", _range(part, "engine_rpm", "rpm")),
            ("Wheels not driven", _range(part, "speed_km_h", "km/h")),
            ("Driven wheels", _range(part, "driven_wheel_km_h", "km/h")),
            ("Shake", _range(part, "vibration_g", "g")),
        ),
        working=tuple(_line(part[round(i * (len(part) - 1) / 4)]) for i in range(5)),
        picture=_picture(name, view, part),
        picture_first=True,
        working_head="Five lines of this part",
    )


def _part(name: str, from_s: float, to_s: float) -> list[Sample]:
    samples = road_test(name).samples
    part = [s for s in samples if from_s - 1e-6 <= s.t_s <= to_s + 1e-6]
    if len(part) < 10:
        raise WrongField(
            "from_s",
            f"From {from_s:g} s to {to_s:g} s holds no second of this log, which ends at {samples[-1].t_s:g} s. "
            "Put “To” at least 1 s after “From”.",
        )
    return part


def _range(part: Sequence[Sample], channel: str, unit: str) -> str:
    values = [getattr(s, channel) for s in part]
    return f"{min(values):g} to {max(values):g} {unit}"


def _line(s: Sample) -> str:
    return (
        f"{s.t_s:g} s: pedal {s.pedal_pct:g} %, gear {s.gear}, throttle {s.throttle_pct:g} %, {s.engine_rpm:g} rpm, wheels "
        f"{s.speed_km_h:g} km/h, driven {s.driven_wheel_km_h:g} km/h, shake {s.vibration_g:g} g"
    )


def _picture(name: str, view: str, part: Sequence[Sample]) -> Picture:
    if view == _APART:
        return Picture("order-spectrum", {"name": name, "references": ["time", "slip"]})
    window = {"name": name, "from_s": part[0].t_s, "to_s": part[-1].t_s}
    if view == _AGAINST:
        return Picture("slip-plot", window)
    return Picture("road-test", {**window, "channels": list(_VIEWS[view])})
