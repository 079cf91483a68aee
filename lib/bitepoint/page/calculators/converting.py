"""The unit calculator: torque, length, pressure and speed in the units a workshop meets."""

from bitepoint import units
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture

DIMENSIONS = ("torque", "length", "pressure", "speed")
COUNTERPART = {
    "N·m": "lbf·ft", "cN·m": "lbf·in", "lbf·ft": "N·m", "lbf·in": "N·m", "kgf·m": "N·m", "ozf·in": "N·m",
    "mm": "in", "cm": "in", "m": "ft", "µm": "in", "thou": "mm", "in": "mm", "ft": "m",
    "bar": "psi", "kPa": "psi", "MPa": "psi", "psi": "bar",
    "km/h": "mph", "m/s": "km/h", "mph": "km/h",
}  # fmt: skip
"""Unit drawn on the second scale for each unit."""


@calculator(
    "unit-converter",
    title="The same figure in other units",
    about=(
        "Torque, length, pressure or speed in every unit a workshop meets. The factors are exact. Read the unit on "
        "the wrench before you set it: 65 lbf·ft is over a third more than 65 N·m."
    ),
    source="nist-sp-811",
    fields=(
        Field(key="figure", label="Figure", default=65, low=0, high=100_000),
        Field(
            key="unit",
            label="Unit",
            default="N·m",
            options=tuple(u for d in DIMENSIONS for u in units.units_of(d)),
        ),
    ),
)
def unit_converter(values: Values, choices: Choices) -> Calculation:
    """One figure in every unit of its dimension."""
    value, unit = values["figure"], choices["unit"]
    dimension = units.dimension_of(unit)
    others = [u for u in units.units_of(dimension) if u != unit]
    factors = {u: units.convert(1, unit, u) for u in others}
    other = COUNTERPART[unit]
    same = value * factors[other]
    return Calculation(
        results=tuple((f"In {u}", f"{figure(value * factors[u], 5)} {u}") for u in others),
        working=(
            f"1 {unit} = {figure(factors[other], 6)} {other}",
            f"{figure(value, 6)} × {figure(factors[other], 6)} = {figure(same, 5)} {other}",
            *_confused(value, unit, other),
        ),
        picture=Picture("double-scale", {"value": value, "unit": unit, "other": other}),
    )


def _confused(value: float, unit: str, other: str) -> tuple[str, ...]:
    """Say what a wrench does that is set by the wrong one of its two scales."""
    if not value or unit not in ("N·m", "lbf·ft"):
        return ()
    wrong = units.convert(value, other, unit) / value - 1
    told = f"A wrench set to {figure(value)} on its {other} scale instead gives {100 * wrong:+.0f} %."
    return (told,)
