"""Run as a program: mark one file alone in a fresh process and print what it came to and cost, as JSON."""

import json
import re
import resource
import sys
import time
from pathlib import Path

from bitepoint.marking import mark_hand_ins


def most_memory_mb() -> float:
    """Return the most memory that this process held [MB]; getrusage alone would also tell what its parent held."""
    status = Path("/proc/self/status")
    if status.exists():
        return int(re.search(r"VmHWM:\s+(\d+) kB", status.read_text("ascii"))[1]) / 1000
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000


def main(inputs: list[str], out: str, roster: str, workers: str) -> None:
    """Mark and print learners, marks, problems, seconds and the most memory that a process held [MB]."""
    begun = time.perf_counter()
    outcome = mark_hand_ins(
        [Path(p) for p in inputs], out=Path(out), roster=Path(roster) if roster else None, workers=int(workers)
    )
    found = {
        "learners": outcome.learners,
        "rows": outcome.rows,
        "flags": outcome.flags,
        "problems": outcome.problems,
        "seconds": time.perf_counter() - begun,
        "mb": most_memory_mb(),
    }
    print(json.dumps(found))


if __name__ == "__main__":
    main(sys.argv[4:], *sys.argv[1:4])
