"""A job read from its folder: what its record says, where it does not hold, what of the personal data is still there."""

from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.job.events import Opened, PersonalErased, PersonalKept, Photo
from bitepoint.job.job_file import JobFile, JobLine
from bitepoint.job.order import stage_states
from bitepoint.job.side_file import SideFile, read_side_file
from bitepoint.job.state import PERSONAL, PERSONAL_FIELDS, PHOTOS, RECORD, SHEET, JobEntry, WorkshopJob, is_plain_name
from bitepoint.logbook.record import chain_problems, check_code
from bitepoint.printable import printable
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from
from bitepoint.workshop.sheets import Vehicle
from bitepoint.workshop.vehicles import read_vehicle


def read_job(folder: Path) -> WorkshopJob:
    """Read a job.

    Raises
    ------
    BadInput
        The folder holds no job, or its sheet is not the one that the job was begun on.
    """
    lines = lines_of(folder)
    entries = tuple(
        JobEntry(r.n, r.at, r.hash, r.event) for line in lines if (r := line.record) is not None and not line.problem
    )
    opened = next((entry.event for entry in entries if isinstance(entry.event, Opened)), None)
    if opened is None:
        raise BadInput(f"{folder}: the record has no first line that can be read. Put back {RECORD} from a copy.")
    content = _sheet_of(folder, opened)
    own = None if opened.training else own_sheet_from(content)
    v: Vehicle = own.vehicle if own else read_vehicle(folder / SHEET)
    side, told = _side(folder)
    erased = any(isinstance(entry.event, PersonalErased) for entry in entries)
    return WorkshopJob(
        folder=folder,
        vehicle=v,
        sheet=own,
        opened=opened,
        entries=entries,
        stages=stage_states(v, entries),
        personal=None if erased or side is None else dict(side.fields),
        erased=erased,
        problems=tuple(
            printable(problem)
            for problem in (
                *(f"{RECORD}: {problem}" for problem in chain_problems(lines)),
                *told,
                *(_left_behind(folder) if erased else _personal_problems(folder, entries, side)),
            )
        ),
        check_code=check_code(entries[-1].hash),
    )


def refuse_link(folder: Path, name: str) -> None:
    """Refuse a folder of a job that is a link: nothing is written or deleted through one.

    Raises
    ------
    BadInput
        It is a link.
    """
    if (folder / name).is_symlink():
        raise BadInput(f"{folder / name} is a link to another place. Ask your supervisor to look at this folder.")


def lines_of(folder: Path) -> list[JobLine]:
    """Return the lines of a job's record.

    Raises
    ------
    BadInput
        There are none.
    """
    lines = JobFile(folder).lines() if folder.is_dir() else []
    if not lines:
        raise BadInput(
            f"{folder} holds no job (no {RECORD} with a line in it). Begin one: bitepoint job new {folder} --sheet FILE"
        )
    return lines


def _sheet_of(folder: Path, opened: Opened) -> bytes:
    path = folder / SHEET
    try:
        content = path.read_bytes()
    except OSError as error:
        raise BadInput(f"{path} cannot be read ({error.strerror}). Put the sheet back as it was.") from None
    if sha256(content).hexdigest() != opened.sheet_sha256:
        raise BadInput(
            f"{path} is not the sheet that this job was begun on ({opened.sheet}). Put it back as it was; for new figures begin a new job."
        )
    return content


def _side(folder: Path) -> tuple[SideFile | None, list[str]]:
    try:
        return read_side_file(folder), []
    except BadInput as error:
        return None, [f"{error}"]


def _personal_problems(folder: Path, entries: Sequence[JobEntry], side: SideFile | None) -> list[str]:
    """Return what of the personal data is not what the record has the hash of."""
    hashes: dict[str, str] = {}
    for entry in entries:
        if isinstance(entry.event, PersonalKept):
            hashes |= entry.event.hashes
    photos = [entry.event for entry in entries if isinstance(entry.event, Photo)]
    if side is None:
        lost = (hashes or photos) and not (folder / PERSONAL).exists()
        return (
            [
                f"{PERSONAL} is not there, though nothing was erased. Put it back, or record it: bitepoint job erase {folder}"
            ]
            if lost
            else []
        )
    found = side.hashes()
    told = [
        f"{PERSONAL}: the {PERSONAL_FIELDS.get(key, key)} is not the one that the record has. Say it again: bitepoint job personal"
        for key in {**hashes, **found}
        if hashes.get(key) != found.get(key)
    ]
    return told + [problem for photo in photos if (problem := _photo_problem(folder, photo, side))]


def _photo_problem(folder: Path, photo: Photo, side: SideFile) -> str:
    if not is_plain_name(photo.file):
        return f"{PHOTOS}/{photo.file[:60]} is no name of a photo."
    path = folder / PHOTOS / photo.file
    try:
        same = not path.is_symlink() and side.hash_of("photo", path.read_bytes()) == photo.salted_sha256
    except OSError:
        return f"{PHOTOS}/{photo.file} is not there. Put it back."
    return "" if same else f"{PHOTOS}/{photo.file} was changed after it was recorded."


def _left_behind(folder: Path) -> list[str]:
    there = (folder / PERSONAL).exists() or any((folder / PHOTOS).glob("*"))
    return [f"The erasing was stopped halfway. Do it again: bitepoint job erase {folder}"] if there else []
