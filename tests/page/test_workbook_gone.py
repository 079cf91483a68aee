"""A form is open, and meanwhile its folder or its logbook goes: the answer is refused, nothing is written elsewhere."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from bitepoint.bank import exercise_named
from bitepoint.errors import NotRecorded
from bitepoint.logbook import Identity, read_folder
from bitepoint.logbook.identity import write_identity
from bitepoint.page import output, summing_up
from bitepoint.page.exercise_session import ExerciseSession

L07 = Identity(learner="L07-K", class_word="oak")


def opened(folder: Path, exercise: str = "start.number") -> ExerciseSession:
    """An exercise as it is shown in this folder now."""
    return ExerciseSession(exercise_named(exercise), output.find_workbook(folder))


def answer(session: ExerciseSession) -> None:
    """Answer it right."""
    session.answer(session.question().right_answer(), how="form")


@pytest.fixture
def work(tmp_path: Path) -> Path:
    """A workbook with one answer."""
    folder = tmp_path / "work"
    folder.mkdir()
    write_identity(L07, folder)
    answer(opened(folder, "start.region"))
    return folder


@pytest.fixture
def inside(work: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The same workbook as the folder that a kernel works in."""
    monkeypatch.chdir(work)
    return work


def test_an_answer_to_a_moved_folder_is_refused_and_leaves_no_ghost(work: Path) -> None:
    """One sentence says what to do; the old place stays empty, the new one unchanged."""
    form = opened(work)
    work.rename(work.with_name("elsewhere"))
    with pytest.raises(NotRecorded) as refused:
        answer(form)
    assert str(refused.value) == (
        "Your answer was not recorded: the course folder work was moved, renamed or deleted. Close the course "
        "(Ctrl+C in its window), then open the folder where it is now: bitepoint open FOLDER"
    )
    assert ["elsewhere"] == [path.name for path in work.parent.iterdir()]
    assert 1 == sum(map(len, read_folder(work.with_name("elsewhere")).values()))


def test_an_answer_is_never_put_into_a_folder_of_somebody_else(work: Path) -> None:
    """Another learner's workbook in the old place is left alone."""
    form = opened(work)
    work.rename(work.with_name("elsewhere"))
    work.mkdir()
    write_identity(Identity(learner="L08-J", class_word="oak"), work)
    with pytest.raises(NotRecorded, match="this folder is L08-J's in class oak by now"):
        answer(form)
    assert ["workbook.toml"] == [path.name for path in work.iterdir()]


@pytest.mark.parametrize("gone", ["folder", "file", "last line"])
def test_lost_lines_are_said_before_a_new_logbook_begins(work: Path, gone: str) -> None:
    """Each form that was open refuses; after the cell was run again the answer is taken."""
    answer(opened(work, "start.choice"))
    forms = [opened(work), opened(work, "start.order")]
    [file] = (work / "logbook").glob("*.jsonl")
    lost = 1 if gone == "last line" else 2
    if gone == "folder":
        shutil.rmtree(work / "logbook")
    elif gone == "file":
        file.unlink()
    else:
        file.write_bytes(file.read_bytes().splitlines(keepends=True)[0])
    before = read_folder(work)
    for form in forms * 2:
        with pytest.raises(NotRecorded, match=rf"{lost} lines? of this lesson (is|are) gone from the folder “logbook”"):
            answer(form)
    assert before == read_folder(work)
    answer(opened(work))
    assert 2 - lost + 1 == sum(map(len, read_folder(work).values()))


def test_a_line_just_written_is_missed_too(work: Path) -> None:
    """A form that never saw the logbook with lines in it does not begin a second one."""
    form = opened(work)
    answer(opened(work, "start.choice"))
    shutil.rmtree(work / "logbook")
    with pytest.raises(NotRecorded, match="2 lines of this lesson are gone"):
        answer(form)


def test_put_back_it_goes_on(work: Path) -> None:
    """What to do is to put the folder back; then the same form takes the answer."""
    form = opened(work)
    (work / "logbook").rename(work / "away")
    with pytest.raises(NotRecorded):
        answer(form)
    (work / "away").rename(work / "logbook")
    answer(form)
    assert [1, 2] == [line.record.n for lines in read_folder(work).values() for line in lines if line.record]


@pytest.mark.skipif(os.name != "posix", reason="elsewhere a folder in use cannot be moved or deleted")
@pytest.mark.parametrize("verb", ["ask('start.number', '3 N·m')", "summary('start')"])
@pytest.mark.parametrize("gone", ["shutil.rmtree(place)", "place.rename(place.with_name('waste-bin'))"])
def test_when_the_folder_of_a_kernel_goes_every_verb_says_one_sentence(work: Path, verb: str, gone: str) -> None:
    """No traceback, and a moved folder is not followed: it may be on its way out."""
    code = f"""
import shutil
from pathlib import Path
from bitepoint import ask, summary
place = Path.cwd()
summary('start')
{gone}
{verb}
"""
    done = subprocess.run(
        [sys.executable, "-P", "-c", code], cwd=work, capture_output=True, encoding="utf-8", check=False
    )
    assert (0, "") == (done.returncode, done.stderr)
    assert done.stdout.splitlines()[1:] == [
        "The course folder was moved, renamed or deleted while the course was open, so nothing can be kept. Close the "
        "course (Ctrl+C in its window), then open the folder where it is now: bitepoint open FOLDER"
    ]
    assert not work.exists()
    kept = [len(lines) for path in work.parent.iterdir() for lines in read_folder(path).values()]
    assert ([1] if "rename" in gone else []) == kept


def test_a_last_line_with_a_hash_that_is_none_is_said(inside: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The summary names it and gives no check code."""
    [file] = (inside / "logbook").glob("*.jsonl")
    line = json.loads(file.read_text(encoding="ascii"))
    file.write_text(json.dumps(line | {"hash": "not hexadecimal"}) + "\n", encoding="ascii")
    said = summing_up._who(output.who_asks(), "start")
    assert "Your last line here was changed after it was written, so it has no check code." in said
    summing_up.summary("start")
    assert "exercises done" in capsys.readouterr().out


def test_the_summary_says_that_lines_are_gone(inside: Path) -> None:
    """Whoever looks at the summary after the logbook was deleted is told."""
    opened(inside)
    shutil.rmtree(inside / "logbook")
    assert "1 line of this lesson is gone" in summing_up._who(output.who_asks(), "start")
