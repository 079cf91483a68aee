"""One program at a time at a file: by a lock beside it, on a share that knows no locks by one on this computer's own disk."""

import errno
import os
import stat
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from inspect import signature
from pathlib import Path
from typing import Any

from filelock import FileLock

_NO_LOCKS = {errno.ENOLCK, errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP}
"""How a file system says that it has no locks. EINVAL is also what Windows makes of an unknown function."""
# Newer versions would fall back on a file that says “held” by being there, which a killed program leaves behind.
_FIRM: dict[str, Any] = (
    {"fallback_to_soft": False} if "fallback_to_soft" in signature(FileLock.__init__).parameters else {}
)


@contextmanager
def locked(path: Path, *, timeout: float, poll_interval: float = 0.05) -> Iterator[None]:
    """Hold the lock at `path` while the block runs.

    Where its file system has no locks, programs of one account on one computer still wait for each other; those of two computers
    do not.

    Raises
    ------
    filelock.Timeout
        Another program holds it, and still did after `timeout` seconds.
    OSError
        The lock cannot be made.
    """
    lock = FileLock(path, timeout=timeout, poll_interval=poll_interval, **_FIRM)
    try:
        lock.acquire()
    except (OSError, NotImplementedError) as error:
        if isinstance(error, OSError) and error.errno not in _NO_LOCKS:
            raise
        lock = FileLock(_on_this_computer(path), timeout=timeout, poll_interval=poll_interval, **_FIRM)
        lock.acquire()
    try:
        yield
    finally:
        lock.release()


def _on_this_computer(path: Path) -> Path:
    """Return where the lock of a path lies among the temporary files: in a folder that is this account's alone."""
    account = os.getuid() if hasattr(os, "getuid") else 0
    folder = Path(tempfile.gettempdir(), f"bitepoint-locks-{account}")
    folder.mkdir(mode=0o700, exist_ok=True)
    found = folder.lstat()
    # Whoever else made it there first could leave a link in it.
    if not stat.S_ISDIR(found.st_mode) or hasattr(os, "getuid") and found.st_uid != account:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))
    name = sha256(str(path.resolve()).encode("utf-8", "surrogateescape")).hexdigest()[:32]
    return folder / f"{name}.lock"
