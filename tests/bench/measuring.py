"""What the page of performance measures: processor time, time by the clock and memory of fresh processes, medians."""

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import NamedTuple

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
_FLOOR = f"""
import sys, zipfile
from pathlib import Path
import msgspec
if __name__ == "__main__":
    for path in sorted(Path(sys.argv[1], "hand-ins").iterdir()):
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
    """Run a script as a process of its own."""
    before, began = os.times(), perf_counter()
    done = subprocess.run([sys.executable, script, *arguments], check=True, capture_output=True, text=True)
    clock, after = perf_counter() - began, os.times()
    spent = after.children_user + after.children_system - before.children_user - before.children_system
    return Run(clock, spent, int(done.stderr.split()[-1]) / 1024)


def middle(runs: Sequence[Run]) -> Run:
    """Return the median of each figure by itself."""
    return Run(*(median(column) for column in zip(*runs, strict=True)))


class Class_(NamedTuple):
    """An invented class that was measured: how many learners and records, and the medians of its runs."""

    learners: int
    records: int
    floor: Run
    one: Run
    two: Run


def marked_class(scratch: Path, learners: int, rounds: int) -> Class_:
    """Rehearse a class and mark it by one and by two workers, with the floor measured between them each time."""
    from bitepoint.marking.rehearsal.rehearse import rehearse

    mark, floor = scratch / "mark.py", scratch / "floor.py"
    mark.write_text(_MARK, encoding="utf-8")
    floor.write_text(_FLOOR, encoding="utf-8")
    folder = scratch / f"class-{learners}"
    rehearse(folder, learners=learners, seed=1)
    runs: dict[str, list[Run]] = {"floor": [], "one": [], "two": []}
    for _ in range(rounds):
        runs["floor"].append(run(floor, str(folder)))
        runs["one"].append(run(mark, str(folder), str(scratch / f"marks-{learners}-1"), "1"))
        runs["two"].append(run(mark, str(folder), str(scratch / f"marks-{learners}-2"), "2"))
    trail = (scratch / f"marks-{learners}-1" / "marks.jsonl").read_bytes()
    records = sum('"line"' in line for line in trail.decode("utf-8").splitlines())
    return Class_(learners, records, *(middle(runs[key]) for key in runs))


def stages(scratch: Path, learners: int) -> dict[str, float]:
    """Return processor time a record by stage [µs], of a class that was rehearsed before."""
    script = Path(__file__).with_name("stages.py")
    folders = [str(scratch / f"class-{learners}"), str(scratch / f"stages-{learners}")]
    done = subprocess.run([sys.executable, script, *folders], check=True, capture_output=True, text=True)
    return {stage: float(spent) for stage, spent in map(str.split, done.stdout.splitlines())}


def draws(learners: int, rounds: int = 4) -> dict[str, float]:
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


def asked(count: int) -> tuple[float, float]:
    """Return how long the first and a later `ask` takes in a real kernel, by the clock [ms]: medians of so many kernels."""
    from jupyter_client.manager import start_new_kernel

    first, later = [], []
    for _ in range(count):
        manager, client = start_new_kernel()
        try:
            client.execute_interactive("from bitepoint import ask", silent=True)
            for id, times in (("start.number", first), ("safe.dust", later), ("torque.straight-bar", later)):
                began = perf_counter()
                reply = client.execute_interactive(f"ask({id!r})", output_hook=lambda message: None, timeout=60)
                times.append(1000 * (perf_counter() - began))
                assert reply["content"]["status"] == "ok", json.dumps(reply["content"], default=str)
        finally:
            client.stop_channels()
            manager.shutdown_kernel(now=True)
    return median(first), median(later)
