"""The register: what an entry must say, nothing lost, nothing changed unseen, replayed at each marking."""

import csv
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import msgspec
import pytest
from test_flags import ONE, TWO, line

from bitepoint.bank import exercises
from bitepoint.cli import main
from bitepoint.errors import BadInput, NotRecorded
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.registry.lists import add_all, read_codes, read_observations
from bitepoint.marking.registry.register import KINDS, NEEDS, OPTIONS, Entry, Register, check_entry
from bitepoint.marking.rules import read_rules

WRITER = """
import sys
from pathlib import Path
from bitepoint.marking.registry.register import Entry, Register
book = Register(Path(sys.argv[1]))
for n in range(int(sys.argv[3])):
    book.add(Entry(kind="appeal", learner="L01", by=sys.argv[2], text=str(n), date="2026-06-30"))
    print(n, flush=True)
"""


def entry(kind: str, **said: object) -> Entry:
    """Return an entry that says all its kind must say."""
    whole: dict[str, object] = {
        "learner": ONE,
        "by": "A. Assessor",
        "text": "why",
        "exercise": "start.number",
        "score": 1.0,
        "criterion": "Frees the disc",
        "result": "done right",
        "action": "none",
        "lesson": "start",
        "code": "AD7-QB7",
        "number": 1,
        "word": "red-kite",
        "begins": "2026-06-30T09:00:00+02:00",
        "ends": "2026-06-30T11:00:00+02:00",
        "hand_in": "0123456789ab",
        "date": "2026-06-30",
    }
    kept = {k: whole[k] for k in (*NEEDS[kind], "date")}
    return Entry(kind=kind, **{**kept, **said})  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_written_and_read_back(tmp_path: Path, kind: str) -> None:
    """All fields come back, the chain holds, and the entry says when it was written."""
    book = Register(tmp_path)
    if kind == "resolution":
        # It settles the difference of a second mark.
        book.add(msgspec.structs.replace(entry("second mark"), by="B. Beside"))
    if kind == "withdraw override":
        book.add(entry("override"))
    book.add(entry(kind))
    found = book.entries()[-1]

    for key in (*NEEDS[kind], "date"):
        assert getattr(found, key) == getattr(entry(kind), key)
    assert found.at
    assert book.problems() == []


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_missing_is_named(kind: str) -> None:
    """One line: which option, and how to write it."""
    for key in NEEDS[kind]:
        empty = None if key in ("score", "number") else ""
        with pytest.raises(BadInput, match=rf"^An entry “{kind}” needs --{OPTIONS.get(key, key)}\. "):
            check_entry(entry(kind, **{key: empty}))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"kind": "promise"}, "There is no entry 'promise'. Choose one of: sitting,"),
        ({"score": 1.5}, "--score must be between 0 and 1, but you gave 1.5."),
        ({"score": float("nan")}, "--score must be between 0 and 1"),
        ({"exercise": "star.nothing"}, "There is no exercise 'star.nothing'."),
        ({"date": "30.6.2026"}, "--date must be a day such as 2026-06-30"),
        ({"learner": "../x"}, "The learner id '../x' cannot be used."),
        ({"text": "x" * 1001}, "--text is longer than 1,000 characters."),
    ],
)
def test_what_cannot_be_used_is_told_in_one_line(changes: dict[str, object], said: str) -> None:
    """Name, rule, what was given."""
    import msgspec

    with pytest.raises(BadInput) as raised:
        check_entry(msgspec.structs.replace(entry("override"), **changes))
    assert str(raised.value).startswith(said)
    assert "\n" not in str(raised.value)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("observation", "confirmation")])
def test_a_result_is_of_an_observation_or_a_confirmation(kind: str) -> None:
    """Of any other entry no page would show it, so it is refused; what was decided is its text."""
    with pytest.raises(BadInput, match="^--result is of an observation or a confirmation. Write it into --text"):
        check_entry(entry(kind, result="may go on"))


