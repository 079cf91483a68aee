"""Attacks on what marking and the board read: hand-ins in every form, the lists of a class, the register."""

import shutil
import tempfile
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from random import Random

from attacks import Attack, believed, clean, one_line
from corpus import class_files, zipped
from mutations import mutated

from bitepoint.bank import exercises
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.group import group_of
from bitepoint.classroom.boards.page import ALL, View
from bitepoint.marking.batch import read_and_mark
from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.line_store import LineStore
from bitepoint.marking.marks import both, learner_cells, mark_lines
from bitepoint.marking.moderation.importing import read_second_marks
from bitepoint.marking.pages.assessor import assessor_page
from bitepoint.marking.pages.evidence import evidence_page
from bitepoint.marking.pages.learner import learner_page
from bitepoint.marking.pages.report import report_page
from bitepoint.marking.reading.handins import find_sources
from bitepoint.marking.registry.lists import Numbered, add_all, read_codes, read_entries, read_observations
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import read_rules
from bitepoint.marking.summary import ClassSummary
from bitepoint.workbook.class_file import read_class_file

OBSERVED = b"criterion,result,learner,assessor,date,note\nStraps,done right,L01-X,A. Assessor,2026-06-30,fine\n"
CODES = b"learner,lesson,code,noted at\nL01-X,star,AD7-QB7,2026-06-30\n"
ENTRIES = (
    b"kind,learner,by,exercise,score,text,lessons,number,from,to,word\n"
    b"override,L01-X,A. Assessor,start.number,0.5,why,,,,,\nresubmission,L01-X,A,,,,,2,,,\n"
    b'sitting,,A,,,,"star,start",,2026-06-30T09:00+02:00,2026-06-30T11:00+02:00,red-kite\n'
)
SECOND = b"no,learner,sitting,exercise,question,answer,rule,mark,reason\n1,L01-X,red-kite,start.number,q,a,r,0.5,why\n"


def marked(path: Path, register: Path | None = None) -> None:
    """Mark what lies there, from finding it to the pages."""
    sources, problems = find_sources([path])
    entries = Register(register).entries() if register else []
    with tempfile.TemporaryFile() as spool:
        work, summary, rows = ClassWork(None, LineStore(spool), entries=entries), ClassSummary(), []
        work.problems += problems
        for batch in (batch for source in sources for batch in read_and_mark(source)):
            for text in batch.note.breaks:
                clean(text)
            work.take(batch)
        for result in work.results():
            summary.add(result)
            rows += both(result)
            for page in (learner_page, assessor_page, evidence_page):
                page(result, datetime.now().astimezone()).encode("utf-8")
            for text in (*(f.evidence for f in result.flags), *learner_cells(result)):
                clean(text)
        mark_lines(rows)
        for text in work.problems:
            clean(text)
        report_page(
            summary, work.problems, sources=1, with_roster=False, work=work, marked=datetime.now().astimezone()
        ).encode("utf-8")


def _one_logbook(random: Random) -> bytes:
    return random.choice(list(class_files().logbooks.values()))


def attack_zip(folder: Path, random: Random) -> None:
    found = class_files()
    inside = {"workbook.toml": found.workbook, "logbook/star.a.jsonl": _one_logbook(random), "a.ipynb": found.notebook}
    key = random.choice((*inside, ""))
    packed = zipped({k: mutated(c, random) if k == key else c for k, c in inside.items()})
    packed = packed if key else mutated(packed, random)
    if random.random() < 0.5:
        packed = zipped({"a.zip": packed, "b.zip": zipped(inside)})
    (folder / "a.zip").write_bytes(packed)
    marked(folder / "a.zip")


def attack_notebook(folder: Path, random: Random) -> None:
    (folder / "a.ipynb").write_bytes(mutated(class_files().notebook, random))
    marked(folder / "a.ipynb")


def attack_logbook(folder: Path, random: Random) -> None:
    content = mutated(_one_logbook(random), random)
    (folder / "a.jsonl").write_bytes(believed(content) if random.random() < 0.6 else content)
    marked(folder / "a.jsonl")


