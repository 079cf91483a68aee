"""What every entry of a job goes through: its texts are short, hold nothing personal, and what is warned of has its reason."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec

from bitepoint.errors import BadInput, ReasonNeeded
from bitepoint.job.events import AnyEvent, Deviation, JobNote, SecondCheck
from bitepoint.job.job_file import JobFile
from bitepoint.job.reading import lines_of, read_job
from bitepoint.job.side_file import read_side_file, refuse_personal
from bitepoint.job.state import JobEntry
from bitepoint.workshop.people import same_person

_LONGEST = 1_000
_REASON = "If it is done all the same, ask first, then give the reason: it is kept."


def record(folder: Path, event: AnyEvent) -> JobEntry:
    """Write an event of a job; it is on the disk when this returns.

    Raises
    ------
    BadInput
        There is no job, a text is too long or holds personal data, or the job is closed.
    NotRecorded
        Folder or disk do not take it.
    """
    lines_of(folder)
    side = read_side_file(folder)
    said = msgspec.to_builtins(event)
    # Worked out by the program from figures alone, and longer than what a person types.
    said.pop("result", None)
    for text in _texts(said):
        if len(text) > _LONGEST:
            raise BadInput(
                f"A text may have {_LONGEST:,} characters, but “{text[:30]}…” has {len(text):,}. Say it shorter."
            )
        refuse_personal(side, text)
    return JobFile(folder).add(event)


def needs_reason(warned: tuple[str, ...], reason: str) -> None:
    """Ask for the reason of what is warned of.

    Raises
    ------
    ReasonNeeded
        Something is warned of, and no reason is given.
    """
    if warned and not reason.strip():
        raise ReasonNeeded(warned, _REASON)


def said(name: str, text: str) -> str:
    """Return a text that must say something.

    Raises
    ------
    BadInput
        It says nothing.
    """
    if not text.strip():
        raise BadInput(f"{name} must say something, but it is empty.")
    return text.strip()


def note(folder: Path, text: str, *, stage: str = "", by: str = "") -> JobEntry:
    """Record something in words."""
    return record(folder, JobNote(text=said("text", text), stage=stage, by=by))


def deviation(folder: Path, what: str, *, why: str, agreed_by: str, by: str = "") -> JobEntry:
    """Record what was done other than repair data or order say, why, and who agreed."""
    event = Deviation(what=said("what", what), why=said("why", why), agreed_by=said("agreed by", agreed_by), by=by)
    return record(folder, event)


def second_check(folder: Path, what: str, *, checked_by: str, by: str = "") -> JobEntry:
    """Record that a second person looked at something.

    Raises
    ------
    BadInput
        It is the person who does the work.
    """
    checker = said("checked by", checked_by)
    worker = by or read_job(folder).opened.by
    if worker and same_person(checker, worker):
        raise BadInput(f"{checker} does the work. A second person must look at it.")
    return record(folder, SecondCheck(what=said("what", what), checked_by=checker, by=by))


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from _texts(item)
    elif isinstance(value, (list, tuple)):
        for item in value:
            yield from _texts(item)
