"""The date of the next round as a file for a phone's calendar: written into the workbook, and given to the page to save."""

from contextlib import suppress

from msgspec import Struct

from bitepoint.logbook import Identity
from bitepoint.logbook.identity import FILE, key_of
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.page.recall.going_round import GoingRound, local_date
from bitepoint.page.recall.remembering import Remembered
from bitepoint.recall.calendar_file import NAME, calendar_file
from bitepoint.recall.outlook import come_back
from bitepoint.recall.times import read_time


class DateFile(Struct, frozen=True):
    """A file to save: its name and its text."""

    name: str
    text: str


def date_file(going: GoingRound, learned: Remembered) -> DateFile | None:
    """Return the file with the date of the next round, None where there is none.

    Its stamp is the time of the round's last answer, so that the same round gives the same file.
    """
    at = come_back(learned.items, learned.now)
    if at is None:
        return None
    answered = [read_time(record.at) for session in going.answered for record in session.decisions]
    made = max((time for time in answered if time), default=learned.now)
    who = going.identity
    content = calendar_file(local_date(at), whose=f"{key_of(who.class_word)}/{key_of(who.learner)}", made=made)
    return DateFile(NAME, content.decode("utf-8"))


def put_date_file(identity: Identity, file: DateFile) -> None:
    """Write it into the workbook, in place of the date before; a folder that takes no file is no reason to stop anybody."""
    folder = identity.folder
    # A workbook that was moved must not come back as a ghost.
    if folder is None or not (folder / FILE).is_file():
        return
    path, content = folder / file.name, file.text.encode("utf-8")
    with suppress(OSError):
        if not (path.is_file() and not path.is_symlink() and path.read_bytes() == content):
            write_in_one_step(path, content)
