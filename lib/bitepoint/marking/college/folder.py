"""The class folders of a college: which there are, and which cannot be marked before anything of theirs is read."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name, key_of
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.marking.rehearsal.place import CLASS, HAND_INS, REGISTER, ROSTER, rehearsal_of
from bitepoint.printable import printable

_NOT_A_CLASS = "__MACOSX"
_HAND_IN = (".zip", ".ipynb", ".jsonl")


class ClassPlace(Struct, frozen=True, kw_only=True):
    """Where a class lies: its folder's name, the folder, its class word, and how much was handed in [bytes]."""

    name: str
    folder: Path
    word: str
    size: int

    @property
    def register(self) -> Path | None:
        """The register in the class folder, None when there is none."""
        return self.folder / REGISTER if (self.folder / REGISTER).is_dir() else None


class Refused(Struct, frozen=True, kw_only=True):
    """A class that is not marked, and why: one line that says what to do."""

    name: str
    why: str


def find_classes(college: Path, *, leave_out: Path | None = None) -> tuple[list[ClassPlace], list[Refused], list[str]]:
    """Return the classes in a folder, those that cannot be marked, and lines about what else lies there.

    A class is a folder with class.toml, roster.csv or hand-ins in it. `leave_out` is the folder of the results.

    Raises
    ------
    BadInput
        The folder cannot be listed or has no class in it, or has a register, which is of no single class.
    """
    try:
        inside = sorted(college.iterdir())
    except OSError as error:
        raise BadInput(
            f"{college.name}: cannot be listed ({error.strerror}). Name the folder of the classes."
        ) from None
    found: list[ClassPlace] = []
    refused: list[Refused] = []
    beside: list[str] = []
    loose: list[Path] = []
    for path in inside:
        name = printable(path.name)
        if path.name.startswith((".", _NOT_A_CLASS)) or (leave_out and path.resolve() == leave_out.resolve()):
            continue
        if path.is_symlink():
            beside.append(f"{name}: is a link and was not followed. Put the folder itself there.")
        elif not path.is_dir():
            loose += [path] if path.suffix.casefold() in _HAND_IN else []
        else:
            try:
                if any((path / part).exists() for part in (CLASS, ROSTER, HAND_INS)):
                    found.append(_class_in(path))
                else:
                    beside.append(f"{name}: is no class folder (no {CLASS}, {ROSTER} or {HAND_INS} in it), left alone.")
            except BadInput as error:
                refused.append(Refused(name=name, why=str(error)))
            except OSError as error:
                refused.append(
                    Refused(name=name, why=f"cannot be read ({error.strerror}). Check that you may read it.")
                )
    if not found and not refused:
        raise BadInput(
            f"{college.name}: has no class folder in it. A class folder has {CLASS}, {ROSTER} and {HAND_INS}; "
            "name the folder that they lie in."
        )
    if loose:
        beside.append(
            f"{len(loose)} {'hand-in lies' if len(loose) == 1 else 'hand-ins lie'} outside every class folder and counted "
            f"for nobody. Put what lies there into {HAND_INS} of its class."
        )
    same = dict(_of_one_word(found))
    refused += [Refused(name=place.name, why=same[place.name]) for place in found if place.name in same]
    return [place for place in found if place.name not in same], refused, beside


def _class_in(folder: Path) -> ClassPlace:
    for part in (CLASS, ROSTER):
        if not (folder / part).is_file():
            raise BadInput(f"has no {part}. Put it back from “bitepoint class new”, or from a copy.")
    try:
        word = checked_name(read_toml_file(folder / CLASS, dict).get("class_word", ""), "The class word")
    except BadInput as error:
        said = str(error)
        raise BadInput(
            f"{CLASS}: {said if said.endswith('.') else f'{said}. Write one “key = value” a line.'}"
        ) from None
    if not (folder / HAND_INS).is_dir():
        raise BadInput(f"has no folder {HAND_INS}. Make one and put what the class handed in into it.")
    return ClassPlace(name=folder.name, folder=folder, word=word, size=_size(folder / HAND_INS))


def _size(folder: Path) -> int:
    """Return about how much lies in a folder, so that the largest class can be begun first."""
    try:
        return sum(path.lstat().st_size for path in folder.iterdir())
    except OSError:
        return 0


def _of_one_word(found: Sequence[ClassPlace]) -> Iterator[tuple[str, str]]:
    """Yield each class that has the class word of another, with the line that says so.

    Ids and figures are then those of the other class too, so that a hand-in in the wrong folder would count. Invented
    classes all have one word.
    """
    by_word: dict[str, list[ClassPlace]] = {}
    for place in found:
        if not rehearsal_of(place.folder):
            by_word.setdefault(key_of(place.word), []).append(place)
    for places in by_word.values():
        for place in places if len(places) > 1 else ():
            others = ", ".join(other.name for other in places if other is not place)
            yield (
                place.name,
                f"has the class word {place.word}, as {others} has, so nobody can tell whose hand-ins these are. Take the "
                f"copy away, or write into {CLASS} the word that this class worked with.",
            )
