"""What to remember from a lesson: its own recap, in large type, and one of its own pictures."""

import re
from typing import Any

from markupsafe import Markup

from bitepoint.bank.lessons import LESSONS
from bitepoint.classroom.lesson_text import inline, pictures_shown, recap
from bitepoint.classroom.posters.images import image
from bitepoint.pictures import draw

PREFERRED = {
    "carry": "torque-path",
    "safe": "make-it-dead",
    "fault": "bearing-at-fingers",
    "kit": "kit-exploded",
    "strip": "bare-places",
    "measure": "dial-gauge",
    "torque": "crow-foot",
    "star": "star-patterns",
    "assembly": "plate-sides",
    "release": "bleeding-steps",
    "refit": "dowels-and-faces",
    "job": "whole-job",
}
"""The picture that stands for a lesson; where the lesson shows it no more, its first one does."""

_SIZES = ((340, 24), (520, 21), (700, 19), (880, 17))
"""Size of type by how many signs a recap has at most, so that a picture still fits below it; longer ones are 14 pt."""
_OUTCOME = re.compile(r"^\*\*(.+?)[:.]?\*\*[:.]?\s*(.*)$", re.DOTALL)


def values(key: str) -> dict[str, Any]:
    """Return number, title, recap and picture of a lesson, as its notebook has them now."""
    shown = pictures_shown(key)
    chosen = next((one for one in shown if one[0] == PREFERRED.get(key)), shown[0] if shown else None)
    return {
        "number": LESSONS[key].notebook[:2],
        "lesson": LESSONS[key].title,
        "lines": [_parted(line) for line in recap(key)],
        "size_pt": _size_pt(recap(key)),
        "picture": image(draw(chosen[0], **chosen[1])) if chosen else "",
    }


def _parted(line: str) -> tuple[Markup, Markup]:
    """Return what one is able to do, and what to remember of it; a line with one of them only is to be remembered."""
    found = _OUTCOME.match(line)
    outcome, note = found.groups() if found else ("", line)
    if not note:
        outcome, note = "", outcome
    return inline(outcome), inline(note[:1].upper() + note[1:])


def _size_pt(lines: tuple[str, ...]) -> int:
    length = sum(map(len, lines))
    return next((size for most, size in _SIZES if length <= most), 14)
