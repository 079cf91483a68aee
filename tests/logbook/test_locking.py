"""A share that knows no locks: whatever way it says so, programs on one computer still wait for each other."""

import errno
import fcntl
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from filelock import Timeout
from test_book import FIELDS, WRITER

from bitepoint.job.opening import NewJob, open_for_training
from bitepoint.logbook.book import Logbook
from bitepoint.logbook.locking import locked
from bitepoint.logbook.record import chain_problems
from bitepoint.marking.outputs.results import new_results

NO_LOCKS = ["ENOLCK", "ENOSYS", "EOPNOTSUPP", "EINVAL"]


def without_locks(share: Path, code: str) -> Callable[[int, int], None]:
    """Return a lock of the system's that refuses every file on the share, as some file systems do."""
    real = fcntl.flock

    def flock(descriptor: int, what: int) -> None:
        if os.readlink(f"/proc/self/fd/{descriptor}").startswith(str(share)):
            raise OSError(getattr(errno, code), os.strerror(getattr(errno, code)))
        real(descriptor, what)

    return flock


@pytest.fixture
def temporary(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """This computer's own disk, where temporary files lie."""
    folder = tmp_path_factory.mktemp("own-disk")
    monkeypatch.setattr(tempfile, "tempdir", str(folder))
    return folder


@pytest.mark.parametrize("code", NO_LOCKS)
def test_answers_jobs_and_marks_are_kept_on_a_share_without_locks(
    tmp_path: Path, temporary: Path, monkeypatch: pytest.MonkeyPatch, recwarn: pytest.WarningsRecorder, code: str
) -> None:
    """A line is written and chained, a job begun, a set of results moved in; nothing is warned of in a cell."""
    monkeypatch.setattr(fcntl, "flock", without_locks(tmp_path, code))
    book = Logbook(tmp_path, lesson="star", device="0a1b2c3d")
    for _ in range(2):
        book.append(FIELDS)
    open_for_training(tmp_path / "job", "A", NewJob(), {"customer": "Somebody"})
    with pytest.raises(ZeroDivisionError), new_results(tmp_path / "results", print):
        raise ZeroDivisionError

    assert chain_problems(book.lines()) == []
    assert len(book.lines()) == 2
    assert [] == list(recwarn)


def test_on_one_computer_the_second_waits(tmp_path: Path, temporary: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While one holds the lock of a path on the share, another is refused it, and gets that of another path."""
    monkeypatch.setattr(fcntl, "flock", without_locks(tmp_path, "ENOLCK"))
    with locked(tmp_path / "a.lock", timeout=1):
        with pytest.raises(Timeout), locked(tmp_path / "a.lock", timeout=0):
            pass
        with locked(tmp_path / "b.lock", timeout=0):
            pass
    with locked(tmp_path / "a.lock", timeout=0):
        pass


def test_another_accounts_folder_is_not_used(tmp_path: Path, temporary: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A link that lies ready among the temporary files is not followed; the answer is refused in a line."""
    monkeypatch.setattr(fcntl, "flock", without_locks(tmp_path, "ENOLCK"))
    (tmp_path / "elsewhere").mkdir()
    (temporary / f"bitepoint-locks-{os.getuid()}").symlink_to(tmp_path / "elsewhere")

    with pytest.raises(OSError, match="Permission denied"), locked(tmp_path / "a.lock", timeout=0):
        pass
    assert [] == list((tmp_path / "elsewhere").iterdir())


def test_another_error_of_the_lock_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that fails is no share without locks."""
    monkeypatch.setattr(fcntl, "flock", without_locks(tmp_path, "EIO"))
    with pytest.raises(OSError, match="Input/output error"), locked(tmp_path / "a.lock", timeout=0):
        pass


def test_two_writers_at_once_without_locks_write_one_chain(tmp_path: Path, temporary: Path) -> None:
    """Two kernels on one lesson of a share: every line is there, numbered and chained."""
    share = tmp_path / "share"
    share.mkdir()
    refused = (
        "import errno, fcntl, os\nreal = fcntl.flock\ndef flock(fd, what):\n"
        f"    if os.readlink(f'/proc/self/fd/{{fd}}').startswith({str(share)!r}):\n"
        "        raise OSError(errno.ENOLCK, 'No locks available')\n    real(fd, what)\nfcntl.flock = flock\n"
    )
    script = refused + WRITER.replace("1000", "60")
    own = {**os.environ, "TMPDIR": str(temporary)}
    writers = [
        subprocess.Popen([sys.executable, "-c", script, str(share)], stdout=subprocess.DEVNULL, env=own)
        for _ in range(2)
    ]
    assert [0, 0] == [writer.wait(timeout=60) for writer in writers]
    lines = Logbook(share, lesson="star", device="0a1b2c3d").lines()
    assert chain_problems(lines) == []
    assert len(lines) == 120
