"""A job closed by a supervisor: what the record does not say is named, and left open only with a reason."""

from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.job.events import Closed
from bitepoint.job.missing_entries import missing
from bitepoint.job.reading import read_job
from bitepoint.job.recording import needs_reason, record, said
from bitepoint.job.state import JobEntry
from bitepoint.workshop.people import same_person


def close(folder: Path, *, supervisor: str, reason: str = "") -> JobEntry:
    """Close a job; afterwards it takes notes only.

    Raises
    ------
    ReasonNeeded
        Something is not done or not said, and no reason is given.
    BadInput
        It is closed already, or the supervisor is who did the work.
    """
    now = read_job(folder)
    name = said("supervisor", supervisor)
    if now.closed:
        raise BadInput(
            f"This job was closed by {now.closed.supervisor} already. Print it: bitepoint job print {folder}"
        )
    if now.problems:
        raise BadInput(f"The record does not hold: {now.problems[0]} See: bitepoint job verify {folder}")
    if now.opened.by and same_person(name, now.opened.by):
        raise BadInput(f"{name} does the work. A supervisor closes the job.")
    left = missing(now)
    shown = (*left[:3], f"{len(left) - 3} more: bitepoint job open {folder}.") if len(left) > 3 else left
    needs_reason(shown, reason)
    return record(folder, Closed(supervisor=name, left_open=left, reason=reason.strip() if left else ""))
