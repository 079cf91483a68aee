"""The order in which a lesson's page asks its exercises.

The bank lists them as they are written there. What the page extension knows of the lessons holds their cells one after the
other, so no notebook is read for it.
"""

import json
import re
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from bitepoint.bank import Exercise, exercises_of

_CELLS = Path(__file__).parents[1] / "workbook" / "awake" / "static" / "lessons.json"


@lru_cache(maxsize=1)
def _places() -> Mapping[str, int]:
    try:
        sources = json.loads(_CELLS.read_text(encoding="utf-8"))["known"]
    except (OSError, ValueError, KeyError):
        return MappingProxyType({})
    asked = dict.fromkeys(id for source in sources for id in re.findall(r"\bask\([\"']([\w.-]+)", source))
    return MappingProxyType({id: place for place, id in enumerate(asked)})


def as_on_the_page(lesson: str) -> list[Exercise]:
    """Return the exercises of a lesson as its page asks them; one that stands on no page comes last."""
    places = _places()
    return sorted(exercises_of(lesson), key=lambda exercise: places.get(exercise.id, len(places)))
