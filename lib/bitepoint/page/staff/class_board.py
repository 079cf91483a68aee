"""The board's tables over a rehearsed class, at a clock that stands still until it is told to go on."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from bitepoint.classroom.boards import tables
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.codes import Codes
from bitepoint.classroom.boards.group import Group
from bitepoint.classroom.boards.rehearsal import RehearsedShare
from bitepoint.page.staff.folder import practice_folder
from bitepoint.page.staff.output import tell, tell_table


class WatchedClass:
    """An invented class at work, in a folder that goes when the notebook's kernel ends; the same for the same seed."""

    def __init__(self, *, learners: int, seed: int, lessons: Sequence[str], at: str) -> None:
        folder = practice_folder()
        self.now = datetime.fromisoformat(at)
        self._share = RehearsedShare(folder / "class", learners=learners, seed=seed, lessons=lessons)
        self._share.go_on(self.now)
        self._board = Board(self._share.folder, Group(title="Rehearsed class", lessons=tuple(lessons)))
        self._codes = Codes(folder / "codes.csv")
        self._read()

    def __repr__(self) -> str:
        return "A rehearsed class at work"

    def _read(self) -> None:
        while not self._board.refresh():
            continue
        self._codes.update(self._board.board, self.now)

    def now_at(self) -> None:
        """Say what the top of the wall says."""
        now = tables.now_of(self._board.board, self.now)
        tell(
            f"As of {self.now:%H:%M}. Learners: {now.learners}. At it now: {now.at_it}. "
            f"Exercises answered: {now.answered:,}."
        )

    def wall(self, lesson: str = "") -> None:
        """Show the wall for one lesson; for the one the class is in when none is named."""
        key = lesson or tables.current_lesson(self._board.board, self._board.lessons)
        found = tables.wall(self._board.board, key)
        rows: list[Sequence[str]] = [
            ("Exercise", "Answered", "Right at first", "Right now", "Stuck", "Commonest mistake", "Made by")
        ]
        for r in found.rows:
            counts = (str(n) for n in (r.answered, r.first, r.right, r.stuck))
            rows.append((r.title, *counts, r.mistake, str(r.made_by or "")))
        tell_table(f"The wall: {found.title}, numbers of learners", rows)

    def go_on(self, *, minutes: int) -> None:
        """Let the class work on, and read only what is new."""
        self.now += timedelta(minutes=minutes)
        written, before = self._share.go_on(self.now), self._board.board.changed
        self._read()
        tell(f"{minutes} minutes later: {written} new answers in {self._board.board.changed - before} logbook files.")

    def trouble(self, *, most: int = 8) -> None:
        """Show critical mistakes that are open, then who is stuck: the newest of each."""
        found = tables.names(self._board.board, self.now, shown={})
        for what, rows in (("Critical mistakes now", found.critical), ("Stuck", found.stuck)):
            lines = [(t.learner, t.title, t.says, str(t.misses), _since(t.minutes)) for t in rows[:most]]
            tell_table(f"{what}: the newest", [("Learner", "Exercise", "What", "Misses", "Last answer"), *lines])

    def where(self, *, most: int = 12) -> None:
        """Show who is where."""
        found = tables.names(self._board.board, self.now, shown={})
        rows = [
            (w.learner, w.lesson, w.title, _since(w.minutes), str(w.answered), str(w.right), str(w.stuck))
            for w in found.where[:most]
        ]
        head = ("Learner", "Lesson", "Exercise", "Last answer", "Answered", "Right", "Stuck")
        tell_table("Who is where: the first of the list", [head, *rows])

    def codes(self, *, most: int = 6) -> None:
        """Show the first check codes that the board noted."""
        rows = [(n.learner, n.lesson, n.code, n.at) for n in self._codes.notes(self._board.board)[:most]]
        tell_table("codes.csv: the first rows", [("learner", "lesson", "code", "noted at"), *rows])


def _since(minutes: int | None) -> str:
    if minutes is None:
        return "clock is wrong"
    if minutes < 120:
        return f"{minutes} min"
    return f"{minutes // 60} h" if minutes < 2880 else f"{minutes // 1440} days"


def watched_class(*, learners: int, seed: int, lessons: Sequence[str], at: str) -> WatchedClass:
    """Make an invented class at a moment such as "2026-04-28T08:20+00:00"."""
    return WatchedClass(learners=learners, seed=seed, lessons=lessons, at=at)
