"""Lessons are run ahead only while nobody has touched or opened them."""

from copy import deepcopy
from pathlib import Path

import pytest

from bitepoint.logbook import Identity
from bitepoint.logbook.identity import write_identity
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.notebooks import Notebook, bytes_digest, fingerprint
from bitepoint.workbook.prepare import prepare
from bitepoint.workbook.shipped_lessons import read_lesson_files, write_lesson_files

from .small_course import LEARNER, notebook, read, ship, write

NAME = "star.ipynb"


class Runs:
    """Stands in for a kernel: notes what it ran and stores one printed line."""

    def __init__(self, output: dict[str, object] | None = None) -> None:
        self.number = 0
        self.output = output or {"output_type": "stream", "name": "stdout", "text": ["2\n"]}

    def __call__(self, content: Notebook, folder: Path) -> Notebook:
        self.number += 1
        done = deepcopy(content)
        done["cells"][1]["outputs"] = [self.output]
        return done


@pytest.fixture
def work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A workbook with one lesson, as handed out."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    make_workbook(tmp_path / "work", LEARNER)
    return tmp_path / "work"


def outputs(work: Path) -> list[object]:
    """What the lesson shows now."""
    found: list[object] = read(work / NAME)["cells"][1]["outputs"]
    return found


def test_a_lesson_as_handed_out_is_run_once(work: Path) -> None:
    """The outputs are stored; a second preparing for the same learner runs nothing."""
    run = Runs()
    for _ in range(2):
        assert prepare(work, [NAME], run=run, in_use=set) == []
    assert [run.output] == outputs(work)
    assert run.number == 1


def test_for_another_learner_it_is_run_again(work: Path) -> None:
    """The figures are another learner's, so the outputs are too."""
    run = Runs()
    prepare(work, [NAME], run=run, in_use=set)
    write_identity(Identity(learner="ben", class_word="autumn"), work)
    prepare(work, [NAME], run=run, in_use=set)
    assert run.number == 2


def test_a_lesson_saved_by_somebody_is_left(work: Path) -> None:
    """Other bytes than ours: not run, not written."""
    write(work / NAME, notebook("1 + 1", "2 + 2"))
    run = Runs()
    prepare(work, [NAME], run=run, in_use=set)
    assert run.number == 0
    assert outputs(work) == []


def test_an_open_lesson_is_left(work: Path) -> None:
    """One that is open in the page is neither run nor written."""
    run = Runs()
    prepare(work, [NAME], run=run, in_use=lambda: {NAME})
    assert run.number == 0
    assert outputs(work) == []


def test_a_lesson_opened_or_saved_during_the_run_is_left(work: Path) -> None:
    """What happened while the kernel worked counts: the run is thrown away."""
    looks = iter([set(), {NAME}])
    prepare(work, [NAME], run=Runs(), in_use=lambda: next(looks))
    assert outputs(work) == []

    def saved_meanwhile(content: Notebook, folder: Path) -> Notebook:
        write(work / NAME, notebook("my own work"))
        return Runs()(content, folder)

    prepare(work, [NAME], run=saved_meanwhile, in_use=set)
    assert notebook("my own work") == read(work / NAME)


def test_a_run_with_an_error_is_told_and_not_stored(work: Path) -> None:
    """A traceback never greets a learner; the lesson as shipped stays."""
    error = {"output_type": "error", "ename": "NameError", "evalue": "x", "traceback": []}
    assert prepare(work, [NAME], run=Runs(error), in_use=set) == ["star.ipynb: NameError: x"]
    assert outputs(work) == []


def test_a_dead_kernel_costs_one_lesson(work: Path) -> None:
    """The next lesson is run all the same."""
    write(work.parent / "course" / "torque.ipynb", notebook("2 + 2"))
    make_workbook(work, LEARNER)
    run = Runs()

    def dies_first(content: Notebook, folder: Path) -> Notebook:
        if run.number == 0:
            run.number += 1
            raise RuntimeError("Kernel died")
        return run(content, folder)

    said = prepare(work, [NAME, "torque.ipynb"], run=dies_first, in_use=set)
    assert said == ["star.ipynb: RuntimeError: Kernel died"]
    assert [run.output] == read(work / "torque.ipynb")["cells"][1]["outputs"]


def test_a_forged_record_runs_nothing_of_the_folder(work: Path) -> None:
    """A lesson with other cells is not run, whatever the record says that we left there."""
    write(work / NAME, notebook("print('a stranger')"))
    record = read_lesson_files(work)
    record.stored[NAME] = bytes_digest(work / NAME)
    record.files[NAME] = fingerprint(read(work / NAME))
    write_lesson_files(work, record)
    run = Runs()
    assert prepare(work, [NAME, "../course/star.ipynb", "other.ipynb"], run=run, in_use=set) == []
    assert run.number == 0


def test_what_is_run_is_the_lesson_as_shipped(work: Path) -> None:
    """What else stands in the folder's lesson, such as another kernel, does not reach the run."""
    lesson = notebook("1 + 1")
    lesson["metadata"]["kernelspec"]["name"] = "stranger"
    write(work / NAME, lesson)
    record = read_lesson_files(work)
    record.stored[NAME] = bytes_digest(work / NAME)
    write_lesson_files(work, record)
    given: list[Notebook] = []

    def run(content: Notebook, folder: Path) -> Notebook:
        given.append(content)
        return Runs()(content, folder)

    prepare(work, [NAME], run=run, in_use=set)
    assert [notebook("1 + 1")] == given
