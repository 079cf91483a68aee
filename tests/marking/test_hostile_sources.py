"""One source that stops nothing: what is wrong with it is a line about it, counted limits hold, and the rest is marked."""

import errno
import io
import json
import os
import zipfile
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import pytest
from hostile_files import (
    CELLS,
    SHORT_LINES,
    bad_names,
    changed_lines,
    damaged_notebook,
    empty_name,
    flipped_notebook,
    long_answers,
    many_inner,
    own_line,
    record_of_items,
    workbook,
)
from test_bad_hand_ins import fields, logbook, notebook, read, read_one, zipped
from test_flags import ONE, line

from bitepoint import cli
from bitepoint.bank import exercises
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.cells import ClassBoard
from bitepoint.classroom.boards.files import News
from bitepoint.errors import BadData, BadInput
from bitepoint.logbook.identity import read_identity
from bitepoint.logbook.record import Line, read_line, write_line
from bitepoint.marking import batch, by_exercise, mark_hand_ins
from bitepoint.marking.flagging import history, neighbours
from bitepoint.marking.flagging.classmates import Classmates
from bitepoint.marking.flagging.folding import folded
from bitepoint.marking.line_marking import mark_line
from bitepoint.marking.reading import handins
from bitepoint.marking.reading.handins import HandInSource, find_sources
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.result import Flag
from bitepoint.marking.rows import with_register
from bitepoint.marking.rules import read_rules
from bitepoint.workbook.class_file import read_class_file
from bitepoint.workshop.datafiles import shipped


def test_an_entry_without_a_name(tmp_path: Path) -> None:
    """98 bytes that stopped a class."""
    found = read_one(tmp_path, "a.zip", empty_name())

    assert found.problems == ("a.zip, “”: has a name that leads out of the hand-in and was not read.",)


def test_a_flipped_byte_in_a_record_string(tmp_path: Path) -> None:
    """By accident already: the one line is lost, the others are read."""
    found = read_one(tmp_path, "08.ipynb", flipped_notebook())

    assert found.problems == ("08.ipynb: 1 record lines in an output are no text and were left out.",)


@pytest.mark.parametrize(
    "toml",
    [b"n = " + b"9" * 5_000, b"n = " + b"[" * 5_000 + b"]" * 5_000, b"pass_share = 0x" + b"f" * 5_000, b"\xff"],
    ids=["digits", "deep", "hex", "latin"],
)
def test_a_file_of_settings_that_breaks_its_reader(tmp_path: Path, toml: bytes) -> None:
    """In a hand-in the lines count; for a person's own file one sentence names it."""
    folder = workbook(tmp_path / "L51-B", toml)
    (found,) = read(folder)

    assert len(found.lines) == 1
    assert found.problems == ("L51-B, workbook.toml: cannot be read; who it is from is taken from its lines alone.",)
    for reader, kind in ((read_class_file, BadInput), (read_rules, BadInput), (read_identity, BadData)):
        with pytest.raises(kind, match=r"^workbook\.toml: [^\n]*$"):
            reader(folder / "workbook.toml")


def test_an_override_of_an_exercise_that_is_gone(tmp_path: Path) -> None:
    """It has no row and one line; the learner's other overrides stand."""
    gone = Entry(kind="override", learner=ONE, exercise="star.gone", score=1.0, by="A. Assessor", text="x")
    stands = Entry(kind="override", learner=ONE, exercise="start.choice", score=1.0, by="A. Assessor", text="x")
    assert [row.exercise for row in with_register([], [gone, stands], ONE)] == ["start.choice"]

    book = Register(tmp_path / "register")
    book.add(stands)
    path = next((tmp_path / "register" / "logbook").glob("*.jsonl"))
    said = json.loads(path.read_text("ascii")) | {"about": "star.gone"}
    path.write_text(write_line({k: v for k, v in said.items() if k not in ("n", "prev", "hash")}, n=1, prev="") + "\n")
    (tmp_path / "a.jsonl").write_text(line("start.choice").text + "\n", "ascii")
    outcome = mark_hand_ins([tmp_path / "a.jsonl"], out=tmp_path / "marks", register=tmp_path / "register")

    assert outcome.problems == [
        f"Register: the mark that “A. Assessor” gave “{ONE}” is for exercise “star.gone”, which this bank does not "
        "have, so it has no row. Mark with the version that the class worked with."
    ]


