"""The pool of processes: results in the order of the work, each class's own files, a process that the system ends."""

import os
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import active_children, parent_process
from pathlib import Path
from time import sleep
from typing import Any

import pytest

from bitepoint import places
from bitepoint.errors import BadInput
from bitepoint.marking.processes import ever_fewer, processes
from bitepoint.workshop.datafiles import DataFiles, data_files, use_from_now

ENDS_IT, ENDS_IT_ONCE = 7, 11


@pytest.fixture(autouse=True)
def _shipped() -> Iterator[None]:
    yield
    use_from_now(None)


def twice(number: int) -> int:
    """Twice a number; one number ends the process, unless it is that of the test."""
    if number == ENDS_IT and parent_process():
        os._exit(9)
    return 2 * number


def noted(piece: tuple[int, str]) -> int:
    """The number; the first other process that has a certain one is ended."""
    number, note = piece
    if number >= ENDS_IT_ONCE and parent_process() and not Path(note).exists():
        Path(note).write_text("once", encoding="utf-8")
        os._exit(9)
    return number


def read_from(_: int) -> list[str]:
    """Return which folders of data files a process reads."""
    return [folder.name for folder in data_files().folders]


class Told:
    """Writes a note when it is taken apart."""

    def __init__(self, note: Path) -> None:
        self.note = note

    def __del__(self) -> None:
        self.note.write_text("taken apart", encoding="utf-8")


HELD: list[Told] = []


def hold(note: Path) -> int:
    """Hold something as long as this process lasts, and return which one that is."""
    HELD.append(Told(note))
    return os.getpid()


def test_a_process_ends_with_its_pool_and_takes_nothing_apart_before(tmp_path: Path) -> None:
    """Whoever closes the pool waits for that end, and a class leaves much in memory."""
    with processes(2) as pool:
        (number,) = pool.map(hold, [tmp_path / "note"], lost=lambda _: 0)
    assert number != os.getpid()
    assert number not in [process.pid for process in active_children()]
    assert not (tmp_path / "note").exists()


def test_whoever_ends_a_process_is_told_and_nobody_else_loses(tmp_path: Path) -> None:
    """One piece that ends its process every time: something stands for it, or a line says so; the others are done, in order."""
    with processes(2) as pool:
        found = list(pool.map(twice, range(30), at_once=1, lost=lambda piece: -piece))
        assert [-n if n == ENDS_IT else 2 * n for n in range(30)] == found
        with pytest.raises(BadInput, match="was ended by this computer twice"):
            list(pool.map(twice, [ENDS_IT] * 100, at_once=1))
        assert [0, 2, 4] == list(pool.map(twice, range(3)))


def test_a_process_that_is_ended_once_costs_nothing(tmp_path: Path) -> None:
    """What was under way is done again."""
    with processes(2) as pool:
        pieces = [(n, str(tmp_path / "note")) for n in range(40)]
        assert list(range(40)) == list(pool.map(noted, pieces, lost=lambda piece: -1))
        assert list(range(40)) == list(pool.map(noted, pieces))
    assert (tmp_path / "note").exists()


def test_a_process_reads_the_files_of_whoever_gives_the_work(tmp_path: Path) -> None:
    """One pool works for a class with own files, for another one, and for one without, in turn."""
    shipped = places.assets().name
    with processes(2) as pool:
        for own in ("one", "two", "", "one"):
            use_from_now(DataFiles(places.assets(), tmp_path / own) if own else None)
            assert [[shipped, own] if own else [shipped]] * 8 == list(pool.map(read_from, range(8), at_once=1))


def whose(_: int) -> bool:
    """Whether this is another process than the one that asked; long enough that both get some."""
    sleep(0.002)
    return parent_process() is not None


def test_whoever_waits_works_too() -> None:
    """Of two processes one is this; where a piece may end its process, others do it all."""
    with processes(2) as pool:
        assert {True, False} == set(pool.map(whose, range(2000), at_once=1))
        assert {True} == set(pool.map(whose, range(20), at_once=1, lost=lambda _: False))


ENDED = """
import os
import subprocess
import sys
from bitepoint.marking.processes import processes
if __name__ == "__main__":
    pool = processes(2).__enter__()
    print(list(pool.map(abs, [-1], lost=abs)), flush=True)
    os._exit(9)
"""


def test_whoever_marks_is_killed_and_no_process_is_left(tmp_path: Path) -> None:
    """The other process holds the same output, so that is closed only once it has ended too."""
    (tmp_path / "ended.py").write_text(ENDED, encoding="utf-8")
    done = subprocess.run([sys.executable, tmp_path / "ended.py"], capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout) == (9, "[1]\n")


@pytest.mark.parametrize(
    ("raised", "costs"), [(OSError("handle is closed"), False), (OSError(24, "Too many open files"), True)]
)
def test_a_pool_that_breaks_while_a_process_is_begun_costs_nothing(
    monkeypatch: pytest.MonkeyPatch, raised: OSError, costs: bool
) -> None:
    """Its queue is closed at that moment; what the system itself refuses is not taken for that."""
    submit, calls = ProcessPoolExecutor.submit, []

    def breaks_once(self: ProcessPoolExecutor, *args: Any, **more: Any) -> Any:
        calls.append(args)
        if len(calls) == 1:
            raise raised
        return submit(self, *args, **more)

    monkeypatch.setattr(ProcessPoolExecutor, "submit", breaks_once)
    with processes(2) as pool:
        if costs:
            with pytest.raises(OSError, match="Too many open files"):
                list(pool.map(twice, range(3), lost=lambda piece: -1))
        else:
            assert [0, 2, 4] == list(pool.map(twice, range(3), lost=lambda piece: -1))


def test_work_is_given_out_ever_fewer_towards_the_end() -> None:
    """All of it in its order, many pieces at once while there are many, one at once in the end; to one process alone many always."""
    things = range(170)

    pieces, alone = list(ever_fewer(things, 2, 16)), list(ever_fewer(things, 1, 16))

    assert [thing for piece in pieces for thing in piece] == list(things)
    assert [len(piece) for piece in pieces] == sorted((len(piece) for piece in pieces), reverse=True)
    assert (len(pieces[0]), len(pieces[-1])) == (16, 1)
    assert [thing for piece in alone for thing in piece] == list(things)
    assert [len(piece) for piece in alone] == [16] * 10 + [10]
    assert not list(ever_fewer([], 2, 16))
