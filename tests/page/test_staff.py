"""What staff notebooks call: the observations of a register, and a rehearsed class marked step by step."""

import subprocess
import sys
from pathlib import Path

import pytest

from bitepoint.classroom.bench_sheets.observing import STANDARD
from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.marking.registry.register import Register
from bitepoint.page.staff import observations, rehearsed_class
from bitepoint.page.staff.observation_form import ObservationForm, as_on_the_form
from bitepoint.page.staff.output import tell_table

WATCHED = {"learner": "L07-E", "assessor": "A. Assessor", "date": "2026-06-30"}
FIRST, SECOND = tuple(STANDARD)[:2]


def test_an_observation_is_in_the_register_at_once_and_the_newest_counts(tmp_path: Path) -> None:
    """Both stay in the register; the table has one line for a learner and criterion."""
    seen = observations(str(tmp_path))
    seen.record(criterion=FIRST, result="not right yet", note="  chocks late ", **WATCHED)
    seen.record(criterion=FIRST, result="done right", **WATCHED)
    seen.record(criterion=SECOND, result="not watched", **WATCHED)

    assert ["not right yet", "done right", "not watched"] == [e.result for e in Register(tmp_path).entries()]
    assert "chocks late" == Register(tmp_path).entries()[0].text
    assert [("L07-E", FIRST, "done right"), ("L07-E", SECOND, "not watched")] == [row[:3] for row in seen.rows()[1:]]


def test_a_class_folder_named_in_the_form_is_where_it_is_kept(tmp_path: Path) -> None:
    """No line of code: learners and criteria come from the class, and Keep writes into that folder's register."""
    folder = tmp_path / "autumn"
    words = ["--title", "T", "--class-word", "oak-2026", "--learners", "9", "--criterion", "Sweeps the floor"]
    assert main(["class", "new", str(folder), *words]) == 0
    seen, drawn = observations(), []
    form = ObservationForm(seen, drawn.append)
    form._fields["class"].value = str(tmp_path / "oak")
    assert "has no class.toml" in form._told.value
    form._pressed(None)
    assert "Nothing is kept." in form._told.value
    form._fields["class"].value = f'"{folder}"'
    assert ("Sweeps the floor",) == form._fields["criterion"].options
    assert "L07-E" in form._fields["learner"].options
    for field, value in {"learner": "L07-E", "assessor": "A. Assessor", "result": "done right"}.items():
        form._fields[field].value = value
    form._pressed(None)
    assert "Kept." in form._told.value
    form._fields["learner"].value, form._fields["result"].value = "L07-F", "done right"
    form._pressed(None)
    assert "L07-F is not in this class" in form._told.value
    (entry,) = Register(folder / "register").entries()
    assert ("L07-E", "Sweeps the floor", "done right") == (entry.learner, entry.criterion, entry.result)
    assert str(folder / "register") in repr(drawn[-1])


def test_while_practising_it_says_that_nothing_is_kept() -> None:
    """With no class folder named it is written nowhere that stays, and said so."""
    form = ObservationForm(observations(), lambda card: None)
    for field, value in {"learner": "L07-E", "assessor": "A. Assessor", "result": "done right"}.items():
        form._fields[field].value = value
    form._pressed(None)

    assert "Tried." in form._told.value
    assert "You practise" in form._told.value


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"learner": ""}, "needs Learner"),
        ({"result": ""}, "needs Result"),
        ({"assessor": " "}, "needs Assessor"),
        ({"date": "today"}, "Date must be a day such as 2026-06-30"),
        ({"learner": "a b"}, "The learner id 'a b' cannot be used"),
    ],
)
def test_what_is_missing_is_told_in_the_words_of_the_form(tmp_path: Path, changes: dict[str, str], told: str) -> None:
    """Nothing is written then."""
    seen = observations(str(tmp_path))
    said = {"criterion": FIRST, "result": "done right", **WATCHED, **changes}
    with pytest.raises(BadInput) as raised:
        seen.record(**said)
    assert told in as_on_the_form(str(raised.value))
    assert "--" not in as_on_the_form(str(raised.value))
    assert Register(tmp_path).entries() == []


def test_the_form_records_says_so_and_redraws(tmp_path: Path) -> None:
    """Pressed with a result missing it says what is; then it records, and the next result must be chosen anew."""
    seen, drawn = observations(str(tmp_path)), []
    form = ObservationForm(seen, drawn.append)
    form._fields["learner"].value, form._fields["assessor"].value = "L07-E", "A. Assessor"
    form._pressed(None)
    assert "Not kept." in form._told.value
    form._fields["result"].value = "done right"
    form._fields["note"].value = "<b>bold</b>"
    form._pressed(None)

    assert "Kept." in form._told.value
    assert "choose" == form._fields["result"].value
    assert 1 == len(drawn)
    assert "&lt;b&gt;bold&lt;/b&gt;" in drawn[0]._html
    assert ["<b>bold</b>"] == [e.text for e in Register(tmp_path).entries()]


def test_criteria_and_ids_come_from_the_files_of_the_class(tmp_path: Path) -> None:
    """class.toml and roster.csv, as marking reads them."""
    (tmp_path / "class.toml").write_text('class_word = "oak"\ncriteria = ["Says when"]\n', encoding="utf-8")
    (tmp_path / "roster.csv").write_text("learner,name\nL01,x\n", encoding="utf-8")
    seen = observations(
        str(tmp_path / "r"), class_file=str(tmp_path / "class.toml"), roster=str(tmp_path / "roster.csv")
    )
    assert (("Says when",), ("L01",)) == (seen.criteria, seen.learners)


def test_a_list_is_brought_in_once(capsys: pytest.CaptureFixture[str]) -> None:
    """However often it is brought; one that is not there is told in one line."""
    seen = observations()
    listed = seen.example_list()
    seen.bring(listed)
    seen.bring(listed)
    seen.bring(listed.with_name("none.csv"))
    said = capsys.readouterr().out
    assert "3 observations recorded, 0 were there already." in said
    assert "0 observations recorded, 3 were there already." in said
    assert "none.csv: cannot be opened" in said
    assert 4 == len(seen.rows())


def test_a_practice_folder_is_gone_when_the_program_ends() -> None:
    """Nothing of a rehearsal stays behind."""
    script = "from bitepoint.page.staff.folder import practice_folder; print(practice_folder(), end='')"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert Path(done.stdout).name.startswith("bitepoint-practice-")
    assert not Path(done.stdout).exists()


def test_a_rehearsed_class_is_marked_step_by_step(capsys: pytest.CaptureFixture[str]) -> None:
    """Every planted case is flagged and nobody else; before marking each step says what to do first."""
    group = rehearsed_class(learners=18, seed=4, lessons=("start", "torque", "star"))
    with pytest.raises(BadInput, match=r"Run the cell with mark\(\) first"):
        group.flags()
    group.note_codes()
    group.mark()
    group.planted()
    said = capsys.readouterr().out
    assert "Flags on anybody else: 0." in said
    assert "MISSED" not in said
    assert "FLAGGED" not in said
    assert 2 == said.count("| two honest devices | honest, not flagged")


def test_a_long_table_says_how_many_rows_it_leaves_out(capsys: pytest.CaptureFixture[str]) -> None:
    """The file has them all."""
    tell_table("T", [("A",), *((str(n),) for n in range(12))], most=10)
    assert "2 more rows are in the file." in capsys.readouterr().out
