"""A class whose own sheets or questions were corrected: the new digest in class.toml, and new start files for everybody."""

import re
from pathlib import Path

from bitepoint.classroom.class_folder import CLASS, ROSTER, read_class_folder
from bitepoint.classroom.classes import START, start_toml
from bitepoint.classroom.joining import class_of
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step, write_together
from bitepoint.logbook.own_files import FOLDER, digest_of_files, files_in, use_folder

_OWN = re.compile(r'^own = "[^"\n]*"', re.M)


def renew_class(folder: Path) -> list[Path]:
    """Take the own files of a class folder as they are now; return the files written: class.toml and the start files.

    Raises
    ------
    BadInput
        The folder is no class with own files, or one of them cannot be used or is not checked; nothing is written then.
    """
    path = folder / CLASS
    if not path.is_file() or not (folder / ROSTER).is_file():
        raise BadInput(f"{folder} has no {CLASS} or no {ROSTER}. Name the folder that “bitepoint class new” made.")
    text = path.read_text(encoding="utf-8-sig")
    found = _OWN.search(text)
    if found is None:
        raise BadInput(
            f"{CLASS} names no own files, so there is nothing to renew. Own sheets are named when a class is made."
        )
    digest = digest_of_files(files_in(folder / FOLDER))
    use_folder(folder / FOLDER, digest)
    renewed = text[: found.start()] + f'own = "{digest}"' + text[found.end() :]
    # A run that is stopped after this line is done again by the same command.
    write_in_one_step(path, renewed.encode("utf-8"))
    try:
        starts = _start_files(folder)
    except BadInput:
        write_in_one_step(path, text.encode("utf-8"))
        raise
    write_together(starts)
    return [path, *starts]


def _start_files(folder: Path) -> dict[Path, bytes]:
    """Return the start file of every learner of the list."""
    group = read_class_folder(folder)
    new = class_of(group)
    return {
        folder / START / f"{one.learner}.toml": start_toml(new, one.learner, group.letter_of(one)).encode("utf-8")
        for one in group.learners
    }
