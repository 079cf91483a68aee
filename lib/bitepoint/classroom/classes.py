"""A new class: the class file, the list of learners and the slips that are cut up and handed out."""

import csv
import io
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.version import bank_digest
from bitepoint.classroom.bench_sheets.observing import STANDARD as STANDARD_CRITERIA
from bitepoint.classroom.render import Paper, render
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import Feedback, checked_class_word, checked_name, checked_vehicles, learner_id
from bitepoint.logbook.one_step import write_together
from bitepoint.logbook.own_files import FOLDER, digest_of_files, keep, packed, use_kept, use_shipped
from bitepoint.marking.marks import BOM
from bitepoint.marking.rules import PASS_SHARE, checked_share
from bitepoint.marking.zones import checked_zone, zone_of_computer
from bitepoint.questions.draw import STANDARD, own_letter

CLASS, ROSTER, CARDS, START = "class.toml", "roster.csv", "cards.html", "start"
MOST = 999


class NewClass(Struct, frozen=True, kw_only=True):
    """What an instructor decides; `lessons` and `criteria` empty mean all lessons and the standard criteria.

    `own` are the class's own files by their names: own sheets, questions, kits.
    """

    title: str
    class_word: str
    learners: int
    lessons: tuple[str, ...] = ()
    feedback: Feedback = "at once"
    pass_share: float = PASS_SHARE
    due: date | None = None
    zone: str = ""
    criteria: tuple[str, ...] = ()
    sitting: str = ""
    supervisor: str = ""
    vehicles: tuple[str, ...] = STANDARD
    own: Mapping[str, bytes] = {}


def write_class(folder: Path, new: NewClass, *, paper: Paper = "A4") -> list[Path]:
    """Write the files of a class into a folder; return class file, roster, cards and the folder of start files.

    class.toml serves opening, marking and sheets. A start file for each learner holds only what opening reads.

    Raises
    ------
    BadInput
        A value cannot be used, or the folder has a class already; nothing is written then.
    """
    use_kept(keep(new.own)) if new.own else use_shipped()
    checked = _checked(new)
    files = {CLASS: _class_toml(checked), ROSTER: _roster(checked), CARDS: cards_page(checked, paper=paper)}
    files |= {
        f"{START}/{learner}.toml": start_toml(checked, learner, vehicle_of(checked, learner))
        for learner in ids_of(checked)
    }
    if folder.exists() and not folder.is_dir():
        raise BadInput(f"{folder} is a file. Name a folder for the class, such as autumn-class.")
    there = next((name for name in (*files, START, FOLDER) if _is_there(folder / name)), "")
    if there:
        raise BadInput(
            f"{folder} has a class already ({there}). Name another folder; an existing class is never replaced."
        )
    (folder / START).mkdir(parents=True, exist_ok=True)
    for name in checked.own:
        (folder / FOLDER / name).parent.mkdir(parents=True, exist_ok=True)
    own = {folder / FOLDER / name: content for name, content in checked.own.items()}
    write_together({folder / name: text.encode("utf-8") for name, text in files.items()} | own)
    return [folder / name for name in (CLASS, ROSTER, CARDS, START)]


def _is_there(path: Path) -> bool:
    # Folders without a file are what a full disk left of a class that could not be made.
    return any(below.is_file() for below in path.rglob("*")) if path.is_dir() else path.exists()


def ids_of(new: NewClass) -> list[str]:
    """Return the learner ids of a class: number and check letter, such as L07-K."""
    return [learner_id(new.class_word, number) for number in range(1, new.learners + 1)]


def vehicle_of(new: NewClass, learner: str) -> str:
    """Return the letter of a learner's car, written down once: a list that becomes longer later moves nobody.

    Over the standard cars it is the car that the rule gives anyway; over others they are shared out in turn.
    """
    if new.vehicles == STANDARD:
        return own_letter(new.class_word, learner)
    return new.vehicles[ids_of(new).index(learner) % len(new.vehicles)]


def command_for(new: NewClass, learner: str) -> str:
    """Return the one command a learner types.

    Where feedback waits for the hand-in or there is a sitting word, the course must read it from the start file;
    else the class word is enough and no file is handed out.
    """
    if needs_file(new):
        return _with_file(new, learner)
    return f"bitepoint open --class-word {new.class_word} --learner {learner}"


def _with_file(new: NewClass, learner: str) -> str:
    """Return the command with the start file; a sitting has a folder of its own, where nothing was practised."""
    folder = f" ~/sitting-{new.sitting}" if new.sitting else ""
    return f"bitepoint open{folder} --class-file {learner}.toml"


def needs_file(new: NewClass) -> bool:
    """Whether the class decided something that a command with the class word alone would not say."""
    return bool(new.sitting) or new.feedback != "at once" or new.vehicles != STANDARD or bool(new.own)


