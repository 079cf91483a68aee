"""Marking a recorded answer afresh, and how learners are named."""

from pathlib import Path
from typing import Any

import pytest
from test_flags import OAK, ONE, line, marked

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.logbook.record import Line, write_line
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.line_marking import NOT_READ, Asked, drawn, mark_line
from bitepoint.marking.roster import Enrolled, public_name, read_roster
from bitepoint.marking.rows import rows_of


@pytest.mark.parametrize("exercise", list(exercises()))
def test_every_exercise_of_the_bank_is_marked_again(exercise: str) -> None:
    """The right answer scores 1 and every known mistake is found by its name, as on the page."""
    question = exercises()[exercise].draw(class_word=OAK, learner=ONE)
    right = marked(exercise).verdict
    assert right is not None
    assert right.right
    for answer, name in question.known_mistakes():
        wrong = marked(exercise, answer).verdict
        assert wrong is not None
        assert name in wrong.mistakes


@pytest.mark.parametrize(
    "answer",
    [
        "9**9**9 N·m",
        "",
        "ninety",
        "1" * 4000,
        ["a", ["b"]],
        [{"bolt": 1}],
        [None],
        [1e308] * 3,
        "=1+1",
        "\x00",
        [[[[1]]]],
        [{}],
    ],
)
@pytest.mark.parametrize(
    "exercise", ["start.number", "start.choice", "start.several", "start.order", "start.tightening"]
)
def test_odd_answers_score_nothing_and_never_raise(exercise: str, answer: Any) -> None:
    """Text that is no answer, lists of the wrong things, powers of powers."""
    verdict = marked(exercise, answer).verdict

    assert verdict is not None
    assert (verdict.score, verdict.reason) == (0.0, NOT_READ)


@pytest.mark.parametrize(
    "changes", [{"revision": 99}, {"revision": 0}, {"facts": "0" * 16}, {"sitting": "june"}, {"sitting": "x" * 301}]
)
def test_another_question_than_the_one_drawn_has_no_mark(changes: dict[str, Any]) -> None:
    """Revision, digest or sitting that do not fit: question changed, nothing guessed."""
    found = marked("start.number", **changes)

    assert (found.status, found.verdict) == ("question changed", None)


@pytest.mark.parametrize("turn", [0, -5])
def test_turns_begin_at_one(turn: int) -> None:
    """Nobody was ever asked an earlier one."""
    assert drawn(Asked(exercise="start.number", class_word=OAK, learner=ONE, turn=turn, revision=1)) is None


def test_an_unknown_exercise_is_one_line_a_learner(tmp_path: Path) -> None:
    """It has no row and no mark; the line says which and what to do."""
    fields = {"at": "x", "learner": ONE, "class": OAK, "device": "d", "exercise": "gone.by", "revision": 1, "turn": 1}
    gone = write_line({**fields, "facts": "q", "how": "form", "answer": "1"}, n=1, prev="")
    (tmp_path / "a.jsonl").write_text(gone + "\n", encoding="ascii")
    (tmp_path / "b.jsonl").write_text(line("start.number").text + "\n", encoding="ascii")
    outcome = mark_hand_ins([tmp_path / "a.jsonl", tmp_path / "b.jsonl"], out=tmp_path / "out")

    assert outcome.rows == 1
    assert [
        f"{ONE}: answered 'gone.by', which this bank does not have, so it has no mark. "
        "Mark with the version that the class worked with."
    ] == outcome.problems
    assert outcome.look


def test_a_line_that_cannot_be_read_is_never_marked() -> None:
    """The caller hands in readable lines only."""
    with pytest.raises(ValueError, match="cannot be read"):
        mark_line(Line("x", None, "cannot be read"))


def test_answers_under_the_rosters_class_word_count() -> None:
    """Where an exercise has answers under two words, those under the learner's own count; else the others do."""
    own = marked("start.number")
    other = marked("start.number", "1 N·m", **{"class": "elm-2026"})
    alone = marked("start.choice", **{"class": "elm-2026"})
    rows = rows_of(ONE, [own, other, alone], OAK)

    assert {("start.number", 1.0, 1), ("start.choice", 1.0, 1)} == {(r.exercise, r.last_score, r.tries) for r in rows}


