"""Measure what an instructor waits for: a board of two hundred workbooks, the bench sheets of a class."""

import os
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from time import perf_counter

from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.page import View, fragment
from bitepoint.classroom.boards.rehearsal import LiveClass

WORKBOOKS, LEARNERS, LOOKS = 200, 24, 20
ASKED = ("start.number", "safe.dust", "torque.straight-bar")
NOW = datetime(2026, 4, 14, 10, 0, tzinfo=UTC)


def _timed(work: Callable[[], object], times: int, before: Callable[[], object] = lambda: None) -> float:
    """Return the median by the clock of several runs [ms]; what comes before each is not counted."""
    spent = []
    for _ in range(times):
        before()
        began = perf_counter()
        work()
        spent.append(1000 * (perf_counter() - began))
    return median(spent)


def boards(scratch: Path) -> dict[str, float]:
    """Return what a board of workbooks on a share costs, read first, then looked at again [ms]."""
    live = LiveClass(scratch / "share", learners=WORKBOOKS)
    for place, learner in enumerate(live.ids):
        for exercise in ASKED:
            live.answer(learner, exercise, right=place % 3 > 0)
    board = Board(live.folder)

    def read() -> None:
        while not board.refresh():
            continue

    first = _timed(read, 1)
    return {
        f"board of {WORKBOOKS} workbooks, read first": first,
        "looked at again, no news": _timed(board.refresh, LOOKS),
        "looked at again, one new answer": _timed(board.refresh, LOOKS, lambda: live.answer(live.ids[7], "safe.fluid")),
        "its page for the wall": _timed(lambda: fragment(board, View("wall"), NOW), LOOKS),
        "its page with names": _timed(lambda: fragment(board, View("names"), NOW), LOOKS),
    }


def sheets(scratch: Path, rounds: int) -> dict[str, float]:
    """Return what `bitepoint sheets` takes for a class, from the start of the process to its end [ms]."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}

    def bitepoint(*words: str) -> None:
        subprocess.run([sys.executable, "-m", "bitepoint", *words], check=True, capture_output=True, env=environment)

    named = ["--title", "Bench", "--class-word", "oak-2026", "--learners", str(LEARNERS)]
    bitepoint("class", "new", str(scratch / "sheets-class"), *named)
    folders = iter(range(rounds))
    spent = _timed(
        lambda: bitepoint("sheets", str(scratch / "sheets-class"), "--out", str(scratch / f"sheets-{next(folders)}")),
        rounds,
    )
    return {f"bench sheets of a class of {LEARNERS}, start of the command included": spent}
