"""One input of a calculator: its range and unit, and how what was typed into it is read."""

from msgspec import Struct

from bitepoint import units
from bitepoint.errors import Ambiguous, NotUnderstood


class Field(Struct, frozen=True, kw_only=True):
    """One input: a number in `unit` with its default and range, or a choice when `options` is given.

    `slider`: the number can also be dragged along its range. `only_for`: the key of a choice and the options with which
    the field has a meaning; with another it is not shown and keeps its default. `group`: fields of one group stand side
    by side under these words, each with its `short` label, and count as one.
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
    group: str = ""
    short: str = ""

    @property
    def first_text(self) -> str:
        """The text the field starts with."""
        return self.default if isinstance(self.default, str) else f"{self.default:g}"

    @property
    def takes(self) -> str:
        """One sentence: what belongs into this field, with an example in its own unit."""
        if not self.unit:
            return f"This field takes a figure without a unit, for example {self.first_text}."
        return f"This field takes {_measure(self.unit)} in {self.unit}, for example {self.first_text} {self.unit}."


def _measure(unit: str) -> str:
    try:
        name = units.dimension_of(unit)
    except NotUnderstood:
        return "a figure"
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"


def choice(field: Field, entry: object) -> str:
    """Return the option chosen.

    Raises
    ------
    NotUnderstood
        It is none of the field's options.
    """
    if entry not in field.options:
        raise NotUnderstood(f"{field.label}: choose one of {', '.join(field.options)}.")
    return str(entry)


def number(field: Field, entry: object) -> float:
    """Return the figure typed, in the field's unit.

    Raises
    ------
    NotUnderstood
        It cannot be read or is out of range: one line that names the field and says what it takes.
    """
    if isinstance(entry, str) and not entry.strip():
        raise NotUnderstood(f"{field.label} is empty. {field.takes}")
    try:
        value = _in_its_unit(field, entry)
    except Ambiguous as error:
        value = _the_only_reading_in_range(field, error)
    except NotUnderstood as error:
        told = str(error)
        raise NotUnderstood(f"{field.label}: {told if field.takes in told else f'{told} {field.takes}'}") from None
    if not field.low <= value <= field.high:
        unit = f" {field.unit}" if field.unit else ""
        raise NotUnderstood(
            f"{field.label} must be between {field.low:g} and {field.high:g}{unit}, but you gave {value:g}{unit}. "
            f"{field.takes}"
        )
    return value


def _in_its_unit(field: Field, entry: object) -> float:
    typed = units.quantity(_plain(entry, field.unit), advice=field.takes)
    if typed.unit and not field.unit:
        raise NotUnderstood("write the figure alone, without a unit.")
    return typed.value if typed.unit is None else units.convert(typed.value, typed.unit, field.unit)


def _the_only_reading_in_range(field: Field, asked: Ambiguous) -> float:
    """A gear ratio of 3.545 has one reading within the field's range; where both lie in it, both are asked back."""
    unit = asked.unit if asked.unit not in ("", field.unit) else ""
    if unit and not field.unit:
        raise NotUnderstood(f"{field.label}: write the figure alone, without a unit. {field.takes}")
    try:
        values = [units.convert(r, unit, field.unit) if unit else r for r in asked.readings]
    except NotUnderstood as error:
        raise NotUnderstood(f"{field.label}: {error} {field.takes}") from None
    within = [value for value in values if field.low <= value <= field.high]
    if len(within) != 1:
        raise NotUnderstood(f"{field.label}: {asked} {field.takes}")
    return within[0]


def _plain(entry: object, unit: str) -> object:
    """Take the field's own unit off what was typed, if it is one that `units` does not convert (kN/mm, kg·m²)."""
    if not isinstance(entry, str) or not unit or not entry.strip().endswith(unit):
        return entry
    try:
        units.unit_named(unit)
    except NotUnderstood:
        return entry.strip().removesuffix(unit)
    return entry