@pytest.mark.parametrize("code", ["AD7QB7", "ad7-qb7", "AD7 QB7"])
def test_codes_may_be_written_carelessly(code: str) -> None:
    """Small letters and a missing hyphen mean the same."""
    assert check_entry(entry("code", code=code)).code == "AD7-QB7"


@pytest.mark.parametrize("begins", ["2026-10-25T02:30", "2026-03-29T02:30", "2026-06-30T09:00"])
def test_a_window_needs_its_offset_also_where_clocks_change(begins: str) -> None:
    """A time without one is refused, so that an hour that comes twice is never meant by mistake."""
    sitting = {"kind": "sitting", "by": "A", "word": "red-kite", "ends": f"{begins[:10]}T11:00+02:00"}
    with pytest.raises(BadInput, match="--from must be a time with its zone, such as"):
        check_entry(Entry(begins=begins, **sitting))
    hours = [check_entry(Entry(begins=f"{begins}+0{offset}:00", **sitting)).begins for offset in (1, 2)]
    assert [f"{begins}:00+01:00", f"{begins}:00+02:00"] == hours


def test_a_changed_or_removed_line_is_told(tmp_path: Path) -> None:
    """An edited score and a missing line break the chain; the edited entry is not used."""
    book = Register(tmp_path)
    for n in range(3):
        book.add(entry("override", text=str(n)))
    (path,) = (tmp_path / "logbook").glob("*.jsonl")
    lines = path.read_text("ascii").splitlines()
    path.write_text("\n".join([lines[0], lines[1].replace('"score":1.0', '"score":0.0'), lines[2]]) + "\n", "ascii")

    assert ["0", "2"] == [e.text for e in book.entries()]
    assert "was changed after it was written" in book.problems()[0]
    path.write_text("\n".join([lines[0], lines[2]]) + "\n", "ascii")
    assert "a line is missing, added or moved" in book.problems()[0]


def test_two_assessors_at_once_lose_nothing(tmp_path: Path) -> None:
    """Two processes write forty entries each: all are there, in one chain that holds."""
    writers = [
        subprocess.Popen([sys.executable, "-c", WRITER, str(tmp_path), who, "40"], stdout=subprocess.DEVNULL)
        for who in ("one", "two")
    ]
    assert [0, 0] == [w.wait(60) for w in writers]
    found = Register(tmp_path).entries()

    assert {(who, str(n)) for who in ("one", "two") for n in range(40)} == {(e.by, e.text) for e in found}
    assert Register(tmp_path).problems() == []


def test_killed_in_the_middle_loses_nothing_that_was_acknowledged(tmp_path: Path) -> None:
    """kill -9 at five moments: every acknowledged entry is there, and the next one chains on."""
    acknowledged: list[tuple[str, str]] = []
    for round_ in range(5):
        who = f"w{round_}"
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path), who, "100000"], stdout=subprocess.PIPE, text=True
        )
        assert writer.stdout
        seen = [writer.stdout.readline().strip()]
        time.sleep(0.03 * (round_ + 1))
        os.kill(writer.pid, signal.SIGKILL)
        seen += writer.stdout.read().split()
        writer.wait(20)
        writer.stdout.close()
        acknowledged += [(who, n) for n in seen]
    Register(tmp_path).add(entry("appeal", text="after"))
    found = {(e.by, e.text) for e in Register(tmp_path).entries()}

    assert set(acknowledged) <= found
    assert ("A. Assessor", "after") in found
    assert Register(tmp_path).problems() == []


def test_a_torn_last_line_is_set_aside(tmp_path: Path) -> None:
    """Half a line, as a power cut leaves it, costs nothing else."""
    book = Register(tmp_path)
    book.add(entry("sitting"))
    (path,) = (tmp_path / "logbook").glob("*.jsonl")
    with open(path, "ab") as file:
        file.write(b'{"n":2,"at":"2026')
    book.add(entry("declaration"))

    assert ["sitting", "declaration"] == [e.kind for e in book.entries()]
    assert book.problems() == []


