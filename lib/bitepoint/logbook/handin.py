"""One zip for the assessor: the logbook, the lessons, who it is from and which bank it was made with."""

import io
import re
import sys
import zipfile
from datetime import UTC, datetime
from pathlib import Path

from msgspec import Struct

from bitepoint.bank.lessons import JOB_NOTEBOOK, KEEP_NOTEBOOK
from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadInput
from bitepoint.logbook.book import FOLDER, read_folder
from bitepoint.logbook.identity import FILE, read_identity
from bitepoint.logbook.one_step import write_in_one_step

HAND_IN_FOLDER, MADE_WITH = "hand-in", "made-with.toml"
_VERSION: str = sys.modules["bitepoint"].__version__
_FOR_ALL_TO_READ = 0o100644 << 16
_TIME = "%Y%m%d-%H%M%S"
_STAMPED = re.compile(r"-(\d{8}-\d{6})\.zip", re.ASCII)


class PackedWork(Struct, frozen=True):
    """A packed workbook: its file name and bytes, and where it was written, or why it was not."""

    name: str
    content: bytes
    path: Path | None
    refused: str = ""


class LastMade(Struct, frozen=True):
    """The newest hand-in in a workbook: when it was made [local time], how many there are, how many answers came since."""

    at: datetime
    made: int
    answers_since: int


def pack_hand_in(workbook: Path, *, now: datetime | None = None, into: Path | None = None) -> PackedWork:
    """Pack a workbook and write the zip into its folder for hand-ins, or into another one.

    A stick may be full or locked. Then the bytes are there all the same, to be saved elsewhere; they hold the record alone and
    not the lessons, so that they fit through where a file would not have to.

    Raises
    ------
    BadInput
        The folder is no workbook, nothing was answered yet, or a file of it cannot be read.
    """
    if not (workbook / FILE).is_file():
        raise BadInput(
            f"{workbook.name}: is no course folder (no {FILE} in it). Name the folder that “bitepoint open” made."
        )
    identity = read_identity(workbook / FILE)
    if not any(read_folder(workbook).values()):
        raise BadInput("Nothing was answered yet, so there is nothing to hand in. Answer at least one exercise first.")
    name = f"{identity.learner}-{(now or datetime.now()).strftime(_TIME)}.zip"
    content = _packed(workbook)
    target = (into or workbook / HAND_IN_FOLDER) / name
    try:
        # Its parents are not made: a workbook that was moved would come back as a ghost.
        target.parent.mkdir(exist_ok=True)
        write_in_one_step(target, content)
    except OSError as error:
        return PackedWork(name, _packed(workbook, lessons=False), None, error.strerror or str(error))
    return PackedWork(name, content, target)


def make_hand_in(workbook: Path, *, now: datetime | None = None, into: Path | None = None) -> Path:
    """Pack a workbook into hand-in/<learner>-<date>-<time>.zip, or into another folder, and return that file.

    Raises
    ------
    BadInput
        The folder is no workbook, nothing was answered yet, or the zip cannot be written.
    """
    made = pack_hand_in(workbook, now=now, into=into)
    if made.path is None:
        raise BadInput(
            f"The hand-in cannot be written into {into or workbook / HAND_IN_FOLDER} ({made.refused}). Make room there, or "
            f'name another folder: bitepoint hand-in "{workbook}" --into FOLDER'
        )
    return made.path


def last_made(workbook: Path) -> LastMade | None:
    """Return the newest hand-in that lies in a workbook, None where there is none."""
    try:
        names = [path.name for path in (workbook / HAND_IN_FOLDER).glob("*.zip")]
    except OSError:
        return None
    times = sorted(at for at in map(_made_at, names) if at)
    if not times:
        return None
    when = times[-1].astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
    records = (line.record for lines in read_folder(workbook).values() for line in lines)
    return LastMade(times[-1], len(times), sum(record.at > when for record in records if record))


def _made_at(name: str) -> datetime | None:
    found = _STAMPED.search(name)
    try:
        return datetime.strptime(found[1], _TIME) if found else None
    except ValueError:
        return None


def _packed(workbook: Path, *, lessons: bool = True) -> bytes:
    content = io.BytesIO()
    try:
        with zipfile.ZipFile(content, "w", zipfile.ZIP_DEFLATED) as archive:
            for path in _files(workbook, lessons=lessons):
                archive.writestr(_entry(path.relative_to(workbook).as_posix()), path.read_bytes())
            archive.writestr(_entry(MADE_WITH), f'bitepoint = "{_VERSION}"\nbank = "{bank_digest()}"\n')
    except OSError as error:
        where = Path(str(error.filename)).name if error.filename else workbook.name
        raise BadInput(
            f"The hand-in cannot be made: {where} cannot be read ({error.strerror or error}). Is the stick or share still there?"
        ) from None
    return content.getvalue()


def _entry(name: str) -> zipfile.ZipInfo:
    # A zip has no days before 1980 or after 2107, and a laptop with an empty battery does. When it was made stands in its name.
    entry = zipfile.ZipInfo(name)
    entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, _FOR_ALL_TO_READ
    return entry


def _files(workbook: Path, *, lessons: bool) -> list[Path]:
    logs = [p for p in sorted((workbook / FOLDER).iterdir()) if p.suffix == ".jsonl" or ".torn-" in p.name]
    # A job on a car is no lesson: whatever was typed in its notebook stays with whoever did it. What was answered on the page
    # of recall lies in its own chain; that page shows one question at a time.
    apart = (JOB_NOTEBOOK, KEEP_NOTEBOOK)
    notebooks = [p for p in sorted(workbook.glob("*.ipynb")) if lessons and not p.name.startswith(apart)]
    return [p for p in (workbook / FILE, *logs, *notebooks) if p.is_file() and not p.is_symlink()]
