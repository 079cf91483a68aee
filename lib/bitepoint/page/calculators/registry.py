"""How a calculator is written down: one function, one decorator. No IPython here."""

import importlib
import pkgutil
import re
from collections.abc import Callable
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput, NotUnderstood, OutOfRange
from bitepoint.page.calculators import fields as read
from bitepoint.page.calculators.fields import Field
from bitepoint.questions.question import Picture


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


class WrongField(NotUnderstood):
    """What stands in one field, named by `key`, cannot be worked with; "" where no single field is to blame."""

    def __init__(self, key: str, told: str) -> None:
        self.key = key
        super().__init__(told)


class Calculator(Struct, frozen=True, kw_only=True):
    """A named calculator; `vehicle` is the letter of the training vehicle whose figures are the defaults, or empty.

    `first`: the keys of the three fields that matter most, in the order they stand in; the rest is folded away. Empty
    where there are so few that all are shown. `blames`: the key of the field behind an argument of the mechanics, or words
    for what is worked out of several.
    """

    name: str
    title: str
    about: str
    fields: tuple[Field, ...]
    vehicle: str
    source: str
    compute: Compute
    first: tuple[str, ...] = ()
    blames: dict[str, str] = {}

    def defaults(self) -> dict[str, str]:
        """Return the text each field starts with."""
        return {f.key: f.first_text for f in self.fields}

    def shown_first(self) -> tuple[Field, ...]:
        """Return the fields that are never folded away; one of a group brings its whole group."""
        if not self.first:
            return self.fields
        named = [next(f for f in self.fields if f.key == key) for key in self.first]
        return tuple(f for one in named for f in (self._of_group(one.group) if one.group else (one,)))

    def folded(self) -> tuple[Field, ...]:
        """Return the other fields."""
        first = {f.key for f in self.shown_first()}
        return tuple(f for f in self.fields if f.key not in first)

    def _of_group(self, group: str) -> tuple[Field, ...]:
        return tuple(f for f in self.fields if f.group == group)

    def applies(self, field: Field, typed: dict[str, object]) -> bool:
        """Whether a field has a meaning with the choices made (those missing as by default)."""
        if not field.only_for:
            return True
        choice, *options = field.only_for
        return typed.get(choice, self.defaults()[choice]) in options

    def wrong(self, typed: dict[str, object]) -> dict[str, str]:
        """Return what is wrong with each field that cannot be read, by its key: all of them, not the first alone."""
        found: dict[str, str] = {}
        for field in self.fields:
            try:
                self._entry(field, typed)
            except NotUnderstood as error:
                found[field.key] = str(error)
        return found

    def _entry(self, field: Field, typed: dict[str, object]) -> float | str:
        entry = typed.get(field.key, field.default) if self.applies(field, typed) else field.default
        return read.choice(field, entry) if field.options else read.number(field, entry)

    def answer(self, typed: dict[str, object]) -> Calculation:
        """Return the result for fields as typed (missing ones take their default).

        Raises
        ------
        WrongField
            A field cannot be read or is out of range, or the figures do not go together: one line that names the field.
        """
        for key, told in self.wrong(typed).items():
            raise WrongField(key, told)
        entries = {f.key: self._entry(f, typed) for f in self.fields}
        values = {key: entry for key, entry in entries.items() if not isinstance(entry, str)}
        choices = {key: entry for key, entry in entries.items() if isinstance(entry, str)}
        try:
            return self.compute(values, choices)
        except OutOfRange as error:
            raise self._blamed(error) from None

    def _blamed(self, error: OutOfRange) -> WrongField:
        """Say an error of the mechanics in the words of the fields."""
        blamed = self.blames.get(error.name, error.name)
        rule, given, advice = (self._in_words(str(part)) for part in (error.rule, error.given, error.advice))
        for field in self.fields:
            if blamed in (field.key, field.label):
                return WrongField(field.key, str(OutOfRange(field.label, rule, given, advice)))
        return WrongField("", f"{blamed} is then {given}, but must be {rule}. Change one of the figures.")

    def _in_words(self, told: str) -> str:
        for argument, key in self.blames.items():
            label = next((f.label for f in self.fields if f.key == key), key)
            told = re.sub(rf"(?<!\w){re.escape(argument)}(?!\w)", f"“{label}”", told)
        return re.sub(r"\d+\.\d{4,}", _shorter, told)


def _shorter(long: re.Match[str]) -> str:
    value = float(long[0])
    return f"{value:.0f}" if value >= 1000 else f"{value:.4g}"


_CALCULATORS: dict[str, Calculator] = {}


def calculator(
    name: str,
    *,
    title: str,
    about: str,
    fields: tuple[Field, ...],
    source: str,
    vehicle: str = "",
    first: tuple[str, ...] = (),
    blames: dict[str, str] | None = None,
) -> Callable[[Compute], Compute]:
    """Register the function below as the calculator `name`."""

    def register(compute: Compute) -> Compute:
        _CALCULATORS[name] = Calculator(
            name=name,
            title=title,
            about=about,
            fields=fields,
            vehicle=vehicle,
            source=source,
            compute=compute,
            first=first,
            blames=blames or {},
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
