"""Each reader on some hundred damaged files, the same ones each time: a result or one clear line, never anything else."""

import shutil
import tempfile
from collections.abc import Callable, Sequence
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from random import Random

import pytest
from mutations import mutated
from test_bad_hand_ins import fields, logbook, notebook, zipped

from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.group import group_of
from bitepoint.classroom.boards.page import ALL, View
from bitepoint.errors import BitepointError
from bitepoint.logbook.identity import read_identity
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

WORKBOOK = b"""# Who works here
learner = "L01-X"
class_word = "oak-2026"
feedback = "at once"
title = "K7"
vehicles = ["A", "B", "C", "D"]
"""
CLASS = b"""class_word = "oak-2026"
pass_share = 0.8
due = 2026-06-30
criteria = ["Straps the cover"]
lessons = ["star"]
supervisor = "A. Assessor"
"""
ROSTER = b"learner,class_word,vehicle,name\nL01-X,oak-2026,A,Ana\nL02-Y,oak-2026,B,Bo\n"
OBSERVED = b"criterion,result,learner,assessor,date,note\nStraps,done right,L01-X,A. Assessor,2026-06-30,fine\n"
CODES = b"learner,lesson,code,noted at\nL01-X,star,AD7-QB7,2026-06-30\n"
ENTRIES = (
    b"kind,learner,by,exercise,score,text,lessons,number,from,to,word\n"
    b"override,L01-X,A. Assessor,start.number,0.5,why,,,,,\nresubmission,L01-X,A,,,,,2,,,\n"
    b'sitting,,A,,,,"star,start",,2026-06-30T09:00+02:00,2026-06-30T11:00+02:00,red-kite\n'
)
SHEET = b"no,learner,sitting,exercise,question,answer,rule,mark,reason\n1,L01-X,red-kite,start.number,q,a,r,0.5,why\n"
LINES = logbook(fields(), fields(turn=2), fields(answer=["x", 1]))
Attack = Callable[[Path, Random], None]


def clean(text: str) -> None:
    """Check that a sentence is one line that any terminal can show, and that some check knew what was wrong."""
    assert text.isprintable(), ascii(text)
    assert "this program does not know why" not in text


def one_line(read: Callable[[], object]) -> None:
    """Call a reader; if it refuses, its message is clean."""
    try:
        read()
    except BitepointError as error:
        clean(str(error))


def believed(content: bytes) -> bytes:
    """Return damaged lines with right hashes, as whoever forges one would write it."""
    found = []
    for line in content.split(b"\n"):
        body, mark, _ = line.rpartition(b',"hash":"')
        found.append(body + mark + sha256(body).hexdigest()[:32].encode() + b'"}' if mark else line)
    return b"\n".join(found)


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


def attack_zip(folder: Path, random: Random) -> None:
    inside = {"workbook_toml": WORKBOOK, "logbook__star_a_jsonl": LINES, "a_ipynb": card()}
    key = random.choice((*inside, ""))
    packed = zipped(**{k: mutated(c, random) if k == key else c for k, c in inside.items()})
    packed = packed if key else mutated(packed, random)
    if random.random() < 0.5:
        packed = zipped(a_zip=packed, b_zip=zipped(**inside))
    (folder / "a.zip").write_bytes(packed)
    marked(folder / "a.zip")


def card() -> bytes:
    return notebook({"lines": LINES.decode("ascii").split()}).replace(b'"image/png"', b'"text/html": ["<p>x</p>"], "a"')


def attack_notebook(folder: Path, random: Random) -> None:
    (folder / "a.ipynb").write_bytes(mutated(card(), random))
    marked(folder / "a.ipynb")


def attack_logbook(folder: Path, random: Random) -> None:
    content = mutated(LINES, random)
    (folder / "a.jsonl").write_bytes(believed(content) if random.random() < 0.6 else content)
    marked(folder / "a.jsonl")


def attack_workbook(folder: Path, random: Random) -> None:
    shutil.rmtree(folder / "L01-X", ignore_errors=True)
    (folder / "L01-X" / "logbook").mkdir(parents=True)
    for name, content in (("workbook.toml", WORKBOOK), ("logbook/star.a.jsonl", LINES), ("a.ipynb", card())):
        (folder / "L01-X" / name).write_bytes(mutated(content, random) if random.random() < 0.5 else content)
    marked(folder / "L01-X")


