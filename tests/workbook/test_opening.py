"""`bitepoint open` from its first line to its end, with the course as shipped."""

import os
import re
import signal
import subprocess
import sys
import urllib.request
from contextlib import nullcontext
from pathlib import Path
from typing import Self

import pytest
from filelock import FileLock

from bitepoint.errors import BadInput, CannotRun
from bitepoint.logbook import Identity
from bitepoint.logbook.bookmark import keep_bookmark
from bitepoint.logbook.device import state_folder
from bitepoint.logbook.identity import SELF_STUDY
from bitepoint.workbook import opening
from bitepoint.workbook.create import make_workbook, put_staff_notebooks
from bitepoint.workbook.opening import _whose, open_workbook
from bitepoint.workbook.running import Running, running
from bitepoint.workbook.runtime_folder import runtime_folder_of

from .open_course import OPEN, opened
from .small_course import LEARNER, notebook, ship


def processes_of(word: str) -> list[str]:
    """The command lines of running processes with this word in them or in their folder."""
    found = []
    for place in Path("/proc").glob("[0-9]*"):
        try:
            line = (place / "cmdline").read_text(encoding="utf-8").replace("\0", " ")
            if word in line or word in os.readlink(place / "cwd"):
                found.append(line)
        except OSError:
            continue
    return found


@pytest.mark.slow
def test_open_serves_the_first_lesson_and_leaves_nothing_running(tmp_path: Path) -> None:
    """One address that answers; a second opening repeats it and writes nothing; Ctrl+C ends it all with status 0."""
    folder = tmp_path / "Übung 1 ö"
    with opened(folder) as (process, said):
        [address] = re.findall(r"http://\S+", said)
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/lab/tree/00-start-here\.ipynb\?reset&token=[0-9a-f]{40}", address)
        with urllib.request.urlopen(address, timeout=30) as reply:
            assert reply.status == 200
        again = subprocess.run([*OPEN, str(folder)], capture_output=True, text=True, encoding="utf-8", check=False)
        assert (0, "") == (again.returncode, again.stderr)
        assert again.stdout.splitlines() == [
            "This course folder is open already, in another window. Its address:",
            address,
        ]
        process.send_signal(signal.SIGINT)
        rest, _ = process.communicate(timeout=60)
        assert (0, "The course is closed. Your answers are kept.") == (process.returncode, rest.strip())
    assert [] == processes_of(str(state_folder()))
    assert [] == processes_of(str(folder))


@pytest.mark.slow
def test_a_server_whose_window_was_killed_is_taken_over(tmp_path: Path) -> None:
    """The next opening gives the same address, and its end ends the server."""
    folder = tmp_path / "work"
    with opened(folder) as (process, first):
        process.kill()
        process.wait()
    with opened(folder) as (_, second):
        pass
    addresses = [re.findall(r"http://\S+", said) for said in (first, second)]
    assert addresses[0] == addresses[1] != []
    assert running(runtime_folder_of(folder)) is None


def test_while_another_window_has_it_nothing_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, own_state: Path
) -> None:
    """The address is said again, and the folder stays as it is."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    folder = tmp_path / "work"
    monkeypatch.setattr(opening, "running", lambda _: Running(address="http://127.0.0.1:1/", token="t"))
    runtime_folder_of(folder).mkdir(parents=True)
    said: list[str] = []
    with FileLock(runtime_folder_of(folder) / "open.lock"):
        open_workbook(folder, LEARNER, browser=False, say=said.append)
    assert "http://127.0.0.1:1/lab/tree/star.ipynb?reset&token=t" == said[-1]
    assert not folder.exists()


def test_another_learner_is_never_told_where_a_folder_is_open(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, own_state: Path
) -> None:
    """While ann's folder is open, ben gets no address and is told whose it is; nothing of it is changed."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    folder = tmp_path / "work"
    make_workbook(folder, LEARNER)
    monkeypatch.setattr(opening, "running", lambda _: Running(address="http://127.0.0.1:1/", token="t"))
    said: list[str] = []
    with pytest.raises(BadInput, match="is the course folder of ann in class autumn"):
        open_workbook(folder, Identity(learner="ben", class_word="autumn"), browser=False, say=said.append)
    assert ([], []) == (said, list(own_state.iterdir()))


