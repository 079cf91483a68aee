"""A job under bad conditions: killed in the middle of writing, two windows at once, a full disk. Nothing confirmed is lost."""

import os
import resource
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from bitepoint.job.erasing import erase
from bitepoint.job.events import JobNote, Photo
from bitepoint.job.findings import measure
from bitepoint.job.opening import NewJob, open_on_sheet
from bitepoint.job.photos import unrecorded
from bitepoint.job.reading import read_job
from bitepoint.job.recording import note
from bitepoint.job.stages import begin_stage
from bitepoint.workshop.operations import job as whole_job

from .job_rooms import PERSONAL, checked_sheet, new_job, png

DIES = """
import os, signal, sys
from pathlib import Path
from bitepoint.logbook import chain_file, one_step

def dead(*_, **__):
    os.kill(os.getpid(), signal.SIGKILL)

def half(file, data):
    file.write(data[: len(data) // 2])
    os.fsync(file.fileno())
    dead()

folder, point = Path(sys.argv[1]), sys.argv[2]
write, fsync, replace, unlink = chain_file._write_all, os.fsync, os.replace, Path.unlink
if point == "before the line":
    chain_file._write_all = dead
elif point == "half a line":
    chain_file._write_all = half
elif point == "before it is on the disk":
    chain_file.os.fsync = dead
elif point == "before a file is moved":
    one_step.os.replace = dead
elif point == "first file gone":
    def gone(self, **more):
        unlink(self, **more)
        if self.name.startswith("photo-"):
            dead()
    Path.unlink = gone
"""
ADD_NOTE = """
from bitepoint.job.recording import note
note(folder, "never confirmed")
"""
BEGIN = """
from bitepoint.job.opening import NewJob, open_on_sheet
open_on_sheet(folder, folder.parent / "k7v.toml", NewJob(by="T. Prentice"), {"customer": "Wilhelmina Quist"})
"""
ADD_PHOTO = """
from bitepoint.job.photos import add_photo
add_photo(folder, folder.parent / "a.png", shows="wear")
"""
ERASE = """
from bitepoint.job.erasing import erase
erase(folder)
"""
TWO_AT_ONCE = """
import sys
from pathlib import Path
from bitepoint.job.recording import note
for number in range(int(sys.argv[2])):
    print(note(Path(sys.argv[1]), f"{sys.argv[3]} {number}").hash, flush=True)
"""
ONE_NOTE = """
import sys
from bitepoint.cli import main
sys.exit(main(["job", "note", sys.argv[1], "x" * 400]))
"""
IN_THE_LINE = ["before the line", "half a line", "before it is on the disk"]


def killed(script: str, folder: Path, point: str) -> None:
    """Run a script that kills itself with no warning at a point of its writing."""
    done = subprocess.run(
        [sys.executable, "-c", DIES + script, str(folder), point], capture_output=True, check=False, encoding="utf-8"
    )
    assert done.returncode == -signal.SIGKILL, done.stderr


@pytest.mark.parametrize("point", IN_THE_LINE)
def test_killed_in_an_entry_at_every_stage_nothing_confirmed_is_lost(tmp_path: Path, point: str) -> None:
    """Every entry before it stands; the next one follows; half a line is kept aside."""
    folder = new_job(tmp_path, personal=PERSONAL)
    confirmed = [entry.hash for entry in read_job(folder).entries]
    stages = [stage.id for stage in whole_job().stages]
    for stage in stages if point == "half a line" else stages[:1]:
        confirmed.append(begin_stage(folder, stage, reason="tried out").hash)
        confirmed.append(measure(folder, "flywheel-runout", 0.05, instrument="dial gauge").hash)
        killed(ADD_NOTE, folder, point)
        confirmed.append(note(folder, f"after {stage}").hash)
        job = read_job(folder)
        assert job.problems == ()
        assert not set(confirmed) - {entry.hash for entry in job.entries}
    if point == "half a line":
        assert len(list(folder.glob("job.torn-*"))) == len(stages)


@pytest.mark.parametrize("point", [*IN_THE_LINE, "before a file is moved"])
def test_a_job_that_was_killed_at_its_beginning_is_begun_again(tmp_path: Path, point: str) -> None:
    """The same folder takes the job, with nothing of the first try in the way."""
    sheet = checked_sheet(tmp_path)
    folder = tmp_path / "job"
    killed(BEGIN, folder, point)
    open_on_sheet(folder, sheet, NewJob(by="T. Prentice"), PERSONAL)
    job = read_job(folder)
    assert (job.opened.by, job.personal, job.problems) == ("T. Prentice", PERSONAL, ())