def test_a_register_that_cannot_be_written_says_so(tmp_path: Path) -> None:
    """One line about the register, not about an answer."""
    (tmp_path / "logbook").write_text("a file where the folder should be", "utf-8")

    with pytest.raises(NotRecorded, match=r"^The entry was not recorded: .*try again\.$"):
        Register(tmp_path).add(entry("sitting"))


def hand_in(tmp_path: Path, answer: object = "1 N·m", learner: str = ONE) -> Path:
    """Write a hand-in with one answer."""
    path = tmp_path / f"{learner}.jsonl"
    path.write_text(line("start.number", answer, learner=learner).text + "\n", encoding="ascii")
    return path


def row_of(out: Path, name: str = "marks.csv") -> list[dict[str, str]]:
    """Return the rows of a result."""
    with open(out / name, encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def test_an_override_stands_beside_the_computed_mark(tmp_path: Path) -> None:
    """The newest override counts; the computed mark, who and why stay visible, at every marking."""
    book = Register(tmp_path / "register")
    book.add(entry("override", score=0.5, text="first thought"))
    book.add(entry("override", score=1.0, text="read the meter right"))
    for _ in range(2):
        mark_hand_ins([hand_in(tmp_path)], out=tmp_path / "out", register=tmp_path / "register")
    (row,) = row_of(tmp_path / "out")
    page = (tmp_path / "out" / "assessor" / f"{ONE}.html").read_text("utf-8")

    assert ("0", "1", "1", "A. Assessor") == (row["last_score"], row["override"], row["mark"], row["override_by"])
    assert (
        "Override: 1</strong> instead of the computed 0, by A. Assessor, 30 June 2026: “read the meter right”" in page
    )


def test_marks_are_restored_from_hand_ins_register_and_trail(tmp_path: Path) -> None:
    """The marks thrown away and the register moved to another computer: the same bytes come back.

    Each mark is found again in the trail, and a wrong override is undone by a new one, never by taking it out.
    """
    book, inputs = Register(tmp_path / "register"), [hand_in(tmp_path), hand_in(tmp_path, learner=TWO)]
    book.add(entry("override", score=1.0, text="read the meter right"))
    book.add(entry("override", score=0.0, text="meant for another learner"))
    names = ("marks.csv", "learners.csv", "marks.jsonl")

    def marked(register: Path) -> list[bytes]:
        mark_hand_ins(inputs, out=tmp_path / "out", register=register)
        return [(tmp_path / "out" / name).read_bytes() for name in names]

    first = marked(tmp_path / "register")
    shutil.rmtree(tmp_path / "out")
    shutil.copytree(tmp_path / "register", tmp_path / "elsewhere")
    assert first == marked(tmp_path / "elsewhere")
    trail = [json.loads(text) for text in first[2].decode("utf-8").splitlines()]
    rows = [x for x in trail if x.get("learner") == ONE and x.get("exercise") == "start.number"]
    assert [0.0] == [row["score"] for row in rows]
    assert all(row["line"] for row in rows)
    book.add(entry("override", score=1.0, text="the first one stands"))
    marked(tmp_path / "register")
    (row,) = (r for r in row_of(tmp_path / "out") if r["learner"] == ONE)
    assert ("0", "1", "1") == (row["last_score"], row["override"], row["mark"])
    assert [1.0, 0.0, 1.0] == [e.score for e in book.entries()]


def test_an_override_without_an_answer_has_a_row(tmp_path: Path) -> None:
    """What was shown by word of mouth can be marked too."""
    Register(tmp_path / "register").add(entry("override", exercise="start.choice"))
    mark_hand_ins([hand_in(tmp_path)], out=tmp_path / "out", register=tmp_path / "register")

    assert {"start.number": ("0", "0"), "start.choice": ("", "1")} == {
        r["exercise"]: (r["last_score"], r["mark"]) for r in row_of(tmp_path / "out")
    }


NO_BOX = ("deletion", "code", "confirmation", "sender", "lines", "withdraw override", "resolution")


def test_every_box_stands_on_the_assessors_page(tmp_path: Path) -> None:
    """What is recorded is shown; what is not is an empty box to fill in."""
    book = Register(tmp_path / "register")
    for kind in KINDS:
        if kind not in NO_BOX:
            by = "B. Beside" if kind == "second mark" else "A. Assessor"
            book.add(entry(kind, learner=ONE, by=by, text=f"words of the {kind}"))
    mark_hand_ins(
        [hand_in(tmp_path), hand_in(tmp_path, learner=TWO)], out=tmp_path / "out", register=tmp_path / "register"
    )
    recorded, blank = ((tmp_path / "out" / "assessor" / f"{who}.html").read_text("utf-8") for who in (ONE, TWO))

    for kind in KINDS:
        if kind not in NO_BOX:
            assert f"words of the {kind}" in recorded
    for title in ("Learner’s declaration", "Supervised sitting", "Assessor’s decision", "Verification", "Appeal"):
        assert title in blank
    assert "claim with no matching line" in recorded
    assert "unsupervised" in recorded
    assert "unsupervised" in blank


def test_supervised_is_what_the_register_says_not_the_class_file(tmp_path: Path) -> None:
    """A supervisor named beforehand is told as such; only a sitting's answers inside its window are supervised."""
    (tmp_path / "class.toml").write_text('class_word = "oak-2026"\nsupervisor = "B. Beside"\n', "utf-8")
    Register(tmp_path / "register").add(entry("sitting"))
    path, asked = tmp_path / "sat.jsonl", exercises()["start.number"]
    question = asked.draw(class_word="oak-2026", learner=ONE, sitting="red-kite")
    said = {"facts": question.facts_digest(), "sitting": "red-kite", "at": "2026-06-30T08:00:00.000Z", "score": None}
    path.write_text(line("start.number", question.right_answer(), **said).text + "\n", encoding="ascii")
    mark_hand_ins(
        [hand_in(tmp_path), path, hand_in(tmp_path, learner=TWO)],
        out=tmp_path / "out",
        register=tmp_path / "register",
        rules=read_rules(tmp_path / "class.toml"),
    )
    report = (tmp_path / "out" / "report.html").read_text("utf-8")

    assert "Answers of a supervised sitting are there from 1 of 2 who handed in; the others are unsupervised" in report
    assert "The class file names B. Beside as supervisor" in report
    assert "supervised by A. Assessor" in (tmp_path / "out" / "assessor" / f"{ONE}.html").read_text("utf-8")
    assert "B. Beside" not in (tmp_path / "out" / "assessor" / f"{TWO}.html").read_text("utf-8")


def test_a_deleted_learner_is_left_out_everywhere(tmp_path: Path) -> None:
    """Rows, trail and page go; the audit line stays, and the hand-in still to be removed is named."""
    inputs = [hand_in(tmp_path), hand_in(tmp_path, learner=TWO)]
    out = tmp_path / "out"
    mark_hand_ins(inputs, out=out)
    Register(tmp_path / "register").add(entry("deletion", text="on request"))
    outcome = mark_hand_ins(inputs, out=out, register=tmp_path / "register")

    assert [f"{TWO}.html"] == [p.name for p in (out / "learners").iterdir()]
    assert [TWO] == [r["learner"] for r in row_of(out, "learners.csv")]
    trail = [json.loads(text) for text in (out / "marks.jsonl").read_text("utf-8").splitlines()]
    assert [TWO] == [x["learner"] for x in trail if "line" in x]
    assert outcome.problems == [
        f"{ONE}.jsonl: holds lines of {ONE}, who was deleted on request on 2026-06-30. They were left out; "
        "remove that file."
    ]
    assert "one learner deleted on request" in (out / "report.html").read_text("utf-8")
    with pytest.raises(BadInput, match="was deleted on request, so nothing more is recorded"):
        Register(tmp_path / "register").add(entry("appeal"))


def test_codes_and_observations_come_in_as_lists(tmp_path: Path) -> None:
    """Each row once, however often the list is brought; nothing is written when one row is wrong."""
    (tmp_path / "codes.csv").write_text(f"Learner;Lesson;Code;Noted_at\n{ONE};start;ad7qb7;2026-06-30T10:00\n", "utf-8")
    (tmp_path / "seen.csv").write_text(
        f"criterion,result,learner,assessor,date,note\nFrees the disc,Done  right,{ONE},B,2026-07-01,=1+1\n", "utf-8"
    )
    book = Register(tmp_path / "register")
    for _ in range(2):
        add_all(book, read_codes(tmp_path / "codes.csv"))
        add_all(book, read_observations(tmp_path / "seen.csv"))

    assert [("code", "AD7-QB7", ""), ("observation", "", "done right")] == [
        (e.kind, e.code, e.result) for e in book.entries()
    ]


def test_a_long_list_reads_the_register_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Else each code noted in a large class would cost more than the one before."""
    read: list[int] = []
    lines = Register.lines
    monkeypatch.setattr(Register, "lines", lambda self: read.append(1) or lines(self))
    add_all(Register(tmp_path), [(f"line {n}", entry("code", learner=f"L{n}")) for n in range(50)])

    assert 1 == len(read)
    assert 50 == len(Register(tmp_path).entries())


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("learner,lesson,code\n", "codes.csv: has no column “noted at”. Its columns are:"),
        (
            f"learner,lesson,code,noted at\n{ONE},moon,AD7-QB7,2026-06-30\n",
            "codes.csv: line 2: There is no lesson 'moon'",
        ),
        (
            f"learner,lesson,code,noted at\n{ONE},start,AD8-QB7,2026-06-30\n",
            "codes.csv: line 2: 'AD8-QB7' is no check code.",
        ),
        (f"learner,lesson,code,noted at\n{ONE},start,AD7-QB7,soon\n", "codes.csv: line 2: --date must be a day"),
    ],
)
def test_a_list_that_cannot_be_used_names_its_line(tmp_path: Path, content: str, said: str) -> None:
    """File, line, rule."""
    (tmp_path / "codes.csv").write_text(content, "utf-8")

    with pytest.raises(BadInput) as raised:
        read_codes(tmp_path / "codes.csv")
    assert str(raised.value).startswith(said)


def test_the_commands_speak_to_a_person(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """add, show and verify in plain lines; a broken chain is exit status 1, wrong use 2 and one line."""
    monkeypatch.chdir(tmp_path)
    add = ["register", "add", "second", "mark", "--learner", ONE, "--exercise", "start.number", "--by", "B"]
    shown = f"2026-06-30 second mark by B: {ONE} · start.number · 0.5\n"

    assert main(["register", "show"]) == 2
    assert "There is no register in register." in capsys.readouterr().err
    assert main([*add, "--score", "0.5", "--date", "2026-06-30"]) == 0
    assert f"Recorded: {shown}" == capsys.readouterr().out
    assert main(["register", "show"]) == main(["register", "verify"]) == 0
    assert f"{shown}The chain holds: 1 entry.\n" == capsys.readouterr().out
    assert main(add) == 2
    assert "An entry “second mark” needs --score." in capsys.readouterr().err
    (path,) = (tmp_path / "register" / "logbook").glob("*.jsonl")
    path.write_text(path.read_text("ascii").replace('"score":0.5', '"score":1.0'), "ascii")
    assert main(["register", "verify"]) == 1
    assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.parametrize("command", [["register"], ["register", "add"], ["note-codes"], ["observe"], ["export"]])
def test_every_command_has_help(command: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Usage in words; where a list or folder is asked for, with an example."""
    assert main([*command, "--help"]) == 0
    shown = capsys.readouterr().out

    assert shown.startswith(f"Usage: bitepoint {' '.join(command)}")
    assert "Examples:" in shown or command == ["register", "add"]