def test_zips_in_a_small_zip_share_what_it_may_unpack_to(tmp_path: Path) -> None:
    """9 kB of twenty times 60 MB: each is refused after 2 MB, and a good one among them is read."""
    (tmp_path / "a.zip").write_bytes(many_inner(20, bytes(60_000_000)))
    found = read(tmp_path / "a.zip")

    assert len(found) == 20
    assert all("unpacks to more than 2 MB, far more than a hand-in of its size" in x.problems[0] for x in found)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for n in range(19):
            archive.writestr(f"{n}.zip", zipped(a_ipynb=bytes(60_000_000)))
        archive.writestr("good.zip", zipped(a_jsonl=logbook()))
    (tmp_path / "b.zip").write_bytes(packed.getvalue())
    assert [len(x.lines) for x in read(tmp_path / "b.zip")] == [0] * 19 + [1]


def test_entries_of_zips_in_a_zip_are_counted_together(tmp_path: Path) -> None:
    """A hundred zips of 1,900 entries: the first ten are gone through, the rest is not taken apart."""
    inner = io.BytesIO()
    with zipfile.ZipFile(inner, "w") as archive:
        for n in range(1_900):
            archive.writestr(f"{n}", b"")
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for n in range(100):
            archive.writestr(f"{n}.zip", inner.getvalue())
    (tmp_path / "a.zip").write_bytes(packed.getvalue())
    said = [x.problems[0] for x in read(tmp_path / "a.zip")]

    assert [("holds more than 20,000 files" in text) for text in said] == [False] * 10 + [True] * 90


@pytest.mark.parametrize(
    ("name", "content", "said", "kept"),
    [
        ("a.ipynb", damaged_notebook(17_000_000, SHORT_LINES), "holds more than 16 MB", 0),
        ("a.ipynb", damaged_notebook(900_000, SHORT_LINES), "holds more than 20,000 lines", 0),
        ("a.ipynb", damaged_notebook(3_000_000, CELLS), "has more than 100,000 parts", 0),
        ("a.ipynb", record_of_items(2_000_000), "one output holds a record of more than 1 MB", 0),
        ("a.jsonl", changed_lines(5_100), "holds more than 5,000 different answers", 5_000),
        ("a.jsonl", long_answers(110), "holds answers of more than 200,000 characters", 50),
        ("a.jsonl", changed_lines(1) + b"\n" * 30_000, "holds more than 20,000 lines", 1),
        ("a.jsonl", changed_lines(1) + b"x" * 17_000_000, "holds more than 16 MB of logbooks", 1),
        ("a.jsonl", "".join(
            write_line(fields(learner=f"P{n}"), n=n, prev="") + "\n" for n in range(30)
        ).encode(), "holds answers of more than 20 learners", 20),
    ],
    ids=["bytes", "damaged lines", "cells", "items", "answers", "characters", "blank", "long", "people"],
)  # fmt: skip
def test_what_is_read_of_one_hand_in_is_counted(
    tmp_path: Path, name: str, content: bytes, said: str, kept: int
) -> None:
    """Bytes, parts, lines, answers, learners; what stands before the limit counts, in any run the same."""
    found, again = read_one(tmp_path, name, content), read_one(tmp_path, name, content)

    assert len(found.problems) == 1
    assert said in found.problems[0]
    assert len(found.lines) == kept
    assert found == again


def test_of_many_problems_five_are_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """2,000 lines from one zip filled a terminal, and their names moved its cursor; marks.jsonl has them all."""
    (tmp_path / "a.zip").write_bytes(bad_names(1_999))
    (tmp_path / "b.jsonl").write_text(line("start.choice").text + "\n", "ascii")
    status = cli.main(["mark", str(tmp_path), "--out", str(tmp_path / "marks")])
    said = capsys.readouterr().err

    assert status == 1
    assert said.count("bitepoint: a.zip") == 6
    assert "a.zip: and 1,994 more. They stand in marks.jsonl." in said
    assert not {"\x1b", "\u202e"} & set(said)
    assert "[U+001B][2J3[U+202E]" in said
    assert (tmp_path / "marks" / "marks.jsonl").read_text("utf-8").count("leads out of the hand-in") == 1_999
    page = (tmp_path / "marks" / "report.html").read_text("utf-8")
    assert page.count("leads out of the hand-in") == 5
    assert not {"\x1b", "\u202e"} & set(page)


