"""Marking on a Dask cluster: the same batches as plain functions, sent with their bytes to workers on other computers.

The workers need the same version and bank and nothing else: neither this computer's disk nor a shared one.
"""

import logging
import tempfile
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from functools import lru_cache, partial
from itertools import islice
from pathlib import Path
from threading import Lock, Thread
from time import monotonic
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from bitepoint import places
from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadInput
from bitepoint.logbook.own_files import digest_of_files, files_in
from bitepoint.marking.processes import Pool
from bitepoint.marking.version import VERSION
from bitepoint.workshop.datafiles import DataFiles, data_files, use_from_now

if TYPE_CHECKING:
    from distributed import Client, Future

T = TypeVar("T")
R = TypeVar("R")
_AT_ONCE, _AHEAD = 4, 4
_SETS_KEPT = 4
_CONNECT_S, _LOOK_S, _NO_WORKER_S = 10, 5, 60
_EXTRA = '--cluster needs the extra “cluster”, which is not installed here: pip install "bitepoint[cluster]"'


class Installed(NamedTuple):
    """What must be the same here and on every worker."""

    version: str
    bank: str

    def __str__(self) -> str:
        return f"bitepoint {self.version}, bank {self.bank}"


def installed_here() -> Installed:
    """Return what this installation is."""
    return Installed(VERSION, bank_digest())


@contextmanager
def cluster(address: str) -> Iterator[Pool]:
    """Work on the cluster of a scheduler for a while.

    Raises
    ------
    BadInput
        The extra is not installed, nobody answers at the address, there is no worker, a worker has another version or
        bank; or, while it is used, the scheduler or all workers are lost.
    """
    try:
        from distributed import Client
    except ImportError:
        raise BadInput(_EXTRA) from None
    # What it would write to the terminal is said by us in one line.
    logging.getLogger("distributed").setLevel(logging.CRITICAL)

    class Quiet(Client):  # type: ignore[misc]
        def __del__(self) -> None:
            """Do nothing: one that reached no scheduler would wait to leave it, and print that it could not."""

    client = _connected(partial(Quiet, address, timeout=_CONNECT_S, set_as_default=False), address)
    try:
        _check(client, address)
        yield _OnCluster(client, address)
    finally:
        _leave(client)


def _connected(connect: Callable[[], "Client"], address: str) -> "Client":
    """Return a client of the scheduler; whoever listens there and never answers is not waited for."""
    found: list[Client] = []
    failed: list[str] = []

    def try_it() -> None:
        try:
            found.append(connect())
        except Exception as error:
            failed.append(type(error).__name__)

    thread = Thread(target=try_it, daemon=True)
    thread.start()
    thread.join(2 * _CONNECT_S)
    if not found:
        raise BadInput(
            f"--cluster {address}: no scheduler answers there ({failed[0] if failed else 'no answer'}). Start one with “dask "
            "scheduler”, and give the address that it says, such as tcp://192.168.1.20:8786."
        )
    return found[0]


def _leave(client: "Client") -> None:
    # A scheduler that was lost cannot be left.
    with suppress(Exception):
        client.close(timeout=_LOOK_S)


def _check(client: "Client", address: str) -> None:
    """Refuse a cluster without workers, or with one that would mark otherwise."""
    try:
        found: dict[str, Any] = client.run(installed_here, on_error="return")
    except Exception as error:
        raise _lost(address, error) from None
    if not found:
        raise BadInput(
            f"--cluster {address}: the scheduler has no worker. Start some: dask worker {address} --nworkers 2 --nthreads 1"
        )
    for worker, has in sorted(found.items()):
        if isinstance(has, Exception) or Installed(*has) != installed_here():
            said = f"cannot run it ({type(has).__name__})" if isinstance(has, Exception) else f"has {Installed(*has)}"
            raise BadInput(
                f"--cluster {address}: worker {worker} {said}, and here is {installed_here()}. Install the same on every worker."
            )


