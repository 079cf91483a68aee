"""A workbook: the folder of one learner, with the lessons and a file that says whose it is."""

from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadData, BadInput, CannotRun
from bitepoint.logbook import Identity, read_folder
from bitepoint.logbook.identity import FILE, SELF_STUDY, read_identity, same_learner, write_identity
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.places import course
from bitepoint.workbook.notebooks import fingerprint, read_notebook
from bitepoint.workbook.shipped_lessons import read_lesson_files, write_lesson_files

STAFF, FIRST_FOR_STAFF = "staff", "marking.ipynb"
_OF_NO_MATTER = {"desktop.ini", "thumbs.db"}


def shipped_lessons() -> list[Path]:
    """Return the lessons as shipped, in order.

    Raises
    ------
    CannotRun
        The installation has none.
    """
    found = sorted(course().glob("*.ipynb"))
    if not found:
        raise CannotRun("The lessons are missing from this installation. Install bitepoint again.")
    return found


def put_staff_notebooks(folder: Path) -> None:
    """Copy the notebooks for staff into `staff` of a folder; nothing is written over.

    Raises
    ------
    BadInput
        The folder cannot be written.
    """
    shipped = sorted((course() / STAFF).glob("*.ipynb"))
    try:
        (folder / STAFF).mkdir(parents=True, exist_ok=True)
        for notebook in shipped:
            if not (folder / STAFF / notebook.name).exists():
                write_in_one_step(folder / STAFF / notebook.name, notebook.read_bytes())
    except OSError as error:
        raise BadInput(
            f"{folder / STAFF} cannot be written ({error.strerror or error}). Name another folder."
        ) from None


def make_workbook(folder: Path, identity: Identity) -> list[str]:
    """Make a workbook, or complete one: write who it belongs to and copy the lessons that are missing.

    A file that is there is never written over. Returns one sentence for each lesson that was put back, and one where the
    folder was nobody's yet.

    Raises
    ------
    BadInput
        The folder holds other files, is another learner's, or cannot be written.
    CannotRun
        The installation has no lessons.
    """
    claim = claim_folder(folder, identity)
    return [*claim.said, *put_missing_lessons(folder, claim)]


class ClaimedFolder(Struct, frozen=True):
    """A folder that is its learner's now: whether it was a workbook before, and what there is to say of it, in sentences."""

    known: bool
    said: tuple[str, ...]


def claim_folder(folder: Path, identity: Identity) -> ClaimedFolder:
    """Make the folder of a workbook and write who it belongs to.

    Raises
    ------
    BadInput
        The folder holds other files, is another learner's, or cannot be written.
    CannotRun
        The installation has no lessons.
    """
    shipped_lessons()
    before, fresh = readable_owner(folder), not (folder / FILE).is_file()
    if before is None and fresh:
        _check_free(folder)
    else:
        check_owner(folder, identity)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        write_identity(identity, folder)
    except OSError as error:
        raise _cannot_be_written(folder, error) from None
    said = ""
    if before is None and not fresh:
        said = f"{FILE} could not be read any more. Now it says again who works here: {identity.learner}."
    elif before and not same_learner(before, identity):
        said = f"Nobody had said who works in {folder}. Now it is {identity.learner} in class {identity.class_word}."
    return ClaimedFolder(before is not None, (said,) if said else ())


def put_missing_lessons(folder: Path, claim: ClaimedFolder) -> list[str]:
    """Copy the lessons that a claimed folder lacks; return which were put back, in sentences.

    Raises
    ------
    BadInput
        The folder cannot be written.
    """
    try:
        added = _copy_missing(folder, shipped_lessons())
    except OSError as error:
        raise _cannot_be_written(folder, error) from None
    return [f"{name} was not there; a fresh one was put in." for name in added] if claim.known else []


def _cannot_be_written(folder: Path, error: OSError) -> BadInput:
    return BadInput(
        f"{folder} cannot be written ({error.strerror or error}). Name a folder of your own: bitepoint open FOLDER"
    )


def owner(folder: Path) -> Identity | None:
    """Return whose workbook this is, None if it is none yet.

    Raises
    ------
    BadData
        Its workbook.toml cannot be used.
    """
    path = folder / FILE
    return read_identity(path) if path.is_file() else None


def readable_owner(folder: Path) -> Identity | None:
    """Return whose workbook this is, None also where its workbook.toml cannot be used."""
    try:
        return owner(folder)
    except BadData:
        return None


def _check_free(folder: Path) -> None:
    if folder.exists() and not folder.is_dir():
        raise BadInput(f"{folder} is a file, not a folder. Name a new folder: bitepoint open FOLDER")
    if folder.is_dir() and any(_is_other(path) for path in folder.iterdir()):
        raise BadInput(
            f"{folder} has other files in it and is no course folder. Name a new folder inside it, "
            f'such as: bitepoint open "{folder / "clutch-course"}"'
        )


def _is_other(path: Path) -> bool:
    name = path.name.casefold()
    return not (name.startswith(".") or name.endswith(".toml") or name in _OF_NO_MATTER)


def other_owner(folder: Path, identity: Identity) -> Identity | None:
    """Return whose folder this is when it is not this learner's; None too where nobody has begun to work in it.

    Where its workbook.toml cannot be used, the logbook tells.
    """
    if (folder / FILE).is_file() and readable_owner(folder) is None:
        return _other_writer(folder, identity)
    now = owner(folder)
    if now is None or same_learner(now, identity):
        return None
    nobody = (now.learner, now.class_word) == (SELF_STUDY, SELF_STUDY)
    return None if nobody and not any(read_folder(folder).values()) else now


def _other_writer(folder: Path, identity: Identity) -> Identity | None:
    lines = (line for found in read_folder(folder).values() for line in found)
    wrote = (Identity(learner=line.record.learner, class_word=line.record.class_word) for line in lines if line.record)
    return next((one for one in wrote if not same_learner(one, identity)), None)


def check_owner(folder: Path, identity: Identity) -> None:
    """Refuse a folder that is another learner's.

    Raises
    ------
    BadInput
        It is; names both.
    """
    if other := other_owner(folder, identity):
        raise BadInput(
            f"{folder} is the course folder of {other.learner} in class {other.class_word}. "
            f"Name another folder for {identity.learner} in class {identity.class_word}."
        )


def _copy_missing(folder: Path, lessons: list[Path]) -> list[str]:
    record = read_lesson_files(folder)
    added = []
    for lesson in lessons:
        target = folder / lesson.name
        if target.exists() or target.is_symlink():
            continue
        mark = fingerprint(read_notebook(lesson))
        record.put(target, lesson)
        record.offered[lesson.name] = mark
        added.append(lesson.name)
    if added:
        write_lesson_files(folder, record)
    return added
