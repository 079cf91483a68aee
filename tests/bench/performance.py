"""Measure in one run what docs/performance.md says, and write it: `PYTHONPATH=lib python tests/bench/performance.py`."""

import argparse
import os
import platform
import tempfile
from datetime import date
from importlib.metadata import version
from pathlib import Path
from statistics import mean, median

from measuring import Class_, asked, draws, executed, marked_class, stages
from stages import STAGES

ROOT = Path(__file__).parents[2]
COMMAND = "python tests/bench/performance.py"
LESSONS = 13


def machine() -> str:
    """Return what it was measured on."""
    named = [f"{name} {version(name)}" for name in ("msgspec", "jinja2", "nbclient", "ipykernel")]
    loads = ", ".join(f"{load:.1f}" for load in os.getloadavg())
    return (
        f"{os.cpu_count()} cores ({platform.machine()}), {platform.system()} {platform.release()}, "
        f"Python {platform.python_version()}, {', '.join(named)}. Load before the run over 1, 5, 15 minutes: {loads}."
    )


def class_row(found: Class_) -> str:
    """Return one row of the table of classes."""
    per = [1e6 * run.processor_s / found.records for run in (found.floor, found.one, found.two)]
    return (
        f"| {found.records:,} | {found.learners} | {per[0]:.1f} | {per[1]:.0f} | {per[2]:.0f} | "
        f"{found.records / found.one.clock_s:,.0f} | {found.records / found.two.clock_s:,.0f} | "
        f"{found.one.clock_s / found.two.clock_s:.2f} | {found.one.memory_mb:.0f} | {found.two.memory_mb:.0f} |"
    )


def classes_said(found: list[Class_]) -> str:
    """Return the table of classes and what follows from its largest one."""
    small, large = found[0], found[-1]
    rows = "\n".join(map(class_row, found))
    flat = (large.one.processor_s / large.records) / (small.one.processor_s / small.records)
    million = 1e6 * large.two.clock_s / large.records
    return f"""## Marking a class

An invented class (`bitepoint rehearse`) is marked from the zips to the whole set of results: tables, three pages a learner,
report, manifest, all read back. The floor is reading and decoding the same lines and nothing else. Each figure is the median of the
runs, floor, one and two workers in turn; processor time is of all processes together, start of Python included; memory is that of the
largest process.

| records | learners | floor, µs a record | one worker, µs | two workers, µs | one worker, records/s | two, records/s | two to one | one, MB | two, MB |
| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |
{rows}

Cost a record of the largest to the smallest class here: {flat:.2f}. Extrapolated, not measured: 1,000,000 records in classes like the
largest take {million:,.0f} s with two workers, pages included.
"""


def stages_said(found: dict[str, float], learners: int) -> str:
    """Return the budget of an answer laid out by stage."""
    rows = "\n".join(f"| {stage} | {STAGES[stage]} | {spent:.1f} |" for stage, spent in found.items())
    return f"""## An answer by stage

Processor time of one worker in the class of {learners}, µs a record, each stage without those inside it. What is wanted for all
together is 120 µs: two cores, one minute, a million records. What is worked out once in a process is in it, so that a larger class
costs less to draw.

| stage | what | µs |
| --- | --- | ---: |
{rows}
| all | | {sum(found.values()):.1f} |
"""


def executing_said(lesson_s: float, count: int, found: Class_) -> str:
    """Return how marking compares with executing the notebooks."""
    one = found.one.clock_s / found.learners / LESSONS
    two = found.two.clock_s / found.learners / LESSONS
    return f"""## Marking against executing

{count} notebooks of the course were executed by nbclient, each in a kernel of its own: {lesson_s:.2f} s a notebook (median). Marking
the class of {found.learners} cost {1000 * one:.1f} ms a lesson and learner with one worker, {1000 * two:.1f} ms with two. So executing takes
{lesson_s / one:.0f} times as long as one worker, {lesson_s / two:.0f} times as long as two: extrapolated from the {count}, and executed is the
course's own notebook, one after the other, not what learners sent.
"""


