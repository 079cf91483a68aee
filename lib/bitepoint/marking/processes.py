"""Several processes that work for one marking; with one, everything is done here."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import CancelledError, Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import AbstractContextManager, contextmanager, nullcontext, suppress
from functools import lru_cache
from itertools import islice
from multiprocessing import get_context
from pathlib import Path
from typing import Generic, Protocol, TypeVar

from bitepoint import places
from bitepoint.errors import BadInput
from bitepoint.workshop.datafiles import DataFiles, data_files, use_from_now

T = TypeVar("T")
R = TypeVar("R")
Own = tuple[Path, ...]
"""The folders of a class's own files, none for a class without."""
_AT_ONCE, _AHEAD = 4, 4
_SETS_KEPT = 4


class Pool(Protocol):
    """What marking asks of its processes: the same function for each piece of work, results in the order of the work.

    `count` is how many there are, `same_disk` whether they read and write where this one does.
    """

    count: int
    same_disk: bool

    def map(
        self,
        work: Callable[[T], R],
        pieces: Iterable[T],
        at_once: int = _AT_ONCE,
        lost: Callable[[T], R] | None = None,
    ) -> Iterator[R]:
        """Yield what `work` makes of each piece; `lost` says what stands for one that ended the process it was done in."""


class _Here:
    """Does the work in this process, one piece after the other."""

    count, same_disk = 1, True

    def map(
        self,
        work: Callable[[T], R],
        pieces: Iterable[T],
        at_once: int = _AT_ONCE,
        lost: Callable[[T], R] | None = None,
    ) -> Iterator[R]:
        yield from map(work, pieces)


class _Task(Generic[T, R]):
    """Some pieces of work, and where their results come from."""

    def __init__(self, pieces: list[T]) -> None:
        self.pieces = pieces
        self.result: Future[list[R]] | None = None

    def done(self) -> list[R] | None:
        """Wait for the results; None when a process was ended before they were there."""
        try:
            return self.result.result() if self.result else None
        except (BrokenProcessPool, CancelledError):
            return None

    def is_done(self) -> bool:
        """Whether the results are there."""
        return bool(self.result and self.result.done() and not self.result.cancelled() and not self.result.exception())


class _Beside:
    """Gives the work to other processes, `at_once` pieces together.

    A process that the system ends takes all others of its executor with it. What is wanted next is then done again alone,
    so that whatever ended it is found out, and the rest is begun again after it.
    """

    same_disk = True

    def __init__(self, count: int) -> None:
        self.count = count
        self._executor = self._new()

    def _new(self) -> ProcessPoolExecutor:
        # Fresh processes: a fork while a notebook's threads run may hang.
        return ProcessPoolExecutor(self.count, mp_context=get_context("spawn"))

    def map(
        self,
        work: Callable[[T], R],
        pieces: Iterable[T],
        at_once: int = _AT_ONCE,
        lost: Callable[[T], R] | None = None,
    ) -> Iterator[R]:
        left, begun = iter(pieces), deque[_Task[T, R]]()
        own = data_files().folders[1:]

        def begin(task: _Task[T, R]) -> None:
            # A pool that broke takes nothing more; the task then waits for `_done_again`.
            with suppress(BrokenProcessPool):
                task.result = self._executor.submit(_each, work, task.pieces, own)

        while True:
            # A few pieces ahead and no more: whoever made them has more of them than fit into memory.
            while len(begun) < _AHEAD * self.count and (some := list(islice(left, at_once))):
                begun.append(_Task(some))
                begin(begun[-1])
            if not begun:
                return
            task = begun.popleft()
            yield from task.done() or self._done_again(task, begun, begin, lost)

    def _done_again(
        self,
        task: _Task[T, R],
        others: Iterable[_Task[T, R]],
        begin: Callable[[_Task[T, R]], None],
        lost: Callable[[T], R] | None,
    ) -> list[R]:
        self._renew()
        begin(task)
        found = task.done()
        if found is None:
            self._renew()
            if lost is None:
                raise BadInput(
                    "A process that was marking was ended by this computer twice, as a rule for want of memory. "
                    "Close other programs and mark again, or with --workers 1."
                )
            found = [lost(piece) for piece in task.pieces]
        for other in others:
            if not other.is_done():
                begin(other)
        return found

    def _renew(self) -> None:
        self._executor.shutdown(wait=False, cancel_futures=True)
        self._executor = self._new()

    def close(self) -> None:
        """End the processes; what was not begun is not done any more."""
        self._executor.shutdown(cancel_futures=True)


def _each(work: Callable[[T], R], pieces: list[T], own: Own) -> list[R]:
    """Do some pieces of work with the data files that are in use where they were given out."""
    _use(own)
    return [work(piece) for piece in pieces]


def _use(own: Own) -> None:
    """Read from now on the shipped data files and those of this class, whichever class this process worked for before."""
    use_from_now(_set_of(own) if own else None)


@lru_cache(maxsize=_SETS_KEPT)
def _set_of(own: Own) -> DataFiles:
    """Return the same set for a class, so that what was read of it stays read."""
    return DataFiles(places.assets(), *own)


@contextmanager
def processes(count: int) -> Iterator[Pool]:
    """Open so many processes for a while; they read the data files that are in use here when they are given work."""
    if count < 2:
        yield _Here()
        return
    pool = _Beside(count)
    try:
        yield pool
    finally:
        pool.close()


def pool_or(given: Pool | None, count: int) -> AbstractContextManager[Pool]:
    """Return the processes given, which stay open, or else so many new ones."""
    return nullcontext(given) if given else processes(count)
