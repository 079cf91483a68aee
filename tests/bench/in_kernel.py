"""Measure what a learner waits for in a lesson: asking, checking an answer, picking a card, lesson 08 whole, in real kernels.

`python tests/bench/in_kernel.py [--kernels 5]`, with the Python whose installed bitepoint is meant. Each kernel is fresh, works
in a workbook whose answers are kept on disk, and has controls as in JupyterLab. Times by the clock: at the client from sending
to the kernel's being idle again, and in the kernel alone.
"""

import argparse
import json
import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from jupyter_client.blocking.client import BlockingKernelClient
from jupyter_client.manager import start_new_kernel

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity
from bitepoint.questions.question import Question
from bitepoint.workbook.create import make_workbook

LEARNER = Identity(learner="bench", class_word="bench")
FIRST, LATER, NUMBER, WORK = "start.number", ("safe.dust", "torque.straight-bar"), "torque.straight-bar", "job.order"
LESSON = "08-star-tightening.ipynb"
# Timed in a cell of its own where nothing else is: what stands before it is not measured.
CELL = "from time import perf_counter as _now; _began = _now()\n{code}\n_spent = _now() - _began"


def until_idle(client: BlockingKernelClient, message: str) -> list[dict[str, Any]]:
    """Return what the kernel sent for a message, up to its being idle."""
    heard = []
    while True:
        said = client.get_iopub_msg(timeout=60)
        if said["parent_header"].get("msg_id") != message:
            continue
        heard.append(said)
        if said["msg_type"] == "status" and said["content"]["execution_state"] == "idle":
            return heard


def run(client: BlockingKernelClient, code: str) -> tuple[float, list[dict[str, Any]]]:
    """Run code as a cell and return how long it took [ms] and what came of it."""
    began = perf_counter()
    heard = until_idle(client, client.execute(code))
    spent = 1000 * (perf_counter() - began)
    client.get_shell_msg(timeout=60)
    assert not [one for one in heard if one["msg_type"] == "error"], heard
    return spent, heard


def both(client: BlockingKernelClient, code: str) -> tuple[float, float, list[dict[str, Any]]]:
    """Run code; return how long it took at the client and in the kernel [ms], and what came of it."""
    outside, heard = run(client, CELL.format(code=code))
    _, told = run(client, "print(_spent)")
    inside = next(float(one["content"]["text"]) for one in told if one["msg_type"] == "stream")
    return outside, 1000 * inside, heard


def control_of(heard: list[dict[str, Any]]) -> str:
    """Return the address of the control that an ask made: the one that is shown."""
    views = [
        one["content"]["data"]["application/vnd.jupyter.widget-view+json"]["model_id"]
        for one in heard
        if "application/vnd.jupyter.widget-view+json" in one["content"].get("data", {})
    ]
    return str(views[-1])


def heard_from_page(client: BlockingKernelClient, control: str, content: dict[str, Any]) -> float:
    """Send what a page sends when a learner presses a button; return how long the kernel took [ms]."""
    message = client.session.msg("comm_msg", {"comm_id": control, "data": {"method": "custom", "content": content}})
    began = perf_counter()
    client.shell_channel.send(message)
    said = until_idle(client, message["header"]["msg_id"])
    spent = 1000 * (perf_counter() - began)
    assert any(one["msg_type"] == "comm_msg" for one in said), said
    return spent


def question(id: str) -> Question:
    """Return the question of the learner of this bench."""
    return exercise_named(id).draw(class_word=LEARNER.class_word, learner=LEARNER.learner)


def one_kernel(folder: Path, note: Callable[[str, float], None]) -> None:
    """Measure everything once in a fresh kernel on a fresh workbook."""
    make_workbook(folder, LEARNER)
    os.environ["JPY_SESSION_NAME"] = str(folder / "lesson.ipynb")
    manager, client = start_new_kernel(cwd=str(folder))
    try:
        run(client, "pass")
        imported, _ = run(client, "from bitepoint import ask")
        note("import of the course", imported)
        outside, inside, _ = both(client, f"ask({FIRST!r})")
        note("first ask", outside)
        note("first ask, in the kernel alone", inside)
        note("import and first ask", imported + outside)
        for id in LATER:
            outside, inside, heard = both(client, f"ask({id!r})")
            note("later ask", outside)
            note("later ask, in the kernel alone", inside)
        wrong, right = str(question(NUMBER).known_mistakes()[0][0]), str(question(NUMBER).right_answer())
        for typed in (wrong, right):
            note("check of an answer", heard_from_page(client, control_of(heard), {"do": "answer", "answer": typed}))
        *_, heard = both(client, f"ask({WORK!r})")
        row = str(question(WORK).right_answer()).replace(" ", "").split("/")[0]
        for end in range(1, len(row) + 1):
            note(
                "pick of a card", heard_from_page(client, control_of(heard), {"do": "pick", "picked": list(row[:end])})
            )
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)
    note("lesson 08 whole", lesson(folder))


def lesson(folder: Path) -> float:
    """Return how long all cells of lesson 08 take in a fresh kernel, its start included [ms]."""
    cells = json.loads((folder / LESSON).read_text(encoding="utf-8"))["cells"]
    began = perf_counter()
    manager, client = start_new_kernel(cwd=str(folder))
    try:
        for cell in cells:
            if cell["cell_type"] == "code":
                run(client, "".join(cell["source"]))
        return 1000 * (perf_counter() - began)
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)


def measured(kernels: int) -> dict[str, float]:
    """Return the medians over so many kernels [ms]; each finds the modules compiled, as whoever installed the course does."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    spent: dict[str, list[float]] = {}
    with tempfile.TemporaryDirectory() as scratch:
        os.environ["BITEPOINT_STATE"] = scratch
        for number in range(kernels):
            one_kernel(Path(scratch, f"work-{number}"), lambda what, ms: spent.setdefault(what, []).append(ms))
    return {what: median(times) for what, times in spent.items()}


def main() -> None:
    """Measure and print as JSON, in milliseconds."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kernels", type=int, default=5)
    found = measured(parser.parse_args().kernels)
    print(json.dumps({what: round(ms, 1) for what, ms in found.items()} | {"load": os.getloadavg()}, indent=1))


if __name__ == "__main__":
    main()
