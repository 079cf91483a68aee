"""Who is asking: the workbook's own file `workbook.toml`, found upward from the notebook's folder."""

import re
import unicodedata
from hashlib import blake2b
from pathlib import Path
from typing import Literal

import msgspec
from msgspec import Struct

from bitepoint.errors import BadData, BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.logbook.own_files import use_kept, use_shipped
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.questions.draw import STANDARD
from bitepoint.workshop.vehicles import vehicles

FILE = "workbook.toml"
PRACTICE = "practice"
SELF_STUDY = "self-study"
"""Learner and class of whoever has not said who they are."""
REHEARSAL = "rehearsal"
"""Class word of every invented class, and of no other: what is practised touches no class of one's own."""
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,31}", re.ASCII)
_NUMBERED = re.compile(r"L(\d{1,3})-([A-Z])", re.ASCII)
_RESERVED = {"con", "prn", "aux", "nul", *(f"{d}{i}" for d in ("com", "lpt") for i in range(10))}
_CHECK_LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"
Feedback = Literal["at once", "after hand-in"]


class Identity(Struct, frozen=True, kw_only=True):
    """A learner in a class. `folder` is the workbook; None for the practice learner, of whom nothing is kept.

    `vehicle` is the letter of the learner's car as the class recorded it, "" where the rule over the standard cars
    gives it; `vehicles` are the cars of the class. `bank` is the digest that a sitting is bound to,
    `clock_ahead_s` how far the laptop's clock was ahead of the room's when the sitting was opened [s], where that was typed.
    `own` is the digest of the class's own files, "" where it has none.
    """

    learner: str
    class_word: str
    feedback: Feedback = "at once"
    sitting: str = ""
    title: str = ""
    vehicle: str = ""
    vehicles: tuple[str, ...] = STANDARD
    bank: str = ""
    clock_ahead_s: int | None = None
    own: str = ""
    folder: Path | None = None

    @property
    def kept(self) -> bool:
        """Whether answers are kept in a logbook."""
        return self.folder is not None


class _File(Struct, frozen=True, kw_only=True):
    learner: str
    class_word: str
    feedback: Feedback = "at once"
    sitting: str = ""
    title: str = ""
    vehicle: str = ""
    vehicles: tuple[str, ...] = STANDARD
    bank: str = ""
    clock_ahead_s: int | None = None
    own: str = ""


def check_feedback(sitting: str, feedback: Feedback) -> None:
    """Refuse a sitting that would tell right and wrong at once: its feedback comes after the hand-in, always.

    Raises
    ------
    BadInput
        There is a sitting word and feedback at once.
    """
    if sitting and feedback != "after hand-in":
        raise BadInput(
            f"The sitting {sitting[:32]} has feedback at once, and a sitting shows none before the hand-in. "
            'Write feedback = "after hand-in".'
        )


def practice_learner() -> Identity:
    """Return the learner of the course as shipped: the same figures for everyone, nothing kept."""
    return Identity(learner=PRACTICE, class_word=PRACTICE)


def checked_name(text: object, what: str) -> str:
    """Return a learner id or class word if it is one, in NFC.

    Raises
    ------
    BadInput
        It is empty, too long, has other characters, ends with a dot, or is a name that a system reserves.
    """
    name = unicodedata.normalize("NFC", text) if isinstance(text, str) else ""
    stem = name.partition(".")[0].casefold()
    if not _NAME.fullmatch(name) or name.endswith(".") or stem in _RESERVED:
        raise BadInput(
            f"{what} {str(text)[:40]!r} cannot be used. Use 1 to 32 letters, digits, dots, hyphens or underscores, "
            "such as L07-K, starting with a letter or digit."
        )
    return name


def checked_class_word(text: object) -> str:
    """Return the word of a class that somebody sets up or opens.

    Raises
    ------
    BadInput
        It cannot be a class word, or is the one of invented classes.
    """
    word = checked_name(text, "The class word")
    if word.casefold() == REHEARSAL:
        raise BadInput(f"The class word {word!r} is kept for invented classes to practise on. Choose another word.")
    return word


def key_of(name: str) -> str:
    """Return what ids and class words are compared by: without regard to capitals.

    No id has other letters than ASCII ones. A name out of a line that has some is nobody's, and stays so: folding would
    make a long s, a sharp s or a Kelvin sign the letters of somebody else's id.

    Examples
    --------
    >>> key_of("L07-K"), key_of("ſtrasse") == key_of("strasse")
    ('l07-k', False)
    """
    key = name.casefold()
    return key if name.isascii() or not key.isascii() else name


def same_name(a: str, b: str) -> bool:
    """Whether two ids or class words are the same: compared without regard to capitals."""
    return key_of(a) == key_of(b)


