"""The bench of marking by stage: what it wraps is still there and still does that work."""

import os
import subprocess
import sys
from pathlib import Path

BENCH = Path(__file__).parent


def test_every_stage_of_marking_is_found(tmp_path: Path) -> None:
    """A small college: each stage takes some time, and reading does not take the time of marking, which goes on inside it."""
    environment = {**os.environ, "PYTHONPATH": str(BENCH.parents[1] / "lib")}

    def run(*words: object) -> str:
        done = subprocess.run(list(map(str, [sys.executable, *words])), capture_output=True, text=True, env=environment)
        assert done.returncode == 0, done.stderr
        return done.stdout

    run(BENCH / "college.py", tmp_path / "college", "--learners", 50, "--answers", 40)
    spent = {
        stage: float(us)
        for stage, us in map(str.split, run(BENCH / "stages.py", tmp_path / "college", tmp_path / "out").splitlines())
    }

    assert list(spent) == [
        "read",
        "check",
        "draw",
        "facts",
        "mark",
        "trail",
        "result",
        "pages",
        "write",
        "report",
        "rest",
    ]
    assert min(spent.values()) > 0.5
    assert spent["draw"] > spent["facts"]
