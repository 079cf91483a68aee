"""Where a rehearsal lies: its folder is known by its note, and what is recorded about it stays in it."""

from pathlib import Path

from bitepoint.errors import BitepointError
from bitepoint.logbook.identity import REHEARSAL, key_of
from bitepoint.logbook.toml_file import read_toml_file

HAND_INS, ROSTER, CLASS, TRUTH, REGISTER = "hand-ins", "roster.csv", "class.toml", "truth.csv", "register"
PLANTED, CODES, TRUTH_RECALL = "planted.csv", "codes.csv", "truth-recall.csv"
NOTE = "rehearsal.txt"
NOTE_TEXT = "An invented class, made by “bitepoint rehearse”. Nobody did this work. This folder may be made anew.\n"


def rehearsal_of(path: Path) -> Path | None:
    """Return the folder of the rehearsal that a file or folder is part of, None when it is part of none.

    A note alone makes no rehearsal: a learner could hand one in. The class file beside it must have the class word that
    invented classes have.
    """
    place = path.expanduser().resolve()
    return next((folder for folder in (place, *place.parents) if _is_rehearsal(folder)), None)


def _is_rehearsal(folder: Path) -> bool:
    if not (folder / NOTE).is_file():
        return False
    try:
        return key_of(str(read_toml_file(folder / CLASS, dict).get("class_word", ""))) == REHEARSAL
    except (OSError, BitepointError):
        return False


def register_for(*paths: Path) -> Path:
    """Return the register that goes with files: the rehearsal's when all are of one, else “register” beside you."""
    found = {rehearsal_of(path) for path in paths}
    (only,) = found if len(found) == 1 else (None,)
    return only / REGISTER if only else Path(REGISTER)


def without_register(path: Path) -> Path:
    """Return what of a path is to be marked: of a whole rehearsal its hand-ins, without register and results."""
    return path / HAND_INS if rehearsal_of(path) == path.expanduser().resolve() else path


def next_steps(folder: Path, *, planted: bool = False, weeks: bool = False, workbooks: bool = False) -> list[str]:
    """Return the whole lines to type once a rehearsal is made."""
    hand_ins, codes, roster, group = (_typed(folder / name) for name in (HAND_INS, CODES, ROSTER, CLASS))
    if workbooks:
        return [f"bitepoint board {hand_ins} --class-file {group} --roster {roster} --names"]
    mark = f"bitepoint mark {hand_ins} --roster {roster} --class-file {group} --out {_typed(folder / 'results')}"
    if weeks:
        return [mark, f"bitepoint warm-up {_typed(folder / 'results')} --out {_typed(folder / 'warm-up')}"]
    return [f"bitepoint note-codes {codes}", mark] if planted else [mark]


def _typed(path: Path) -> str:
    return f'"{path}"' if any(c.isspace() for c in str(path)) else str(path)
