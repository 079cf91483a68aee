"""The college page: one file above the results of all classes, no script, nothing fetched, every text escaped."""

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from urllib.parse import quote

from msgspec.structs import fields

from bitepoint.marking.college.across import Across
from bitepoint.marking.college.one_class import ClassLine
from bitepoint.marking.pages.render import moment, render

PAGE = "college.html"
MARK = "bitepoint mark --classes"
"""By which a page of ours is known again, so that nobody's own file is replaced."""
_HEAD = 2_000


def is_ours(path: Path) -> bool:
    """Whether a file is a college page that a marking wrote."""
    try:
        with path.open("rb") as file:
            return f'<meta name="generator" content="{MARK}">'.encode() in file.read(_HEAD)
    except OSError:
        return False


def college_page(
    title: str,
    classes: Sequence[ClassLine],
    beside: Sequence[str],
    *,
    marked: datetime,
    across: Across | None = None,
) -> str:
    """Return college.html: a line a class with its report, totals, what could not be marked, copies across classes."""
    done = [line for line in classes if not line.refused]
    numbers = [f.name for f in fields(ClassLine) if f.type is int]
    return render(
        "college.html.jinja",
        generator=MARK,
        title=title,
        marked=moment(marked),
        classes=done,
        refused=[line for line in classes if line.refused],
        beside=beside,
        across=across,
        total={name: sum(getattr(line, name) for line in done) for name in numbers},
        address=lambda line: f"{quote(line.name)}/report.html",
    )
