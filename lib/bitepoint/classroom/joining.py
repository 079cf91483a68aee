"""A learner who joins a class that is under way: the list, a start file, a slip, and in the register who decided and why."""

import csv
import io
import re
from datetime import date
from pathlib import Path

from msgspec import Struct

from bitepoint.bank.version import bank_digest
from bitepoint.classroom.class_folder import CLASS, ROSTER, ClassFolder, read_class_folder
from bitepoint.classroom.classes import MOST, START, NewClass, cards_page, start_toml
from bitepoint.classroom.render import Paper
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_learner, checked_name, key_of, learner_id
from bitepoint.logbook.one_step import write_together
from bitepoint.logbook.own_files import FOLDER, files_in
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.marking.marks import BOM
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.questions.draw import STANDARD, own_letter

_NUMBER = re.compile(r"[Ll]?(\d{1,3})", re.ASCII)


class Joining(Struct, frozen=True, kw_only=True):
    """What is said about whoever joins: id or number, who decided, why, since when, and class word and id before."""

    learner: str
    by: str
    text: str
    day: str = ""
    came_from: str = ""
    was: str = ""


def add_learner(folder: Path, joining: Joining, *, register: Path | None = None, paper: Paper = "A4") -> list[Path]:
    """Add a learner to a class folder and return the files written: list, start file, slip.

    The car is the one that the rule of the class gives. The register is that of the class folder unless another is named.

    Raises
    ------
    BadInput
        Something cannot be used, the learner is in the class, or the class is bound to another bank; nothing is
        written then.
    """
    group = read_class_folder(folder)
    learner = _id(group, joining.learner)
    _check_new(group, learner)
    new, letter = class_of(group), _letter(group, learner)
    files = {
        folder / ROSTER: _longer_roster(group, learner, letter),
        folder / START / f"{learner}.toml": start_toml(new, learner, letter),
        folder / f"card-{learner}.html": cards_page(new, paper=paper, learners=[learner]),
    }
    Register(register or folder / "register").add(_entry(group, learner, joining))
    (folder / START).mkdir(exist_ok=True)
    write_together({path: text.encode("utf-8") for path, text in files.items()})
    return list(files)


def _id(group: ClassFolder, asked: str) -> str:
    """Return an id; of a number alone the check letter is worked out."""
    number = _NUMBER.fullmatch(asked.strip())
    if number and 1 <= int(number[1]) <= MOST:
        return learner_id(group.class_word, int(number[1]))
    if not asked.strip().casefold().startswith("l"):
        raise BadInput(
            f"--learner must be a number from 1 to {MOST}, or an id with its check letter such as L17-K, but you gave "
            f"{asked[:40]!r}."
        )
    return checked_learner(asked.strip(), group.class_word)


def _check_new(group: ClassFolder, learner: str) -> None:
    if key_of(learner) in {key_of(e.learner) for e in group.learners}:
        raise BadInput(
            f"{learner} is in this class already. Give the next free number: --learner {len(group.learners) + 1}"
        )
    bound = read_toml_file(group.folder / CLASS, dict).get("bank", "")
    if group.sitting and bound != bank_digest():
        raise BadInput(
            f"The sitting {group.sitting} is bound to the bank {str(bound)[:40]}, but this installation has {bank_digest()}. "
            "Add the learner with the release it was set up with."
        )


def _letter(group: ClassFolder, learner: str) -> str:
    """Return the car by the rule of a new class: over other than the standard cars the next in turn."""
    cars = group.rules.vehicles
    return own_letter(group.class_word, learner) if cars == STANDARD else cars[len(group.learners) % len(cars)]


def class_of(group: ClassFolder) -> NewClass:
    """Return what was decided about a class, as its folder says it now."""
    found = read_toml_file(group.folder / CLASS, dict)
    return NewClass(
        title=group.title,
        class_word=group.class_word,
        learners=len(group.learners) + 1,
        feedback="after hand-in" if found.get("feedback") == "after hand-in" else "at once",
        due=group.rules.due.date() if group.rules.due else None,
        zone=group.rules.zone,
        sitting=group.sitting,
        supervisor=group.rules.supervisor,
        vehicles=group.rules.vehicles,
        own=files_in(group.folder / FOLDER) if found.get("own") else {},
    )


def _longer_roster(group: ClassFolder, learner: str, letter: str) -> str:
    """Return the list with one line more, in its own columns and with its own delimiter."""
    text = (group.folder / ROSTER).read_text(encoding="utf-8-sig")
    head = text.partition("\n")[0].rstrip("\r")
    delimiter = ";" if head.count(";") > head.count(",") else ","
    said = {
        "learner": learner,
        "vehicle": letter,
        "cars": " ".join(group.rules.vehicles),
        "class_word": group.class_word,
    }
    out = io.StringIO(newline="")
    columns = [c.strip() for c in next(csv.reader([head], delimiter=delimiter))]
    csv.writer(out, lineterminator="\n", delimiter=delimiter).writerow([said.get(c, "") for c in columns])
    return f"{BOM}{text}{'' if text.endswith(chr(10)) else chr(10)}{out.getvalue()}"


def _entry(group: ClassFolder, learner: str, joining: Joining) -> Entry:
    """Return the adjustment for the register."""
    if joining.was and not joining.came_from:
        raise BadInput("--was is the id in the class before. Name that class too: --from oak-2026")
    word = checked_name(joining.came_from, "The earlier class word") if joining.came_from else ""
    if word and key_of(word) == key_of(group.class_word):
        raise BadInput(f"--from {word} is this class's own word. Name the class that the learner came from.")
    if word and not joining.was and re.fullmatch(r"L\d+-[A-Z]", learner):
        raise BadInput(f"In class {word} the letter is another one. Say the id there, as on the old card: --was L07-E")
    earlier = checked_learner(joining.was or learner, word) if word else ""
    what = f"Came from class {word}, there {earlier}" if word else "Late joiner"
    return Entry(
        kind="adjustment",
        learner=learner,
        by=joining.by,
        text=f"{what}: {joining.text}" if joining.text.strip() else "",
        date=joining.day or date.today().isoformat(),
        earlier=earlier,
        earlier_class=word,
    )
