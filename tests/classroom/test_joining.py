"""A late joiner and a change of class: list, start file, slip and register agree, and nothing half is written."""

from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.logbook.identity import learner_id
from bitepoint.marking.registry.register import Register
from bitepoint.marking.roster import read_roster
from bitepoint.questions.draw import own_letter
from bitepoint.workbook.class_file import read_class_file

WHY = ["--by", "A. Head", "--text", "came in week three"]
LATE = learner_id("oak-2026", 7)


def made(folder: Path, *more: str) -> Path:
    """Make a class of six."""
    said = ["--title", "Oak", "--class-word", "oak-2026", "--learners", "6", *more]
    assert main(["class", "new", str(folder), *said]) == 0
    return folder


def add(folder: Path, learner: str, *more: str) -> int:
    return main(["class", "add", str(folder), "--learner", learner, *WHY, *more])


def test_a_late_joiner_gets_letter_car_start_file_slip_and_entry(tmp_path: Path) -> None:
    """The number is enough; names written into the list before stay."""
    folder = made(tmp_path / "k")
    roster = folder / "roster.csv"
    roster.write_text(roster.read_text("utf-8-sig").replace(",,", ",Zoë,", 1), "utf-8-sig")
    assert add(folder, "7", "--date", "2026-09-21") == 0

    assert [own_letter("oak-2026", LATE)] == [e.vehicle for e in read_roster(roster).values() if e.learner == LATE]
    assert 7 == len(read_roster(roster))
    assert "Zoë" in roster.read_text("utf-8-sig")
    start = read_class_file(folder / "start" / f"{LATE}.toml")
    assert (LATE, own_letter("oak-2026", LATE), "Oak") == (start.learner, start.vehicle, start.title)
    slip = (folder / f"card-{LATE}.html").read_text("utf-8")
    assert f"bitepoint open --class-word oak-2026 --learner {LATE}" in slip
    assert 1 == slip.count('class="slip"')
    (entry,) = Register(folder / "register").entries()
    assert ("adjustment", LATE, "A. Head", "Late joiner: came in week three", "2026-09-21") == (
        entry.kind,
        entry.learner,
        entry.by,
        entry.text,
        entry.date,
    )


def test_over_other_cars_the_next_in_turn_comes(tmp_path: Path) -> None:
    """Six learners on B and D in turn, so the seventh has B; a list that a spreadsheet saved with semicolons stays one."""
    folder = made(tmp_path / "k", "--vehicles", "B,D")
    roster = folder / "roster.csv"
    roster.write_text(roster.read_text("utf-8-sig").replace(",", ";").rstrip(), "utf-8")
    assert add(folder, "L7") == 0
    found = read_roster(roster)[LATE.casefold()]
    assert ("B", ("B", "D")) == (found.vehicle, found.cars)
    assert f"--class-file {LATE}.toml" in (folder / f"card-{LATE}.html").read_text("utf-8")


def test_a_change_of_class_names_word_and_id_there(tmp_path: Path) -> None:
    """Marking reads them from the entry."""
    folder, before = made(tmp_path / "k"), learner_id("elm", 3)
    assert add(folder, "7", "--from", "elm", "--was", before) == 0
    (entry,) = Register(folder / "register").entries()
    assert ("elm", before) == (entry.earlier_class, entry.earlier)
    assert f"Came from class elm, there {before}: came in week three" == entry.text


@pytest.mark.parametrize(
    ("learner", "more", "told"),
    [
        ("6", [], "is in this class already. Give the next free number: --learner 7"),
        ("L07-Q", [], "L07-Q does not fit class oak-2026"),
        ("7", ["--from", "elm"], "Say the id there, as on the old card: --was L07-E"),
        ("7", ["--was", "L03-A"], "Name that class too: --from oak-2026"),
        ("7", ["--from", "elm", "--was", "L03-Q"], "L03-Q does not fit class elm"),
        ("7", ["--from", "OAK-2026", "--was", "L03-A"], "is this class's own word"),
        ("7", ["--date", "soon"], "--date must be a day such as 2026-06-30"),
        ("7", ["--text", " "], "needs --text"),
    ],
)
def test_what_cannot_be_used_is_told_and_nothing_is_written(
    tmp_path: Path, learner: str, more: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """One line each."""
    folder = made(tmp_path / "k")
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    capsys.readouterr()
    assert add(folder, learner, *more) == 2
    err = capsys.readouterr().err
    assert (1, True) == (err.count("\n"), told in err)
    assert before == {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_marking_takes_the_register_of_the_class_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Beside the class file; with another one beside you, you say which."""
    monkeypatch.chdir(tmp_path)
    folder = made(tmp_path / "k")
    assert add(folder, "7") == 0
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "a.jsonl").write_text("", "utf-8")
    words = ["mark", "in", "--class-file", "k/class.toml", "--roster", "k/roster.csv"]
    main(words)
    page = (tmp_path / "marks" / "learners" / f"{LATE}.html").read_text("utf-8")
    assert "came in week three" in page
    (tmp_path / "register").mkdir()
    capsys.readouterr()
    assert main(words) == 2
    assert "There are two registers, register and k/register." in capsys.readouterr().err