def test_flags_of_one_kind_are_folded() -> None:
    """Five with their evidence and one that counts the rest; six are shown as they are."""
    many = [Flag(kind="a", learner=ONE, evidence=str(n), exercise=f"e{n}") for n in range(1_000)]
    found = folded([*many, Flag(kind="b", learner=ONE, evidence="x")])

    assert [f.evidence for f in found[:5]] == ["0", "1", "2", "3", "4"]
    assert found[5].evidence == (
        "And 995 more of this kind. In e5, e6, e7, e8, e9, e10, e11, e12, e13, e14 and others. "
        "Each line stands in marks.jsonl."
    )
    assert [f.kind for f in found[6:]] == ["b"]
    assert folded(many[:6]) == many[:6]


def test_a_thousand_changed_lines_are_compared_within_a_count(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """6,000 questions of others are drawn for them at most, and the flags and the page stay short."""
    drawn = 0

    def counted(*arguments: object, **named: object) -> str:
        nonlocal drawn
        drawn += 1
        return ""

    monkeypatch.setattr(neighbours, "digest_for", counted)
    (tmp_path / "a.jsonl").write_bytes(changed_lines(1_000))
    people = "".join(f"M{n},oak-2026\n" for n in range(40))
    (tmp_path / "roster.csv").write_text(f"learner,class_word\nL50-A,oak-2026\n{people}", "utf-8")
    outcome = mark_hand_ins([tmp_path / "a.jsonl"], roster=tmp_path / "roster.csv", out=tmp_path / "marks")

    assert 5_000 < drawn <= neighbours.MAX_COMPARED + 40
    assert outcome.flags <= 7
    assert any("gave 1,000 answers to questions that are not asked any more." in p for p in outcome.problems)
    assert (tmp_path / "marks" / "assessor" / "L50-A.html").stat().st_size < 500_000


def test_a_copied_question_is_told_first_among_many_changed() -> None:
    """Folding hides no answer to somebody else's question."""
    own = [mark_line(x) for x in handins_lines(20)]
    other = exercises()["start.number"].draw(class_word="oak-2026", learner="L02-X").facts_digest()
    copied = mark_line(line("start.number", facts=other, **{"class": "oak-2026"}))
    found = folded(list(neighbours.question_changed(ONE, [*own, copied], Classmates({"oak-2026": [ONE, "L02-X"]}))))

    assert found[0].evidence.endswith("The question asked is the one drawn for L02-X.")
    assert found[5].evidence.startswith("And 16 more of this kind.")


def handins_lines(count: int) -> list[Line]:
    """Return lines whose question nobody was asked."""
    return [read_line(own_line(n).encode("ascii")) for n in range(1, count + 1)]


class Unforeseen(Exception):
    """An error that no check knows of."""


@pytest.mark.parametrize(
    ("owner", "name"), [(handins, "open_regular"), (by_exercise, "mark_line"), (batch, "audit_lines")]
)
def test_what_nobody_foresaw_is_one_line_about_its_hand_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, owner: object, name: str
) -> None:
    """Whatever is raised, and wherever: the others are marked."""
    kept = getattr(owner, name)
    failed = []

    def broken(*arguments: object, **named: object) -> object:
        if "bad" in repr(arguments) and not failed:
            failed.append(name)
            raise Unforeseen("secret\n")
        return kept(*arguments, **named)

    monkeypatch.setattr(owner, name, broken)
    (tmp_path / "bad.jsonl").write_text(line("start.choice", device="bad").text + "\n", "ascii")
    (tmp_path / "good.jsonl").write_text(line("start.number").text + "\n", "ascii")
    outcome = mark_hand_ins([tmp_path], out=tmp_path / "marks")

    assert outcome.rows == 1
    (said,) = outcome.problems
    assert said.startswith("bad.jsonl: ")
    assert "(Unforeseen), and this program does not know why." in said
    assert "secret" not in said


class BadPath:
    """A path that fails in a way that no check knows of, in whatever process it is opened."""

    def __fspath__(self) -> str:
        raise Unforeseen


def test_in_a_worker_process_too(tmp_path: Path) -> None:
    """The error stays there; what comes back is its line, and the next source."""
    (tmp_path / "good.jsonl").write_text(line("start.number").text + "\n", "ascii")
    sources = [HandInSource("bad.jsonl", BadPath(), "file"), *find_sources([tmp_path])[0]]  # type: ignore[arg-type]
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        (bad,), (good,) = pool.map(batch.read_and_mark, sources)

    assert "(Unforeseen), and this program does not know why." in bad.problems[0]
    assert (list(good.lines), good.problems) == ([ONE.lower()], ())


