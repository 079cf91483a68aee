"""The places in a form of words, and what fills them."""

from collections.abc import Mapping
from string import Formatter
from typing import Any

from bitepoint.errors import BadData
from bitepoint.missing import look_up
from bitepoint.questions.draw import Draw

_COMMON = frozenset({"vehicle", "table", "picture"})
_FILLS = frozenset({str, int})


def parted(more: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, str | int]]:
    """Part what a question takes from what fills the places of its form."""
    common: dict[str, Any] = {}
    fill: dict[str, str | int] = {}
    for name, value in more.items():
        if name in _COMMON:
            common[name] = value
            continue
        fill[name] = value
        if type(value) not in _FILLS:
            look_up(value)
            if not isinstance(value, (str, int)):
                raise TypeError(f"{name} fills a place of a form and must be text or a whole number, not {value!r}")
    return common, fill


def plain_places(text: str) -> bool:
    """Whether every place in a text is a plain name in braces."""
    try:
        parts = list(Formatter().parse(text))
    except ValueError:
        return False
    return all(
        name is None or (name.isidentifier() and not spec and not conversion) for _, name, spec, conversion in parts
    )


def wrong_form(draw: Draw, form: str, rule: str) -> BadData:
    """Return the error that names lesson, exercise and form with the rule that is broken."""
    lesson, _, topic = draw.exercise.partition(".")
    return BadData(f"{lesson}/forms.toml: {topic}.{form}: {rule}. Correct the form, or what fills it.")
