"""A class on a college's own sheet: set up, opened, answered, handed in, marked; another sheet at the marker's gives no mark."""

import csv
import shutil
from pathlib import Path

import pytest

from bitepoint.bank import exercises
from bitepoint.cli import main
from bitepoint.errors import BadData, BadInput
from bitepoint.logbook import own_files
from bitepoint.logbook.identity import read_identity
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.owner import identity_in
from bitepoint.workshop.datafiles import data_files, shipped, use_from_now
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet
from bitepoint.workshop.vehicles import vehicles

OWN = Path(__file__).parents[1] / "own_sheets" / "k7v.toml"


@pytest.fixture(autouse=True)
def _state(tmp_path, monkeypatch):
    """A state folder of its own, and the shipped files again afterwards."""
    monkeypatch.setenv("BITEPOINT_STATE", str(tmp_path / "state"))
    yield
    use_from_now(None)


@pytest.fixture
def sheet(tmp_path):
    """The own sheet, checked by a second person."""
    figures = read_own_sheet(OWN).figures
    path = tmp_path / "our-van.toml"
    checked = f'\n[checked]\nby = "C. Second"\ndate = 2026-11-03\nfigures = "{figures}"\n'
    path.write_text(OWN.read_text(encoding="utf-8") + checked, encoding="utf-8")
    return path


def new_class(folder, sheet, *, vehicles="A,{},B", more=()):
    """Set up a class of six on A, the own sheet and B."""
    said = ["class", "new", str(folder), "--title", "Vans", "--class-word", "elm-2026", "--learners", "6"]
    return main([*said, "--vehicles", vehicles.format(sheet), *more])


def test_a_sheet_that_nobody_checked_is_no_class_vehicle(tmp_path, capsys):
    """One line says why and how it is checked; nothing is written."""
    assert new_class(tmp_path / "vans", OWN) == 2
    told = capsys.readouterr().err
    assert "k7v.toml is NOT CHECKED: no second person has checked it" in told
    assert "bitepoint vehicle check" in told
    assert not (tmp_path / "vans").exists()


def test_a_start_file_carries_the_sheet_and_a_workbook_only_its_digest(tmp_path, sheet):
    """Opened on another computer, the kernel finds the car; workbook.toml holds the digest and no figures."""
    assert new_class(tmp_path / "vans", sheet) == 0
    found = read_toml_file(tmp_path / "vans" / "class.toml", dict)
    assert found["vehicles"] == ["A", "K7V", "B"]
    start = next(p for p in sorted((tmp_path / "vans" / "start").glob("*.toml")) if 'vehicle = "K7V"' in p.read_text())
    alone = Path(shutil.copy(start, tmp_path / "given.toml"))
    use_from_now(None)
    identity = identity_in(tmp_path / "work", class_file=alone)
    make_workbook(tmp_path / "work", identity)
    text = (tmp_path / "work" / "workbook.toml").read_text(encoding="utf-8")
    assert f'own = "{found["own"]}"' in text
    assert "hole_angles" not in text
    use_from_now(None)
    assert read_identity(tmp_path / "work" / "workbook.toml").vehicle == "K7V"
    assert vehicles()["K7V"].flywheel.bolt_count == 7


def test_a_workbook_without_its_sheets_says_what_to_do(tmp_path, sheet):
    """On a computer where the start file was never opened there is one line, and no other car is taken."""
    new_class(tmp_path / "vans", sheet)
    start = next(iter((tmp_path / "vans" / "start").glob("*.toml")))
    make_workbook(tmp_path / "work", identity_in(tmp_path / "work", class_file=start))
    shutil.rmtree(tmp_path / "state")
    with pytest.raises(
        BadData, match="own sheets .* are not on this computer. Open the course once with the start file"
    ):
        read_identity(tmp_path / "work" / "workbook.toml")