def attack_workbook_file(folder: Path, random: Random) -> None:
    (folder / "workbook.toml").write_bytes(mutated(WORKBOOK, random))
    one_line(lambda: read_identity(folder / "workbook.toml"))


def attack_start_file(folder: Path, random: Random) -> None:
    (folder / "L01-X.toml").write_bytes(mutated(WORKBOOK, random))
    one_line(lambda: read_class_file(folder / "L01-X.toml"))


def attack_class_file(folder: Path, random: Random) -> None:
    path = folder / "class.toml"
    path.write_bytes(mutated(CLASS, random))
    for read in (read_class_file, read_rules, lambda p: group_of(p, None)):
        one_line(lambda read=read: read(path))


def attack_roster(folder: Path, random: Random) -> None:
    path = folder / "roster.csv"
    path.write_bytes(mutated(ROSTER, random))
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
    (folder / "s.csv").write_bytes(mutated(SHEET, random))
    one_line(lambda: brought(folder, read_second_marks(folder / "s.csv", "B. Beside").rows))


def brought(folder: Path, rows: Sequence[Numbered]) -> None:
    """Bring rows to a register that is new each time, and read them back."""
    shutil.rmtree(folder / "brought", ignore_errors=True)
    book = Register(folder / "brought")
    new, _ = add_all(book, rows)
    assert new == len(book.entries())


def attack_register(folder: Path, random: Random) -> None:
    book = Register(folder / "register")
    path = next((folder / "register" / "logbook").glob("*.jsonl"), None)
    if path is None:
        exercise = fields()["exercise"]
        book.add(Entry(kind="override", learner="L01-X", exercise=exercise, score=0.5, by="A. Assessor", text="x"))
        book.add(Entry(kind="observation", learner="L01-X", criterion="x", result="done right", by="A. Assessor"))
        book.add(Entry(kind="declaration", learner="L01-X", by="A. Assessor"))
        path = next((folder / "register" / "logbook").glob("*.jsonl"))
        path.with_suffix(".kept").write_bytes(path.read_bytes())
        (folder / "a.jsonl").write_bytes(LINES)
    path.write_bytes(believed(mutated(path.with_suffix(".kept").read_bytes(), random)))
    for text in book.problems():
        clean(text)
    marked(folder / "a.jsonl", register=folder / "register")


def attack_board(folder: Path, random: Random) -> None:
    shared = folder / "share" / "L01-X"
    (shared / "logbook").mkdir(parents=True, exist_ok=True)
    (shared / "workbook.toml").write_bytes(mutated(WORKBOOK, random))
    board = Board(folder / "share")
    for _ in range(2):
        with open(shared / "logbook" / "star.a.jsonl", random.choice(("ab", "wb"))) as file:
            file.write(believed(mutated(LINES, random)))
        board.watch._looked = float("-inf")
        board.refresh()
        board.workbook_learners()
        for text in board.said():
            clean(text)
    board.page(View("names", ALL)).encode("utf-8")


ATTACKS: dict[str, tuple[Attack, int]] = {
    "zip": (attack_zip, 80),
    "notebook": (attack_notebook, 160),
    "logbook": (attack_logbook, 120),
    "workbook": (attack_workbook, 80),
    "workbook.toml": (attack_workbook_file, 600),
    "start file": (attack_start_file, 600),
    "class file": (attack_class_file, 300),
    "roster": (attack_roster, 600),
    "observations": (attack_observations, 600),
    "codes": (attack_codes, 600),
    "entries": (attack_entries, 300),
    "second marks": (attack_second_marks, 300),
    "register": (attack_register, 80),
    "board": (attack_board, 60),
}


@pytest.mark.parametrize("name", ATTACKS)
def test_a_damaged_file_is_a_result_or_one_clear_line(tmp_path: Path, name: str) -> None:
    """No traceback, no line break or control character of the file, no error that the guard had to catch."""
    attack, count = ATTACKS[name]
    for seed in range(count):
        attack(tmp_path, Random(f"{name} {seed}"))
