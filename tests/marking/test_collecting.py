"""Python's collector waits longer while hand-ins are marked, and as long as before afterwards."""

import gc
from pathlib import Path

import pytest

from bitepoint.errors import BadInput
from bitepoint.marking import run
from bitepoint.marking.collecting import seldom_collected
from bitepoint.marking.processes import processes


def threshold(_: object = None) -> tuple[int, int, int]:
    return gc.get_threshold()


def test_a_block_inside_another_leaves_the_wait_as_it_is() -> None:
    """Only the end of the outer one brings the old wait back."""
    before = threshold()
    with seldom_collected():
        outer = threshold()
        with seldom_collected():
            assert threshold() == outer
        assert threshold() == outer
    assert outer[0] > before[0]
    assert threshold() == before


def test_a_marking_waits_as_a_whole_and_an_error_ends_the_wait(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The wait begins before anything is read and ends with the marking, however it ends."""
    before, seen = threshold(), []

    def found(*_: object, **__: object) -> tuple[list[object], list[str]]:
        seen.append(threshold())
        return [], []

    monkeypatch.setattr(run, "find_sources", found)
    with pytest.raises(BadInput, match="nothing to mark"):
        run.mark_hand_ins([tmp_path], out=tmp_path / "out")
    assert seen[0][0] > before[0]
    assert threshold() == before


def test_a_process_that_only_marks_always_waits() -> None:
    """A process of the pool waits as long from its start."""
    with seldom_collected():
        wanted = threshold()
    with processes(2) as pool:
        found = list(pool.map(threshold, [1], lost=lambda _: (0, 0, 0)))
    assert found == [wanted]