@pytest.mark.parametrize("harm", ["gone", "cut", "one more"])
def test_the_start_file_brings_back_what_was_lost_on_this_computer(tmp_path, sheet, harm):
    """As the line says: opened once more with the start file, the folder is the learner's as before."""
    new_class(tmp_path / "vans", sheet)
    start = next(p for p in sorted((tmp_path / "vans" / "start").glob("*.toml")) if 'vehicle = "K7V"' in p.read_text())
    made = identity_in(tmp_path / "work", class_file=start)
    make_workbook(tmp_path / "work", made)
    kept = tmp_path / "state" / own_files.FOLDER / made.own / "vehicles" / "k7v.toml"
    if harm == "gone":
        shutil.rmtree(tmp_path / "state")
    elif harm == "cut":
        kept.write_bytes(b"")
    else:
        kept.with_name("xx.toml").write_bytes(kept.read_bytes())
    with pytest.raises(BadData, match="not on this computer"):
        read_identity(tmp_path / "work" / "workbook.toml")
    assert identity_in(tmp_path / "work", class_file=start).vehicle == "K7V"
    assert read_identity(tmp_path / "work" / "workbook.toml").own == made.own


def test_a_class_without_own_files_reads_the_shipped_ones_again(tmp_path, sheet):
    """What one class had is not there for the next in the same process."""
    new_class(tmp_path / "vans", sheet)
    assert "K7V" in vehicles()
    new_class(tmp_path / "plain", sheet, vehicles="A,B,C,D")
    assert data_files() is shipped()


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('"vehicles/k7v.toml" = "', '"vehicles/k7v.toml" = "AAAA', "were changed|was changed"),
        ('"vehicles/k7v.toml"', '"../../k7v.toml"', "names '../../k7v.toml', which is no own sheet"),
        ('own = "', 'own = "0', "are not those that “own” names"),
    ],
)
def test_a_start_file_that_was_changed_is_refused(tmp_path, sheet, old, new, told):
    """One line, and nothing is kept."""
    new_class(tmp_path / "vans", sheet)
    start = next(iter((tmp_path / "vans" / "start").glob("*.toml")))
    shutil.rmtree(tmp_path / "state")
    start.write_text(start.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadInput, match=told):
        identity_in(tmp_path / "work", class_file=start)
    assert not (tmp_path / "state" / own_files.FOLDER).exists()


