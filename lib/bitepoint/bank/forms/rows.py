"""What stands in a forms.toml, row by row: options, steps, rules, observations, suspects."""

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct

Fill = Mapping[str, str | int]
"""What fills the places of a form: text, or a whole number; any other figure is written out by who draws it."""


class FormsRow(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Base of what stands in a forms.toml: a misspelt key is an error."""


class FormOption(FormsRow, frozen=True, kw_only=True):
    """An option: its text, and when it is wrong (or left out of several) its mistake's name and what to say."""

    key: str = ""
    text: str
    right: bool = False
    name: str = ""
    says: str = ""
    hurts: bool = False


class FormStep(FormsRow, frozen=True, kw_only=True):
    """A step of an order."""

    key: str
    text: str


class FormRule(FormsRow, frozen=True, kw_only=True):
    """What must come before what, by the keys of the steps."""

    first: str
    then: str
    because: str
    kind: Literal["physical", "safety", "quality", "economy", "evidence"] = "quality"
    hurts: bool = False


class FormObservation(FormsRow, frozen=True, kw_only=True):
    """Something that can be asked for in an enquiry, and what it shows in this case."""

    key: str
    label: str
    shows: str


class FormSuspect(FormsRow, frozen=True, kw_only=True):
    """A possible cause with what each observation would show if it were this one."""

    key: str
    label: str
    shows: dict[str, str] = {}
    right: bool = False
    name: str = ""
    says: str = ""
    hurts: bool = False