def attack_workbook(folder: Path, random: Random) -> None:
    found, work = class_files(), folder / "L01-X"
    shutil.rmtree(work, ignore_errors=True)
    (work / "logbook").mkdir(parents=True)
    inside = {"workbook.toml": found.workbook, "logbook/star.a.jsonl": _one_logbook(random), "a.ipynb": found.notebook}
    for name, content in inside.items():
        (work / name).write_bytes(mutated(content, random) if random.random() < 0.5 else content)
    marked(work)


def attack_class_file(folder: Path, random: Random) -> None:
    path = folder / "class.toml"
    path.write_bytes(mutated(class_files().class_file, random))
    for read in (read_class_file, read_rules, lambda p: group_of(p, None)):
        one_line(lambda read=read: read(path))


def attack_roster(folder: Path, random: Random) -> None:
    path = folder / "roster.csv"
    path.write_bytes(mutated(class_files().roster, random))
    one_line(lambda: read_roster(path))
    one_line(lambda: group_of(None, path, display_names=True))


def attack_observations(folder: Path, random: Random) -> None:
    (folder / "o.csv").write_bytes(mutated(OBSERVED, random))
    one_line(lambda: read_observations(folder / "o.csv"))


def attack_codes(folder: Path, random: Random) -> None:
    (folder / "c.csv").write_bytes(mutated(CODES, random))
    one_line(lambda: read_codes(folder / "c.csv"))


def attack_entries(folder: Path, random: Random) -> None:
    (folder / "e.csv").write_bytes(mutated(ENTRIES, random))
    one_line(lambda: brought(folder, read_entries(folder / "e.csv")))


def attack_second_marks(folder: Path, random: Random) -> None:
    (folder / "s.csv").write_bytes(mutated(SECOND, random))
    one_line(lambda: brought(folder, read_second_marks(folder / "s.csv", "B. Beside").rows))


def brought(folder: Path, rows: Sequence[Numbered]) -> None:
    """Bring rows to a register that is new each time, and read them back."""
    shutil.rmtree(folder / "brought", ignore_errors=True)
    book = Register(folder / "brought")
    new, _ = add_all(book, rows)
    assert new == len(book.entries())


def attack_register(folder: Path, random: Random) -> None:
    book, who = Register(folder / "register"), class_files().learner
    path = next((folder / "register" / "logbook").glob("*.jsonl"), None)
    if path is None:
        exercise = next(iter(exercises()))
        book.add(Entry(kind="override", learner=who, exercise=exercise, score=0.5, by="A. Assessor", text="x"))
        book.add(Entry(kind="observation", learner=who, criterion="x", result="done right", by="A. Assessor"))
        book.add(Entry(kind="declaration", learner=who, by="A. Assessor"))
        path = next((folder / "register" / "logbook").glob("*.jsonl"))
        path.with_suffix(".kept").write_bytes(path.read_bytes())
    (folder / "a.jsonl").write_bytes(_one_logbook(random))
    path.write_bytes(believed(mutated(path.with_suffix(".kept").read_bytes(), random)))
    for text in book.problems():
        clean(text)
    marked(folder / "a.jsonl", register=folder / "register")


def attack_board(folder: Path, random: Random) -> None:
    shared = folder / "share" / "L01-X"
    (shared / "logbook").mkdir(parents=True, exist_ok=True)
    (shared / "workbook.toml").write_bytes(mutated(class_files().workbook, random))
    board = Board(folder / "share")
    for _ in range(2):
        with open(shared / "logbook" / "star.a.jsonl", random.choice(("ab", "wb"))) as file:
            file.write(believed(mutated(_one_logbook(random), random)))
        board.watch._looked = float("-inf")
        board.refresh()
        board.workbook_learners()
        for text in board.said():
            clean(text)
    board.page(View("names", ALL)).encode("utf-8")


ON_MARKING: dict[str, tuple[Attack, int]] = {
    "zip": (attack_zip, 100),
    "notebook": (attack_notebook, 150),
    "logbook": (attack_logbook, 120),
    "workbook": (attack_workbook, 100),
    "class file": (attack_class_file, 600),
    "roster": (attack_roster, 800),
    "observations": (attack_observations, 800),
    "codes": (attack_codes, 800),
    "entries": (attack_entries, 400),
    "second marks": (attack_second_marks, 400),
    "register": (attack_register, 100),
    "board": (attack_board, 120),
}
"""The attacks, and how many cases of each the tests try."""
