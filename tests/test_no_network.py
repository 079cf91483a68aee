"""Nothing goes out to a network while the course runs: every Python of it is watched, and a try is refused and told."""

import os
import re
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

WATCH = Path(__file__).with_name("no_network")
COMMAND = [sys.executable, "-P", "-m", "bitepoint"]


@pytest.fixture
def watched(tmp_path: Path) -> dict[str, str]:
    """The environment in which each Python watches its own sockets."""
    path = os.pathsep.join(filter(None, [str(WATCH), os.environ.get("PYTHONPATH", "")]))
    return {**os.environ, "PYTHONPATH": path, "REACHED_OUT": str(tmp_path / "reached-out.txt")}


def reached_out(watched: dict[str, str]) -> str:
    """What was tried, a line each."""
    path = Path(watched["REACHED_OUT"])
    return path.read_text(encoding="utf-8") if path.exists() else ""


@pytest.mark.parametrize(
    "try_it", ["socket.create_connection(('192.0.2.1', 80), 1)", "socket.getaddrinfo('course.invalid', 80)"]
)
def test_the_watch_sees_who_reaches_out(watched: dict[str, str], try_it: str) -> None:
    """By an address and by a name: refused and written down, or the tests below could not fail."""
    line = [sys.executable, "-c", f"import socket; {try_it}"]
    run = subprocess.run(line, env=watched, capture_output=True, text=True, check=False)
    assert 1 == run.returncode
    assert "nothing leads out here" in run.stderr
    assert 1 == reached_out(watched).count("\n")


def test_a_class_is_marked_and_its_sheets_are_made_without_a_network(watched: dict[str, str], tmp_path: Path) -> None:
    """An invented class, its results, a class of one's own, its sheets, the posters, solutions and the board's page."""
    for line in (
        "rehearse --learners 2 --seed 7 --out rehearsal",
        "mark rehearsal/hand-ins --roster rehearsal/roster.csv --out results",
        "class new mine --title Spring --class-word oak-2026 --learners 1",
        "sheets mine --out sheets",
        "sheets --posters --out posters",
        "solutions --class-word oak-2026 --learner L07-E --lesson 8 --out solved",
        "board rehearsal/hand-ins --once board.html",
    ):
        run = subprocess.run(
            [*COMMAND, *line.split()], cwd=tmp_path, env=watched, capture_output=True, text=True, check=False
        )
        assert run.returncode in (0, 1), f"{line}: {run.stderr}"
    assert "" == reached_out(watched)


def test_the_course_opens_without_a_network(watched: dict[str, str], tmp_path: Path) -> None:
    """JupyterLab serves its page and runs a kernel, and none of the processes reaches out."""
    line = [*COMMAND, "open", "--no-browser", str(tmp_path / "course")]
    process = subprocess.Popen(
        line, env=watched, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, encoding="utf-8"
    )
    assert process.stdout is not None
    with process:
        try:
            said = ""
            while "Leave this window open." not in said and (more := process.stdout.readline()):
                said += more
            found = re.search(r"(http://127\.0\.0\.1:\d+)/\S*token=(\w+)", said)
            assert found, said
            with urllib.request.urlopen(found[0], timeout=60) as page:
                assert b"jupyter-config-data" in page.read()
            start = urllib.request.Request(f"{found[1]}/api/kernels?token={found[2]}", data=b"{}", method="POST")
            with urllib.request.urlopen(start, timeout=60) as kernel:
                assert 201 == kernel.status
        finally:
            process.send_signal(signal.SIGTERM)
            process.wait(60)
    assert "" == reached_out(watched)
