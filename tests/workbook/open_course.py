"""`bitepoint open` as a person starts it, for tests that need the whole of it."""

import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

OPEN = [sys.executable, "-P", "-m", "bitepoint", "open", "--no-browser"]


@contextmanager
def opened(folder: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """`bitepoint open` on a folder, given with what it said up to its last line; ended in any case."""
    process = subprocess.Popen(
        [*OPEN, str(folder)], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, encoding="utf-8"
    )
    assert process.stdout is not None
    with process:
        try:
            said = ""
            for line in process.stdout:
                said += line
                if line.startswith("Leave this window open."):
                    break
            yield process, said
        finally:
            process.send_signal(signal.SIGTERM)
            process.wait(60)
