"""What the page must know to wake a lesson: the lessons in their order, and every cell that the course ships or shipped.

The developers' command that writes it: `python -m bitepoint.workbook.awake_lessons`.
"""

import json
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from bitepoint.bank.lessons import KEEP_NOTEBOOK, LESSONS, Lesson
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.logbook.record import RECALL_BOOK
from bitepoint.releases.frozen import releases_folder
from bitepoint.releases.lessons import cell_sources, released_sources
from bitepoint.workshop.vehicles import FRAME

SETUP = "from bitepoint import ask, calculator, show, summary"
KEEP_IT = {"key": RECALL_BOOK, "title": "Keep what you learned", "file": f"{KEEP_NOTEBOOK}.ipynb", "marked": False}
FILE = Path(__file__).with_name("awake") / "static" / "lessons.json"


def lessons(releases: Path | None = None) -> dict[str, Any]:
    """Return `frame` and `setup`, `lessons` (key, title, file) in the order of the course, the page of recall (not `marked`) behind them, and `known`, the sources of their code cells.

    Cells of earlier releases are known too; `releases` is where those lie, if not with this program. Sources are compared as
    text: a browser offers digests only where the address is a secure one.
    """
    known = dict.fromkeys([*cell_sources(), *released_sources(releases or releases_folder())])
    named = [{"key": x.key, "title": x.title, "file": x.notebook} for x in LESSONS.values()]
    return {"frame": FRAME, "setup": SETUP, "lessons": [*named, KEEP_IT], "known": list(known)}


def with_own(found: dict[str, Any], lesson: Lesson, cells: Iterable[str]) -> dict[str, Any]:
    """Return the list with the lesson of a college's own questions; its cells are known in that lesson alone."""
    own = {"key": lesson.key, "title": lesson.title, "file": lesson.notebook, "known": list(cells)}
    return {**found, "lessons": [*found["lessons"], own]}


def as_text(found: dict[str, Any]) -> str:
    """Return the file's text, a line for each source."""
    return json.dumps(found, ensure_ascii=False, indent=1) + "\n"


def main() -> int:
    """Write the file afresh."""
    write_in_one_step(FILE, as_text(lessons()).encode("utf-8"))
    return 0


if __name__ == "__main__":
    sys.exit(main())
