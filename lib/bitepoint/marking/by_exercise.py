"""Lines of several hand-ins marked in the order of the exercises.

Nearly every line of a hand-in answers another exercise, and what it takes to draw and mark one has left the processor's own memory
when the next learner's turn comes: in the order of the hand-ins the same lines took a third longer. What a line comes to does not
hang on the others.
"""

from collections import deque
from collections.abc import Sequence

from msgspec import Struct

from bitepoint.logbook.record import Line
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.line_marking import MarkedLine, mark_line
from bitepoint.marking.reading.gather import HandIn
from bitepoint.marking.reading.guard import unforeseen
from bitepoint.printable import printable


class Marks(Struct, frozen=True):
    """The marked lines of one hand-in in its own order, and a sentence for each line that could not be marked."""

    lines: tuple[MarkedLine, ...] = ()
    problems: tuple[str, ...] = ()


def marked_by_exercise(hand_ins: Sequence[HandIn], cars: ClassCars) -> deque[Marks]:
    """Mark every line; one that an error gets in the way of has no mark, and the others keep theirs.

    Returns
    -------
    deque of Marks
        One a hand-in, in their order: who takes them one by one holds them no longer than needed.
    """
    found: list[list[MarkedLine | str]] = [[""] * len(hand_in.lines) for hand_in in hand_ins]
    for line, of_hand_in, at in _by_exercise(hand_ins):
        try:
            found[of_hand_in][at] = mark_line(line, cars)
        except Exception as error:
            exercise = line.record.exercise if line.record else ""
            said = unforeseen(f"an answer to {exercise[:40]!r} cannot be marked", error)
            found[of_hand_in][at] = printable(f"{hand_ins[of_hand_in].name}: {said}")
    return deque(map(_parted, found))


def _by_exercise(hand_ins: Sequence[HandIn]) -> list[tuple[Line, int, int]]:
    """Return each line with the number of its hand-in and its place there, those of one exercise after another."""
    groups: dict[str, list[tuple[Line, int, int]]] = {}
    for number, hand_in in enumerate(hand_ins):
        for at, line in enumerate(hand_in.lines):
            exercise = line.record.exercise if line.record else ""
            groups.setdefault(exercise, []).append((line, number, at))
    return [placed for group in groups.values() for placed in group]


def _parted(lines: Sequence[MarkedLine | str]) -> Marks:
    problems = tuple(line for line in lines if isinstance(line, str))
    if not problems:
        return Marks(tuple(lines))  # type: ignore[arg-type]
    return Marks(tuple(line for line in lines if not isinstance(line, str)), problems)
