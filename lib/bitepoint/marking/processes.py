"""Several processes that work for one marking; with one, everything is done here."""

import atexit
import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import CancelledError, Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import AbstractContextManager, contextmanager, nullcontext, suppress
from functools import lru_cache
from itertools import islice
from multiprocessing import get_context, parent_process
from pathlib import Path
from threading import Thread
from typing import Generic, Protocol, TypeVar

from bitepoint import places
from bitepoint.errors import BadInput
from bitepoint.marking.collecting import collect_seldom
from bitepoint.workshop.datafiles import DataFiles, data_files, use_from_now

T = TypeVar("T")
R = TypeVar("R")
Own = tuple[Path, ...]
"""The folders of a class's own files, none for a class without."""
_AT_ONCE, _AHEAD = 4, 3
_MOST_HELD = 8
"""Tasks for each process that wait for an earlier one to be done."""
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
    """Some pieces of work, and where their results come from: another process, or this one."""

    def __init__(self, pieces: list[T]) -> None:
        self.pieces = pieces
        self.result: Future[list[R]] | None = None
        self.here: list[R] | None = None

    def done(self) -> list[R] | None:
        """Wait for the results; None when a process was ended before they were there."""
        if self.here is not None:
            return self.here
        try:
            return self.result.result() if self.result else None
        except (BrokenProcessPool, CancelledError):
            return None

    def is_done(self) -> bool:
        """Whether the results are there."""
        found = self.result
        there = bool(found and found.done() and not found.cancelled() and not found.exception())
        return self.here is not None or there

    def do_here(self, work: Callable[[T], R]) -> None:
        """Work in this process."""
        self.here = [work(piece) for piece in self.pieces]


class _Beside:
    """Shares the work with other processes, `at_once` pieces together; `count` is with this one.

    While what is wanted next is worked out elsewhere, this process works too: else it would only wait, and one process more
    would have to be started. Not where something may stand for a piece that ends its process: then others do it all.
    """

    same_disk = True

    def __init__(self, count: int) -> None:
        self.count = count
        self._open: dict[int, ProcessPoolExecutor] = {}

    def map(
        self,
        work: Callable[[T], R],
        pieces: Iterable[T],
        at_once: int = _AT_ONCE,
        lost: Callable[[T], R] | None = None,
    ) -> Iterator[R]:
        others = self.count if lost else self.count - 1
        left, begun = iter(pieces), deque[_Task[T, R]]()
        own = data_files().folders[1:]

        def begin(task: _Task[T, R]) -> None:
            # A pool that broke takes nothing more; the task then waits for `_done_again`.
            with suppress(BrokenProcessPool), _breaking():
                task.result = self._executor(others).submit(_each, work, task.pieces, own)

        while True:
            # A few pieces ahead and no more: whoever made them has more of them than fit into memory.
            while _elsewhere(begun) < _AHEAD * others and (some := list(islice(left, at_once))):
                begun.append(_Task(some))
                begin(begun[-1])
            if not begun:
                return
            if not lost and not begun[0].is_done() and (task := self._for_here(begun, left, at_once)):
                task.do_here(work)
                continue
            task = begun.popleft()
            yield from task.done() or self._done_again(task, begun, begin, lost)

    def _for_here(self, begun: deque[_Task[T, R]], left: Iterator[T], at_once: int) -> _Task[T, R] | None:
        """Return work for this process: what nobody was given yet, else what was given last and was not begun."""
        if len(begun) >= _MOST_HELD * self.count:
            return None
        if some := list(islice(left, at_once)):
            begun.append(_Task(some))
            return begun[-1]
        return next((task for task in reversed(begun) if task.result and task.result.cancel()), None)

    def _done_again(
        self,
        task: _Task[T, R],
        others: Iterable[_Task[T, R]],
        begin: Callable[[_Task[T, R]], None],
        lost: Callable[[T], R] | None,
    ) -> list[R]:
        """Do what was wanted next again, alone: a process that the system ends takes all others with it.

        So whatever ended it is found out, and the rest is begun again after it.
        """
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

    def _executor(self, count: int) -> ProcessPoolExecutor:
        if count not in self._open:
            # Fresh processes: a fork while a notebook's threads run may hang.
            self._open[count] = ProcessPoolExecutor(count, mp_context=get_context("spawn"), initializer=_begin)
        return self._open[count]

    def _renew(self) -> None:
        for executor in self._open.values():
            executor.shutdown(wait=False, cancel_futures=True)
        self._open.clear()

    def close(self) -> None:
        """End the processes; what was not begun is not done any more."""
        for executor in self._open.values():
            executor.shutdown(cancel_futures=True)


@contextmanager
def _breaking() -> Iterator[None]:
    """Take it for a broken pool when one breaks while a process is begun for it: its queue is closed by then, which no system says."""
    try:
        yield
    except OSError as error:
        if error.errno is not None:
            raise
        raise BrokenProcessPool(str(error)) from error


def _elsewhere(begun: Iterable[_Task[T, R]]) -> int:
    """Return how many tasks other processes have to do."""
    return sum(not task.is_done() for task in begun)


def _begin() -> None:
    """Set up a process that does nothing but marking."""
    collect_seldom()
    _end_with_whoever_began()
    # Whoever closes the pool waits for its end, and Python would first take apart all that it holds, object by object.
    atexit.register(os._exit, 0)


def _end_with_whoever_began() -> None:
    """End this process when the one that began it is gone: killed, it tells nobody, and this one would wait for ever."""
    Thread(target=_wait_and_end, daemon=True).start()


def _wait_and_end() -> None:
    if began := parent_process():
        began.join()
        os._exit(1)


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


def ever_fewer(things: Sequence[T], processes: int, most: int) -> Iterator[list[T]]:
    """Yield things a few at a time for one piece of work, at most `most`, ever fewer towards the end where several processes work.

    So none waits long for the last ones of another.
    """
    begin = 0
    while left := len(things) - begin:
        size = min(most, left) if processes < 2 else max(1, min(most, left // (3 * processes)))
        yield list(things[begin : begin + size])
        begin += size


@contextmanager
def processes(count: int) -> Iterator[Pool]:
    """Work by so many processes for a while, this one included; they read the data files in use here when given work."""
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
