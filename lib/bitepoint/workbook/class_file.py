"""The class file, or the start file of one learner: a small TOML, so that nobody types a class word."""

from pathlib import Path
from typing import Any

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.class_keys import check_keys
from bitepoint.logbook.identity import Feedback, check_feedback, checked_learner, checked_name, checked_vehicles
from bitepoint.logbook.own_files import FOLDER, files_in, keep, unpacked, use_folder, use_kept, use_shipped
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.questions.draw import STANDARD


class ClassFile(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What a class file says. `feedback`: "at once" or "after hand-in"; `sitting`: word of a supervised sitting.

    `learner` and `vehicle` stand in a start file, which is one learner's alone; `vehicles` are the class's cars, `bank`
    the digest that a sitting is bound to, `own` that of the class's own files, which a start file carries in `own_files`. Those from `supervisor` on are for marking: they are checked there and only let through here, so that one file
    serves both.
    """

    class_word: str
    title: str = ""
    feedback: Feedback = "at once"
    sitting: str = ""
    learner: str = ""
    vehicle: str = ""
    vehicles: tuple[str, ...] = STANDARD
    bank: str = ""
    own: str = ""
    own_files: Any = None
    supervisor: Any = None
    pass_share: float | None = None
    due: Any = None
    zone: Any = None
    criteria: Any = None
    lessons: Any = None
    retakes: Any = None
    counts: Any = None
    appeal_days: Any = None
    appeal_to: Any = None


def read_class_file(path: Path) -> ClassFile:
    """Read a class file.

    Raises
    ------
    BadInput
        It is missing, no TOML, has an unknown key or a value that cannot be used; names the file and the key.
    """
    try:
        found = _checked_keys(path)
    except OSError as error:
        raise BadInput(f"{path.name} cannot be read ({error.strerror}). Check where it lies.") from None
    except BadInput as error:
        raise BadInput(
            f'{path.name}: {str(error).removesuffix(".")}. A class file has: class_word = "K7", and if wanted title, sitting, '
            'and feedback = "at once" or "after hand-in".'
        ) from None
    try:
        checked_name(found.class_word, "The class word")
        if found.sitting:
            checked_name(found.sitting, "The sitting word")
            check_feedback(found.sitting, found.feedback)
        if found.learner:
            checked_learner(found.learner, found.class_word)
        _use_own(path, found)
        checked_vehicles(found.vehicles)
        if found.vehicle:
            checked_vehicles((found.vehicle,), "vehicle")
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None
    return found


def _checked_keys(path: Path) -> ClassFile:
    """Read it, once its keys are those of a class file; a misspelt one is told before a missing one."""
    check_keys(read_toml_file(path, dict))
    return read_toml_file(path, ClassFile)


def _use_own(path: Path, found: ClassFile) -> None:
    """Read the class's own files from now on: those that the file carries are kept on this computer first."""
    if not found.own:
        use_shipped()
    elif found.own_files is None:
        use_folder(path.parent / FOLDER, found.own)
        keep(files_in(path.parent / FOLDER))
    else:
        use_kept(keep(unpacked(found.own_files, found.own)))