@pytest.mark.parametrize("learner", ["../x", "CON", "x" * 255, "", "a/b", "ö", "unknown-0123456789ab", "..", "nul.txt"])
def test_ids_that_cannot_be_used_become_unknown(learner: str) -> None:
    """The name of row and page is made from a hash, and is the same whatever the capitals."""
    name = public_name(learner)

    assert name.startswith("unknown-")
    assert name.replace("unknown-", "").isalnum()
    assert name == public_name(learner.swapcase())
    assert name != learner


@pytest.mark.parametrize("learner", ["../x", "CON", "x" * 255, "a\x00b", "<i>L01</i>"])
def test_unknown_learners_have_a_page_and_a_row(tmp_path: Path, learner: str) -> None:
    """Nothing is written outside the folder of marks; the row carries the flag."""
    (tmp_path / "a.jsonl").write_text(line("start.number", learner=learner).text + "\n", encoding="ascii")
    (tmp_path / "roster.csv").write_text(f"learner,class_word\n{ONE},{OAK}\n", encoding="utf-8")
    out = tmp_path / "out"
    mark_hand_ins([tmp_path / "a.jsonl"], roster=tmp_path / "roster.csv", out=out)
    name = public_name(learner)

    assert {f"{ONE}.html", f"{name}.html"} == {p.name for p in (out / "learners").iterdir()}
    assert {"a.jsonl", "roster.csv", "out"} == {p.name for p in tmp_path.iterdir()}
    assert f"{name},start.number,1,1,1,1,0,no," in (out / "marks.csv").read_text(encoding="utf-8")
    assert "unknown learner" in (out / "marks.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("name,class\nx,y\n", "roster.csv: has no column “learner”. Its columns are: “name”, “class”. "),
        ("", "roster.csv: has no column “learner”. Its columns are: none. "),
        ("learner\nL01\nl01\n", "roster.csv: line 3: l01 is there twice. Keep one line for each learner."),
        ("learner\n../x\n", "roster.csv: line 2: The learner id '../x' cannot be used."),
        ("learner,class_word\nL01,a b\n", "roster.csv: line 2: The class word 'a b' cannot be used."),
        ('learner,name\nL01,A\nL02,"B\nL03,C\n', "roster.csv: line 3: a quotation mark is not closed."),
        ('learner,name\nL01,A\nL02,"B\nL03,"C"\n', "roster.csv: line 3: a quotation mark is not closed."),
        ('learner,name\nL01,"A' + "\nL02,B" * 30_000, "roster.csv: line 2: a quotation mark is not closed."),
        ("learner,name\n\nL01,A, B\n", "roster.csv: line 3: has more cells than columns."),
        ("learner,class_word\n", "roster.csv: lists no learner."),
        ("learner,class_word\n,oak\n", "roster.csv: lists no learner."),
    ],
)
def test_a_roster_that_cannot_be_used_says_why(tmp_path: Path, content: str, said: str) -> None:
    """Name of the file, line, rule, what to do."""
    (tmp_path / "roster.csv").write_text(content, encoding="utf-8")

    with pytest.raises(BadInput) as raised:
        read_roster(tmp_path / "roster.csv")
    assert str(raised.value).startswith(said)


def test_a_roster_in_another_encoding_or_missing_is_one_line(tmp_path: Path) -> None:
    """The spreadsheet's own code page is not guessed."""
    (tmp_path / "roster.csv").write_bytes("learner\nMüller\n".encode("latin-1"))

    with pytest.raises(BadInput, match=r"^roster\.csv: is not written in UTF-8\. Save it again as “CSV UTF-8”\.$"):
        read_roster(tmp_path / "roster.csv")
    with pytest.raises(BadInput, match=r"^none\.csv: cannot be opened \(No such file or directory\)\."):
        read_roster(tmp_path / "none.csv")


@pytest.mark.parametrize(
    "content",
    [
        "learner;class_word;name\nL01;oak;N\n\n",
        "\ufeffname, learner ,class_word\nN,L01,oak\n",
        'learner,class_word,name\r\nL01,oak,"N ""the\r\nlast"", M",,\r\n',
    ],
)
def test_rosters_as_spreadsheets_write_them_are_read(tmp_path: Path, content: str) -> None:
    """Semicolons, a byte order mark, columns in another order, empty lines and cells; names are not kept."""
    (tmp_path / "roster.csv").write_text(content, encoding="utf-8")

    assert {"l01": Enrolled("L01", "oak")} == read_roster(tmp_path / "roster.csv")
