"""A new set of results while it is written: in a folder aside, each file hashed as written and read back."""

import contextlib
import io
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from time import perf_counter
from typing import IO, Any, BinaryIO

from bitepoint.logbook.one_step import sync_file, sync_folder, write_in_one_step
from bitepoint.marking.outputs.manifest import MANIFEST, PAGES, Manifest, SetFile, as_bytes, broken, digest_of

_SYNCED_TOGETHER, _AT_ONCE_S = 8, 0.001


class NewSet:
    """The files of a set that is being written into a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._files: dict[str, SetFile] = {}
        for name in PAGES:
            (folder / name).mkdir(parents=True)

    @property
    def files(self) -> list[SetFile]:
        """What was written so far."""
        return list(self._files.values())

    @contextmanager
    def binary(self, name: str) -> Iterator[BinaryIO]:
        """Open a file of the set for writing; `seal` has it on the disk."""
        with open(self.folder / name, "wb", buffering=0) as raw:
            hashed = _Hashed(raw)
            with io.BufferedWriter(hashed) as stream:
                yield stream
        self._files[name] = SetFile(name=name, size=hashed.size, sha256=hashed.sha256.hexdigest())

    @contextmanager
    def text(self, name: str) -> Iterator[IO[str]]:
        """Open a file of the set for text in UTF-8, with line ends as they are written."""
        with self.binary(name) as stream:
            text = io.TextIOWrapper(stream, encoding="utf-8", newline="")
            try:
                yield text
            finally:
                text.detach()

    def write(self, name: str, content: bytes) -> Path:
        """Write a whole file and return its path."""
        path = self.folder / name
        with open(path, "wb") as file:
            file.write(content)
        self._files[name] = SetFile(name=name, size=len(content), sha256=sha256(content).hexdigest())
        return path

    def adopt(self, path: Path) -> None:
        """Take a file that another program wrote into the folder as one of the set."""
        name = path.relative_to(self.folder).as_posix()
        self._files[name] = SetFile(name=name, size=path.stat().st_size, sha256=digest_of(path))

    def seal(self, manifest: Manifest) -> None:
        """Have every file on the disk, read it back, then write the manifest: from now on the set is whole.

        Raises
        ------
        OSError
            A file is not on the disk as it was written.
        """
        _sync_all([f"{self.folder}/{name}" for name in self._files])
        spoilt = broken(manifest, self.folder)
        if spoilt:
            raise OSError(None, f"{spoilt[0]} reads otherwise than it was written")
        for name in PAGES:
            sync_folder(self.folder / name)
        sync_folder(self.folder)
        write_in_one_step(self.folder / MANIFEST, as_bytes(manifest))


def _sync_all(paths: Sequence[str]) -> None:
    """Have these files on the disk: one after the other as long as it answers at once, else several together.

    On a disk that takes 3 to 5 ms for each they wait a tenth of that together; on one that answers in a tenth of a millisecond
    threads cost more than the waiting.
    """
    began = perf_counter()
    for count, path in enumerate(paths, start=1):
        _sync([path])
        if perf_counter() - began > _AT_ONCE_S * count:
            break
    else:
        return
    with ThreadPoolExecutor(_SYNCED_TOGETHER) as threads:
        list(threads.map(_sync, [paths[count + n :: _SYNCED_TOGETHER] for n in range(_SYNCED_TOGETHER)]))


def _sync(paths: Iterable[str]) -> None:
    """Have these files on the disk, one after the other; one that is gone is found out when it is read back."""
    for path in paths:
        with contextlib.suppress(FileNotFoundError), open(path, "r+b", buffering=0) as file:
            sync_file(file.fileno())


class _Hashed(io.RawIOBase):
    """Passes on what is written and hashes it."""

    def __init__(self, file: Any) -> None:
        self._file, self.size, self.sha256 = file, 0, sha256()

    def writable(self) -> bool:
        return True

    def write(self, data: Any, /) -> int:
        count: int = self._file.write(data)
        self.sha256.update(memoryview(data)[:count])
        self.size += count
        return count
