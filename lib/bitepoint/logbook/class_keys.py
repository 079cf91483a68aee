"""What may stand in a class file: each key is known to whoever reads it, so that a misspelt one is not passed over."""

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any, get_args

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import Feedback, checked_name

FOR_OPENING = (
    "class_word",
    "title",
    "feedback",
    "sitting",
    "learner",
    "vehicle",
    "vehicles",
    "bank",
    "own",
    "own_files",
)
FOR_MARKING = (
    *("supervisor", "pass_share", "due", "zone", "criteria", "lessons", "retakes", "counts", "appeal_days"),
    "appeal_to",
)
KEYS = (*FOR_OPENING, *FOR_MARKING)
_WORDS = {"class_word": "The class word", "sitting": "The sitting word"}


def check_keys(found: Mapping[str, Any]) -> None:
    """Refuse keys that no class file has.

    Raises
    ------
    BadInput
        Names each of them with the nearest that there is, and all that there are.
    """
    strange = [f"“{key[:40]}”{_nearest(key)}" for key in found if key not in KEYS]
    if not strange:
        return
    more = f" and {len(strange) - 5} more" if len(strange) > 5 else ""
    raise BadInput(f"there is no key {', '.join(strange[:5])}{more}. The keys are: {', '.join(KEYS)}.")


def _nearest(key: str) -> str:
    found = get_close_matches(key.casefold(), KEYS, n=1, cutoff=0.7)
    return f" (did you mean “{found[0]}”?)" if found else ""


def checked_opening(found: Mapping[str, Any]) -> Feedback:
    """Return when the class gets its feedback; its words are checked too.

    Raises
    ------
    BadInput
        Class word, sitting word or feedback cannot be used.
    """
    for key, what in _WORDS.items():
        if found.get(key, "") != "":
            checked_name(found[key], what)
    for feedback in get_args(Feedback):
        if found.get("feedback", "at once") == feedback:
            chosen: Feedback = feedback
            return chosen
    allowed = " or ".join(f'"{one}"' for one in get_args(Feedback))
    raise BadInput(f"feedback must be {allowed}, but it is {str(found['feedback'])[:40]!r}.")
