"""A rehearsal touches no class of one's own: a class word and a register of its own, told from its folder."""

from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.logbook.identity import REHEARSAL, learner_id, read_identity
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal.place import NOTE, register_for, rehearsal_of
from bitepoint.marking.rehearsal.planted import CRITERIA
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import read_rules

MARK = [
    "mark",
    "class/hand-ins",
    "--roster",
    "class/roster.csv",
    "--class-file",
    "class/class.toml",
    "--out",
    "class/results",
]


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder to work in, with a rehearsal of three learners in `class`."""
    monkeypatch.chdir(tmp_path)
    rehearse(tmp_path / "class", learners=3, seed=1, lessons=("start",))
    return tmp_path


@pytest.mark.parametrize(
    "command",
    [
        ["class", "new", "own", "--title", "T", "--class-word", "Rehearsal", "--learners", "3"],
        ["open", "own", "--class-word", "REHEARSAL", "--learner", "L01-A", "--no-browser"],
    ],
)
def test_the_class_word_of_invented_classes_is_nobody_elses(
    command: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whatever its capitals, a class cannot be set up or opened with it; one line says so and nothing is written."""
    monkeypatch.chdir(tmp_path)
    command = [learner_id(REHEARSAL, 1) if part == "L01-A" else part for part in command]

    assert 2 == main(command)
    assert "is kept for invented classes to practise on. Choose another word." in capsys.readouterr().err
    assert [] == list(tmp_path.iterdir())


def test_a_rehearsed_workbook_can_be_read(tmp_path: Path) -> None:
    """What a rehearsal wrote is read as any other workbook."""
    rehearse(tmp_path / "class", learners=1, seed=1, form="folder", lessons=("start",))
    (path,) = (tmp_path / "class").glob("hand-ins/*/workbook.toml")

    assert REHEARSAL == read_identity(path).class_word


def test_every_rehearsed_class_is_whole(place: Path) -> None:
    """Class file, roster with cars, truth and an empty register, planted cases or not."""
    assert {NOTE, "class.toml", "roster.csv", "truth.csv", "hand-ins", "register"} == {
        p.name for p in (place / "class").iterdir()
    }
    assert ("start",) == read_rules(place / "class" / "class.toml").lessons
    enrolled = read_roster(place / "class" / "roster.csv").values()
    assert {REHEARSAL} == {e.class_word for e in enrolled}
    assert {("A", "B", "C", "D")} == {e.cars for e in enrolled}
    assert all(e.vehicle in e.cars for e in enrolled)


