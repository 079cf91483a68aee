"""Several processes that work for one marking; with one, everything is done here."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from contextlib import contextmanager
from itertools import islice
from multiprocessing import get_context
from pathlib import Path
from typing import Protocol, TypeVar

from bitepoint import places
from bitepoint.workshop.datafiles import DataFiles, data_files, use_from_now

T = TypeVar("T")
R = TypeVar("R")
_AT_ONCE, _AHEAD = 4, 4


class Pool(Protocol):
    """What marking asks of its processes: the same function for each piece of work, results in the order of the work."""

    count: int

    def map(self, work: Callable[[T], R], pieces: Iterable[T], at_once: int = _AT_ONCE) -> Iterator[R]: ...


class _Here:
    """Does the work in this process, one piece after the other."""

    count = 1

    def map(self, work: Callable[[T], R], pieces: Iterable[T], at_once: int = _AT_ONCE) -> Iterator[R]:
        yield from map(work, pieces)


class _Beside:
    """Gives the work to other processes, `at_once` pieces together."""

    def __init__(self, executor: ProcessPoolExecutor, count: int) -> None:
        self._executor, self.count = executor, count

    def map(self, work: Callable[[T], R], pieces: Iterable[T], at_once: int = _AT_ONCE) -> Iterator[R]:
        left, begun = iter(pieces), deque[Future[list[R]]]()
        while True:
            # A few pieces ahead and no more: whoever made them has more of them than fit into memory.
            while len(begun) < _AHEAD * self.count and (some := list(islice(left, at_once))):
                begun.append(self._executor.submit(_each, work, some))
            if not begun:
                return
            yield from begun.popleft().result()


def _each(work: Callable[[T], R], pieces: list[T]) -> list[R]:
    return [work(piece) for piece in pieces]


@contextmanager
def processes(count: int) -> Iterator[Pool]:
    """Open so many processes for a while; they read the data files that are in use here."""
    if count < 2:
        yield _Here()
        return
    own = data_files().folders[1:]
    # Fresh processes: a fork while a notebook's threads run may hang.
    with ProcessPoolExecutor(count, mp_context=get_context("spawn"), initializer=_of_class, initargs=(own,)) as pool:
        yield _Beside(pool, count)


def _of_class(own: tuple[Path, ...]) -> None:
    """Read in a fresh process what is read here: the shipped data files and the class's own."""
    use_from_now(DataFiles(places.assets(), *own) if own else None)