def test_a_check_that_nobody_foresaw_to_fail_leaves_the_others(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The marks stand, the other flags too, and a line names the learner."""

    def broken(*arguments: object) -> None:
        raise Unforeseen
        yield

    monkeypatch.setattr(history, "clock_backwards", broken)
    (tmp_path / "a.jsonl").write_text(line("start.choice", facts="0" * 16).text + "\n", "ascii")
    outcome = mark_hand_ins([tmp_path / "a.jsonl"], out=tmp_path / "marks")

    assert (outcome.rows, outcome.flags) == (1, 1)
    assert outcome.problems[0].startswith(f"{ONE}: one of the checks could not be made (Unforeseen)")


@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "No space left on device"), KeyboardInterrupt()])
def test_a_full_disk_or_a_person_ends_the_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    """These are nobody's hand-in."""

    def ended(*arguments: object) -> None:
        raise error

    monkeypatch.setattr(handins, "open_regular", ended)
    (tmp_path / "a.jsonl").write_text(line("start.choice").text + "\n", "ascii")
    (source,), _ = find_sources([tmp_path / "a.jsonl"])
    with pytest.raises(type(error)):
        batch.read_and_mark(source)


def test_a_loop_of_links_is_one_line(tmp_path: Path) -> None:
    """Also where the folder for the marks is looked for among the hand-ins."""
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    (tmp_path / "a.jsonl").write_text(line("start.choice").text + "\n", "ascii")
    outcome = mark_hand_ins([tmp_path], out=tmp_path / "marks")

    assert outcome.rows == 1
    assert outcome.problems[0].startswith("loop: is no zip, notebook or logbook")


def test_a_notebooks_own_limit_costs_only_that_notebook(tmp_path: Path) -> None:
    """The next file of the hand-in is read."""
    content = zipped(
        a_ipynb=damaged_notebook(3_000_000, CELLS), b_ipynb=notebook({"lines": [logbook().decode().strip()]})
    )
    found = read_one(tmp_path, "a.zip", content)

    assert len(found.lines) == 1
    assert found.problems == ("a.zip, a.ipynb: has more than 100,000 parts and was not read. Ask for the hand-in zip.",)


def test_a_name_that_is_no_text(tmp_path: Path) -> None:
    """A file named in the bytes of another system, or over two lines: it is marked, and told by a name that can be shown."""
    for name in (b"L01\xff.jsonl", b"two\nlines\x1b[2J.jsonl"):
        with open(os.fsencode(tmp_path) + b"/" + name, "wb") as file:
            file.write(logbook(fields(learner="L50-A")) + b"torn")
    outcome = mark_hand_ins([tmp_path], out=tmp_path / "marks")

    assert outcome.rows == 1
    assert [text.partition(":")[0] for text in outcome.problems] == ["L01[U+DCFF].jsonl", "two lines[U+001B][2J.jsonl"]


def test_the_board_reads_on_past_what_nobody_foresaw(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Read once or followed live: one file is told, the others stand on the board."""
    for learner in ("bad", "good"):
        (tmp_path / learner / "logbook").mkdir(parents=True)
        (tmp_path / learner / "logbook" / "start.a.jsonl").write_bytes(logbook(fields(device=learner)))

    def broken(self: ClassBoard, news: News) -> None:
        if any(line.record and line.record.device == "bad" for line in news.lines):
            raise Unforeseen
        kept(self, news)

    kept = ClassBoard.take
    monkeypatch.setattr(ClassBoard, "take", broken)
    for once in (True, False):
        board = Board(tmp_path)
        if once:
            board.read_once()
        else:
            board.refresh()
        said = [text for text in board.said() if "cannot be put on the board (Unforeseen)" in text]

        assert len(said) == 1
        assert said[0].startswith("bad")
        assert list(board.board.people) == ["l01-x"]


def test_editions_that_never_were_are_not_kept_one_by_one(tmp_path: Path) -> None:
    """Each would be a set of data files in memory of its own; 5,000 of them were 41 s and 860 MB."""
    before = len(shipped()._pinned)
    lines = [write_line(fields(edition=n - 150, turn=1 + n % 3), n=n, prev="") for n in range(1, 301)]
    (tmp_path / "a.jsonl").write_text("".join(f"{x}\n" for x in lines), "ascii")
    outcome = mark_hand_ins([tmp_path / "a.jsonl"], out=tmp_path / "marks")

    assert outcome.learners == 1
    assert len(shipped()._pinned) == before