def test_a_rehearsed_class_of_24_on_an_own_sheet_has_its_true_marks(tmp_path, sheet):
    """Every mark is that of the truth, by one process and by two; nothing is flagged as changed."""
    own = {"vehicles/k7v.toml": sheet.read_bytes()}
    rehearse(tmp_path / "class", learners=24, seed=5, cars=("K7V",), own=own, lessons=("star", "torque", "measure"))
    truth = {}
    with (tmp_path / "class" / "truth.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            truth[row["learner"], row["exercise"]] = row["last_score"]
    for workers in ("1", "2"):
        use_from_now(None)
        out = tmp_path / f"marks-{workers}"
        folder = tmp_path / "class"
        said = ["mark", str(folder / "hand-ins"), "--roster", str(folder / "roster.csv"), "--out", str(out)]
        assert main([*said, "--class-file", str(folder / "class.toml"), "--workers", workers]) in (0, 1)
        with (out / "marks.csv").open(encoding="utf-8") as file:
            rows = {(r["learner"], r["exercise"]): r["last_score"] for r in csv.DictReader(file) if r["tries"] != "0"}
        assert len(truth) > 500
        assert rows == truth
        assert "question changed" not in (out / "marks.csv").read_text(encoding="utf-8")


def test_where_the_markers_sheet_is_another_one_there_is_no_mark_and_it_says_so(tmp_path, sheet):
    """A figure of the sheet was corrected after the answers: no mark, a flag that names the sheet."""
    own = {"vehicles/k7v.toml": sheet.read_bytes()}
    rehearse(tmp_path / "class", learners=2, seed=5, cars=("K7V",), own=own, lessons=("star",))
    there = tmp_path / "class" / "own" / "vehicles" / "k7v.toml"
    there.write_bytes(there.read_bytes().replace(b"oil_litre = 1.6", b"oil_litre = 1.7", 1))
    class_file, out = tmp_path / "class" / "class.toml", tmp_path / "marks"
    said = ["mark", str(tmp_path / "class" / "hand-ins"), "--out", str(out), "--class-file", str(class_file)]
    assert main(said) == 2
    assert main(["vehicle", "check", str(there), "--checked-by", "C. Second"]) == 0
    now = own_files.digest_of_files(own_files.files_in(tmp_path / "class" / "own"))
    text = class_file.read_text(encoding="utf-8")
    class_file.write_text(text.replace(own_files.digest_of_files(own), now), encoding="utf-8")
    assert main(said) == 1
    report = (out / "report.html").read_text(encoding="utf-8")
    assert "an own sheet: its figures may have been others then" in report


def test_a_figure_changed_in_the_class_folder_removes_the_check_there_too(tmp_path, sheet, capsys):
    """A new digest in the class file does not make up for the second person."""
    assert new_class(tmp_path / "vans", sheet) == 0
    own, class_file = tmp_path / "vans" / "own", tmp_path / "vans" / "class.toml"
    before = own_files.digest_of_files(own_files.files_in(own))
    there = own / "vehicles" / "k7v.toml"
    there.write_bytes(there.read_bytes().replace(b"oil_litre = 1.6", b"oil_litre = 1.7", 1))
    now = own_files.digest_of_files(own_files.files_in(own))
    class_file.write_text(class_file.read_text(encoding="utf-8").replace(before, now), encoding="utf-8")
    capsys.readouterr()
    assert main(["sheets", str(tmp_path / "vans"), "--out", str(tmp_path / "sheets")]) == 2
    assert "k7v.toml is NOT CHECKED: a figure was changed" in capsys.readouterr().err


def test_exercises_that_the_class_does_not_get_are_named_when_it_is_set_up(tmp_path, sheet, capsys):
    """On the own sheet alone: how many are left out, and why."""
    assert new_class(tmp_path / "vans", sheet, vehicles="{}") == 0
    told = capsys.readouterr().err
    assert "that no car of this class can serve" in told
    assert "The sheet of K7V has no clutch.mu_design" in told
    assert len(exercises()) > 200


def test_a_corrected_sheet_is_taken_over_once_it_is_checked_again(tmp_path, sheet, capsys):
    """Unchecked: refused, nothing written. Checked: class.toml has the new digest, and every start file the new sheet."""
    new_class(tmp_path / "vans", sheet)
    folder, own = tmp_path / "vans", tmp_path / "vans" / "own" / "vehicles" / "k7v.toml"
    before = (folder / "class.toml").read_bytes()
    own.write_bytes(own.read_bytes().replace(b"oil_litre = 1.6", b"oil_litre = 1.7", 1))
    assert main(["class", "renew", str(folder)]) == 2
    assert (folder / "class.toml").read_bytes() == before
    assert main(["vehicle", "check", str(own), "--checked-by", "D. Third"]) == 0
    assert main(["class", "renew", str(folder)]) == 0
    start = next(iter((folder / "start").glob("*.toml")))
    assert read_toml_file(start, dict)["own"] == own_files.digest_of_files(own_files.files_in(folder / "own"))
    identity_in(tmp_path / "work", class_file=start)
    assert vehicles()["K7V"].gearbox.oil_litre == 1.7


def test_a_class_without_own_files_has_nothing_to_renew(tmp_path, sheet, capsys):
    """One line."""
    new_class(tmp_path / "plain", sheet, vehicles="A,B")
    assert main(["class", "renew", str(tmp_path / "plain")]) == 2
    assert "names no own files" in capsys.readouterr().err
