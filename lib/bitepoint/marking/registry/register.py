"""The register: who decided what, when and why. A second logbook; nothing in it is ever changed or deleted."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import Any, Literal, get_args

import msgspec
from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.errors import BadInput, NotRecorded
from bitepoint.logbook.book import FOLDER, Logbook, read_folder, utc_now
from bitepoint.logbook.device import device_name
from bitepoint.logbook.identity import checked_name, key_of
from bitepoint.logbook.record import Line, chain_problems
from bitepoint.marking.registry.windows import checked_hand_in, checked_lessons, checked_window
from bitepoint.marking.version import VERSION

Kind = Literal[
    "sitting",
    "confirmation",
    "declaration",
    "decision",
    "verification",
    "override",
    "second mark",
    "adjustment",
    "resubmission",
    "appeal",
    "observation",
    "code",
    "sender",
    "lines",
    "deletion",
]
KINDS: tuple[str, ...] = get_args(Kind)
OBSERVED = ("done right", "not right yet", "not watched")
_FILE = "register"
_LONGEST = 1_000

NEEDS: dict[str, tuple[str, ...]] = {
    "sitting": ("word", "begins", "ends", "by"),
    "confirmation": ("word", "by", "text"),
    "declaration": ("learner", "by"),
    "decision": ("learner", "by", "criterion", "text"),
    "verification": ("by", "text", "action"),
    "override": ("learner", "exercise", "score", "by", "text"),
    "second mark": ("learner", "exercise", "score", "by"),
    "adjustment": ("learner", "by", "text"),
    "resubmission": ("learner", "by", "number"),
    "appeal": ("learner", "by", "text"),
    "observation": ("learner", "criterion", "result", "by"),
    "code": ("learner", "lesson", "code"),
    "sender": ("hand_in", "learner", "by"),
    "lines": ("hand_in", "learner", "by", "text"),
    "deletion": ("learner", "by", "text"),
}
"""What each kind of entry must say, beside its date."""
OPTIONS = {"begins": "from", "ends": "to", "hand_in": "hand-in"}
"""Options that are named otherwise than the field they fill."""
CONFIRMED = ("in the sitting", "not in the sitting")


class Entry(Struct, frozen=True, kw_only=True):
    """One entry: `kind`, `learner` ("" for what is about the class or a room), `by` who, `date` when it happened, and more.

    `at` is when it was written (UTC). What a kind does not use stays empty. `word` is that of a sitting, `begins` and
    `ends` are its window; `lessons` empty means all. `hand_in` is the SHA-256 of a hand-in or how it begins. An
    adjustment about a learner who came from another class names class word and id there.
    """

    kind: str
    learner: str = ""
    by: str = ""
    date: str = ""
    text: str = ""
    exercise: str = msgspec.field(name="about", default="")
    criterion: str = ""
    result: str = ""
    action: str = ""
    lesson: str = ""
    code: str = ""
    score: float | None = None
    number: int | None = None
    word: str = ""
    begins: str = msgspec.field(name="from", default="")
    ends: str = msgspec.field(name="to", default="")
    lessons: tuple[str, ...] = ()
    room: str = ""
    hand_in: str = ""
    earlier: str = ""
    earlier_class: str = ""
    at: str = ""
    n: int = 0
    device: str = ""
    hash: str = ""


class Register:
    """The register in a folder; several people on several machines each write a chain of their own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @property
    def exists(self) -> bool:
        """Whether anything was ever written."""
        return any((self.folder / FOLDER).glob(f"{_FILE}.*.jsonl"))

    def add(self, entry: Entry, *, gone: Collection[str] | None = None) -> Entry:
        """Check an entry, write it, and return it as written; it is on the disk when this returns.

        `gone` holds who was deleted on request, case-folded; None: the register is read for that.

        Raises
        ------
        BadInput
            Something it must say is missing or cannot be used, or the learner was deleted on request.
        NotRecorded
            The folder or disk does not take it.
        """
        checked = check_entry(entry)
        out = deleted(self.entries()) if gone is None else gone
        if checked.learner and key_of(checked.learner) in out:
            raise BadInput(f"{checked.learner} was deleted on request, so nothing more is recorded about this learner.")
        device = device_name()
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            line = Logbook(self.folder, lesson=_FILE, device=device).append(_fields(checked, device))
        except OSError:
            raise NotRecorded(
                f"The entry was not recorded: {self.folder} cannot be written, or another program holds it. "
                "What was written before is untouched. Make room or name another folder, then try again."
            ) from None
        return _entry(line) or checked

    def lines(self) -> dict[str, list[Line]]:
        """Return the lines of every file of the register, by file name."""
        return read_folder(self.folder, _FILE)

    def entries(self) -> list[Entry]:
        """Return every entry that can be read, oldest first."""
        found = [e for lines in self.lines().values() for line in lines if (e := _entry(line))]
        return sorted(found, key=lambda e: (e.at, e.device, e.n))

    def heads(self) -> dict[str, str]:
        """Return the hash of the last line of every file of the register."""
        read = {name: [line.record.hash for line in lines if line.record] for name, lines in self.lines().items()}
        return {name: hashes[-1] for name, hashes in read.items() if hashes}

    def problems(self) -> list[str]:
        """Return where a chain does not hold, each as one sentence; empty when all hold."""
        return [f"{name}: {text}" for name, lines in self.lines().items() for text in chain_problems(lines)]


