"""Handing in from the page: the file to save, what to do with it, and what was made when."""

import base64
from pathlib import Path
from typing import Any

from bitepoint.bank.lessons import lesson
from bitepoint.errors import BitepointError
from bitepoint.logbook import Identity, check_code, read_folder
from bitepoint.logbook.device import device_name
from bitepoint.logbook.handin import PackedWork, last_made, pack_hand_in
from bitepoint.page import output

GIVE_IT = "Give that one file to your instructor as you agreed."


def made_for(identity: Identity) -> tuple[str, PackedWork | None]:
    """Make the hand-in; return what to say, and the hand-in if there is one."""
    if identity.folder is None:
        return "You work as the practice learner: there is nothing to hand in.", None
    try:
        made = pack_hand_in(identity.folder)
    except BitepointError as error:
        return str(error), None
    if made.path is None:
        return (
            f"Your folder takes no file now ({made.refused}): save {made.name} from here. {GIVE_IT}",
            made,
        )
    return f"Made: {made.name}, in your folder hand-in. {GIVE_IT}", made


def fields_of(told: str, made: PackedWork | None) -> dict[str, Any]:
    """Return what the bar above a lesson needs: a file of the workbook, or the bytes where none was written."""
    if made is None:
        return {"told": told}
    if made.path:
        return {"told": told, "name": made.name, "file": f"{made.path.parent.name}/{made.name}"}
    return {"told": told, "name": made.name, "data": base64.b64encode(made.content).decode("ascii")}


def what_next(folder: Path, key: str, made: PackedWork) -> dict[str, str]:
    """Return what to do once the file is saved, and the check code of a lesson, "" where it has no sound line of this computer."""
    next_step = f"Now look for {made.name} where your browser keeps what it downloads. {GIVE_IT}"
    lines = read_folder(folder, key).get(f"{key}.{device_name()}.jsonl", [])
    last = next((line for line in reversed(lines) if line.record), None)
    if last is None or last.record is None or last.problem:
        return {"next": next_step, "code": ""}
    code = check_code(last.record.hash)
    return {
        "next": next_step,
        "code": f"Check code to say or write down: {code}. It belongs to this lesson, “{lesson(key).title}”.",
    }


def so_far(folder: Path) -> str:
    """Say what was made when, and whether answers came since."""
    last = last_made(folder)
    if last is None:
        return "No hand-in was made in this folder yet."
    many = last.answers_since > 1
    came = f"{last.answers_since} answer{'s' if many else ''} came after it: make a new one to hand {'them' if many else 'it'} in."
    since = came if last.answers_since else "No answer came after it."
    return f"Hand-ins made here: {last.made}, the last on {last.at.day} {last.at:%B %Y at %H:%M}. {since}"


def show_button(identity: Identity) -> None:
    """Show the button that makes the hand-in and gives the file."""
    from bitepoint.page import widgets

    output.show_live(widgets.HandInControl(lambda: made_for(identity)))
