"""Measure `bitepoint open` beside JupyterLab alone, from the start of the process to a page that is served.

`python tests/bench/opening.py [--rounds 5]`, with the Python whose installed bitepoint is meant. In turn, so that what else the
machine does counts for each alike: JupyterLab alone, `open` with a start file into a folder that is not there, `open` again.
"""

import argparse
import json
import os
import re
import subprocess
import sys
import tempfile
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stdout
from io import StringIO
from pathlib import Path
from statistics import median
from time import perf_counter, sleep

from bitepoint.cli import main as bitepoint

WAYS = ("JupyterLab alone", "open, the first time", "open, later")


@contextmanager
def started(line: list[str], log: Path, state: Path) -> Iterator[subprocess.Popen[bytes]]:
    """A server's process with everything that it prints in a file; stopped in any case."""
    own = {f"JUPYTER_{kind}_DIR": str(state / kind) for kind in ("CONFIG", "DATA", "RUNTIME")}
    environment = os.environ | own | {"BITEPOINT_STATE": str(state), "PYTHONUNBUFFERED": "1"}
    with log.open("wb") as out, subprocess.Popen(line, stdout=out, stderr=out, env=environment) as process:
        try:
            yield process
        finally:
            process.terminate()


def told(log: Path, process: subprocess.Popen[bytes]) -> str:
    """Return the address that was printed, as soon as it is."""
    while not (found := re.search(r"http://127\.0\.0\.1:\d+/\S*token=\w+", log.read_text("utf-8", errors="replace"))):
        assert process.poll() is None, log.read_text("utf-8", errors="replace")
        sleep(0.01)
    return found[0]


def served_s(line: list[str], scratch: Path, state: Path) -> float:
    """Return how long it takes from the start of a process to the whole page at the address that it prints [s]."""
    log = scratch / "log.txt"
    began = perf_counter()
    with started(line, log, state) as process:
        address = told(log, process)
        while True:
            try:
                with urllib.request.urlopen(address, timeout=60) as reply:
                    assert b"jupyter-config-data" in reply.read()
                return perf_counter() - began
            except urllib.error.URLError:
                # JupyterLab prints its address a moment before it answers.
                sleep(0.01)


def opened(rounds: int, scratch: Path) -> dict[str, float]:
    """Return the median of each way [s]; each finds the modules compiled, as whoever installed the course does."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    made = ["class", "new", str(scratch / "class"), "--title", "Bench", "--class-word", "oak-2026", "--learners", "2"]
    with redirect_stdout(StringIO()):
        assert bitepoint(made) == 0
    start = min((scratch / "class" / "start").iterdir())
    (scratch / "alone").mkdir()
    root = ["--allow-root"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    alone = [sys.executable, "-P", "-m", "jupyterlab", "--no-browser", "--ip=127.0.0.1", "--ServerApp.port=9600", *root]
    spent: dict[str, list[float]] = {way: [] for way in WAYS}
    for number in range(rounds):
        line = [sys.executable, "-P", "-m", "bitepoint", "open", "--no-browser", "--port", "9650"]
        line += [str(scratch / f"work-{number}"), "--class-file", str(start)]
        lines = (alone + [f"--ServerApp.root_dir={scratch / 'alone'}"], line, line)
        for way, one in zip(WAYS, lines, strict=True):
            spent[way].append(served_s(one, scratch, scratch / f"state-{way}"))
    return {way: median(times) for way, times in spent.items()}


def main() -> None:
    """Measure and print as JSON: seconds, and each by JupyterLab alone."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        found = opened(given.rounds, Path(scratch))
    ratios = {f"{way} / alone": round(found[way] / found[WAYS[0]], 2) for way in WAYS[1:]}
    load = [round(one, 1) for one in os.getloadavg()]
    print(json.dumps({way: round(found[way], 2) for way in WAYS} | ratios | {"load": load}, indent=1))


if __name__ == "__main__":
    main()
