"""Python's collector waits longer while hand-ins are marked, and as long as before afterwards."""

import gc
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest
from jinja2.runtime import Context, Macro
from test_flags import OAK, ONE, marked

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.marking import run
from bitepoint.marking.collecting import seldom_collected
from bitepoint.marking.college import run as college_run
from bitepoint.marking.pages.assessor import assessor_page
from bitepoint.marking.pages.evidence import evidence_page
from bitepoint.marking.pages.learner import learner_page
from bitepoint.marking.processes import processes
from bitepoint.marking.progress import Progress
from bitepoint.marking.result import Flag, Result, Row


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


def test_a_college_waits_as_a_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The wait does not end with a class: then all that the next one needs too would be looked through."""
    before, seen = threshold(), []

    def found(*_: object, **__: object) -> tuple[list[object], list[object], list[str]]:
        seen.append(threshold())
        return [], [], []

    monkeypatch.setattr(college_run, "find_classes", found)
    college_run.mark_classes(tmp_path, out=tmp_path / "out")
    assert seen[0][0] > before[0]
    assert threshold() == before


_MARKED = datetime.fromisoformat("2026-06-30T12:00+02:00")
_RESULT = Result(
    name="L01",
    class_word="demo",
    rows=(Row(learner="L01", exercise="star.impact", first_score=0.0, last_score=0.0, tries=1, turns=1, says="No."),),
    flags=(Flag(kind="history", learner="L01", evidence="seen", beside=(("here", "1"), ("there", "2"))),),
)
_PROGRESS = Progress(learner="L01", since="2026-06-01", newly_right=("Pick the impact wrench",))


@pytest.mark.parametrize(
    "page",
    [
        lambda: learner_page(_RESULT, _MARKED, _PROGRESS),
        lambda: assessor_page(_RESULT, _MARKED, _PROGRESS),
        lambda: evidence_page(_RESULT, _MARKED),
    ],
    ids=["learner", "assessor", "evidence"],
)
def test_a_page_leaves_nothing_for_the_collector(page: Callable[[], str]) -> None:
    """What a page was made of goes with it, so that memory does not grow with the class while the collector waits."""
    page()
    gc.collect()
    gc.set_debug(gc.DEBUG_SAVEALL)
    try:
        page()
        gc.collect()
        assert [] == [x for x in gc.garbage if isinstance(x, (Context, Macro, Result))]
    finally:
        gc.set_debug(0)
        gc.garbage.clear()


def test_what_is_made_by_the_thousand_is_not_looked_through() -> None:
    """A line, its verdict and its row, and the question of every exercise, whatever its kind."""
    line = marked("start.choice")
    assert line.verdict is not None
    questions = [e.draw(class_word=OAK, learner=ONE) for e in exercises().values()]
    assert [] == [x for x in (line, line.record, line.verdict, *_RESULT.rows, *questions) if gc.is_tracked(x)]
