"""A job on every training vehicle, and on a sheet that has no figure at all: due, warned, filled in and printed all the same."""

from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.errors import ReasonNeeded
from bitepoint.job.events import Measurement, StepDone
from bitepoint.job.findings import measure
from bitepoint.job.forms import begin_form, forms_due
from bitepoint.job.missing_entries import missing
from bitepoint.job.opening import NewJob, open_for_training, open_on_sheet
from bitepoint.job.order import due
from bitepoint.job.reading import read_job
from bitepoint.job.stages import do_steps, end_stage
from bitepoint.job.telling import status
from bitepoint.job.tightening import tighten
from bitepoint.workshop.joints import tightened_joints
from bitepoint.workshop.own_sheets.template import RELEASES, Choices, template
from bitepoint.workshop.questioning.checking import record_check
from bitepoint.workshop.vehicles import FRAME, vehicles

from .job_rooms import DAY, WRENCH

KINDS = [
    ("front", "cable", "rigid", "conventional"),
    ("rear", "external", "dual-mass", "self-adjusting"),
    ("front", "concentric", "dual-mass", "conventional"),
]


def work_through(folder: Path) -> None:
    """Tick every step of every stage in the order of the list, and look at what a page would show on the way."""
    while (found := due(read_job(folder))) is not None:
        now = read_job(folder)
        assert status(now)
        forms = forms_due(now)
        assert len({form.key for form in forms}) == len(forms)
        do_steps(folder, found.stage.steps)
        end_stage(folder, found.stage.id)
    assert [event.warned for event in read_job(folder).all_of(StepDone) if event.warned] == []


@pytest.mark.parametrize("letter", sorted(vehicles()))
def test_a_job_is_tried_out_on_every_training_vehicle(tmp_path: Path, letter: str) -> None:
    """The order of the list is in order on each; every page keeps the frame of invented figures."""
    folder = tmp_path / "job"
    open_for_training(folder, letter, NewJob())
    work_through(folder)
    assert [form.key for form in forms_due(read_job(folder))][0] == "close"
    assert main(["job", "print", str(folder)]) == 0
    pages = list((folder / "print").glob("*.html"))
    assert len(pages) > 8
    assert [page.name for page in pages if FRAME not in page.read_text(encoding="utf-8")] == []


@pytest.mark.parametrize(("drive", "release", "flywheel", "cover"), KINDS)
def test_a_sheet_without_a_figure_stops_nothing_and_decides_nothing(
    tmp_path: Path, drive: str, release: str, flywheel: str, cover: str
) -> None:
    """Everything is to be looked up: readings are kept without a decision, torques with where they were found."""
    assert release in RELEASES
    text = template(Choices(id="Q1", drive=drive, release=release, flywheel=flywheel, cover=cover))
    for key, said in (("by", "A. Tutor"), ("document", "Manual"), ("pages", "1 to 9")):
        text = text.replace(f'{key} = ""', f'{key} = "{said}"')
    sheet = tmp_path / "q1.toml"
    sheet.write_text(text, encoding="utf-8")
    record_check(sheet, "C. Second")
    folder = tmp_path / "job"
    open_on_sheet(folder, sheet, NewJob())
    measure(folder, "plate-thickness", 6.4, instrument="caliper")
    (event,) = read_job(folder).all_of(Measurement)
    assert event.decision is None
    assert "look it up" in event.reason
    for joint in tightened_joints(read_job(folder).vehicle):
        assert joint.stages_nm == ()
        with pytest.raises(ReasonNeeded, match="look it up"):
            tighten(folder, joint.key, WRENCH, setting_nm=35, on=DAY)
    work_through(folder)
    assert missing(read_job(folder))
    assert main(["job", "print", str(folder)]) == 0


def test_a_folder_without_a_job_is_begun_by_its_form() -> None:
    """It asks for the sheet first."""
    assert begin_form().fields[0].key == "sheet"


def test_what_was_set_aside_and_left_over_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Half a line kept aside, a picture in no entry; a changed line is exit status 1, in open and in verify."""
    folder = tmp_path / "job"
    open_for_training(folder, "A", NewJob())
    (folder / "photos").mkdir()
    (folder / "photos" / "photo-0a1b2c3d.jpg").write_bytes(b"x")
    (folder / "job.torn-20260101-000000-000000").write_bytes(b"{")
    assert main(["job", "verify", str(folder)]) == 0
    said = capsys.readouterr().out
    assert "photos/photo-0a1b2c3d.jpg lies in no entry" in said
    assert "a line that was cut off" in said
    assert main(["job", "note", str(folder), "first"]) == 0
    path = folder / "job.jsonl"
    path.write_bytes(path.read_bytes().replace(b"first", b"forst"))
    assert main(["job", "verify", str(folder)]) == 1
    assert main(["job", "open", str(folder)]) == 1
    assert "DOES NOT HOLD: job.jsonl: Line 2: was changed after it was written." in capsys.readouterr().out
