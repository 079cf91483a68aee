"""Personal data erased: side file, photos and the pages made with them go, the record says so, holds and prints without them."""

from pathlib import Path

from bitepoint.errors import NotRecorded
from bitepoint.job.events import PersonalErased, PersonalKept
from bitepoint.job.job_file import JobFile
from bitepoint.job.reading import lines_of, refuse_link
from bitepoint.job.state import PERSONAL, PHOTOS, PRINTED

WHAT_STAYS = "Copies elsewhere are not reached: backups, a phone, pages that were printed. What a disk keeps of a deleted file is not wiped."


def erase(folder: Path, *, by: str = "") -> bool:
    """Erase the personal data of a job; return whether there was anything to erase.

    The record says it first, so that an erasing that was stopped is seen and done again.

    Raises
    ------
    BadInput
        The folder holds no job, or one of its folders is a link to another place, where nothing is deleted.
    NotRecorded
        The record or a file cannot be written.
    """
    # Read without the sheet: what is personal can be erased when the job cannot be read any more.
    events = [line.record.event for line in lines_of(folder) if line.record]
    erased = any(isinstance(event, PersonalErased) for event in events)
    for name in (PHOTOS, PRINTED):
        refuse_link(folder, name)
    files = [*(folder / PHOTOS).glob("*"), *(folder / PRINTED).glob("*"), *_side_files(folder)]
    if not erased:
        fields = tuple(sorted({key for event in events if isinstance(event, PersonalKept) for key in event.hashes}))
        photos = sum(path.parent.name == PHOTOS and path.name.startswith("photo-") for path in files)
        JobFile(folder).add(PersonalErased(fields=fields, photos=photos, by=by))
    try:
        for path in files:
            path.unlink(missing_ok=True)
        for name in (PHOTOS, PRINTED):
            if (folder / name).is_dir():
                (folder / name).rmdir()
    except OSError as error:
        raise NotRecorded(
            f"{error.filename or folder} cannot be deleted ({error.strerror}). Close it, then do it again: bitepoint job erase {folder}"
        ) from None
    return bool(files) or not erased


def _side_files(folder: Path) -> list[Path]:
    """Return the side file and what a stopped writing left beside it."""
    return [path for name in (PERSONAL, f".{PERSONAL}.part") if (path := folder / name).exists() or path.is_symlink()]
