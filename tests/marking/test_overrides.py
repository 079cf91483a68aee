"""A person's mark shows everywhere the same, and can be taken back."""

import csv
from pathlib import Path
from typing import Any

import msgspec
import pytest
from test_appeal_cases import IN, ONE, WORD, Room, chained, critical, right, wrong
from test_flags import OAK

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.marking.passing import ALL_MET, MORE_WORK
from bitepoint.marking.registry.entries import Entry, overriding
from bitepoint.marking.registry.register import Register
from bitepoint.marking.result import Row

HOME = "2026-06-20T16:00:00+00:00"
SAID: dict[str, Any] = {"learner": ONE, "by": "B. Beside", "text": "seen at the bench"}


@pytest.fixture
def room(tmp_path: Path) -> Room:
    """Return an empty room."""
    return Room(tmp_path)


def override(score: float = 1.0, **more: Any) -> Entry:
    """Return an override of the exercise with the critical mistake."""
    return Entry(kind="override", exercise=critical()[0], score=score, **SAID, **more)


def back(**more: Any) -> Entry:
    """Return the entry that takes it back."""
    return Entry(kind="withdraw override", exercise=critical()[0], **SAID, **more)


def page(room: Room, out: str) -> str:
    """Return the learner's page."""
    return (room.folder / out / "assessor" / f"{ONE}.html").read_text("utf-8")


def test_an_override_and_back_is_as_computed(room: Room) -> None:
    """The same marks, words and figures as without either; both entries stay in the register and on the page."""
    room.zip(ONE, chained(wrong(), HOME))
    without = room.marked(out="without")
    room.book.add(override())
    with_it = room.marked(out="with")
    room.book.add(back())
    after = room.marked(out="after")

    assert (MORE_WORK, ALL_MET, MORE_WORK) == (without.evidence, with_it.evidence, after.evidence)
    for name in ("marks.csv", "learners.csv"):
        assert (room.folder / "without" / name).read_bytes() == (room.folder / "after" / name).read_bytes()
    assert ["override", "withdraw override"] == [e.kind for e in room.book.entries()]


def test_an_override_of_a_sitting_is_taken_back_with_its_word(room: Room) -> None:
    """Taking back that of practice leaves that of the sitting, and the other way round."""
    room.zip(ONE, chained(wrong(WORD), IN))
    room.sits()
    room.book.add(override(word=WORD))
    room.book.add(override())
    room.book.add(back())
    still = room.marked(out="still")
    room.book.add(back(word=WORD))
    gone = room.marked(out="gone")

    assert ("1", "0") == (still.row["sitting_mark"], gone.row["sitting_mark"])
    assert ("B. Beside", "") == (still.row["sitting_override_by"], gone.row["sitting_override_by"])


def test_only_an_override_that_stands_is_taken_back(room: Room) -> None:
    """Refused in one line where there is none, where it was taken back, and for another word, which is named."""
    with pytest.raises(BadInput, match=f"{ONE} has no override of {critical()[0]} in practice that stands, so nothing"):
        room.book.add(back())
    room.book.add(override(word=WORD))
    with pytest.raises(BadInput, match=f"There is one in the sitting {WORD}: add --word {WORD}."):
        room.book.add(back())
    room.book.add(back(word=WORD.upper()))
    with pytest.raises(BadInput, match=f"has no override of {critical()[0]} in the sitting {WORD} that stands"):
        room.book.add(back(word=WORD))
    room.book.add(override())
    with pytest.raises(BadInput, match="There is one in practice: leave --word out."):
        room.book.add(back(word=WORD))


def agreed(**more: Any) -> Entry:
    """Return a resolution of the exercise with the critical mistake."""
    return Entry(kind="resolution", exercise=critical()[0], score=0.5, learner=ONE, by="C. Third", text="both", **more)


def second() -> Entry:
    """Return a second mark of it."""
    return Entry(kind="second mark", exercise=critical()[0], score=0.0, learner=ONE, by="D. Fourth")


@pytest.mark.parametrize("then", [override(0.0), back()])
def test_what_was_agreed_on_is_changed_by_a_resolution_alone(room: Room, then: Entry) -> None:
    """Neither an override nor taking one back touches it: one line says so; in another word they are free."""
    for entry in (override(), override(word=WORD), second(), agreed()):
        room.book.add(entry)
    with pytest.raises(BadInput, match="was agreed on by C. Third. Enter another resolution instead."):
        room.book.add(then)
    room.book.add(msgspec.structs.replace(then, word=WORD))
    room.book.add(msgspec.structs.replace(agreed(), score=1.0))


def test_an_override_that_came_with_another_register_does_not_beat_what_was_agreed_on() -> None:
    """The resolution stands, and the first mark stays as it was when it was agreed on."""
    entries = [override(), agreed(), override(0.0), back()]

    assert "resolution" == overriding(entries)[critical()[0]].kind
    assert 1.0 == overriding(entries, resolved=False)[critical()[0]].score