def same_learner(a: Identity, b: Identity) -> bool:
    """Whether two identities are one learner in one class."""
    return same_name(a.learner, b.learner) and same_name(a.class_word, b.class_word)


def check_letter(class_word: str, number: int) -> str:
    """Return the letter that guards a learner number of this class against mistyping."""
    key = f"{class_word.casefold()}/{number}".encode()
    return _CHECK_LETTERS[blake2b(key, digest_size=8).digest()[0] % len(_CHECK_LETTERS)]


def learner_id(class_word: str, number: int) -> str:
    """Return the id of learner `number` of a class, such as L07-K."""
    return f"L{number:02d}-{check_letter(class_word, number)}"


def checked_learner(learner: object, class_word: str) -> str:
    """Return a learner id; one of the form L07-K must have the right letter for this class.

    Raises
    ------
    BadInput
        The id cannot be used, or its letter does not belong to that number in that class.
    """
    name = checked_name(learner, "The learner id")
    numbered = _NUMBERED.fullmatch(name.upper())
    if numbered:
        number, letter = int(numbered[1]), numbered[2]
        if letter != check_letter(class_word, number):
            raise BadInput(
                f"{name} does not fit class {class_word}: number and letter do not belong together. "
                "Look at your card again: number, letter and class word."
            )
        return learner_id(class_word, number)
    return name


def checked_vehicles(letters: object, where: str = "vehicles") -> tuple[str, ...]:
    """Return the cars of a class, if they are training vehicles, each once.

    Raises
    ------
    BadInput
        It is no list of letters, is empty, or names a car twice or one that is not there.
    """
    known = vehicles()
    if not isinstance(letters, (list, tuple)) or not letters or not all(isinstance(x, str) for x in letters):
        raise BadInput(f'{where} must be a list of letters of training vehicles, such as {where} = ["A", "B"].')
    for letter in letters:
        if letter not in known:
            raise BadInput(
                f"{where} names {letter[:20]!r}, which is no training vehicle and no own sheet of the class. Choose from {', '.join(known)}."
            )
        if letters.count(letter) > 1:
            raise BadInput(f"{where} names {letter} twice. Name each vehicle once.")
    return tuple(letters)


def find_workbook(start: Path) -> Identity:
    """Return who is asking: from the nearest workbook.toml upward from `start`, else the practice learner.

    Raises
    ------
    BadData
        A workbook.toml is there but cannot be used.
    """
    for folder in (start, *start.parents):
        path = folder / FILE
        if path.is_file():
            return read_identity(path)
    return practice_learner()


def read_identity(path: Path) -> Identity:
    """Read a workbook.toml.

    Raises
    ------
    BadData
        Names the file and what is wrong with it.
    """
    try:
        found = read_toml_file(path, _File)
        use_kept(found.own) if found.own else use_shipped()
        return Identity(
            learner=checked_name(found.learner, "The learner id"),
            class_word=checked_name(found.class_word, "The class word"),
            feedback=found.feedback,
            sitting=found.sitting,
            title=found.title,
            vehicle=checked_vehicles((found.vehicle,))[0] if found.vehicle else "",
            vehicles=checked_vehicles(found.vehicles),
            bank=found.bank[:40],
            clock_ahead_s=found.clock_ahead_s,
            own=found.own,
            folder=path.parent,
        )
    except (OSError, BadInput) as error:
        raise BadData(
            f"{path.name}: {str(error).removesuffix('.')}. Close the course and say in its line who you are: "
            "bitepoint open FOLDER --learner ID --class-word WORD, or --class-file with your start file; on your own "
            f"both are {SELF_STUDY}."
        ) from None


def write_identity(identity: Identity, folder: Path) -> None:
    """Write workbook.toml into a folder, replacing the old one in one step."""
    lines = ["# Who works in this folder. Change it with: bitepoint open FOLDER --learner ID --class-word WORD"]
    for key in ("learner", "class_word", "feedback", "sitting", "title", "vehicle", "bank", "own"):
        value = getattr(identity, key)
        if value:
            lines.append(f"{key} = {_toml_text(value)}")
    if identity.vehicles != STANDARD:
        lines.append(f"vehicles = [{', '.join(map(_toml_text, identity.vehicles))}]")
    if identity.clock_ahead_s is not None:
        lines.append(f"clock_ahead_s = {identity.clock_ahead_s}")
    write_in_one_step(folder / FILE, ("\n".join(lines) + "\n").encode("utf-8"))


def _toml_text(value: str) -> str:
    return msgspec.json.encode(value).decode("utf-8").replace("\x7f", "\\u007f")