@pytest.mark.parametrize("held", [True, False])
def test_an_open_folder_of_nobody_becomes_nobodys_behind_its_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, held: bool
) -> None:
    """Whoever names a learner for a folder that is open without one is told to say it there, or to close it first."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    folder = tmp_path / "work"
    make_workbook(folder, Identity(learner="self-study", class_word="self-study"))
    monkeypatch.setattr(opening, "running", lambda _: Running(address="http://127.0.0.1:1/", token="t"))
    runtime_folder_of(folder).mkdir(parents=True)
    lock = FileLock(runtime_folder_of(folder) / "open.lock") if held else nullcontext()
    with lock, pytest.raises(BadInput, match="is open, and nobody has said yet who works in it"):
        open_workbook(folder, LEARNER, browser=False, say=[].append)


def test_staff_get_their_notebooks_and_none_is_written_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, own_state: Path
) -> None:
    """The first page is the one on marking; what was changed in a copy stays."""
    course = ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    (course / "staff").mkdir()
    for name in ("marking", "observations"):
        (course / "staff" / f"{name}.ipynb").write_text("new", encoding="utf-8")
    folder = tmp_path / "work"
    (folder / "staff").mkdir(parents=True)
    (folder / "staff" / "marking.ipynb").write_text("mine", encoding="utf-8")
    put_staff_notebooks(folder)
    assert ["mine", "new"] == [p.read_text(encoding="utf-8") for p in sorted((folder / "staff").iterdir())]
    monkeypatch.setattr(opening, "running", lambda _: Running(address="http://127.0.0.1:1/", token="t"))
    runtime_folder_of(folder).mkdir(parents=True)
    said: list[str] = []
    with FileLock(runtime_folder_of(folder) / "open.lock"):
        open_workbook(folder, LEARNER, browser=False, staff=True, say=said.append)
    assert "http://127.0.0.1:1/lab/tree/staff/marking.ipynb?reset&token=t" == said[-1]


def test_a_window_that_does_not_get_on_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A lock without a server is no endless wait."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    monkeypatch.setattr(opening, "START_SECONDS", 0)
    folder = tmp_path / "work"
    runtime_folder_of(folder).mkdir(parents=True)
    with FileLock(runtime_folder_of(folder) / "open.lock"), pytest.raises(CannotRun, match="does not get on"):
        open_workbook(folder, LEARNER, browser=False, say=[].append)


def test_a_folder_that_went_meanwhile_is_said_at_the_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever moved it is not told that all is well."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    folder = tmp_path / "work"
    make_workbook(folder, LEARNER)
    server = Running(address="http://127.0.0.1:1/", token="t")
    monkeypatch.setattr(opening, "running", lambda _: server)
    said: list[str] = []
    open_workbook(folder, LEARNER, browser=False, say=said.append)
    assert "The course is closed. Your answers are kept." == said[-1]
    monkeypatch.setattr(opening, "running", lambda _: folder.rename(tmp_path / "elsewhere") and server)
    open_workbook(folder, LEARNER, browser=False, say=said.append)
    assert said[-1].startswith(f"The course is closed. {folder} was moved, renamed or deleted meanwhile")


def test_who_comes_back_lands_in_the_lesson_they_stopped_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first time the first lesson opens; afterwards the one read last, and one line says so. The wall starts afresh."""
    ship(tmp_path / "course", monkeypatch, **{"00-start-here": notebook("1"), "08-star-tightening": notebook("2")})
    folder = tmp_path / "work"
    make_workbook(folder, LEARNER)
    answering = iter([True, False] * 3)
    monkeypatch.setattr(Running, "answers", lambda _: next(answering))
    monkeypatch.setattr(opening.time, "sleep", lambda _: None)
    monkeypatch.setattr(opening, "running", lambda _: Running(address="http://127.0.0.1:1/", token="t"))
    said: list[str] = []
    open_workbook(folder, LEARNER, browser=False, say=said.append)
    assert ("/00-start-here.ipynb?" in "".join(said), "Welcome back" in "".join(said)) == (True, False)
    keep_bookmark(folder, "star", "recap", -20)
    open_workbook(folder, LEARNER, browser=False, projector=True, say=said.append)
    assert "Welcome back" not in "".join(said)
    open_workbook(folder, LEARNER, browser=False, say=said.append)
    assert "Welcome back. You stopped in “Tighten in a star”: it opens where you left it." in said
    assert "/08-star-tightening.ipynb?" in "".join(said)


