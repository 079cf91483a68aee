"""Where what an exercise asks was taught: a lesson's taught.toml names the cell and a few of its words.

One line an exercise, a list where it takes two cells::

    "strip.hub-nut" = { lesson = "strip", cell = "hub-nut", says = "a second person stands on the foot brake" }
"""

from collections.abc import Mapping
from pathlib import Path

from bitepoint.bank.lessons import LESSONS
from bitepoint.workshop.reading import StrictStruct, broken, read_toml

_FOLDER = Path(__file__).parent
_WHAT = "table of what was taught"
_FEWEST_WORDS = 3


class Taught(StrictStruct, frozen=True):
    """A cell of a lesson that teaches what an exercise asks, and words that stand in it and carry it."""

    lesson: str
    cell: str
    says: str


def taught_file(lesson: str) -> Path:
    """Return where the table of a lesson lies, or would lie."""
    return _FOLDER / lesson / "taught.toml"


def read_taught(path: Path) -> Mapping[str, tuple[Taught, ...]]:
    """Return the cells by exercise, as a taught.toml names them.

    Raises
    ------
    BadData
        Names the file, the exercise and the rule.
    """
    rows = read_toml(path, dict[str, Taught | list[Taught]], what=_WHAT)
    table = {id: tuple(row) if isinstance(row, list) else (row,) for id, row in rows.items()}
    for id, cells in table.items():
        if not cells:
            raise broken(path, id, "must name a cell at least", what=_WHAT)
        for taught in cells:
            if taught.lesson not in LESSONS:
                raise broken(path, id, f"{taught.lesson!r} is no lesson", what=_WHAT)
            if len(taught.says.split()) < _FEWEST_WORDS:
                raise broken(path, id, f"says must be {_FEWEST_WORDS} words or more", what=_WHAT)
    return table


__all__ = ["Taught", "read_taught", "taught_file"]
