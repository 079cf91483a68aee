"""Which folder a learner is given on a computer that others use too: their own, never another's."""

from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import checked_class_word, same_name
from bitepoint.questions.draw import STANDARD
from bitepoint.workbook.create import other_owner, owner
from bitepoint.workbook.owner import identity_in


def own_folder(
    folder: Path,
    *,
    named: bool,
    learner: str | None = None,
    class_word: str | None = None,
    class_file: Path | None = None,
) -> tuple[Path, Identity]:
    """Return the folder to open and who works in it: this one, or the learner's own beside it where nobody named one.

    Raises
    ------
    BadInput
        The folder was named and is another's: the message has the whole line to type. Or nobody can work in it like
        this, or the class word is that of invented classes.
    """
    identity = identity_in(folder, learner=learner, class_word=class_word, class_file=class_file)
    if class_word or class_file:
        # A rehearsed workbook opens without either; nobody else works under its class word.
        checked_class_word(identity.class_word)
    other = other_owner(folder, identity)
    if other is None:
        return folder, identity
    own = _beside(folder, other, identity)
    if named:
        raise BadInput(
            f"{folder} is the course folder of {other.learner} in class {other.class_word}. For {identity.learner} in class "
            f"{identity.class_word} type: {_line(own, identity, learner, class_word, class_file)}"
        )
    if owner(own) is None:
        return own, identity
    return own, identity_in(own, learner=identity.learner, class_word=class_word, class_file=class_file)


def _beside(folder: Path, other: Identity, identity: Identity) -> Path:
    """Return the first name beside a folder that is not another's: the id alone where the folder is named by one."""
    base = "" if same_name(folder.name, other.learner) else f"{folder.name}-"
    names = [f"{base}{identity.learner}", f"{base}{identity.learner}-{identity.class_word}"]
    found = (folder.with_name(name) for name in names)
    return next((path for path in found if other_owner(path, identity) is None), folder.with_name(f"{names[1]}-2"))


def _line(own: Path, identity: Identity, learner: str | None, class_word: str | None, class_file: Path | None) -> str:
    who = f" --learner {identity.learner}"
    if class_file:
        return f"bitepoint open {_quoted(own)} --class-file {_quoted(class_file)}{who if learner else ''}"
    more = identity.feedback != "at once" or identity.sitting or identity.vehicles != STANDARD
    if more and not class_word:
        # A class word alone would not say what the class decided.
        return f"bitepoint open {_quoted(own)} --class-file {identity.learner}.toml (your own start file)"
    return f"bitepoint open {_quoted(own)}{who} --class-word {identity.class_word}"


def _quoted(path: Path) -> str:
    return f'"{path}"' if " " in str(path) else str(path)