@pytest.mark.parametrize("more", [{}, {"projector": True}, {"staff": True}])
def test_with_keep_it_opens_on_the_page_of_recall(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, more: dict[str, bool]
) -> None:
    """Whatever lesson was read last, on the wall and for staff too; in a window that has it open already as well."""
    ship(tmp_path / "course", monkeypatch, **{"00-start-here": notebook("1"), "14-keep-it": notebook("2")})
    folder = tmp_path / "work"
    make_workbook(folder, LEARNER)
    keep_bookmark(folder, "star", "recap", -20)
    answering = iter([True, False])
    monkeypatch.setattr(Running, "answers", lambda _: next(answering))
    monkeypatch.setattr(opening.time, "sleep", lambda _: None)
    monkeypatch.setattr(opening, "running", lambda _: Running(address="http://127.0.0.1:1/", token="t"))
    said: list[str] = []
    open_workbook(folder, LEARNER, browser=False, keep=True, say=said.append, **more)
    assert "/tree/14-keep-it.ipynb?" in "".join(said)
    assert "Welcome back" not in "".join(said)


@pytest.mark.parametrize(
    ("learner", "whose"), [("L07-E", "Opening the course of L07-E in"), (SELF_STUDY, "Opening the course in")]
)
def test_it_says_whose_course_is_opened(tmp_path: Path, learner: str, whose: str) -> None:
    """One look at the window tells a learner on a used computer that it is somebody else's; alone, nobody needs it."""
    assert _whose(tmp_path, Identity(learner=learner, class_word="oak-2026")).startswith(whose)
    assert ("Not you?" in _whose(tmp_path, Identity(learner=learner, class_word="oak-2026"))) == (learner == "L07-E")


class StandIn:
    """In place of a server: notes what lies in the workbook when it is started, and that it was stopped."""

    alive = False

    def __init__(self, folder: Path, runtime: Path, **options: object) -> None:
        self.folder, self.lay_there, self.stopped = folder, [], False  # type: ignore[var-annotated]

    def __call__(self, *_: object, **options: object) -> Self:
        return self

    def __enter__(self) -> Self:
        self.lay_there = sorted(path.name for path in self.folder.iterdir())
        return self

    def __exit__(self, *reason: object) -> None:
        self.stopped = True

    def wait_ready(self) -> Running:
        return Running(address="http://127.0.0.1:1/", token="t")


def test_the_server_comes_up_while_the_lessons_are_put_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When it starts the folder is this learner's and no more; when the address is said every lesson is there."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"), torque=notebook("2"))
    folder = tmp_path / "work"
    server = StandIn(folder, tmp_path)
    monkeypatch.setattr(opening, "Server", server)
    there: list[bool] = []
    open_workbook(folder, LEARNER, browser=False, say=lambda _: there.append((folder / "torque.ipynb").is_file()))
    assert server.lay_there == ["workbook.toml"]
    assert server.stopped
    assert all(there)


def test_a_server_is_stopped_when_the_lessons_cannot_be_put_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is shown, one line says why."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    server = StandIn(tmp_path / "work", tmp_path)
    monkeypatch.setattr(opening, "Server", server)

    def full(*_: object, **__: object) -> list[str]:
        raise BadInput("The disk is full.")

    monkeypatch.setattr(opening, "put_missing_lessons", full)
    said: list[str] = []
    with pytest.raises(BadInput, match=r"The disk is full\."):
        open_workbook(tmp_path / "work", LEARNER, browser=False, say=said.append)
    assert ([], True) == (said, server.stopped)


def test_nothing_heavy_is_loaded_before_the_server_starts() -> None:
    """What a notebook, a picture or a page needs has no place in the command that opens the course."""
    heavy = "numpy matplotlib IPython ipykernel ipywidgets anywidget jupyter_client jupyterlab nbformat nbclient jinja2"
    code = (
        "import sys; from bitepoint.cli import main; from bitepoint.workbook import opening, own_folder, room_clock; "
        f"print([name for name in {heavy.split()!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, encoding="utf-8", check=True)
    assert "[]" == done.stdout.strip()
