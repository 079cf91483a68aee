"""What the page of performance measures: processor time, time by the clock and memory of fresh processes, medians."""

import os
import subprocess
import sys
import zipfile
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import NamedTuple

from college import make_college

_ENDED = "import resource, sys; sys.stderr.write(str(max(resource.getrusage(w).ru_maxrss for w in (0, -1))))"
_MARK = f"""
import sys
from datetime import datetime
from pathlib import Path
from bitepoint.marking.run import mark_hand_ins
if __name__ == "__main__":
    folder, out, workers = sys.argv[1:]
    at = datetime.fromisoformat("2026-06-30T12:00+02:00")
    mark_hand_ins([Path(folder, "hand-ins")], roster=Path(folder, "roster.csv"), out=Path(out), workers=int(workers), marked=at)
    {_ENDED}
"""
_MARK_COLLEGE = f"""
import sys
from datetime import datetime
from pathlib import Path
from bitepoint.marking.college.run import mark_classes
if __name__ == "__main__":
    folder, out, workers = sys.argv[1:]
    at = datetime.fromisoformat("2026-06-30T12:00+02:00")
    found = mark_classes(Path(folder), out=Path(out), workers=int(workers), marked=at)
    assert not found.refused, found.refused
    {_ENDED}
"""
_FLOOR = f"""
import sys, zipfile
from pathlib import Path
import msgspec
if __name__ == "__main__":
    for path in sorted(Path(sys.argv[1]).glob("**/hand-ins/*.zip")):
        with zipfile.ZipFile(path) as packed:
            for name in packed.namelist():
                raw = packed.read(name)
                if name.endswith(".jsonl"):
                    for line in raw.splitlines():
                        msgspec.json.decode(line)
    {_ENDED}
"""


class Run(NamedTuple):
    """One run of a fresh process and of those it started: by the clock [s], processor time of all [s], the largest [MB]."""

    clock_s: float
    processor_s: float
    memory_mb: float


def run(script: Path, *arguments: str) -> Run:
    """Run a script as a process of its own, which finds the modules compiled, as whoever installed the course does."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    before, began = os.times(), perf_counter()
    line = [sys.executable, script, *arguments]
    done = subprocess.run(line, check=True, capture_output=True, text=True, env=environment)
    clock, after = perf_counter() - began, os.times()
    spent = after.children_user + after.children_system - before.children_user - before.children_system
    return Run(clock, spent, int(done.stderr.split()[-1]) / 1024)


def middle(runs: Sequence[Run]) -> Run:
    """Return the median of each figure by itself."""
    return Run(*(median(column) for column in zip(*runs, strict=True)))


class Marked(NamedTuple):
    """A class or a college that was measured: learners, lessons handed in, records, and the medians of its runs."""

    learners: int
    lessons: int
    records: int
    floor: Run
    one: Run
    two: Run


def _counted(folder: Path) -> tuple[int, int, int]:
    """Return how many learners, lessons and records were handed in below a folder."""
    learners = lessons = records = 0
    for path in folder.glob("**/hand-ins/*.zip"):
        with zipfile.ZipFile(path) as packed:
            books = [packed.read(name) for name in packed.namelist() if name.endswith(".jsonl")]
        learners, lessons = learners + 1, lessons + len(books)
        records += sum(len(book.splitlines()) for book in books)
    return learners, lessons, records


def _measured(scratch: Path, folder: Path, program: str, rounds: int) -> Marked:
    """Mark by one and by two workers, with the floor measured beside them each time.

    Each marking writes into a folder that was not there, and nothing is removed until all is measured: a file system may make new
    files much more slowly where many were removed just before.
    """
    mark, floor, out = scratch / "mark.py", scratch / "floor.py", scratch / f"marks-{folder.name}"
    mark.write_text(program, encoding="utf-8")
    floor.write_text(_FLOOR, encoding="utf-8")
    runs: dict[str, list[Run]] = {"floor": [], "1": [], "2": []}
    out.mkdir()
    for number in range(rounds):
        runs["floor"].append(run(floor, str(folder)))
        for workers in ("1", "2"):
            runs[workers].append(run(mark, str(folder), str(out / f"{number}-{workers}"), workers))
    return Marked(*_counted(folder), *(middle(runs[key]) for key in runs))


def marked_class(scratch: Path, learners: int, rounds: int) -> Marked:
    """Rehearse a class and measure marking it."""
    from bitepoint.marking.rehearsal.rehearse import rehearse

    folder = scratch / f"class-{learners}"
    rehearse(folder, learners=learners, seed=1)
    return _measured(scratch, folder, _MARK, rounds)


def start(scratch: Path, rounds: int) -> Run:
    """Return what one answer in one hand-in costs, marked alone: the start of the program, and reading its own files."""
    make_college(scratch / "start", learners=1, answers=1, processes=1)
    return _measured(scratch, scratch / "start", _MARK_COLLEGE, rounds).one


def marked_college(scratch: Path, learners: int, answers: int, rounds: int) -> Marked:
    """Make a college of classes of 25 and measure marking it, each class with results of its own."""
    folder = scratch / f"college-{learners}"
    make_college(folder, learners, answers)
    return _measured(scratch, folder, _MARK_COLLEGE, rounds)


def stages(scratch: Path, learners: int, answers: int) -> dict[str, float]:
    """Return processor time a record by stage [µs], of a college."""
    folder = scratch / "by-stage"
    make_college(folder, learners, answers)
    script = Path(__file__).with_name("stages.py")
    done = subprocess.run(
        [sys.executable, script, str(folder), str(scratch / "stages")], check=True, capture_output=True, text=True
    )
    return {stage: float(spent) for stage, spent in map(str.split, done.stdout.splitlines())}


def draws(learners: int, rounds: int = 8) -> dict[str, float]:
    """Return the time to draw a question, digest its facts and mark it, by exercise [µs of processor time].

    The questions of all learners in one go: asking for the time costs more than some of them. Each round is another turn of
    the same learners, and the median counts: what is worked out once for all, or once for a learner, is no cost of an answer.
    """
    from bitepoint.bank import exercises

    found = {}
    for id, exercise in exercises().items():
        spent = []
        for turn in range(1, rounds + 2):
            began = process_time()
            questions = [
                exercise.draw(class_word="bench", learner=f"L{number}", turn=turn, vehicle="ABCD"[number % 4])
                for number in range(learners)
            ]
            drawn = process_time() - began
            answers = [question.right_answer() for question in questions]
            began = process_time()
            for question, answer in zip(questions, answers, strict=True):
                question.facts_digest()
                question.mark(answer)
            spent.append(1e6 * (drawn + process_time() - began) / learners)
        found[id] = median(spent[1:])
    return found


def executed(course: Path, count: int) -> float:
    """Execute so many notebooks of the course, each in a kernel of its own, and return the median by the clock [s]."""
    import nbformat
    from nbclient import NotebookClient

    paths = sorted(course.glob("[0-9][0-9]-*.ipynb"))
    spent = []
    for number in range(count):
        notebook = nbformat.read(paths[number % len(paths)], as_version=4)
        began = perf_counter()
        NotebookClient(notebook, timeout=300, resources={"metadata": {"path": str(course)}}).execute()
        spent.append(perf_counter() - began)
    return median(spent)