def cards_page(new: NewClass, *, paper: Paper = "A4", learners: Sequence[str] = ()) -> str:
    """Return the slips to cut up, one a learner: of everybody, or of those who are named."""
    slips = [{"learner": learner, "command": command_for(new, learner)} for learner in learners or ids_of(new)]
    with_file = needs_file(new)
    return render("cards.html.jinja", paper=paper, title=f"Cards: {new.title}", new=new, slips=slips, file=with_file)


def _checked(new: NewClass) -> NewClass:
    title, supervisor = _text(new.title, "--title"), _text(new.supervisor, "--supervisor", empty=True)
    if not 1 <= new.learners <= MOST:
        raise BadInput(f"--learners must be between 1 and {MOST}, but you gave {new.learners}.")
    known = list(dict.fromkeys(e.lesson for e in exercises().values()))
    for key in new.lessons:
        if key not in known:
            raise BadInput(f"There is no lesson {key[:40]!r}. Choose from {', '.join(known)}.")
    return msgspec.structs.replace(
        new,
        title=title,
        supervisor=supervisor,
        class_word=checked_class_word(new.class_word),
        sitting=checked_name(new.sitting, "The sitting word") if new.sitting else "",
        # In a sitting nobody is told right or wrong before the hand-in.
        feedback="after hand-in" if new.sitting else new.feedback,
        zone=checked_zone(new.zone) or zone_of_computer(),
        pass_share=checked_share(new.pass_share, "--pass-share"),
        criteria=tuple(_text(text, "--criterion") for text in new.criteria or STANDARD_CRITERIA),
        vehicles=checked_vehicles(new.vehicles, "--vehicles"),
    )


def _text(value: str, option: str, *, empty: bool = False) -> str:
    text = value.strip()
    if len(text) > 120 or not text.isprintable() or not (text or empty):
        raise BadInput(f"{option} must be one line of 1 to 120 characters, but you gave {value[:40]!r}.")
    return text


def _class_toml(new: NewClass) -> str:
    lines = [
        "# The class. Marking, board and sheets read it: --class-file class.toml. Learners open the course with the",
        "# command on their slip; what it needs from here stands in their own start file, such as start/L07-K.toml.",
        *_shared(new),
        "",
        "# Who supervises the sitting. The report says “supervised by” only for answers drawn with a sitting's word,",
        "# inside the time that the register has for it.",
        f"supervisor = {_quoted(new.supervisor)}" if new.supervisor else '# supervisor = "A. Assessor"',
        "",
        "# The share of exercises that must be right, and when work should be in: by the end of that day in this zone.",
        f"pass_share = {new.pass_share!r}",
        f"due = {new.due.isoformat()}" if new.due else "# due = 2026-06-30",
        f"zone = {_quoted(new.zone)}" if new.zone else '# zone = "Europe/Vienna"',
        "",
        "# How many retakes of a sitting count, and which of several: the last or the best.",
        "# retakes = 1",
        '# counts = "last"',
        "",
        "# Which lessons count; without this line all do.",
        f"lessons = [{', '.join(map(_quoted, new.lessons))}]" if new.lessons else '# lessons = ["start", "star"]',
        "",
        "# What must be seen done right at the vehicle.",
        "criteria = [",
        *(f"  {_quoted(text)}," for text in new.criteria),
        "]",
    ]
    return "\n".join(lines) + "\n"


def start_toml(new: NewClass, learner: str, letter: str) -> str:
    """Return the start file of a learner whose car has this letter."""
    lines = [f"# Type in the command window: {_with_file(new, learner)}", *_shared(new)]
    lines += [f"learner = {_quoted(learner)}", f"vehicle = {_quoted(letter)}"]
    if new.own:
        lines += ["", "# The class's own sheets and questions: “own” above is the digest over them.", "[own_files]"]
        lines += [f"{_quoted(name)} = {_quoted(text)}" for name, text in packed(new.own).items()]
    return "\n".join(lines) + "\n"


def _shared(new: NewClass) -> list[str]:
    found = {"class_word": new.class_word, "title": new.title, "feedback": new.feedback, "sitting": new.sitting}
    said = [f"{key} = {_quoted(value)}" for key, value in found.items() if value]
    said.append(f"vehicles = [{', '.join(map(_quoted, new.vehicles))}]")
    if new.own:
        said.append(f"own = {_quoted(digest_of_files(new.own))}")
    if new.sitting:
        said += ["# The sitting is bound to this bank: another release is refused.", f"bank = {_quoted(bank_digest())}"]
    return said


def _quoted(text: str) -> str:
    return msgspec.json.encode(text).decode("utf-8").replace("\x7f", "\\u007f")


def _roster(new: NewClass) -> str:
    out = io.StringIO(newline="")
    out.write(BOM)
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["learner", "name", "vehicle", "cars"])
    writer.writerows([learner, "", vehicle_of(new, learner), " ".join(new.vehicles)] for learner in ids_of(new))
    return out.getvalue()
