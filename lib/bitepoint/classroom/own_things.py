"""What an instructor names for a new class beside the training vehicles: own sheets, checked, and own questions."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from bitepoint.bank.coverage import left_out
from bitepoint.bank.own import FILE as QUESTIONS
from bitepoint.bank.own_checks import Checked, check_questions
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_vehicles
from bitepoint.logbook.own_files import keep, use_kept, use_shipped
from bitepoint.questions.draw import STANDARD
from bitepoint.workshop.own_sheets.own_sheet import check_checked

_SHOWN = 12


def own_things(vehicles: str, questions: Path | None = None) -> tuple[tuple[str, ...], dict[str, bytes]]:
    """Return the letters of a class's cars, and its own files by the names they have in the class.

    Parameters
    ----------
    vehicles
        Letters and files of own sheets, with commas between.
    questions
        File of own questions, or None.

    Raises
    ------
    BadInput
        A sheet is not checked by a second person, a question cannot be used, or a file cannot be read.
    """
    letters, files = [], {}
    for part in filter(None, map(str.strip, vehicles.split(","))):
        if not part.casefold().endswith(".toml"):
            letters.append(part.upper())
            continue
        letter, content = _checked_sheet(Path(part).expanduser())
        letters.append(letter)
        files[f"vehicles/{letter.casefold()}.toml"] = content
    if questions:
        files[QUESTIONS] = _usable(questions, questions_tried(questions, letters, files))
    return tuple(letters), files


def questions_tried(path: Path, letters: Sequence[str], files: Mapping[str, bytes]) -> Checked:
    """Return what checking a file of own questions came to, drawn for a class on these cars; `files` hold its own sheets.

    Raises
    ------
    BadInput
        There is no such car.
    """
    use_kept(keep(files)) if files else use_shipped()
    return check_questions(path, cars=checked_vehicles(tuple(letters), "--vehicles"))


def _checked_sheet(path: Path) -> tuple[str, bytes]:
    sheet = check_checked(path)
    return sheet.vehicle.id, _read(path)


def _usable(path: Path, found: Checked) -> bytes:
    if found.refused:
        more = len(found.refused) - 1
        rest = f" {more} more like it." if more else ""
        raise BadInput(f"{found.refused[0]}{rest} All of it says: bitepoint exercise check {path}")
    return _read(path)


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise BadInput(f"{path.name} cannot be read ({error.strerror}). Check where it lies.") from None


def said_of_left_out(cars: Sequence[str], lessons: Sequence[str] = ()) -> list[str]:
    """Return what an instructor is told of the exercises that no car of the class can serve; nothing over standard cars."""
    if tuple(cars) == STANDARD:
        return []
    gone = left_out(cars, lessons)
    if not gone:
        return []
    reasons: dict[str, list[str]] = {}
    for id, reason in gone.items():
        reasons.setdefault(reason, []).append(id)
    return [
        f"Left out, {len(gone)} exercises that no car of this class can serve:",
        *(
            f"  {reason} ({', '.join(ids[:_SHOWN])}{' …' if len(ids) > _SHOWN else ''})"
            for reason, ids in reasons.items()
        ),
    ]
