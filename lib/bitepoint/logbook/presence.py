"""Whether a workbook is still there, still its learner's and still whole: looked at before an answer goes into it."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from bitepoint.errors import NotRecorded
from bitepoint.logbook.book import FOLDER, folder_gone
from bitepoint.logbook.identity import FILE, Identity, read_identity, same_learner
from bitepoint.logbook.record import Line

_highest: dict[Path, int] = {}
"""The highest line number that this process has seen in each logbook file."""


def check_presence(identity: Identity) -> None:
    """Refuse when the workbook was moved, deleted or given to somebody else since it was opened.

    Raises
    ------
    NotRecorded
        Says what happened and what to do.
    BadData
        Its workbook.toml cannot be used any more.
    """
    if identity.folder is None:
        return
    if not (identity.folder / FILE).is_file():
        raise folder_gone(identity.folder)
    now = read_identity(identity.folder / FILE)
    if not same_learner(now, identity):
        raise NotRecorded(
            f"Your answer was not recorded: this folder is {now.learner}'s in class {now.class_word} by now, and this "
            f"form was opened for {identity.learner}. Run this cell again, then answer once more."
        )


def lines_missing(workbook: Path, lesson: str, files: Mapping[str, Sequence[Line]]) -> int:
    """Return how many lines of a lesson are gone that this process has seen; what is there is remembered."""
    place = workbook / FOLDER
    now = {place / name: _last_number(lines) for name, lines in files.items()}
    for path, number in now.items():
        _highest[path] = max(number, _highest.get(path, 0))
    known = [path for path in _highest if path.parent == place and path.name.startswith(f"{lesson}.")]
    return sum(_highest[path] - now.get(path, 0) for path in known)


def remember(workbook: Path, file: str, number: int) -> None:
    """Remember that a line of this number was written."""
    path = workbook / FOLDER / file
    _highest[path] = max(number, _highest.get(path, 0))


def lines_gone(count: int) -> str:
    """Say that lines of the logbook are gone and what to do."""
    what = "1 line of this lesson is" if count == 1 else f"{count} lines of this lesson are"
    return (
        f"{what} gone from the folder “{FOLDER}” since this lesson was opened. Put the folder back (look in the waste bin). "
        "Lost for good? Tell your instructor."
    )


def _last_number(lines: Sequence[Line]) -> int:
    return max((line.record.n for line in lines if line.record), default=0)