def _lost(address: str, error: Exception) -> BadInput:
    return BadInput(
        f"--cluster {address}: the scheduler was lost ({type(error).__name__}). Nothing of this run was kept; results that were "
        "there stand. Start it again, or mark without --cluster."
    )


class _OnCluster:
    """Gives the work to a cluster; a worker that is lost costs the time of its pieces, which others then do."""

    same_disk = False

    def __init__(self, client: "Client", address: str) -> None:
        self._client, self._address = client, address
        self.count = max(1, len(client.nthreads()))

    def map(
        self,
        work: Callable[[T], R],
        pieces: Iterable[T],
        at_once: int = _AT_ONCE,
        lost: Callable[[T], R] | None = None,
    ) -> Iterator[R]:
        left, begun = iter(pieces), deque["Future"]()
        own = own_files()
        while True:
            while len(begun) < _AHEAD * self.count and (some := list(islice(left, at_once))):
                begun.append(self._begin(work, some, own))
            if not begun:
                return
            yield from self._result(begun.popleft())

    def _begin(self, work: Callable[[T], R], some: list[T], own: dict[str, bytes]) -> "Future":
        try:
            # Not pure: two runs never share a result that was worked out before.
            return self._client.submit(each, work, some, own, installed_here(), pure=False)
        except Exception as error:
            raise _lost(self._address, error) from None

    def _result(self, future: "Future") -> list[Any]:
        from distributed import KilledWorker

        since: float | None = None
        while True:
            try:
                found: list[Any] = future.result(timeout=_LOOK_S)
            except KilledWorker:
                raise BadInput(
                    f"--cluster {self._address}: each worker that was given one piece of work was ended over it, as a rule for "
                    "want of memory. Give the workers more, or mark without --cluster."
                ) from None
            except BadInput:
                raise
            except TimeoutError:
                since = self._waiting(since)
            except Exception as error:
                if future.status != "error":
                    raise _lost(self._address, error) from None
                raise BadInput(
                    f"--cluster {self._address}: a worker could not do its part ({type(error).__name__}). Look at what it "
                    "writes, or mark without --cluster."
                ) from None
            else:
                return found

    def _waiting(self, since: float | None) -> float | None:
        """Return since when no worker is there, None while there is one."""
        try:
            there = bool(self._client.nthreads())
        except Exception as error:
            raise _lost(self._address, error) from None
        if there:
            return None
        if since and monotonic() - since > _NO_WORKER_S:
            raise BadInput(
                f"--cluster {self._address}: no worker has been there for a minute. Nothing of this run was kept; start "
                "workers and mark again."
            )
        return since or monotonic()


def own_files() -> dict[str, bytes]:
    """Return the own files of the class that is marked here, by name."""
    return {name: content for folder in data_files().folders[1:] for name, content in files_in(folder).items()}


_ONE = Lock()
"""A worker may have several threads, but which class's files are read is said for a whole process."""


def each(work: Callable[[T], R], pieces: list[T], own: dict[str, bytes], wanted: Installed) -> list[R]:
    """Do some pieces of work on a worker, with the own files of their class.

    Raises
    ------
    BadInput
        This worker has another version or bank: it came after the others had been asked.
    """
    if installed_here() != Installed(*wanted):
        raise BadInput(
            f"A worker has {installed_here()}, and {Installed(*wanted)} is wanted. Install the same on every worker."
        )
    with _ONE:
        use_from_now(_set_of(tuple(sorted(own.items()))) if own else None)
        return [work(piece) for piece in pieces]


@lru_cache(maxsize=_SETS_KEPT)
def _set_of(own: tuple[tuple[str, bytes], ...]) -> DataFiles:
    """Put a class's own files into a folder that lasts as long as this process, and return the set with them."""
    folder = Path(tempfile.mkdtemp(prefix=f"bitepoint-{digest_of_files(dict(own))}-"))
    for name, content in own:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    return DataFiles(places.assets(), folder)
