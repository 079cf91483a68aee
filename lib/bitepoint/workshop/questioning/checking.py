"""What is said of an own sheet, and what two people write into it: answers to questions, and the check against the document."""

import os
from contextlib import suppress
from datetime import date
from pathlib import Path

import msgspec

from bitepoint.errors import BadInput
from bitepoint.workshop.own_sheets.own_sheet import OwnSheet, own_sheet_from, read_own_sheet
from bitepoint.workshop.questioning.questioned import Questioned, questioned

_SHOWN = 200


def open_questions(sheet: OwnSheet) -> list[Questioned]:
    """Return what is questioned and not answered."""
    return questioned(sheet.vehicle, {one.key for one in sheet.answered})


def looked_at(path: Path) -> tuple[list[str], bool]:
    """Return what is said of a sheet, line by line, and whether it is checked and nothing is questioned.

    Raises
    ------
    BadData
        The sheet cannot be read.
    """
    sheet = read_own_sheet(path)
    asked = open_questions(sheet)
    lines = [f"{sheet.vehicle.id}: entered by {sheet.entered.by} from {sheet.entered.document}, {sheet.entered.pages}."]
    if sheet.missing:
        lines.append(f"To look up, {len(sheet.missing)}: {', '.join(sheet.missing[:_SHOWN])}.")
    lines += [f"Questioned: {one.key}: {one.says}" for one in asked]
    lines.append(_checked(sheet, path))
    return lines, not asked and sheet.checked is not None


def _checked(sheet: OwnSheet, path: Path) -> str:
    if sheet.checked:
        return f"Checked by {sheet.checked.by} on {sheet.checked.date.isoformat()}. The vehicle's repair data comes first all the same."
    why = "A figure was changed since it was checked. " if sheet.changed_since else ""
    return (
        f"NOT CHECKED. {why}When a second person has compared every figure with the document: "
        f'bitepoint vehicle check {path} --checked-by "NAME"'
    )


def answer_question(path: Path, key: str, *, by: str, why: str) -> None:
    """Write into a sheet that a questioned figure stands in the document as it was entered.

    Raises
    ------
    BadInput
        That figure is not questioned, or nobody is named, or nothing is said.
    """
    asked = {one.key for one in open_questions(read_own_sheet(path))}
    if key not in asked:
        raise BadInput(f"{key[:60]} is not questioned. Questioned are: {', '.join(sorted(asked)) or 'none'}.")
    _add(path, f"\n[[answered]]\nkey = {_text(key)}\nby = {_text(by)}\nwhy = {_text(why)}\n")


def record_check(path: Path, by: str) -> None:
    """Write into a sheet that a second person has compared every figure with the document.

    Raises
    ------
    BadInput
        It is the person who entered them, or something is questioned and not answered.
    """
    sheet = read_own_sheet(path)
    asked = open_questions(sheet)
    if asked:
        more = f" and {len(asked) - 1} more" if len(asked) > 1 else ""
        raise BadInput(
            f"{path.name}: {asked[0].key}{more} is questioned. Look at the document again; correct the figure, or answer: "
            f'bitepoint vehicle check {path} --answer {asked[0].key} --by NAME --why "page, what stands there"'
        )
    content = path.read_bytes()
    if sheet.checked or sheet.changed_since:
        content = _without_check(content)
    lines = f"\n[checked]\nby = {_text(by)}\ndate = {date.today().isoformat()}\nfigures = {_text(sheet.figures)}\n"
    _write(path, content, lines)


def _without_check(content: bytes) -> bytes:
    """Return a sheet's text without an earlier check: without the lines of its table, up to the next one."""
    kept, inside = [], False
    for line in content.decode("utf-8-sig").splitlines():
        if line.lstrip().startswith("["):
            inside = "".join(line.split("#")[0].split()) == "[checked]"
        if not inside:
            kept.append(line)
    return ("\n".join(kept).rstrip() + "\n").encode("utf-8")


def _add(path: Path, text: str) -> None:
    _write(path, path.read_bytes(), text)


def _write(path: Path, content: bytes, text: str) -> None:
    """Add lines at the end of a sheet's text and put it in the sheet's place, once it is sure that it can be read with them."""
    whole = content + (b"" if content.endswith(b"\n") else b"\n") + text.encode("utf-8")
    part = path.with_name(f".{path.name[:40]}.part")
    try:
        own_sheet_from(whole)
        with part.open("wb") as file:
            file.write(whole)
            file.flush()
            # Else a power cut after the move could leave an empty sheet in the place of the old one.
            with suppress(OSError):
                os.fsync(file.fileno())
        part.replace(path.resolve())
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None
    except OSError as error:
        raise BadInput(f"{path.name} cannot be written ({error.strerror}). Check its folder.") from None
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


def _text(value: str) -> str:
    return msgspec.json.encode(value).decode("utf-8").replace("\x7f", "\\u007f")
