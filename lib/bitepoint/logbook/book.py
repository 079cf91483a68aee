"""One logbook file: which file it is, what a learner is told when an answer cannot be kept, and reading a folder of them."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from bitepoint.errors import BadData, NotRecorded
from bitepoint.logbook.chain_file import ChainFile, Refusals, whole_lines
from bitepoint.logbook.record import Line, read_line

FOLDER = "logbook"
_REFUSALS = Refusals(
    not_recorded="Your answer was not recorded",
    held="Answer once more.",
    no_room="Make room on the disk or move the course folder to a place where you may write, then answer again.",
    link="Ask your instructor to look at this course folder.",
)


def utc_now() -> str:
    """Return the time as a logbook line holds it."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


class Logbook(ChainFile[Line]):
    """The file `<lesson>.<device>.jsonl` in the logbook folder of a workbook."""

    def __init__(self, workbook: Path, *, lesson: str, device: str) -> None:
        super().__init__(workbook / FOLDER / f"{lesson}.{device}.jsonl", read=read_line, refusals=_REFUSALS)
        self.device = device

    def _make_folder(self) -> None:
        # Its parents are not made: a workbook that was moved would come back as a ghost.
        self.path.parent.mkdir(exist_ok=True)

    def _linked(self) -> tuple[Path, ...]:
        return (self.path.parent, *super()._linked())

    def _gone(self) -> NotRecorded:
        return folder_gone(self.path.parent.parent)


def folder_gone(workbook: Path) -> NotRecorded:
    """Return the error for a workbook that is not where it was."""
    return NotRecorded(
        f"Your answer was not recorded: the course folder {workbook.name} was moved, renamed or deleted. Close the course "
        "(Ctrl+C in its window), then open the folder where it is now: bitepoint open FOLDER"
    )


def read_file(path: Path) -> Iterator[Line]:
    """Yield the whole lines of one logbook file; a file that is not there has none.

    Raises
    ------
    BadData
        It cannot be read.
    """
    try:
        yield from map(read_line, whole_lines(path))
    except OSError as error:
        raise _unreadable(path.name, error) from None


def read_folder(workbook: Path, lesson: str = "*") -> dict[str, list[Line]]:
    """Return the lines of every logbook file of a lesson (or all), by file name.

    Raises
    ------
    BadData
        One cannot be read.
    """
    folder = workbook / FOLDER
    try:
        paths = [path for path in sorted(folder.glob(f"{lesson}.*.jsonl")) if path.is_file()]
    except OSError as error:
        raise _unreadable(folder.name, error) from None
    return {path.name: list(read_file(path)) for path in paths}


def _unreadable(name: str, error: OSError) -> BadData:
    why = error.strerror or type(error).__name__
    return BadData(f"{name} cannot be read ({why}). Is the stick or share still there? Look, then try once more.")
