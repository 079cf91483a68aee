"""Marking on a real scheduler with two workers: the same bytes, a worker killed in the middle, each failure one line."""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from time import monotonic
from typing import Any, NamedTuple

import pytest
from test_college import HEAVIER, alone, contents, sheet

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.marking import cluster as on_cluster
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.cluster import cluster
from bitepoint.marking.college.run import mark_classes
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.workshop.datafiles import use_from_now

MARKED = datetime(2026, 7, 1, 9, tzinfo=UTC)
LIB = Path(__file__).parents[2] / "lib"


class Running(NamedTuple):
    """A scheduler, its address and its workers."""

    address: str
    scheduler: "subprocess.Popen[str]"
    workers: "list[subprocess.Popen[str]]"


def start(*words: str) -> "subprocess.Popen[str]":
    """Start a program of the cluster."""
    path = os.pathsep.join(filter(None, (str(LIB), os.environ.get("PYTHONPATH", ""))))
    return subprocess.Popen(
        [sys.executable, "-m", *words],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        env={**os.environ, "PYTHONPATH": path},
    )


def said_by(program: "subprocess.Popen[str]", wanted: str) -> str:
    """Wait until a program says a line and return what the line names."""
    assert program.stderr
    for line in program.stderr:
        if found := re.search(wanted, line):
            return found[1]
    raise AssertionError(f"ended before it said {wanted}")


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    """A scheduler and two workers, each a process of its own, on loopback."""
    pytest.importorskip("distributed")
    folder = str(tmp_path_factory.mktemp("workers"))
    local = ("--host", "127.0.0.1", "--no-dashboard")
    one = ("--no-nanny", "--nthreads", "1", "--memory-limit", "0", "--local-directory", folder)
    scheduler = start("distributed.cli.dask_scheduler", *local, "--port", "0")
    programs = [scheduler]
    try:
        address = said_by(scheduler, r"Scheduler at: +(tcp://[\d.:]+)")
        programs += [start("distributed.cli.dask_worker", address, *local, *one) for _ in range(2)]
        for worker in programs[1:]:
            said_by(worker, r"Registered to: +(\S+)")
        yield Running(address, scheduler, programs[1:])
    finally:
        for program in programs:
            program.kill()
            program.communicate()