def _fields(entry: Entry, device: str) -> dict[str, Any]:
    said = {k: v for k, v in msgspec.to_builtins(entry).items() if v not in ("", None, 0, (), []) or k == "score"}
    for key in ("at", "n", "device", "hash"):
        said.pop(key, None)
    frame = {"class": "", "device": device, "exercise": f"{_FILE}.{entry.kind}", "revision": 1, "turn": 1}
    frame |= {"facts": "", "how": _FILE, "answer": "", "learner": entry.learner, "tool": f"bitepoint {VERSION}"}
    if said.get("score", 0) is None:
        said.pop("score")
    return {"at": utc_now(), **frame, **said}


def _entry(line: Line) -> Entry | None:
    """Return what a line says; one that was changed after it was written is told by `problems`, and not used."""
    if line.record is None or line.problem or line.record.how != _FILE:
        return None
    try:
        return msgspec.json.decode(line.text.encode("utf-8"), type=Entry)
    except msgspec.MsgspecError:
        return None


def check_entry(entry: Entry) -> Entry:
    """Return an entry that says what its kind must say, in a form that can be kept.

    Raises
    ------
    BadInput
        Names what is missing or cannot be used, and how to write it.
    """
    if entry.kind not in KINDS:
        raise BadInput(f"There is no entry {entry.kind[:40]!r}. Choose one of: {', '.join(KINDS)}.")
    for key in NEEDS[entry.kind]:
        if getattr(entry, key) in ("", None):
            raise BadInput(f"An entry “{entry.kind}” needs --{OPTIONS.get(key, key)}. {_EXAMPLES[key]}")
    for key in ("by", "text", "criterion", "action", "room"):
        if len(getattr(entry, key)) > _LONGEST:
            raise BadInput(
                f"--{key} is longer than {_LONGEST:,} characters. Say it shorter and keep the rest in your file."
            )
    learner = checked_name(entry.learner, "The learner id") if entry.learner else ""
    if entry.exercise and entry.exercise not in exercises():
        raise BadInput(
            f"There is no exercise {entry.exercise[:40]!r}. Copy its id from the report, such as star.six-bolts."
        )
    if entry.score is not None and not 0 <= entry.score <= 1:
        raise BadInput(f"--score must be between 0 and 1, but you gave {entry.score:g}. 1 is fully right.")
    if entry.number is not None and entry.number < 1:
        raise BadInput(f"--number must be 1 or more, but you gave {entry.number}. 1 is the first resubmission.")
    if entry.kind == "observation" and entry.result not in OBSERVED:
        raise BadInput(f"--result must be one of {', '.join(OBSERVED)}, but you gave {entry.result[:40]!r}.")
    entry = _checked_sitting(entry)
    return msgspec.structs.replace(
        entry, learner=learner, date=_checked_date(entry.date), code=_checked_code(entry.code)
    )


_EXAMPLES = {
    "learner": "Give the id on the card, as in --learner L07-K",
    "by": 'Say who, as in --by "A. Assessor"',
    "text": 'Say why, or what was found, as in --text "…"',
    "exercise": "Copy the id from the report, as in --exercise star.six-bolts",
    "score": "0 to 1, as in --score 1",
    "number": "Which one it is, as in --number 1",
    "criterion": "Say which criterion, as on the observation sheet",
    "result": f"One of: {', '.join(OBSERVED)}",
    "action": 'Say what was done about it, as in --action "none needed"',
    "lesson": "Give the lesson, as in --lesson star",
    "code": "As the page shows it, as in --code AD7-QB7",
    "word": "The sitting word of the class file, as in --word red-kite",
    "begins": "With the zone, as in --from 2026-06-30T09:00+02:00",
    "ends": "With the zone, as in --to 2026-06-30T11:00+02:00",
    "hand_in": "Copy it from the report: the first characters of its SHA-256, as in --hand-in 3f2a90c1d4e5",
}


def _checked_sitting(entry: Entry) -> Entry:
    """Return an entry with its sitting word, window, lessons and hand-in checked; its day is that of its begin."""
    begins, ends = checked_window(entry.begins, entry.ends)
    if entry.date and begins and entry.date != begins[:10]:
        raise BadInput(f"--date is {entry.date[:20]!r} but the sitting begins on {begins[:10]}. Leave --date out.")
    if entry.kind == "confirmation" and entry.result not in ("", *CONFIRMED):
        raise BadInput(f"--result must be one of {', '.join(CONFIRMED)}, but you gave {entry.result[:40]!r}.")
    return msgspec.structs.replace(
        entry,
        word=checked_name(entry.word, "The sitting word") if entry.word else "",
        earlier=checked_name(entry.earlier, "The earlier id") if entry.earlier else "",
        earlier_class=checked_name(entry.earlier_class, "The earlier class word") if entry.earlier_class else "",
        date=begins[:10] if begins else entry.date,
        begins=begins,
        ends=ends,
        lessons=checked_lessons(entry.lessons),
        hand_in=checked_hand_in(entry.hand_in),
    )


def _checked_date(text: str) -> str:
    if not text:
        return date.today().isoformat()
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise BadInput(f"--date must be a day such as 2026-06-30, but you gave {text[:40]!r}.") from None


def _checked_code(text: str) -> str:
    plain = text.upper().replace("-", "").replace(" ", "")
    if not plain:
        return ""
    if len(plain) != 6 or not set(plain) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567"):
        raise BadInput(f"{text[:40]!r} is no check code. It has six letters and digits 2 to 7, such as AD7-QB7.")
    return f"{plain[:3]}-{plain[3:]}"


def deleted(entries: Sequence[Entry]) -> dict[str, Entry]:
    """Return the deletions by case-folded learner."""
    return {key_of(e.learner): e for e in entries if e.kind == "deletion"}


def about(entries: Sequence[Entry], learner: str) -> Iterator[Entry]:
    """Yield the entries about one learner, oldest first."""
    return (e for e in entries if e.learner and key_of(e.learner) == key_of(learner))
