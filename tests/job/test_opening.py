"""A job begun: on a checked sheet alone, with the sheet's own text beside the record."""

import os
from hashlib import sha256
from pathlib import Path

import pytest

from bitepoint.errors import BadData, BadInput
from bitepoint.job.opening import NewJob, open_for_training, open_on_sheet
from bitepoint.job.reading import read_job
from bitepoint.workshop.vehicles import FRAME

from .job_rooms import OWN, PERSONAL, checked_sheet, new_job


def test_a_job_has_its_sheet_and_who_answers_for_it(tmp_path: Path) -> None:
    """The first line names sheet, digest, who entered and who checked it, the document; the copy is the same text."""
    folder = new_job(tmp_path, personal=PERSONAL)
    job = read_job(folder)
    opened = job.opened
    assert (opened.entered_by, opened.checked_by, opened.vehicle) == ("Bell College", "C. Second", "K7V")
    assert (opened.document, opened.pages) == ("Workshop manual KV19, edition 4", "12 to 30")
    assert opened.sheet_sha256 == sha256((folder / "sheet.toml").read_bytes()).hexdigest()
    assert opened.figures == job.sheet.figures
    assert opened.complaint == "It slips uphill in fourth"
    assert job.personal == PERSONAL
    assert job.problems == ()
    assert not job.training
    assert FRAME not in job.frame


def test_nothing_personal_stands_in_the_record(tmp_path: Path) -> None:
    """The chain has salted hashes; neither the words nor a plain hash of them."""
    folder = new_job(tmp_path, personal=PERSONAL)
    text = (folder / "job.jsonl").read_text(encoding="ascii")
    for value in PERSONAL.values():
        assert value not in text
        assert sha256(value.encode()).hexdigest()[:32] not in text


def test_a_sheet_that_is_not_checked_is_refused_with_how_to_check_it(tmp_path: Path) -> None:
    """Nobody checked it; or a figure was changed since."""
    with pytest.raises(
        BadInput, match="has not been checked by a second person.*vehicle check .*k7v.toml --checked-by"
    ):
        open_on_sheet(tmp_path / "job", OWN, NewJob())
    path = checked_sheet(tmp_path)
    path.write_text(path.read_text(encoding="utf-8").replace("torque_nm = 110", "torque_nm = 112"), encoding="utf-8")
    with pytest.raises(BadInput, match="was changed since it was checked"):
        open_on_sheet(tmp_path / "job", path, NewJob())
    assert not (tmp_path / "job").exists()


def test_a_training_letter_is_refused_and_tried_out_on_purpose(tmp_path: Path) -> None:
    """As a sheet it is refused in a line that says how; for training its pages keep the frame."""
    with pytest.raises(BadInput, match="A is a training vehicle: its figures are invented.*--training A"):
        open_on_sheet(tmp_path / "job", Path("A"), NewJob())
    open_for_training(tmp_path / "job", "a", NewJob())
    job = read_job(tmp_path / "job")
    assert job.training
    assert job.frame.startswith(FRAME)
    with pytest.raises(BadData, match="There is no training vehicle"):
        open_for_training(tmp_path / "other", "Q", NewJob())


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (None, "cannot be read"),
        ("", "says nowhere who entered it"),
        ("id = 'A'\n", "says nowhere who entered it"),
        ("[entered\n", "says nowhere who entered it"),
        ("[entered]\nx = ", "is no valid TOML"),
        ("[entered]\nby = 'x'\n", "entered"),
    ],
)
def test_what_is_no_own_sheet_is_one_line(tmp_path: Path, text: str | None, told: str) -> None:
    """Not there, empty, no TOML, nobody named."""
    path = tmp_path / "s.toml"
    if text is not None:
        path.write_text(text, encoding="utf-8")
    with pytest.raises((BadInput, BadData), match=told) as raised:
        open_on_sheet(tmp_path / "job", path, NewJob())
    assert "\n" not in str(raised.value)


def test_a_folder_with_other_things_or_a_job_is_left_alone(tmp_path: Path) -> None:
    """Neither is written over."""
    folder = new_job(tmp_path)
    before = (folder / "job.jsonl").read_bytes()
    with pytest.raises(BadInput, match="holds a job already"):
        open_on_sheet(folder, tmp_path / "k7v.toml", NewJob())
    assert (folder / "job.jsonl").read_bytes() == before
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "dear.txt").write_text("dear", encoding="utf-8")
    with pytest.raises(BadInput, match="has other files in it"):
        open_on_sheet(tmp_path / "letters", tmp_path / "k7v.toml", NewJob())
    assert os.listdir(tmp_path / "letters") == ["dear.txt"]


def test_a_changed_sheet_stops_the_job_until_it_is_back(tmp_path: Path) -> None:
    """Figures are those that were checked, or none."""
    folder = new_job(tmp_path)
    path = folder / "sheet.toml"
    before = path.read_bytes()
    path.write_bytes(before.replace(b"torque_nm = 110", b"torque_nm = 111"))
    with pytest.raises(BadInput, match="is not the sheet that this job was begun on"):
        read_job(folder)
    path.write_bytes(before)
    assert read_job(folder).problems == ()


def test_a_folder_without_a_job_says_how_to_begin(tmp_path: Path) -> None:
    """No folder, an empty one, a record without a line that can be read."""
    with pytest.raises(BadInput, match="holds no job .*Begin one: bitepoint job new"):
        read_job(tmp_path / "none")
    with pytest.raises(BadInput, match="holds no job"):
        read_job(tmp_path)
    folder = new_job(tmp_path)
    (folder / "job.jsonl").write_bytes(b"noise\n")
    with pytest.raises(BadInput, match="has no first line that can be read"):
        read_job(folder)