@pytest.mark.parametrize(
    ("first", "last", "mark", "outcome"),
    [
        (0.0, 0.0, 1.0, "right later"),
        (1.0, 1.0, 1.0, "right at first try"),
        (1.0, 1.0, 0.0, "not right yet"),
        (0.0, 0.0, 0.5, "partly right"),
        (None, None, 1.0, "right later"),
        (0.0, 0.0, None, "not right yet"),
        (None, None, None, "not marked"),
    ],
)
def test_where_it_stands_is_said_by_the_mark_that_counts(
    first: float | None, last: float | None, mark: float | None, outcome: str
) -> None:
    """Never “not right yet” beside a mark of 1."""
    given = None if mark is None else override(mark)

    assert outcome == Row(learner=ONE, exercise="x", first_score=first, last_score=last, override=given).outcome


def test_marks_page_and_report_say_the_same(room: Room) -> None:
    """marks.csv has the mark, the page its words and whose it is, the report counts it as right."""
    room.zip(ONE, chained(wrong(), HOME))
    room.book.add(override())
    found = room.marked(out="with")
    shown, lines = page(room, "with"), room.folder / "with" / "learners.csv"
    with lines.open(encoding="utf-8-sig", newline="") as file:
        (line,) = (r for r in csv.DictReader(file) if r["learner"] == ONE)
    own = shown.split("Marks in practice")[1].split(f">{critical()[0]}<")[1].split("</tr>")[0]

    assert ("1", "1", "0", "0") == (
        found.row["mark"],
        found.row["override"],
        found.row["last_score"],
        line["critical_open"],
    )
    assert '<td class="id">right later</td>' in own
    assert "Override: 1</strong> instead of the computed 0, by B. Beside" in own
    assert "“seen at the bench” (a decision of this person, not of the program)" in own
    assert "not right yet" not in shown.split("<h2>Observation at the vehicle")[0]


def test_an_override_for_an_exercise_that_is_gone_is_one_line(room: Room) -> None:
    """Marking goes on, and one line says what stands in the register for nothing."""
    room.zip(ONE, chained(right(), HOME))
    room.book.write(override().__class__(kind="override", exercise="gone.away", score=1.0, **SAID))
    found = room.marked()

    assert ALL_MET == found.evidence
    assert ["gone.away" in p and "this bank does not have" in p for p in found.problems] == [True]


def test_the_newest_of_several_stands() -> None:
    """Taken back and given again: the last one; a resolution counts as one where it is asked for."""
    assert {} == overriding([override(), back()])
    assert 0.5 == overriding([override(), back(), override(0.5)])[critical()[0]].score
    assert "resolution" == overriding([override(), agreed()])[critical()[0]].kind
    assert "override" == overriding([override(), agreed()], resolved=False)[critical()[0]].kind


def test_a_persons_words_are_theirs(room: Room) -> None:
    """Whatever a person wrote stands in quotation marks with the name, and the program says that it is not its own."""
    room.zip(ONE, chained(right(), HOME))
    room.book.add(
        Entry(kind="decision", learner=ONE, by="B. Beside", criterion="all", text="competent", date="2026-07-01")
    )
    room.book.add(Entry(kind="declaration", learner=ONE, by=ONE, signed="yes", date="2026-07-01"))
    room.marked()
    shown = page(room, "marks")

    assert '“competent” <span class="under">(a decision of this person, not of the program)</span>' in shown
    assert 1 == shown.count("competent")
    assert f"1 July 2026, by {ONE}, signed on paper: yes" in shown
    assert OAK in shown


def test_an_override_without_a_word_is_said_to_be_of_practice(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The command says so at once; with the word of a sitting it says nothing."""
    monkeypatch.chdir(tmp_path)
    said = ["register", "add", "override", "--learner", "L07-K", "--exercise", "start.number", "--score", "1"]
    said += ["--by", "B", "--text", "seen"]
    assert 0 == main(said)
    assert "It is of practice only. For a sitting, enter one with its word" in capsys.readouterr().err
    assert 0 == main([*said, "--word", "red-kite"])
    assert "practice only" not in capsys.readouterr().err


def test_an_upheld_appeal_names_the_entry_that_changes_the_mark(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """An override, and where the mark was agreed on, another resolution."""
    monkeypatch.chdir(tmp_path)
    received = ["register", "add", "appeal", "--learner", ONE, "--exercise", critical()[0], "--by", "E. Head"]
    received += ["--text", "looked at"]
    decided = [*received, "--outcome", "upheld"]
    assert [0, 0] == [main(received), main(decided)]
    assert "until an override says otherwise: bitepoint register add override " in capsys.readouterr().err
    for entry in (second(), agreed()):
        Register(tmp_path / "register").add(entry)
    assert [0, 0] == [main(received), main(decided)]
    assert "until another resolution says otherwise: bitepoint register add resolution " in capsys.readouterr().err
