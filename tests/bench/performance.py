"""Measure in one run what docs/performance.md says, and write it: `PYTHONPATH=lib python tests/bench/performance.py`."""

import argparse
import os
import platform
import tempfile
from datetime import date
from importlib.metadata import version
from pathlib import Path

import performance_page as page
from for_instructors import boards, sheets
from in_kernel import measured as in_kernels
from measuring import draws, executed, marked_class, marked_college, stages, start
from opening import opened

ROOT = Path(__file__).parents[2]
COMMAND = "python tests/bench/performance.py"
ANSWERS, BY_STAGE = 100, 200
"""Answers of a learner of a college, and the learners of that whose cost is laid out by stage."""


def machine() -> str:
    """Return what it was measured on."""
    named = [f"{name} {version(name)}" for name in ("msgspec", "jinja2", "nbclient", "ipykernel", "jupyterlab")]
    loads = ", ".join(f"{load:.1f}" for load in os.getloadavg())
    return (
        f"{os.cpu_count()} cores ({platform.machine()}), {platform.system()} {platform.release()}, "
        f"Python {platform.python_version()}, {', '.join(named)}. Load before the run over 1, 5, 15 minutes: {loads}."
    )


def sections(given: argparse.Namespace, scratch: Path) -> list[str]:
    """Measure everything and return the sections of the page."""
    begun = start(scratch, given.rounds)
    by_stage, drawn = stages(scratch, BY_STAGE, ANSWERS), draws(20)
    classes = [marked_class(scratch, learners, given.rounds) for learners in given.learners]
    colleges = [
        marked_college(scratch, learners, ANSWERS, given.rounds if learners < max(given.college) else 1)
        for learners in given.college
    ]
    lesson_s = executed(ROOT / "course", given.notebooks)
    kernel, served = in_kernels(given.kernels), opened(given.rounds, scratch)
    return [
        page.colleges_said(colleges, begun, 1),
        page.classes_said(classes),
        page.stages_said(by_stage, BY_STAGE // 25),
        page.executing_said(lesson_s, given.notebooks, [*classes, max(colleges, key=lambda one: one.records)]),
        page.draws_said(drawn, 20),
        page.waiting_said(kernel, served, given.kernels, given.rounds),
        page.instructors_said(boards(scratch) | sheets(scratch, given.rounds)),
        page.wanted_said(colleges, classes, begun, lesson_s, drawn, kernel, served),
    ]


def main() -> None:
    """Measure and write the page."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--learners", type=int, nargs="+", default=[34, 170])
    parser.add_argument("--college", type=int, nargs="+", default=[100, 1_000, 10_000])
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--notebooks", type=int, default=40)
    parser.add_argument("--kernels", type=int, default=5)
    parser.add_argument("--scratch", type=Path, help="Folder for what is made; not where much was removed just before.")
    parser.add_argument("--out", type=Path, default=ROOT / "docs" / "performance.md")
    given = parser.parse_args()
    # Every process below measures what lies here, whatever is installed.
    os.environ["PYTHONPATH"] = str(ROOT / "lib")
    head = machine()
    with tempfile.TemporaryDirectory(dir=given.scratch) as scratch:
        parts = sections(given, Path(scratch))
    again = " ".join(
        f"--{name} {' '.join(map(str, getattr(given, name))) if name in ('learners', 'college') else getattr(given, name)}"
        for name in ("college", "learners", "rounds", "notebooks", "kernels")
    )
    loads = ", ".join(f"{load:.1f}" for load in os.getloadavg())
    text = [
        f"# Speed\n\nMeasured on {date.today()} in one run. {head} Load after it: {loads}.\n\nProcessors differ: the floor says how fast "
        "this one is, and other work on a machine changes times by the clock more than processor time and ratios. A test holds the "
        f"ratios (tests/bench/budget.py).\n\nOnce more: `PYTHONPATH=lib {COMMAND} {again}`. Where nothing else is said, a figure is the "
        f"median of {given.rounds} rounds.\n",
        *parts,
    ]
    given.out.write_text("\n".join(text), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
