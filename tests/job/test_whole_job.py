"""A whole job on a car unlike the training vehicles: from the command line and by the page's forms, with the same record."""

import zipfile
from pathlib import Path

import msgspec
import pytest

from bitepoint.cli import main
from bitepoint.job import events
from bitepoint.job.events import CautionRead, Event, Measurement, PartDecision, StepDone, Tightened
from bitepoint.job.lines import SAID as SENTENCES
from bitepoint.job.missing_entries import missing
from bitepoint.job.order import due
from bitepoint.job.reading import read_job
from bitepoint.job.telling import status
from bitepoint.logbook.handin import make_hand_in
from bitepoint.page.job import job_forms
from bitepoint.page.job.job_panel import JobPanel
from bitepoint.page.job.job_widgets import JobWidgets

from .job_rooms import PERSONAL, checked_sheet, png
from .whole_job import as_command, rows_of

SAID = {"by": "T. Prentice", "complaint": "It slips uphill in fourth", "mileage": "143200"}


def by_command(tmp_path: Path) -> Path:
    """Do the whole job from the command line."""
    folder = tmp_path / "by-command"
    sheet = checked_sheet(tmp_path)
    said = [part for key, value in {**SAID, **PERSONAL}.items() for part in (f"--{key}", value)]
    assert main(["job", "new", str(folder), "--sheet", str(sheet), *said]) == 0
    while (found := due(read_job(folder))) is not None:
        for row in rows_of(folder):
            words = as_command(folder, found.stage.id, row)
            assert main(words) == 0, words
    return folder


def by_forms(tmp_path: Path) -> Path:
    """Do the whole job by the forms, as its fields are filled in and its button pressed."""
    folder = tmp_path / "by-forms"
    sheet = checked_sheet(tmp_path)
    page = JobWidgets(JobPanel(), lambda card: None)
    page.folder.value = str(folder)
    fill(page, "begin", {"sheet": str(sheet), **SAID, **PERSONAL})
    while due(read_job(folder)) is not None:
        for kind, typed in rows_of(folder):
            fill(page, kind, typed)
    return folder


def fill(page: JobWidgets, kind: str, typed: dict[str, str]) -> None:
    """Choose a form, fill in its fields, press its button."""
    page.chosen.value = kind
    # What the list on the page shows is its index, and not its value.
    assert page.chosen.options[page.chosen.index][1] == kind
    for key, value in typed.items():
        field = page.fields[key]
        field.value = tuple(value.split()) if kind == "steps" else value
    page.button.click()
    assert "Kept." in page.told.value, (kind, typed, page.told.value)


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    folder = tmp_path_factory.mktemp("both")
    return by_command(folder), by_forms(folder)


def test_command_line_and_notebook_make_the_same_record(both: tuple[Path, Path]) -> None:
    """Event by event the same, but for the hashes of what is personal, whose salt differs."""
    one, other = ([msgspec.to_builtins(entry.event) for entry in read_job(folder).entries] for folder in both)
    hashes = [event.pop("hashes") for events_ in (one, other) for event in events_ if event["kind"] == "personal"]
    assert one == other
    assert [sorted(PERSONAL)] * 2 == [sorted(found) for found in hashes]


def test_the_whole_job_says_everything_and_holds(both: tuple[Path, Path], capsys: pytest.CaptureFixture[str]) -> None:
    """No step was out of order; every caution read; nothing is missing but the road test's log."""
    job = read_job(both[0])
    assert job.problems == ()
    assert [event.warned for event in job.all_of(StepDone) if event.warned] == []
    assert len(job.all_of(StepDone)) == sum(len(stage.steps) for stage in job.stages)
    assert {event.stage for event in job.all_of(CautionRead)} == {
        stage.id for stage in job.stages if stage.id != "identify"
    }
    assert missing(job) == ("The road test: a log, or a note in this stage of what the driver found.",)
    decisions = {event.criterion: event.decision for event in job.all_of(Measurement)}
    assert decisions["rivet-depth"] == decisions["plate-thickness"] == "replace"
    assert decisions["flywheel-runout"] == "reuse"
    assert decisions["plate-runout"] is None
    assert {event.joint for event in job.all_of(Tightened)} >= {"flywheel.bolt", "clutch.cover", "wheels"}
    assert [event.advised for event in job.all_of(PartDecision)] == [None, "replace"]
    assert main(["job", "open", str(both[0])]) == 0
    assert "Every stage is done. Next, by a supervisor" in capsys.readouterr().out