@pytest.mark.parametrize("point", [*IN_THE_LINE, "before a file is moved"])
def test_a_photo_that_was_killed_is_told_or_not_there(tmp_path: Path, point: str) -> None:
    """The record holds; a picture without its line is named, and the photo is added again."""
    folder = new_job(tmp_path, personal=PERSONAL)
    (tmp_path / "a.png").write_bytes(png())
    killed(ADD_PHOTO, folder, point)
    note(folder, "afterwards")
    job = read_job(folder)
    assert job.problems == ()
    recorded = {photo.file for photo in job.all_of(Photo)}
    left = unrecorded(folder, recorded)
    assert recorded == set()
    assert len(left) == (1 if point in ("before the line", "half a line") else 0)


@pytest.mark.parametrize("point", ["before the line", "half a line", "first file gone"])
def test_an_erasing_that_was_killed_is_told_and_done_again(tmp_path: Path, point: str) -> None:
    """Nothing says erased that is still there without a line that says so."""
    folder = new_job(tmp_path, personal=PERSONAL)
    (tmp_path / "a.png").write_bytes(png())
    for _ in range(2):
        subprocess.run(
            [
                sys.executable,
                "-m",
                "bitepoint",
                "job",
                "photo",
                str(folder),
                str(tmp_path / "a.png"),
                "--shows",
                "wear",
            ],
            check=True,
            capture_output=True,
        )
    killed(ERASE, folder, point)
    job = read_job(folder)
    assert job.erased == (point == "first file gone")
    if job.erased:
        assert job.problems == (f"The erasing was stopped halfway. Do it again: bitepoint job erase {folder}",)
    assert erase(folder)
    assert read_job(folder).problems == ()
    assert not (folder / "personal.json").exists()
    assert not (folder / "photos").exists()


def test_two_windows_at_once_lose_nothing(tmp_path: Path) -> None:
    """Two programs add at the same time: every confirmed entry is there once, in one chain."""
    folder = new_job(tmp_path)
    both = [
        subprocess.Popen(
            [sys.executable, "-c", TWO_AT_ONCE, str(folder), "30", name],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            encoding="utf-8",
        )
        for name in ("left", "right")
    ]
    said = [window.communicate(timeout=60) for window in both]
    assert [error for _, error in said] == ["", ""]
    confirmed = [hash for out, _ in said for hash in out.split()]
    job = read_job(folder)
    hashes = [entry.hash for entry in job.entries]
    assert len(confirmed) == 60
    assert not set(confirmed) - set(hashes)
    assert len(set(hashes)) == len(hashes)
    assert job.problems == ()
    assert len(job.all_of(JobNote)) == 60


def test_a_full_disk_is_one_line_and_leaves_the_rest(tmp_path: Path) -> None:
    """With room for half an entry, it is refused, and the record ends after the last whole one."""
    folder = new_job(tmp_path)
    before = (folder / "job.jsonl").read_bytes()
    limit = len(before) + 100

    def no_more() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    done = subprocess.run(
        [sys.executable, "-c", ONE_NOTE, str(folder)],
        capture_output=True,
        check=False,
        encoding="utf-8",
        preexec_fn=no_more,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )
    assert done.returncode == 3
    assert done.stderr == (
        "bitepoint: The entry was not recorded: job.jsonl cannot be written (File too large). Make room on the disk or "
        "move the job's folder to a place where you may write, then try again.\n"
    )
    assert (folder / "job.jsonl").read_bytes() == before
    note(folder, "with room again")
    assert read_job(folder).problems == ()


def test_a_photo_on_a_full_disk_is_one_line_and_leaves_no_part(tmp_path: Path) -> None:
    """The picture does not fit: no entry, no half file."""
    folder = new_job(tmp_path)
    note(folder, "before")
    from io import BytesIO

    from PIL import Image

    out = BytesIO()
    Image.effect_noise((400, 400), 90).save(out, "PNG")
    (tmp_path / "a.png").write_bytes(out.getvalue())
    before = (folder / "job.jsonl").read_bytes()
    limit = len(before) + 20_000

    def no_more() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    done = subprocess.run(
        [sys.executable, "-m", "bitepoint", "job", "photo", str(folder), str(tmp_path / "a.png"), "--shows", "wear"],
        capture_output=True,
        check=False,
        encoding="utf-8",
        preexec_fn=no_more,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )
    assert done.returncode == 3
    assert done.stderr.startswith("bitepoint: The photo was not recorded:")
    assert done.stderr.count("\n") == 1
    assert (folder / "job.jsonl").read_bytes() == before
    assert not list((folder / "photos").iterdir())
