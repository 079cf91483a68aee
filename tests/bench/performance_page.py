"""The sections of docs/performance.md: what was measured, in tables and sentences, and beside it what is wanted."""

from statistics import mean, median

from measuring import Marked, Run
from stages import STAGES

WANTED_S, WANTED_US = 60, 120
"""A million records by the clock with two workers, and so the processor time that one may take on two cores."""


def _per_record(run: Run, found: Marked) -> float:
    return 1e6 * run.processor_s / found.records


def _row(found: Marked) -> str:
    per = [_per_record(run, found) for run in (found.floor, found.one, found.two)]
    return (
        f"| {found.records:,} | {found.learners:,} | {per[0]:.1f} | {per[1]:.0f} | {per[2]:.0f} | {found.one.clock_s:.1f} | "
        f"{found.two.clock_s:.1f} | {found.records / found.two.clock_s:,.0f} | {found.one.clock_s / found.two.clock_s:.2f} | "
        f"{found.one.memory_mb:.0f} | {found.two.memory_mb:.0f} |"
    )


def _table(found: list[Marked]) -> str:
    rows = "\n".join(map(_row, found))
    return f"""| records | learners | floor, µs a record | one worker, µs | two workers, µs | one, s | two, s | two, records/s | two to one | one, MB | two, MB |
| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |
{rows}"""


def colleges_said(found: list[Marked], start: Run, rounds: int) -> str:
    """Return the table of colleges, and whether a record costs the same in a small one and in a large one."""
    once = "" if rounds > 1 else " The largest was marked once by each."
    return f"""## Marking a college

Learners with 100 answers each in classes of 25 (`tests/bench/college.py`) are marked by one run, as `bitepoint mark --classes` does: from
the zips to the results of every class, each with its tables, three pages a learner, report and manifest, all read back. The floor is
reading and decoding the same lines and nothing else. s is by the clock; µs are processor time of all processes together, start of Python
included; memory is that of the largest process.{once}

{_table(found)}

The start of the program, its own files and one answer marked took {start.processor_s:.2f} s of processor time. Without that a record of the
largest college cost {flat(found, start.processor_s):.2f} times one of the smallest, with it {flat(found):.2f} times.
"""


def flat(found: list[Marked], start_s: float = 0.0) -> float:
    """Return what a record of the largest costs by one of the smallest, one worker, without what the start costs."""
    small, large = (
        (one.one.processor_s - start_s) / one.records
        for one in (min(found, key=lambda x: x.records), max(found, key=lambda x: x.records))
    )
    return large / small


def classes_said(found: list[Marked]) -> str:
    """Return the table of single classes."""
    return f"""## Marking one class

An invented class (`bitepoint rehearse`), each learner with all lessons and every answer until it was right. Two workers share one class
here, and send its parts to each other; of a college each takes whole classes.

{_table(found)}
"""


def stages_said(found: dict[str, float], classes: int) -> str:
    """Return the budget of an answer laid out by stage."""
    rows = "\n".join(f"| {stage} | {STAGES[stage]} | {spent:.1f} |" for stage, spent in found.items())
    return f"""## An answer by stage

Processor time of one worker in {classes} classes of such a college, µs a record, each stage without those inside it, after a first class that
is not counted. Asking for the time is in it. What is wanted for all together is {WANTED_US} µs: two cores, one minute, a million records.

| stage | what | µs |
| --- | --- | ---: |
{rows}
| all | | {sum(found.values()):.1f} |
"""


def times_executing(lesson_s: float, found: Marked) -> float:
    """Return how many times as long executing takes as marking by two workers, a lesson of a learner each."""
    return lesson_s * found.lessons / found.two.clock_s


def executing_said(lesson_s: float, count: int, found: list[Marked]) -> str:
    """Return how marking compares with executing the notebooks."""
    rows = "\n".join(
        f"| {one.lessons:,} lessons of {one.learners:,} learners | {one.records / one.lessons:.0f} | "
        f"{1000 * one.one.clock_s / one.lessons:.2f} | {1000 * one.two.clock_s / one.lessons:.2f} | "
        f"{lesson_s * one.lessons / one.one.clock_s:,.0f} | {times_executing(lesson_s, one):,.0f} |"
        for one in found
    )
    return f"""## Marking against executing

{count} notebooks of the course were executed by nbclient, each in a kernel of its own: {lesson_s:.2f} s a notebook (median). Extrapolated
from them to every lesson that was handed in, one after the other; executed is the course's own notebook, not what learners sent.

| marked | answers a lesson | one worker, ms a lesson | two, ms | executing to one worker | to two |
| --- | ---: | ---: | ---: | ---: | ---: |
{rows}
"""