def test_it_is_closed_verified_printed_and_erased(
    tmp_path: Path, both: tuple[Path, Path], capsys: pytest.CaptureFixture[str]
) -> None:
    """The supervisor closes it; the pages are there; erased it still verifies and prints, and no word of it is left."""
    import shutil

    folder = tmp_path / "job"
    shutil.copytree(both[0], folder)
    (tmp_path / "a.png").write_bytes(png())
    assert main(["job", "photo", str(folder), str(tmp_path / "a.png"), "--shows", "old facing"]) == 0
    assert main(["job", "close", str(folder), "--by", "A. Head"]) == 2
    assert "The road test" in capsys.readouterr().err
    assert main(["job", "close", str(folder), "--by", "A. Head", "--reason", "road test noted by the driver"]) == 0
    assert main(["job", "verify", str(folder)]) == 0
    assert main(["job", "print", str(folder)]) == 0
    assert any(PERSONAL["registration"] in page.read_text(encoding="utf-8") for page in (folder / "print").iterdir())
    assert main(["job", "erase", str(folder)]) == 0
    assert main(["job", "verify", str(folder)]) == 0
    assert main(["job", "print", str(folder)]) == 0
    for path in folder.rglob("*"):
        if path.is_file():
            assert not [value for value in PERSONAL.values() if value.encode() in path.read_bytes()], path
    assert "The personal data were erased" in capsys.readouterr().out


def test_nothing_of_a_job_is_in_a_hand_in(tmp_path: Path, both: tuple[Path, Path]) -> None:
    """A job that lies in a learner's own course folder, its notebook too, stays out of what is handed in."""
    import shutil

    workbook = tmp_path / "course"
    (workbook / "logbook").mkdir(parents=True)
    (workbook / "workbook.toml").write_text('learner = "L07-E"\nclass_word = "oak-2026"\n', encoding="utf-8")
    (workbook / "logbook" / "star.0a1b2c3d.jsonl").write_text('{"n":1}\n', encoding="utf-8")
    (workbook / "01-lesson.ipynb").write_text("{}", encoding="utf-8")
    for name in ("13-workshop-job.ipynb", "13-workshop-job-1.ipynb"):
        (workbook / name).write_text(f'{{"cells": "{PERSONAL["customer"]}"}}', encoding="utf-8")
    shutil.copytree(both[0], workbook / "job-1")
    shutil.copytree(both[0], workbook / "logbook" / "job-1")
    with zipfile.ZipFile(make_hand_in(workbook)) as packed:
        names = packed.namelist()
        content = b"".join(packed.read(name) for name in names)
    assert sorted(names) == ["01-lesson.ipynb", "logbook/star.0a1b2c3d.jsonl", "made-with.toml", "workbook.toml"]
    assert not [value for value in PERSONAL.values() if value.encode() in content]


def test_every_kind_of_event_is_said_in_a_sentence() -> None:
    """None is left out of the table."""
    assert set(SENTENCES) == set(Event.__subclasses__())
    assert set(events.AnyEvent.__args__) == set(Event.__subclasses__())


def test_what_is_wrong_is_said_in_the_form_and_nothing_is_kept(tmp_path: Path) -> None:
    """No folder, no sheet, no number, out of order: one panel each; a reason is asked for and kept."""
    sheet = checked_sheet(tmp_path)
    drawn: list[object] = []
    page = JobWidgets(JobPanel(), drawn.append)
    page.button.click()
    assert "Write first where the job lies" in page.told.value
    page.folder.value = str(tmp_path / "job")
    page.button.click()
    assert "A job needs one sheet" in page.told.value
    fill(page, "begin", {"sheet": f'"{sheet}"', "by": "T. Prentice"})
    before = (tmp_path / "job" / "job.jsonl").read_bytes()
    page.chosen.value = "measure"
    page.button.click()
    assert "Not kept." in page.told.value
    page.chosen.value = "steps"
    page.button.click()
    assert "No step is chosen" in page.told.value
    page.fields["steps"].value = ("D3",)
    page.button.click()
    assert "Careful." in page.told.value
    assert page.reason in page._form_box.children
    assert (tmp_path / "job" / "job.jsonl").read_bytes() == before
    page.reason.value = "driver waits"
    page.button.click()
    assert "Kept." in page.told.value
    (event,) = read_job(tmp_path / "job").all_of(StepDone)
    assert event.reason == "driver waits"
    assert "driver waits" in repr(drawn[-1])


def test_nothing_personal_is_shown_on_the_page(tmp_path: Path, both: tuple[Path, Path]) -> None:
    """The card stays in the notebook's file, so neither it nor the status has any of it."""
    panel = JobPanel(str(both[0]))
    shown = panel.card()._html + repr(panel.card()) + " ".join(status(read_job(both[0])))
    assert not [value for value in PERSONAL.values() if value in shown]
    assert "repair data" in shown


def test_without_a_page_the_words_are_always_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    """Nobody's notebook says how it is used; a folder that cannot be read is one line."""
    job_forms()
    assert "Write in the field “Job's folder” below where the job lies" in capsys.readouterr().out
