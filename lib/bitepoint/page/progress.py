"""What the bar above a lesson asks of the kernel, silently: where the learner stands, and to make the hand-in."""

from typing import Any

from msgspec import Struct

from bitepoint.bank.lessons import lesson
from bitepoint.errors import BitepointError
from bitepoint.logbook import Identity
from bitepoint.logbook.bookmark import keep_bookmark, read_bookmark
from bitepoint.page import output
from bitepoint.page.handing_in import fields_of, made_for, what_next
from bitepoint.page.summing_up import DANGEROUS, DONE, redraw, sessions_of, state_of


class Told(Struct, frozen=True):
    """An answer to the page, sent as JSON."""

    fields: dict[str, Any]

    def _repr_json_(self) -> dict[str, Any]:
        return self.fields


def standing(key: str) -> Told:
    """Return how far the learner is in a lesson, and bring the card at its end up to date.

    The fields are `who`, `done`, `of`, `critical` (how many to put right first), `to_do` (exercise id to its minutes) and
    `place` (where the learner stopped in it, None where they did not); none of them when there is nobody to ask about. Where feedback comes after the hand-in, done means recorded.
    """
    try:
        identity = output.who_asks()
        sessions = sessions_of(lesson(key).key, identity)
        states = {session.exercise.id: state_of(session) for session in sessions}
        critical = list(states.values()).count(DANGEROUS)
        redraw(sessions, identity, key)
    except BitepointError:
        return Told({})
    to_do = {s.exercise.id: s.exercise.minutes for s in sessions if states[s.exercise.id] not in DONE}
    done = len(sessions) - len(to_do)
    return Told(
        {
            "who": f"{identity.learner} in {identity.class_word}",
            "done": done,
            "of": len(sessions),
            "critical": critical,
            "to_do": to_do,
            "place": _place(identity, key),
        }
    )


def _place(identity: Identity, key: str) -> dict[str, Any] | None:
    mark = read_bookmark(identity.folder) if identity.folder else None
    return {"id": mark.cell, "by": mark.by, "at": mark.at} if mark and mark.lesson == key else None


def keep_place(key: str, cell: str, by: int) -> None:
    """Keep where the learner is in a lesson, for the next time the course is opened."""
    try:
        identity = output.who_asks()
    except BitepointError:
        return
    if identity.folder:
        keep_bookmark(identity.folder, key, cell, by)


def hand_in(key: str) -> Told:
    """Make the hand-in from the bar of a lesson.

    The fields are `told` and, when there is a hand-in, `name` with `file` below the workbook or `data`, `next` (what to do
    once it is saved) and `code` (the check code of this lesson).
    """
    try:
        identity = output.who_asks()
    except BitepointError as error:
        return Told({"told": str(error)})
    told, made = made_for(identity)
    fields = fields_of(told, made)
    if made and identity.folder:
        fields |= what_next(identity.folder, lesson(key).key, made)
    return Told(fields)
