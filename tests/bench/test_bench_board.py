"""What one look at two hundred workbooks costs: nothing new, one new answer, the wall, the names (read, never asserted)."""

from datetime import UTC, datetime

import pytest

from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.page import View, fragment
from bitepoint.classroom.boards.rehearsal import LiveClass

NOW = datetime(2026, 4, 14, 10, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def live(tmp_path_factory):
    """Two hundred workbooks with three logbooks each."""
    made = LiveClass(tmp_path_factory.mktemp("bench") / "share", learners=200)
    for place, learner in enumerate(made.ids):
        for exercise in ("start.number", "safe.dust", "torque.straight-bar"):
            made.answer(learner, exercise, right=place % 3 > 0)
    return made


@pytest.fixture(scope="module")
def board(live):
    """A board that has read them."""
    made = Board(live.folder)
    while not made.refresh():
        continue
    return made


@pytest.mark.benchmark(group="board of 200 workbooks")
def test_a_refresh_without_news(benchmark, board):
    """Every file is looked at, none is opened."""
    assert benchmark(board.refresh)


@pytest.mark.benchmark(group="board of 200 workbooks")
def test_a_refresh_with_one_answer(benchmark, board, live):
    """One file is read on; writing the answer is not counted."""
    benchmark.pedantic(board.refresh, setup=lambda: live.answer(live.ids[7], "safe.fluid") and None, rounds=20)
    assert board.board.people[live.ids[7].casefold()].answered == 4


@pytest.mark.benchmark(group="board of 200 workbooks")
@pytest.mark.parametrize("kind", ["wall", "names"])
def test_a_page(benchmark, board, kind):
    """Worked out and written afresh."""
    assert benchmark(fragment, board, View(kind), NOW)
