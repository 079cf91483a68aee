"""The file job.jsonl: one line an event, chained like a logbook's, a record type of its own."""

import sys
from collections.abc import Callable, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any

import msgspec
from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.job.events import AnyEvent, Closed, JobNote, PersonalErased, PersonalKept, Photo
from bitepoint.job.state import RECORD, JobEntry
from bitepoint.logbook.book import utc_now
from bitepoint.logbook.chain_file import ChainFile, Refusals
from bitepoint.logbook.device import device_name
from bitepoint.logbook.record import read_chained

_REFUSALS = Refusals(
    not_recorded="The entry was not recorded",
    held="Try once more.",
    no_room="Make room on the disk or move the job's folder to a place where you may write, then try again.",
    link="Ask your supervisor to look at this folder.",
)
_AFTER_CLOSING = (JobNote, PersonalErased)
_PERSONAL = (PersonalKept, Photo)


class JobRecord(Struct, frozen=True, kw_only=True):
    """What a line says. Unknown fields are kept in the line and ignored here."""

    n: int
    at: str
    event: AnyEvent
    prev: str
    hash: str
    device: str = ""
    tool: str = ""


class JobLine(Struct, frozen=True):
    """A line as found: what it says (None when unreadable) and what is wrong with it ("" when nothing)."""

    record: JobRecord | None
    problem: str = ""


def read_job_line(raw: bytes) -> JobLine:
    """Read one line; whatever is wrong with it is said in `problem`, never raised."""
    record, problem = read_chained(raw, JobRecord)
    if record and not _is_time(record.at):
        return JobLine(None, "says no time that can be read")
    return JobLine(record, problem)


def _is_time(at: str) -> bool:
    """Whether a line says when it was written: pages print the day, so that a forged line must have one."""
    try:
        return bool(date.fromisoformat(at[:10]) and datetime.fromisoformat(at))
    except ValueError:
        return False


class JobFile(ChainFile[JobLine]):
    """The record in a job's folder."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder / RECORD, read=read_job_line, refusals=_REFUSALS)

    def lines(self) -> list[JobLine]:
        """Return the lines of the record.

        Raises
        ------
        BadInput
            It cannot be read.
        """
        try:
            return super().lines()
        except OSError as error:
            raise BadInput(f"{self.path} cannot be read ({error.strerror}). Check where the job lies.") from None

    def add(self, event: AnyEvent, *, check: Callable[[Sequence[JobLine]], None] | None = None) -> JobEntry:
        """Write an event and return it as written; it is on the disk when this returns.

        Raises
        ------
        BadInput
            The job is closed and takes a note only, or `check` refuses it.
        NotRecorded
            Folder or disk do not take it; what was written before is untouched.
        """

        def allowed(lines: Sequence[JobLine]) -> None:
            there = [line.record.event for line in lines if line.record]
            if any(isinstance(one, Closed) for one in there) and not isinstance(event, _AFTER_CLOSING):
                raise BadInput("This job is closed and takes notes only. Say it as a note, or begin another job.")
            if any(isinstance(one, PersonalErased) for one in there) and isinstance(event, _PERSONAL):
                raise BadInput(
                    "The personal data of this job were erased, photos with them, so none are added any more."
                )
            if check:
                check(lines)

        record = self.append(_fields(event), check=allowed).record
        assert record is not None
        return JobEntry(record.n, record.at, record.hash, record.event)


def _fields(event: AnyEvent) -> dict[str, Any]:
    version = sys.modules["bitepoint"].__version__
    said = msgspec.to_builtins(event)
    return {"at": utc_now(), "device": device_name(), "tool": f"bitepoint {version}", "event": said}
