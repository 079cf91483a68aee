"""The data files that questions rest on: which folder, which edition of each, and what was read from them, once.

A set of data files is passed to every draw. While it is in use, the readers of this floor (`vehicle`, `job`,
`criteria` …) read from it. The newest edition of a file lies in its place; the edition that it replaced lies under
`retired/`, with its number in its name: `retired/criteria.1.toml`, `retired/vehicles/a.1.toml`.
"""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cached_property, lru_cache, partial, wraps
from pathlib import Path, PurePosixPath
from typing import Any, ParamSpec, TypeVar

from bitepoint import places

P = ParamSpec("P")
T = TypeVar("T")


class DataFiles:
    """Folders of data files, searched in order, with the editions that are pinned.

    Parameters
    ----------
    folders
        The shipped folder first; a later one adds to it (vehicles, kits, logs) and replaces nothing.
    editions
        File name, such as "criteria.toml", to the number of a retired edition.
    """

    def __init__(self, *folders: Path, editions: Mapping[str, int] | None = None) -> None:
        self.folders = folders
        self.editions = dict(editions or {})
        self._read: dict[Any, Any] = {}
        self._pinned: dict[tuple[tuple[str, int], ...], DataFiles] = {}

    def pinned(self, editions: Mapping[str, int]) -> "DataFiles":
        """Return the same folders with these files at a retired edition; always the same object for the same pins."""
        wanted = {**self.editions, **editions}
        if wanted == self.editions:
            return self
        key = tuple(sorted(wanted.items()))
        if key not in self._pinned:
            self._pinned[key] = DataFiles(*self.folders, editions=wanted)
        return self._pinned[key]

    def path(self, name: str) -> Path:
        """Return where a file lies, in the edition that is pinned for it."""
        return self.path_of(name, self.editions.get(name, 0))

    def path_of(self, name: str, edition: int) -> Path:
        """Return where an edition of a file lies; 0 is the newest."""
        if edition:
            pure = PurePosixPath(name)
            name = str(PurePosixPath("retired") / pure.with_name(f"{pure.stem}.{edition}{pure.suffix}"))
        return next((f / name for f in self.folders if (f / name).exists()), self.folders[0] / name)

    def paths(self, name: str) -> list[Path]:
        """Return every file of this name, one a folder that has it, each in the edition that is pinned."""
        found = [DataFiles(folder, editions=self.editions).path(name) for folder in self.folders]
        return [path for path in found if path.exists()] or [self.path(name)]

    def names(self, pattern: str) -> list[str]:
        """Return the names of the files that match, such as "vehicles/*.toml", in order."""
        return sorted({p.relative_to(f).as_posix() for f in self.folders for p in f.glob(pattern)})

    def once(self, key: Any, make: Callable[[], T]) -> T:
        """Return what `make` returns, made at the first call for this key."""
        try:
            return self._read[key]  # type: ignore[no-any-return]
        except KeyError:
            found = self._read[key] = make()
            return found

    @cached_property
    def is_shipped(self) -> bool:
        """Whether this is the set as shipped, nothing added and nothing pinned."""
        return self is shipped()


_shipped: list[DataFiles] = []
_of_class: list[DataFiles] = []
_in_use: ContextVar[DataFiles] = ContextVar("data_files")


def shipped() -> DataFiles:
    """Return the data files as shipped, each in its newest edition."""
    if not _shipped:
        _shipped.append(DataFiles(places.assets()))
    return _shipped[0]


def data_files() -> DataFiles:
    """Return the set in use here: the one that was passed to the draw, else the one of this process's class, else the shipped one."""
    return _in_use.get(None) or (_of_class or _shipped or [shipped()])[0]


def use_from_now(files: DataFiles | None) -> None:
    """Let the readers of this whole process read from this set from now on; None: as shipped.

    A kernel and a command work for one class: whoever reads its class file or workbook says so here.
    """
    _of_class[:] = [files] if files else []


@contextmanager
def using(files: DataFiles) -> Iterator[None]:
    """Let the readers read from this set while the block runs."""
    token = _in_use.set(files)
    try:
        yield
    finally:
        _in_use.reset(token)


def once_a_set(make: Callable[P, T]) -> Callable[P, T]:
    """Keep what a reader returns, once for each set of data files and each combination of arguments."""

    @wraps(make)
    def read(*args: P.args, **named: P.kwargs) -> T:
        key = (make, args, tuple(sorted(named.items()))) if named else (make, args) if args else make
        try:
            return data_files()._read[key]  # type: ignore[no-any-return]
        except KeyError:
            return data_files().once(key, partial(make, *args, **named))

    return read


def kept_a_set(most: int) -> Callable[[Callable[P, T]], Callable[P, T]]:
    """Keep the latest `most` results for each set of data files: for what is asked with more arguments than memory is to hold."""

    def keep(make: Callable[P, T]) -> Callable[P, T]:
        def latest() -> Callable[..., T]:
            return lru_cache(maxsize=most)(make)

        @wraps(make)
        def read(*args: P.args, **named: P.kwargs) -> T:
            files = data_files()
            kept = files._read.get(latest) or files.once(latest, latest)
            return kept(*args, **named)

        return read

    return keep
