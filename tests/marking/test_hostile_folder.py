"""A folder of everything that ever stopped a run or cost it much, with twenty good hand-ins: those are marked."""

import csv
import json
import subprocess
import sys
from pathlib import Path

import pytest
from hostile_files import (
    changed_lines,
    damaged_notebook,
    hostile_folder,
    long_answers,
    many_inner,
    numbers_right_for_nobody,
)
from test_bad_hand_ins import chain, fields, zipped

from bitepoint.bank import exercises
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.page import ALL, View
from bitepoint.logbook.identity import learner_id

LEARNERS = [learner_id("oak-2026", n) for n in range(1, 21)]
ASKED = ("start.choice", "start.number", "star.impact")
SECONDS, MB = 60, 300
"""What the whole folder may cost, on a computer that is busy with other things too."""
SOURCE_SECONDS, SOURCE_MB = 2, 200


def good_hand_in(learner: str) -> bytes:
    """Return the zip of a learner with three right answers."""
    lines = []
    for key in ASKED:
        question = exercises()[key].draw(class_word="oak-2026", learner=learner)
        said = {"exercise": key, "facts": question.facts_digest(), "answer": question.right_answer()}
        lines.append(fields(learner=learner, revision=exercises()[key].revision, **said))
    content = "".join(f"{line}\n" for line in chain(*lines)).encode("ascii")
    return zipped(workbook_toml=f'learner = "{learner}"\n'.encode(), logbook__start_a_jsonl=content)


def measured(out: Path, roster: Path | None, workers: int, *inputs: Path) -> dict[str, object]:
    """Mark in a process of its own; return what it came to and cost."""
    program = [sys.executable, str(Path(__file__).with_name("one_source.py"))]
    run = subprocess.run(
        [*program, str(out), str(roster or ""), str(workers), *map(str, inputs)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        timeout=600,
    )
    assert run.returncode == 0, run.stderr
    assert run.stderr == ""
    return dict(json.loads(run.stdout))


@pytest.mark.parametrize("workers", [1, 2])
def test_the_good_are_marked_and_each_of_the_others_is_told(tmp_path: Path, workers: int) -> None:
    """20 of 20, a line for each of the others and at most six, in bounded time and memory."""
    folder = tmp_path / "hand-ins"
    folder.mkdir()
    for learner in LEARNERS:
        (folder / f"{learner}-20260414-101500.zip").write_bytes(good_hand_in(learner))
    hostile = hostile_folder(folder)
    (tmp_path / "roster.csv").write_text("learner,class_word\n" + "".join(f"{x},oak-2026\n" for x in LEARNERS), "utf-8")
    found = measured(tmp_path / "marks", tmp_path / "roster.csv", workers, folder)
    with open(tmp_path / "marks" / "marks.csv", encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["learner"] in LEARNERS]

    assert [(row["learner"], row["mark"], row["flags"]) for row in rows] == [
        (learner, "1", "") for learner in LEARNERS for _ in ASKED
    ]
    said = found["problems"] + flagged(tmp_path / "marks")
    told = {
        name: [text for text in said if text.startswith((f"{shown(name)}:", f"{shown(name)},", f"{shown(name)}/"))]
        for name in hostile
    }
    assert [name for name, lines in told.items() if not 1 <= len(lines) <= 6] == []
    assert [text for text in found["problems"] if not text.isprintable()] == []
    assert found["seconds"] < SECONDS
    assert found["mb"] < MB


def shown(name: str) -> str:
    """Return a file's name as the report has it."""
    return name.replace("\n", " ").replace("\u202e", "[U+202E]").replace("\x1b", "[U+001B]")


def flagged(marks: Path) -> list[str]:
    """Return the breaks of every hand-in, as the trail has them."""
    heads = [json.loads(x) for x in (marks / "marks.jsonl").read_text("utf-8").splitlines() if '"hand_in"' in x]
    return [text for head in heads for text in head["problems"] if text.startswith(("line", "odd"))]


def test_the_board_reads_that_folder_once(tmp_path: Path) -> None:
    """The good are on it, what is wrong is told in lines that can be shown, and the page is written."""
    good = tmp_path / f"{LEARNERS[0]}.zip"
    good.write_bytes(good_hand_in(LEARNERS[0]))
    hostile_folder(tmp_path)
    board = Board(tmp_path)
    board.read_once()

    assert board.board.people[LEARNERS[0].lower()].right == len(ASKED)
    assert [text for text in board.said() if not text.isprintable()] == []
    assert "\x1b" not in board.page(View("both", ALL))


COSTLY = {
    "changed.jsonl": lambda: changed_lines(5_000),
    "long.jsonl": lambda: long_answers(2_000),
    "wrong.jsonl": lambda: numbers_right_for_nobody(5_000),
    "inner.zip": lambda: many_inner(20, bytes(60_000_000)),
    "damaged.zip": lambda: zipped(a_ipynb=damaged_notebook(60_000_000, b'"{\\"n\\":1}",')),
    "answers.zip": lambda: many_logbooks(20, long_answers(100)),
    "lines.zip": lambda: many_logbooks(20, changed_lines(2_000)),
}


def many_logbooks(count: int, content: bytes) -> bytes:
    """Return a zip of zips with a logbook each."""
    return zipped(**{f"{n}_zip": zipped(a_jsonl=content) for n in range(count)})


@pytest.mark.parametrize("name", COSTLY)
def test_one_source_costs_little(tmp_path: Path, name: str) -> None:
    """In a class of forty; the limits are counted, and five times the two seconds are allowed for a busy computer."""
    (tmp_path / name).write_bytes(COSTLY[name]())
    people = "".join(f"M{n},oak-2026\n" for n in range(40))
    (tmp_path / "roster.csv").write_text(f"learner,class_word\nL50-A,oak-2026\n{people}", "utf-8")
    found = measured(tmp_path / "marks", tmp_path / "roster.csv", 1, tmp_path / name)

    assert found["mb"] < SOURCE_MB
    assert found["seconds"] < 5 * SOURCE_SECONDS