def draws_said(found: dict[str, float], learners: int) -> str:
    """Return what drawing and marking costs by exercise."""
    worst = sorted(found.items(), key=lambda item: -item[1])[:10]
    rows = "\n".join(f"| `{id}` | {spent:.0f} |" for id, spent in worst)
    return f"""## Drawing and marking one answer

Processor time to draw a question, digest its facts and mark its right answer: a turn of {learners} learners in one go for each exercise,
the median of four turns after a first one. What is worked out once for all learners (a log that is simulated) or once for a learner
(the story of the job) is not in it.
Over {len(found)} exercises: median {median(found.values()):.0f} µs, mean {mean(found.values()):.0f} µs,
{sum(spent > 500 for spent in found.values())} over 500 µs. The worst ten:

| exercise | µs |
| --- | ---: |
{rows}
"""


def asked_said(first: float, later: float, kernels: int) -> str:
    """Return what asking costs in a kernel."""
    return f"""## Asking in a kernel

The first `ask` of a kernel {first:.0f} ms, a later one {later:.0f} ms by the clock: medians of {kernels} kernels, from sending the cell to
the kernel's reply.
"""


def wanted_said(found: list[Class_], drawn: dict[str, float], first: float, later: float) -> str:
    """Return what is wanted beside what this run found, so that nothing wanted is taken for reached."""
    large, small = found[-1], found[0]
    per = 1e6 * large.one.processor_s / large.records
    rows = [
        (
            "a million records with two workers",
            "60 s",
            f"{1e6 * large.two.clock_s / large.records:,.0f} s, extrapolated",
        ),
        ("processor time a record, pages included", "120 µs", f"{per:.0f} µs"),
        ("memory of the largest process", "500 MB", f"{max(large.one.memory_mb, large.two.memory_mb):.0f} MB here"),
        ("two workers to one, by the clock", "1.7", f"{large.one.clock_s / large.two.clock_s:.2f}"),
        (
            "cost a record, largest class to smallest",
            "0.8 to 1.2",
            f"{per * small.records / 1e6 / small.one.processor_s:.2f}",
        ),
        ("draw and mark, median over exercises", "25 µs", f"{median(drawn.values()):.0f} µs"),
        ("draw and mark, mean over exercises", "40 µs", f"{mean(drawn.values()):.0f} µs"),
        ("costliest exercise", "500 µs", f"{max(drawn.values()):.0f} µs"),
        ("first `ask` of a kernel", "150 ms", f"{first:.0f} ms"),
        ("a later `ask`", "30 ms", f"{later:.0f} ms"),
    ]
    lines = "\n".join(f"| {what} | {goal} | {here} |" for what, goal, here in rows)
    return f"""## Wanted and found

| what | wanted | this run |
| --- | --- | --- |
{lines}

Not measured here: checking an answer and picking a card in a kernel, `bitepoint open` beside JupyterLab alone, classes larger than those above.
"""


def main() -> None:
    """Measure and write the page."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--learners", type=int, nargs="+", default=[34, 340])
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--notebooks", type=int, default=40)
    parser.add_argument("--kernels", type=int, default=5)
    parser.add_argument("--out", type=Path, default=ROOT / "docs" / "performance.md")
    given = parser.parse_args()
    head = machine()
    with tempfile.TemporaryDirectory() as scratch:
        found = [marked_class(Path(scratch), learners, given.rounds) for learners in given.learners]
        by_stage = stages(Path(scratch), given.learners[-1])
    drawn, times = draws(20), asked(given.kernels)
    parts = [
        f"# Speed\n\nMeasured on {date.today()} in one run. {head}\n\nOn a machine that other work keeps busy, times by the clock say "
        "more about that work; processor time and ratios say more about the program. A test holds the ratios (tests/bench/budget.py).\n\n"
        f"Once more: `PYTHONPATH=lib {COMMAND} --learners {' '.join(map(str, given.learners))} --rounds {given.rounds} "
        f"--notebooks {given.notebooks} --kernels {given.kernels}`. Figures of classes are medians of {given.rounds} runs.\n",
        classes_said(found),
        stages_said(by_stage, given.learners[-1]),
        executing_said(executed(ROOT / "course", given.notebooks), given.notebooks, found[-1]),
        draws_said(drawn, 20),
        asked_said(*times, given.kernels),
        wanted_said(found, drawn, *times),
    ]
    loads = ", ".join(f"{load:.1f}" for load in os.getloadavg())
    given.out.write_text("\n".join([*parts, f"Load after the run: {loads}.\n"]), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