def draws_said(found: dict[str, float], learners: int) -> str:
    """Return what drawing and marking costs by exercise."""
    worst = sorted(found.items(), key=lambda item: -item[1])[:10]
    rows = "\n".join(f"| `{id}` | {spent:.0f} |" for id, spent in worst)
    return f"""## Drawing and marking one answer

Processor time to draw a question, digest its facts and mark its right answer: a turn of {learners} learners in one go for each exercise,
the median of eight turns after a first one. What is worked out once for all learners (a log that is simulated) or once for a learner
(the story of the job) is not in it.
Over {len(found)} exercises: median {median(found.values()):.0f} µs, mean {mean(found.values()):.0f} µs,
{sum(spent > 500 for spent in found.values())} over 500 µs. The worst ten:

| exercise | µs |
| --- | ---: |
{rows}
"""


def waiting_said(kernel: dict[str, float], opened: dict[str, float], kernels: int, rounds: int) -> str:
    """Return what a learner waits for."""
    asked = "\n".join(f"| {what} | {spent:.0f} |" for what, spent in kernel.items())
    alone = opened["JupyterLab alone"]
    served = "\n".join(f"| {way} | {spent:.2f} | {spent / alone:.2f} |" for way, spent in opened.items())
    return f"""## What a learner waits for

In real kernels, in a workbook that keeps its answers on disk, controls as in JupyterLab; by the clock, medians over {kernels} kernels, from
sending the cell (or what a pressed button sends) until the kernel is idle again. The page's own drawing is not in it.

| what | ms |
| --- | ---: |
{asked}

`bitepoint open` beside JupyterLab alone, in turn, from the start of the process to the whole page at the address that it prints: medians of {rounds}.

| what | s | to JupyterLab alone |
| --- | ---: | ---: |
{served}
"""


def instructors_said(found: dict[str, float]) -> str:
    """Return what an instructor waits for."""
    rows = "\n".join(f"| {what} | {spent:,.0f} |" for what, spent in found.items())
    return f"""## What an instructor waits for

By the clock; a report and pages of learners stand above as stages of marking.

| what | ms |
| --- | ---: |
{rows}
"""


def wanted_said(
    colleges: list[Marked],
    classes: list[Marked],
    start: Run,
    lesson_s: float,
    drawn: dict[str, float],
    kernel: dict[str, float],
    opened: dict[str, float],
) -> str:
    """Return what is wanted beside what this run found, so that nothing wanted is taken for reached."""
    largest = max(colleges, key=lambda one: one.records)
    million = 1e6 * largest.two.clock_s / largest.records
    how = "" if largest.records > 990_000 else ", extrapolated"
    memory = max(max(one.one.memory_mb, one.two.memory_mb) for one in (*colleges, *classes))
    alone = opened["JupyterLab alone"]
    times = [times_executing(lesson_s, one) for one in (*classes[-1:], largest)]
    rows = [
        ("a million records with two workers", f"{WANTED_S} s", f"{million:,.0f} s{how}"),
        ("processor time a record, pages included", f"{WANTED_US} µs", f"{_per_record(largest.two, largest):.0f} µs"),
        ("memory of the largest process", "500 MB", f"{memory:.0f} MB"),
        ("two workers to one, by the clock", "1.7", f"{largest.one.clock_s / largest.two.clock_s:.2f}"),
        (
            "two workers to one inside one class",
            "1.7",
            f"{classes[-1].one.clock_s / classes[-1].two.clock_s:.2f} of {classes[-1].learners}",
        ),
        (
            "cost a record, largest college to smallest",
            "0.8 to 1.2",
            f"{flat(colleges, start.processor_s):.2f} (with the start {flat(colleges):.2f})",
        ),
        ("executing to marking by two workers", "700", " and ".join(f"{one:,.0f}" for one in times)),
        ("draw and mark, median over exercises", "25 µs", f"{median(drawn.values()):.0f} µs"),
        ("draw and mark, mean over exercises", "40 µs", f"{mean(drawn.values()):.0f} µs"),
        ("costliest exercise", "500 µs", f"{max(drawn.values()):.0f} µs"),
        ("first `ask` of a kernel", "150 ms", f"{kernel['first ask']:.0f} ms"),
        ("a later `ask`", "30 ms", f"{kernel['later ask']:.0f} ms"),
        ("check of an answer", "10 ms", f"{kernel['check of an answer']:.0f} ms"),
        ("lesson 08 whole", "5 s", f"{kernel['lesson 08 whole'] / 1000:.1f} s"),
        ("`open` to JupyterLab alone, the first time", "1.2", f"{opened['open, the first time'] / alone:.2f}"),
        ("`open` to JupyterLab alone, later", "1.2", f"{opened['open, later'] / alone:.2f}"),
    ]
    lines = "\n".join(f"| {what} | {goal} | {here} |" for what, goal, here in rows)
    return f"""## Wanted and found

| what | wanted | this run |
| --- | --- | --- |
{lines}
"""
