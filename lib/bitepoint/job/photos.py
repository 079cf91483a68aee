"""A photo put into a job: stripped of what it says beside the picture, under a neutral name, its salted hash in the record."""

import secrets
from pathlib import Path

from bitepoint.errors import BadInput, NotRecorded
from bitepoint.job.events import Photo
from bitepoint.job.reading import read_job
from bitepoint.job.recording import record, said
from bitepoint.job.side_file import keep
from bitepoint.job.state import PHOTOS, JobEntry
from bitepoint.job.stripping import MOST_BYTES, stripped
from bitepoint.logbook.one_step import write_in_one_step


def add_photo(folder: Path, photo: Path, *, shows: str, by: str = "") -> JobEntry:
    """Copy a photo into a job and record it.

    Raises
    ------
    BadInput
        It is no photo, cannot be read, or the personal data of this job were erased.
    NotRecorded
        The folder cannot be written; then nothing is recorded.
    """
    what = said("shows", shows)
    if read_job(folder).erased:
        raise BadInput("The personal data of this job were erased, photos with them, so none is added any more.")
    content, ending = _stripped(photo)
    try:
        side = keep(folder, {})
        target = folder / PHOTOS / f"photo-{secrets.token_hex(4)}{ending}"
        target.parent.mkdir(exist_ok=True)
        if target.parent.is_symlink():
            raise BadInput(f"{PHOTOS} is a link to another place. Ask your supervisor to look at this folder.")
        write_in_one_step(target, content)
    except NotRecorded:
        raise
    except OSError as error:
        raise NotRecorded(
            f"The photo was not recorded: {folder / PHOTOS} cannot be written ({error.strerror or error}). Make room, then try again."
        ) from None
    try:
        return record(folder, Photo(file=target.name, salted_sha256=side.hash_of("photo", content), shows=what, by=by))
    except (BadInput, NotRecorded):
        target.unlink(missing_ok=True)
        raise


def _stripped(photo: Path) -> tuple[bytes, str]:
    try:
        if not photo.is_file():
            raise BadInput(f"{photo} is not there, or is no file. Check the name; with spaces in it, put it in quotes.")
        with photo.open("rb") as file:
            return stripped(file.read(MOST_BYTES + 1))
    except OSError as error:
        raise BadInput(f"{photo.name}: cannot be read ({error.strerror}). Check where it lies.") from None
    except BadInput as error:
        raise BadInput(f"{photo.name}: {error}" if photo.is_file() else f"{error}") from None


def unrecorded(folder: Path, recorded: set[str]) -> list[str]:
    """Return names of pictures that lie in the folder and in no line: left there when a computer stopped halfway."""
    there = [path.name for path in sorted((folder / PHOTOS).glob("photo-*")) if path.is_file()]
    return [name for name in there if name not in recorded]
