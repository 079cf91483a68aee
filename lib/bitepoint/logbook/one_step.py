"""Files replaced in one step: a reader sees the old one or the new one, never a part."""

import contextlib
import errno
import os
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

_LONGEST_NAME = 255
_NO_SYNC = {errno.EINVAL, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP}


def write_in_one_step(path: Path, content: bytes) -> None:
    """Replace a file; when it cannot be written, the old one stays."""
    write_together({path: content})


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet, whole or not at all.

    Raises
    ------
    FileExistsError
        It is there, or a link of that name.
    OSError
        It cannot be written.
    """
    if os.path.lexists(path):
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path))
    write_in_one_step(path, text.encode("utf-8"))


def write_together(files: Mapping[Path, bytes]) -> None:
    """Replace files that belong together: each is on the disk beside its place before the first is moved there."""
    parts = {part_of(path): path for path in files}
    try:
        for part, path in parts.items():
            # What lies there may be a link to a file elsewhere.
            part.unlink(missing_ok=True)
            with part.open("xb") as stream:
                stream.write(files[path])
                stream.flush()
                sync_file(stream.fileno())
        for part, path in parts.items():
            os.replace(part, path)
    except OSError:
        for part in parts:
            part.unlink(missing_ok=True)
        raise
    for folder in {path.parent for path in files}:
        sync_folder(folder)


def part_of(path: Path) -> Path:
    """Return where a file is written before it takes its place: beside it, under a name no longer than a system takes."""
    name = f".{path.name}.part"
    if len(os.fsencode(name)) > _LONGEST_NAME:
        name = f".{sha256(os.fsencode(path.name)).hexdigest()[:32]}.part"
    return path.with_name(name)


def sync_file(descriptor: int) -> None:
    """Have a file on the disk; where its file system knows no such thing, what is written there is as safe as it gets."""
    try:
        os.fsync(descriptor)
    except OSError as error:
        if error.errno not in _NO_SYNC:
            raise


def sync_folder(folder: Path) -> None:
    """Have the names in a folder on the disk, so that a power cut undoes no move; where a system cannot, do nothing."""
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