@pytest.fixture(scope="module")
def college(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A class on the shipped cars that hands in folders, and two on own sheets of one letter that differ."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(tmp_path_factory.mktemp("state")))
        folder, scratch = tmp_path_factory.mktemp("college"), tmp_path_factory.mktemp("sheets")
        rehearse(folder / "ash", learners=9, seed=1, lessons=("star",), class_word="ash-2026", form="folder")
        for name, changed in (("vans-1", ()), ("vans-2", (HEAVIER,))):
            own = {"vehicles/k7v.toml": sheet(scratch, *changed)}
            said: dict[str, Any] = {"cars": ("K7V",), "own": own, "lessons": ("star", "torque")}
            rehearse(folder / name, learners=2, seed=3, class_word=f"{name}-2026", **said)
        # What is no plain file is read where it lies.
        (folder / "ash" / "hand-ins" / "linked.zip").symlink_to(folder / "vans-1" / "class.toml")
        use_from_now(None)
        yield folder


def test_each_class_of_a_college_gets_the_same_bytes(running: Running, college: Path, tmp_path: Path) -> None:
    """Zips, folders, a link, own sheets of one letter: as marked here, class by class."""
    with cluster(running.address) as pool:
        assert pool.count == 2
        found = mark_classes(college, out=tmp_path / "marks", marked=MARKED, pool=pool)
    assert found.refused == []
    for place in sorted(college.iterdir()):
        assert alone(place, tmp_path / "alone" / place.name) == contents(tmp_path / "marks" / place.name)


def test_another_version_is_named(running: Running, college: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Which worker, what it has, what is here."""
    monkeypatch.setattr(on_cluster, "VERSION", "9.9.9")
    with pytest.raises(
        BadInput, match=r"worker tcp://\S+ has bitepoint 0\.\S+, bank \w+, and here is bitepoint 9\.9\.9"
    ):
        cluster(running.address).__enter__()


def test_a_worker_that_came_later_is_asked_too() -> None:
    """Each piece of work says for which version and bank it is."""
    with pytest.raises(BadInput, match="is wanted. Install the same on every worker"):
        on_cluster.each(str, [1], {}, on_cluster.Installed("9.9.9", "0"))
    assert ["1"] == on_cluster.each(str, [1], {}, on_cluster.installed_here())


def once(monkeypatch: pytest.MonkeyPatch, do: Any) -> list[str]:
    """Do something in the middle: when the first result is waited for, all pieces given out."""
    waited, result = [], on_cluster._OnCluster._result

    def first(pool: Any, future: Any) -> list[Any]:
        if not waited:
            waited.append("once")
            do(pool)
        return result(pool, future)

    monkeypatch.setattr(on_cluster._OnCluster, "_result", first)
    return waited


def marked(college: Path, out: Path, address: str) -> None:
    """Mark one class on the cluster."""
    place = college / "ash"
    with cluster(address) as pool:
        mark_hand_ins([place / "hand-ins"], roster=place / "roster.csv", out=out, marked=MARKED, pool=pool)


def test_a_worker_killed_in_the_middle_costs_nothing(
    running: Running, college: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What it had been given is done by the other: the same bytes."""
    victim = running.workers[0]

    def kill(pool: Any) -> None:
        given: set[str] = set()
        until = monotonic() + 60
        # It was stopped before, so what it has been given it cannot finish.
        while len(given) < 2 and monotonic() < until:
            given = {worker for worker, keys in pool._client.processing().items() if keys}
        assert len(given) == 2
        victim.kill()
        victim.wait()

    waited = once(monkeypatch, kill)
    begin = on_cluster._OnCluster._begin

    def stopped(pool: Any, *said: Any) -> Any:
        if victim.poll() is None:
            victim.send_signal(signal.SIGSTOP)
        return begin(pool, *said)

    monkeypatch.setattr(on_cluster._OnCluster, "_begin", stopped)
    marked(college, tmp_path / "cluster", running.address)
    place = college / "ash"
    mark_hand_ins([place / "hand-ins"], roster=place / "roster.csv", out=tmp_path / "here", marked=MARKED)
    assert waited
    assert contents(tmp_path / "here") == contents(tmp_path / "cluster")


def test_a_lost_scheduler_is_one_line_and_the_results_stay(
    running: Running, college: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """The results of before stand whole, and nothing but that line is written."""
    mark_hand_ins([college / "ash" / "hand-ins"], out=tmp_path / "marks", marked=MARKED)
    before = contents(tmp_path / "marks")

    def kill(_: Any) -> None:
        running.scheduler.kill()
        running.scheduler.wait()

    assert once(monkeypatch, kill) == []
    said = ["mark", str(college / "ash" / "hand-ins"), "--out", str(tmp_path / "marks"), "--cluster", running.address]
    assert main(said) == 2
    (line,) = capfd.readouterr().err.splitlines()
    assert re.match(r"bitepoint: --cluster tcp://\S+: the scheduler was lost", line)
    assert before == contents(tmp_path / "marks")


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (["--cluster", "nowhere"], "--cluster nowhere: no scheduler answers there"),
        (["--cluster", "tcp://127.0.0.1:1", "--workers", "2"], "Leave one out"),
    ],
)
def test_what_cannot_be_used_is_one_line(
    college: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str], more: list[str], told: str
) -> None:
    """Exit status 2, and no folder for results is made."""
    pytest.importorskip("distributed")
    assert main(["mark", str(college / "ash"), "--out", str(tmp_path / "marks"), *more]) == 2
    (line,) = capfd.readouterr().err.splitlines()
    assert told in line
    assert not (tmp_path / "marks").exists()


def test_without_the_extra_one_line_says_how_to_get_it(
    college: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing else of the program needs it."""
    monkeypatch.setitem(sys.modules, "distributed", None)
    assert main(["mark", str(college / "ash"), "--out", str(tmp_path / "m"), "--cluster", "tcp://127.0.0.1:1"]) == 2
    assert 'pip install "bitepoint[cluster]"' in capsys.readouterr().err
