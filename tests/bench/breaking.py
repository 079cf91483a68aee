"""What the page of reliability measures: programs killed and disks full; counted what was lost by it."""

import errno
import os
import resource
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

from attacks import clean

from bitepoint.errors import BitepointError, NotRecorded
from bitepoint.logbook.book import Logbook
from bitepoint.logbook.record import chain_problems
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.outputs.results import whole_set
from bitepoint.marking.rehearsal.rehearse import rehearse

FIELDS = {"at": "2026-04-14T08:00:00.000Z", "learner": "L01-X", "class": "oak-2026", "device": "0a1b2c3d"}
FIELDS |= {
    "exercise": "star.six-bolts",
    "revision": 1,
    "turn": 1,
    "facts": "5c2d",
    "how": "drill",
    "answer": "1 4 2 5 3 6",
}
_WITHOUT_LOCKS = """
import errno, fcntl, os
real = fcntl.flock
def flock(descriptor, what):
    if os.readlink(f"/proc/self/fd/{descriptor}").startswith(sys.argv[1]):
        raise OSError(errno.ENOLCK, "No locks available")
    real(descriptor, what)
fcntl.flock = flock
"""
_WRITER = f"""
from pathlib import Path
from bitepoint.logbook.book import Logbook
book = Logbook(Path(sys.argv[1]), lesson="star", device="0a1b2c3d")
while True:
    print(book.append({FIELDS!r}).record.hash, flush=True)
"""


class Killed(NamedTuple):
    """Rounds of two writers killed at once: lines that were acknowledged, how many of them are gone, where the chain breaks."""

    rounds: int
    acknowledged: int
    lost: int
    breaks: int


def logbook(folder: Path) -> Logbook:
    """Return the logbook that is written."""
    return Logbook(folder, lesson="star", device="0a1b2c3d")


def killed(folder: Path, rounds: int, *, locks: bool) -> Killed:
    """Let two programs write one logbook and kill both without warning, each round after another while."""
    folder.mkdir()
    script = "import sys\n" + ("" if locks else _WITHOUT_LOCKS) + _WRITER
    acknowledged: list[str] = []
    for round_ in range(rounds):
        outputs = [folder / f"acknowledged-{round_}-{i}" for i in range(2)]
        writers = []
        for output in outputs:
            with open(output, "wb") as file:
                writers.append(subprocess.Popen([sys.executable, "-c", script, folder], stdout=file))
        while all(writer.poll() is None for writer in writers) and min(
            output.stat().st_size for output in outputs
        ) < 33 * (5 + 7 * (round_ % 5)):
            time.sleep(0.001)
        for writer in writers:
            os.kill(writer.pid, signal.SIGKILL)
        for writer in writers:
            writer.wait()
        acknowledged += [
            line for output in outputs for line in output.read_text().splitlines(True) if line.endswith("\n")
        ]
    logbook(folder).append(FIELDS)
    lines = logbook(folder).lines()
    there = {f"{line.record.hash}\n" for line in lines if line.record}
    return Killed(rounds, len(acknowledged), len(set(acknowledged) - there), len(chain_problems(lines)))


class Cut(NamedTuple):
    """Places at which a file was spoilt; whole lines before the place that are gone; chains that do not hold afterwards."""

    places: int
    lost: int
    breaks: int


def full_under_an_answer(folder: Path) -> Cut:
    """Let the disk take every possible part of a line and no more: what of the lines before is gone, what chain broken."""
    folder.mkdir()
    mine = logbook(folder)
    mine.append(FIELDS)
    before, refused, lost = mine.path.read_bytes(), 0, 0
    for room in range(len(before)):
        _, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (len(before) + room, hard))
        try:
            mine.append(FIELDS)
        except NotRecorded as error:
            clean(str(error))
            refused += 1
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (hard, hard))
        lost += mine.path.read_bytes() != before
    mine.append(FIELDS)
    return Cut(refused, lost, len(chain_problems(mine.lines())))


def full_under_a_marking(folder: Path) -> Cut:
    """Let the disk be full at each file that a marking of other hand-ins writes: is what lies there one whole set?"""
    out = folder / "results"
    for learners, name in ((1, "old"), (2, "new")):
        rehearse(folder / name, learners=learners, seed=5, lessons=["star"])
    _marked(folder / "old", out)
    before = _contents(out)
    writes = _marked(folder / "new", folder / "counted")
    mixed = kept = 0
    for number in range(1, writes + 1):
        _marked(folder / "new", out, full_at=number)
        mixed += whole_set(out) != out
        kept += _contents(out) == before
        shutil.rmtree(out)
        for name, content in before.items():
            (out / name).parent.mkdir(parents=True, exist_ok=True)
            (out / name).write_bytes(content)
    return Cut(writes, mixed, writes - kept)


def _marked(of: Path, out: Path, *, full_at: int = 0) -> int:
    """Mark a class on a disk that is full at its so many-th file; return how many it would have been."""
    count, real = 0, os.fsync

    def fsync(descriptor: int) -> None:
        nonlocal count
        count += 1
        if count == full_at:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    os.fsync = fsync
    try:
        mark_hand_ins([of / "hand-ins"], roster=of / "roster.csv", out=out)
    except BitepointError as error:
        clean(str(error))
    finally:
        os.fsync = real
    return count


def _contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and "former" not in path.parts and path.name != ".lock"
    }
