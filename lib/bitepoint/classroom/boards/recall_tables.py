"""What the board says of recall: on the wall what the class is forgetting (no learner in it), beside the names whose answer was dangerous."""

from collections.abc import Mapping
from datetime import datetime

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.classroom.boards.cells import Cell, ClassBoard
from bitepoint.classroom.boards.tables import MOST, minutes_since
from bitepoint.marking.figures.counts import ExerciseCount
from bitepoint.marking.figures.forgetting import BANDS, Forgetting, Forgotten, RecallShare

_SHOWN = 8


class RecallWall(Struct, frozen=True, kw_only=True):
    """The class in recall: (how long since, share) over all outcomes, then the outcomes that fell most."""

    answers: int
    learners: int
    over_all: tuple[tuple[str, RecallShare], ...]
    outcomes: tuple[Forgotten, ...]


class RecallTrouble(Struct, frozen=True, kw_only=True):
    """One learner's dangerous answer in recall that is still open."""

    learner: str
    exercise: str
    title: str
    says: str
    minutes: int | None


def recall_wall(board: ClassBoard) -> RecallWall | None:
    """Return what the class is forgetting, None where nobody was asked again."""
    found = Forgetting()
    for cells in board.recalled.values():
        found.add(count for cell in cells.values() for count in cell.counts)
    if not found.answers:
        return None
    names = [band.name for band in BANDS]
    told = [f for f in found.outcomes(_lessons(board)) if f.together.right is not None]
    return RecallWall(
        answers=found.answers,
        learners=found.learners,
        over_all=tuple(zip([*names, "together"], found.over_all(), strict=True)),
        outcomes=tuple(told[:_SHOWN]),
    )


def recall_troubles(board: ClassBoard, now: datetime, *, shown: Mapping[str, str]) -> tuple[RecallTrouble, ...]:
    """Return the dangerous answers that are open, newest first, at most 25; `shown` are display names."""
    found = []
    for key, cells in board.recalled.items():
        for id, cell in cells.items():
            if cell.critical:
                name = board.name_of(key)
                more = shown.get(key, "")
                title = exercises()[id].title if id in exercises() else id
                trouble = RecallTrouble(
                    learner=f"{name} · {more}" if more else name,
                    exercise=id,
                    title=title,
                    says=cell.critical,
                    minutes=minutes_since(cell.at, now),
                )
                found.append((cell.at, trouble))
    return tuple(trouble for _, trouble in sorted(found, key=lambda x: x[0], reverse=True)[:MOST])


def _lessons(board: ClassBoard) -> list[ExerciseCount]:
    """Return how the exercises stand in their lessons, as the board's cells say."""
    by_exercise: dict[str, list[Cell]] = {}
    for cells in board.cells.values():
        for id, cell in cells.items():
            by_exercise.setdefault(id, []).append(cell)
    found = []
    for id, group in by_exercise.items():
        if id in exercises():
            count = ExerciseCount(id=id, title=exercises()[id].title, outcome=exercises()[id].outcome)
            right = sum(cell.right for cell in group)
            count.counts["right later"] = right
            count.counts["not right yet"] = len(group) - right
            found.append(count)
    return found
