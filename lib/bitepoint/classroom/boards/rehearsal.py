"""A board over an invented class in the middle of a lesson: to try things out, and for the page that
shows the tables."""

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

from bitepoint.bank import exercise_named
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.group import Group
from bitepoint.logbook.asked import REHEARSED, asked_fields
from bitepoint.logbook.book import FOLDER, Logbook, utc_now
from bitepoint.logbook.identity import REHEARSAL, Feedback, Identity, learner_id, write_identity
from bitepoint.logbook.record import Line, read_line
from bitepoint.marking.rehearsal.apprentice import stamp
from bitepoint.marking.rehearsal.rehearse import HAND_INS, rehearse
from bitepoint.questions.kinds import kind_of


class RehearsedShare:
    """The workbooks of an invented class as they stood at a moment, and as they go on from there.

    The same for the same learners, seed, lessons and moment.
    """

    def __init__(self, folder: Path, *, learners: int, seed: int, lessons: Sequence[str] = ()) -> None:
        rehearse(folder, learners=learners, seed=seed, form="folder", lessons=lessons)
        self.folder = folder / HAND_INS
        self._left: dict[Path, list[bytes]] = {}
        for logbook in sorted(self.folder.glob(f"*/{FOLDER}/*.jsonl")):
            self._left[logbook] = logbook.read_bytes().splitlines(keepends=True)
            logbook.unlink()

    def go_on(self, until: datetime) -> int:
        """Write what was answered up to a moment; return how many answers that was."""
        written = 0
        for logbook, lines in self._left.items():
            new = [line for line in lines if _time_of(line) <= stamp(until)]
            if new:
                with logbook.open("ab") as file:
                    file.write(b"".join(new))
            self._left[logbook] = lines[len(new) :]
            written += len(new)
        return written


def _time_of(line: bytes) -> str:
    record = read_line(line.rstrip()).record
    return record.at if record else ""


def rehearsed_board(folder: Path, *, learners: int, seed: int, until: datetime, lessons: Sequence[str] = ()) -> Board:
    """Write an invented class into a new folder as it stood at a moment, and return its board, all read.

    Raises
    ------
    BadInput, OutOfRange
        As `rehearse`.
    """
    share = RehearsedShare(folder, learners=learners, seed=seed, lessons=lessons)
    share.go_on(until)
    board = Board(share.folder, Group(title="Rehearsed class", lessons=tuple(lessons)))
    while not board.refresh():
        continue
    return board


class LiveClass:
    """An invented class that works while you watch: each answer is written as a learner's own notebook writes it."""

    def __init__(self, folder: Path, *, learners: int, feedback: Feedback = "at once") -> None:
        self.folder, self.feedback = folder, feedback
        self.ids = [learner_id(REHEARSAL, number) for number in range(1, learners + 1)]
        for learner in self.ids:
            (folder / learner).mkdir(parents=True)
            who = Identity(learner=learner, class_word=REHEARSAL, feedback=feedback)
            write_identity(who, folder / learner)

    def logbook(self, learner: str, lesson: str) -> Logbook:
        """Return a learner's logbook of a lesson; each has one device."""
        return Logbook(self.folder / learner, lesson=lesson, device="0000abcd")

    def answer(
        self, learner: str, exercise: str, *, right: bool = True, turn: int = 1, at: str = "", mistake: int = 0
    ) -> Line:
        """Write one answer: the right one, or a known mistake."""
        found = exercise_named(exercise)
        question = found.draw(class_word=REHEARSAL, learner=learner, turn=turn)
        answer = question.right_answer() if right else question.known_mistakes()[mistake][0]
        verdict = question.mark(answer)
        fields: dict[str, Any] = {
            "at": at or utc_now(),
            "learner": learner,
            "class": REHEARSAL,
            "device": "0000abcd",
            **asked_fields(question, turn),
            **REHEARSED,
            "how": kind_of(question).how,
            "answer": answer,
            "opened": at or utc_now(),
            "tool": "rehearsed",
        }
        if self.feedback == "at once":
            fields |= {"score": verdict.score, "mistake": verdict.mistake}
        return self.logbook(learner, found.lesson).append(fields)
