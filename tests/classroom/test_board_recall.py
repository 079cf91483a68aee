"""Recall on the board: what fades without names on the wall, dangers beside the names, and no lesson's cell moved by it."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.page import AGAIN, View
from bitepoint.classroom.boards.recall_tables import recall_troubles, recall_wall
from bitepoint.classroom.boards.tables import MOST, wall
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.rehearsal.rehearse import rehearse

LESSONS = ("safe", "torque")


def board_of(folder: Path, weeks: int) -> Board:
    """Return the board of a class of six, all read."""
    rehearse(folder, learners=6, seed=2, weeks=weeks, form="folder", lessons=LESSONS)
    board = Board(folder / "hand-ins")
    while not board.refresh():
        continue
    return board


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the class lies."""
    return tmp_path_factory.mktemp("board") / "class"


@pytest.fixture(scope="module")
def board(folder: Path) -> Board:
    """The board of a class that came back over eight weeks."""
    return board_of(folder, 8)


def test_recall_moves_no_cell_of_a_lesson(board: Board, tmp_path: Path) -> None:
    """The walls of the lessons are those of the same class without recall, and nothing is to look at."""
    plain = board_of(tmp_path / "plain", 0)
    for lesson in LESSONS:
        assert wall(board.board, lesson) == wall(plain.board, lesson)
    assert board.said() == []


def test_the_board_counts_recall_as_marking_does(board: Board, folder: Path) -> None:
    """The shares over all outcomes and the open dangers are those of the report, of these the newest 25."""
    outcome = mark_hand_ins([folder / "hand-ins"], out=folder.parent / "marks")
    told = recall_wall(board.board)
    assert told is not None
    assert tuple(share for _, share in told.over_all) == outcome.summary.forgetting.over_all()
    by_board = {(t.learner, t.exercise) for t in recall_troubles(board.board, datetime.now(UTC), shown={})}
    still_open = {(d.learner, d.exercise) for d in outcome.summary.recall_dangers if not d.put_right}
    assert by_board <= still_open
    assert len(by_board) == min(MOST, len(still_open))


def test_the_wall_names_nobody_and_the_names_say_what_was_dangerous(board: Board) -> None:
    """No id stands on the wall's page; beside the names each open danger does."""
    page = board.page(View("wall", AGAIN))
    assert "what fades" in page
    assert not any(person.name in page for person in board.board.people.values())
    names = board.page(View("names", ""))
    part = names[names.index('id="again-critical"') :]
    troubles = recall_troubles(board.board, datetime.now(UTC), shown={})
    assert troubles
    assert all(t.title in part for t in troubles)


def test_a_class_without_recall_has_nothing_that_fades(tmp_path: Path) -> None:
    """The page says so in one sentence."""
    board = board_of(tmp_path / "plain", 0)
    assert recall_wall(board.board) is None
    assert "Nobody has been asked again yet." in board.page(View("wall", AGAIN))
