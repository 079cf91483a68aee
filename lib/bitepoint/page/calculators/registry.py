"""How a calculator is written down: one function, one decorator. No IPython here."""

import importlib
import pkgutil
from collections.abc import Callable
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from msgspec import Struct

from bitepoint import units
from bitepoint.errors import BadInput, NotUnderstood
from bitepoint.questions.question import Picture


class Field(Struct, frozen=True, kw_only=True):
    """One input: a number in `unit` with its default and range, or a choice when `options` is given.

    `slider`: the number can also be dragged along its range. `only_for`: the key of a choice and the options with which
    the field has a meaning; with another it is not shown and keeps its default.
    """

    key: str
    label: str
    unit: str = ""
    default: float | str
    low: float = 0.0
    high: float = 0.0
    step: float = 1.0
    options: tuple[str, ...] = ()
    slider: bool = False
    only_for: tuple[str, ...] = ()


class Calculation(Struct, frozen=True, kw_only=True):
    """What a calculator answers: results as (label, figure with unit), the working line by line, warnings in words.

    `picture_first`: the picture is what one works with, so it stands on top; `working_head` stands over the lines.
    """

    results: tuple[tuple[str, str], ...]
    working: tuple[str, ...]
    warnings: tuple[str, ...] = ()
    picture: Picture | None = None
    picture_first: bool = False
    working_head: str = "Step by step"


Values = dict[str, float]
Choices = dict[str, str]
Compute = Callable[[Values, Choices], Calculation]


class Calculator(Struct, frozen=True, kw_only=True):
    """A named calculator; `vehicle` is the letter of the training vehicle whose figures are the defaults, or empty."""

    name: str
    title: str
    about: str
    fields: tuple[Field, ...]
    vehicle: str
    source: str
    compute: Compute

    def defaults(self) -> dict[str, str]:
        """Return the text each field starts with."""
        return {f.key: f.default if isinstance(f.default, str) else f"{f.default:g}" for f in self.fields}

    def applies(self, field: Field, typed: dict[str, object]) -> bool:
        """Whether a field has a meaning with the choices made (those missing as by default)."""
        if not field.only_for:
            return True
        choice, *options = field.only_for
        return typed.get(choice, self.defaults()[choice]) in options

    def answer(self, typed: dict[str, object]) -> Calculation:
        """Return the result for fields as typed (missing ones take their default).

        Raises
        ------
        BitepointError
            A field cannot be read or is out of range: one line that names the field.
        """
        values: Values = {}
        choices: Choices = {}
        for field in self.fields:
            entry = typed.get(field.key, field.default) if self.applies(field, typed) else field.default
            if field.options:
                choices[field.key] = _choice(field, entry)
            else:
                values[field.key] = _number(field, entry)
        return self.compute(values, choices)


def _choice(field: Field, entry: object) -> str:
    if entry not in field.options:
        raise NotUnderstood(f"{field.label}: choose one of {', '.join(field.options)}.")
    return str(entry)


def _number(field: Field, entry: object) -> float:
    try:
        typed = units.quantity(_plain(entry, field.unit))
        if typed.unit and not field.unit:
            raise NotUnderstood("write the figure alone, without a unit.")
        value = typed.value if typed.unit is None else units.convert(typed.value, typed.unit, field.unit)
    except NotUnderstood as error:
        raise NotUnderstood(f"{field.label}: {error}") from None
    if not field.low <= value <= field.high:
        unit = f" {field.unit}" if field.unit else ""
        raise NotUnderstood(
            f"{field.label} must be between {field.low:g} and {field.high:g}{unit}, but you gave {value:g}{unit}."
        )
    return value


def _plain(entry: object, unit: str) -> object:
    """Take the field's own unit off what was typed, if it is one that `units` does not convert (kN/mm, kg·m²)."""
    if not isinstance(entry, str) or not unit or not entry.strip().endswith(unit):
        return entry
    try:
        units.unit_named(unit)
    except NotUnderstood:
        return entry.strip().removesuffix(unit)
    return entry


_CALCULATORS: dict[str, Calculator] = {}


def calculator(
    name: str, *, title: str, about: str, fields: tuple[Field, ...], source: str, vehicle: str = ""
) -> Callable[[Compute], Compute]:
    """Register the function below as the calculator `name`."""

    def register(compute: Compute) -> Compute:
        _CALCULATORS[name] = Calculator(
            name=name, title=title, about=about, fields=fields, vehicle=vehicle, source=source, compute=compute
        )
        return compute

    return register


@cache
def _load() -> None:
    """Import every module of this package once: each registers its own calculators."""
    for module in pkgutil.iter_modules([str(Path(__file__).parent)]):
        importlib.import_module(f"bitepoint.page.calculators.{module.name}")


def names() -> list[str]:
    """Return the names of all calculators."""
    _load()
    return sorted(_CALCULATORS)


def calculator_named(name: str) -> Calculator:
    """Return the calculator with this name.

    Raises
    ------
    BadInput
        There is no such calculator; the nearest name is given.
    """
    _load()
    if name not in _CALCULATORS:
        near = get_close_matches(str(name), _CALCULATORS, n=1, cutoff=0.0)
        raise BadInput(f"There is no calculator {str(name)[:60]!r}. Did you mean {near[0]!r}?")
    return _CALCULATORS[name]