def test_honest_work_of_a_rehearsal_has_nothing_to_look_at_because_of_its_files(
    place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Roster, cars, class file and register fit the hand-ins."""
    assert main(MARK) in (0, 1)
    told = capsys.readouterr().err
    assert "left out" not in told
    page = (place / "class" / "results" / "report.html").read_text("utf-8")
    assert "another car than" not in page
    assert "wrong class word" not in page


def test_what_is_recorded_about_a_rehearsal_stays_in_it(
    place: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Codes and observations by the file that is brought, other entries by the folder one is in."""
    who = learner_id(REHEARSAL, 1)
    (place / "class" / "codes.csv").write_text(f"learner,lesson,code,noted at\n{who},start,AD7-QB7,2026-06-30\n")
    (place / "class" / "seen.csv").write_text(
        f"criterion,result,learner,assessor,date\n{CRITERIA[0]},done right,{who},B,2026-06-30\n"
    )
    assert 0 == main(["note-codes", "class/codes.csv"])
    assert 0 == main(["observe", "class/seen.csv"])
    monkeypatch.chdir(place / "class" / "hand-ins")
    assert 0 == main(["register", "add", "declaration", "--learner", who, "--by", who])

    assert 0 == main(["observe", "../seen.csv"])
    assert f"A rehearsal: its own register is used, {place / 'class' / 'register'}" in capsys.readouterr().err
    assert ["code", "observation", "declaration"] == [e.kind for e in Register(place / "class" / "register").entries()]
    assert not (place / "register").exists()


def test_a_register_beside_is_not_taken_up_for_a_rehearsal_unseen(
    place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where a register lies beside one, marking a rehearsal says that it uses the rehearsal's own."""
    Register(place / "register").add(Entry(kind="declaration", learner=learner_id(REHEARSAL, 1), by="B"))
    capsys.readouterr()
    assert main(MARK) in (0, 1)

    assert "A rehearsal: its own register is used, " in capsys.readouterr().err
    assert "B" not in (place / "class" / "results" / "learners.csv").read_text("utf-8").split(",")


def test_a_note_alone_makes_no_rehearsal(tmp_path: Path) -> None:
    """A learner who hands in a file of that name moves nobody's register."""
    (tmp_path / "hand-ins").mkdir()
    (tmp_path / "hand-ins" / NOTE).write_text("An invented class\n", "utf-8")
    (tmp_path / "class.toml").write_text('class_word = "oak-2026"\n', "utf-8")

    assert rehearsal_of(tmp_path / "hand-ins") is None
    assert Path("register") == register_for(tmp_path / "hand-ins")


def test_a_whole_rehearsal_can_be_named(place: Path) -> None:
    """Its hand-ins are marked, not its register or its results."""
    assert main(["mark", "class", "--out", "one"]) in (0, 1)
    assert main(["mark", "class/hand-ins", "--out", "two"]) in (0, 1)
    assert (place / "one" / "marks.csv").read_bytes() == (place / "two" / "marks.csv").read_bytes()


def test_the_next_step_is_a_line_to_type(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The line that a rehearsal prints marks it."""
    monkeypatch.chdir(tmp_path)
    assert 0 == main(["rehearse", "--learners", "1", "--out", "class"])
    (line,) = [x for x in capsys.readouterr().out.splitlines() if x.startswith("Next: ")]
    assert f"Next: bitepoint {' '.join(MARK)}" == line
    assert main(line.split()[2:]) in (0, 1)


def marked_with(place: Path, *entries: Entry, roster: bool = True, capsys: pytest.CaptureFixture[str]) -> str:
    """Mark the class with a register beside it and return what was told."""
    book = Register(place / "other")
    for entry in entries:
        book.add(entry)
    chosen = MARK if roster else [MARK[0], MARK[1], *MARK[-2:]]
    capsys.readouterr()
    main([*chosen, "--register", "other"])
    return capsys.readouterr().err


def test_a_register_of_another_class_is_left_out_and_told(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Learners of another class: no entry counts, and one line says why."""
    others = [Entry(kind="appeal", learner=learner_id("oak-2026", n), by="B", text="x") for n in range(1, 4)]
    room = Entry(kind="sitting", word="owl", by="B", begins="2026-06-30T09:00Z", ends="2026-06-30T11:00Z")

    told = marked_with(place, *others, room, capsys=capsys)
    assert "The register was left out: only 0 of its 3 learners are in the class that was marked" in told
    assert "claim with no matching line" not in (place / "class" / "results" / "report.html").read_text("utf-8")


@pytest.mark.parametrize("roster", [True, False])
def test_a_register_with_one_mistyped_learner_is_that_of_the_class(
    place: Path, roster: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    """One of two is in the class: it counts."""
    own = [Entry(kind="appeal", learner=who, by="B", text="x") for who in (learner_id(REHEARSAL, 1), "L07e")]

    assert "left out" not in marked_with(place, *own, roster=roster, capsys=capsys)


def test_a_deletion_counts_in_whatever_register(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Who was deleted on request stays so, also where the rest of the register is another class's."""
    gone = Entry(kind="deletion", learner=learner_id(REHEARSAL, 1), by="B", text="asked for")
    others = [Entry(kind="appeal", learner=f"M{n}", by="B", text="x") for n in range(3)]

    assert "The register was left out" in marked_with(place, *others, gone, capsys=capsys)
    assert f"{learner_id(REHEARSAL, 1)}," not in (place / "class" / "results" / "learners.csv").read_text("utf-8")
