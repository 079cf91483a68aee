"""A job begun: a folder with the sheet's own text in it, and the first line of its record."""

from hashlib import sha256
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadData, BadInput, NotRecorded
from bitepoint.job.events import Opened, PersonalKept
from bitepoint.job.job_file import JobFile
from bitepoint.job.reading import read_job
from bitepoint.job.side_file import keep, read_side_file, refuse_personal
from bitepoint.job.state import PERSONAL, RECORD, SHEET
from bitepoint.logbook.locking import locked
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.workshop.datafiles import data_files
from bitepoint.workshop.own_sheets.own_sheet import OwnSheet, own_sheet_from
from bitepoint.workshop.vehicles import vehicle, vehicles

_OURS = {SHEET, PERSONAL, "job.lock", "personal.lock", "tools.toml", "desktop.ini", "thumbs.db"}
_LONGEST = 2_000


class NewJob(Struct, frozen=True, kw_only=True):
    """What is said when a job is begun: who does it, the complaint in the driver's own words, the mileage."""

    by: str = ""
    complaint: str = ""
    mileage_km: int | None = None


def open_on_sheet(folder: Path, sheet: Path, said: NewJob, personal: dict[str, str] | None = None) -> None:
    """Begin a job on a college's own sheet.

    Raises
    ------
    BadInput
        The sheet is not checked, or no own sheet; or the folder holds other things, or a job already.
    NotRecorded
        The folder cannot be written.
    """
    if str(sheet).upper() in vehicles() and not sheet.exists():
        letter = str(sheet).upper()
        raise BadInput(
            f"{letter} is a training vehicle: its figures are invented and never for a car. A job needs a sheet of your own "
            f"(bitepoint vehicle new FILE). To try the record out: bitepoint job new {folder} --training {letter}"
        )
    content = _read(sheet)
    if b"[entered]" not in content:
        raise BadInput(
            f"{sheet.name} says nowhere who entered it, so it is no sheet of your own. Begin one: bitepoint vehicle new FILE"
        )
    try:
        own = own_sheet_from(content)
    except BadInput as error:
        raise BadInput(f"{sheet.name}: {error}") from None
    _refuse_unchecked(own, sheet)
    assert own.checked
    opened = Opened(
        sheet=sheet.name,
        sheet_sha256=sha256(content).hexdigest(),
        figures=own.figures,
        vehicle=own.vehicle.id,
        entered_by=own.entered.by,
        checked_by=own.checked.by,
        document=own.entered.document,
        pages=own.entered.pages,
        by=said.by,
        complaint=said.complaint,
        mileage_km=said.mileage_km,
    )
    _write(folder, content, opened, personal or {})


def open_for_training(folder: Path, letter: str, said: NewJob, personal: dict[str, str] | None = None) -> None:
    """Begin a job on a training vehicle, to try the record out: every page keeps the frame of invented figures.

    Raises
    ------
    BadInput, BadData, NotRecorded
        There is no such vehicle; or as `open_on_sheet`.
    """
    v = vehicle(letter.strip().upper())
    path = data_files().path(f"vehicles/{v.id.casefold()}.toml")
    content = path.read_bytes()
    opened = Opened(
        sheet=path.name,
        sheet_sha256=sha256(content).hexdigest(),
        figures="",
        vehicle=v.id,
        training=v.id,
        by=said.by,
        complaint=said.complaint,
        mileage_km=said.mileage_km,
    )
    _write(folder, content, opened, personal or {})


def keep_personal(folder: Path, fields: dict[str, str]) -> None:
    """Put customer, telephone, registration or identification number into the side file, and their salted hashes into the record."""
    if read_job(folder).erased:
        raise BadInput("The personal data of this job were erased, so none are added any more.")
    side = keep(folder, fields)
    JobFile(folder).add(PersonalKept(hashes={key: side.hashes()[key] for key in fields}))


def _refuse_unchecked(own: OwnSheet, sheet: Path) -> None:
    if own.checked:
        return
    why = "was changed since it was checked" if own.changed_since else "has not been checked by a second person"
    raise BadInput(
        f"{sheet.name} {why}, so no job is begun on it. When a second person has compared every figure with the document: "
        f'bitepoint vehicle check {sheet} --checked-by "NAME"'
    )


def _read(sheet: Path) -> bytes:
    try:
        with sheet.open("rb") as file:
            return file.read(200_001)
    except OSError as error:
        raise BadData(f"{sheet.name}: cannot be read ({error.strerror}). Check where it lies.") from None


def _write(folder: Path, content: bytes, opened: Opened, personal: dict[str, str]) -> None:
    """Sheet and side file first, the record's first line last: whatever stops in between is begun again in the same folder."""
    if len(opened.complaint) > _LONGEST or opened.mileage_km is not None and not 0 <= opened.mileage_km <= 3_000_000:
        raise BadInput(f"The complaint must be at most {_LONGEST} characters, the mileage 0 to 3,000,000 km.")
    _refuse_other(folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        # Two who begin one job at once: the second finds it begun.
        with locked(folder / "begun.lock", timeout=20):
            _refuse_other(folder)
            write_in_one_step(folder / SHEET, content)
            side = keep(folder, personal) if personal else read_side_file(folder)
            for text in (opened.complaint, opened.by):
                refuse_personal(side, text)
            JobFile(folder).add(opened)
    except NotRecorded:
        raise
    except OSError as error:
        raise NotRecorded(f"{folder} cannot be written ({error.strerror or error}). Name another folder.") from None
    if side and side.fields:
        JobFile(folder).add(PersonalKept(hashes=side.hashes()))


def _refuse_other(folder: Path) -> None:
    # Half a first line is a beginning that was stopped: it is set aside when the job is begun again.
    if folder.is_dir() and JobFile(folder).lines():
        raise BadInput(f"{folder} holds a job already. See it: bitepoint job open {folder}")
    if folder.exists() and not folder.is_dir():
        raise BadInput(f"{folder} is a file, not a folder. Name a new folder.")
    if folder.is_dir() and any(_is_other(path) for path in folder.iterdir()):
        raise BadInput(f"{folder} has other files in it. Name a new folder inside it, such as: {folder / 'job-1'}")


def _is_other(path: Path) -> bool:
    name = path.name.casefold()
    return not (name in _OURS or name == RECORD or name.startswith(".") or ".torn-" in name or name == "begun.lock")
