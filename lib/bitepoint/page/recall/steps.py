"""What the page offers below a question of recall, or below the end of a round, as the control is told it."""

from typing import Any

from msgspec import to_builtins

from bitepoint.page.recall.date_file import date_file, put_date_file
from bitepoint.page.recall.end_card import is_more_due
from bitepoint.page.recall.recall_session import MOST_LETTERS, RecallSession
from bitepoint.page.recall.stage_cards import which
from bitepoint.page.recall.stages import Asking, Ended, Stage

NEXT, TO_THE_END, ANOTHER = "Next question", "To the end", "Another round"
WHY = {
    "label": "Say why, in your own words",
    "read": "Nobody but a person reads it, and no machine marks it.",
    "hint": "One line about the work. No names, nothing personal.",
    "most": MOST_LETTERS,
}
Steps = dict[str, Any]


def steps_of(stage: Stage, session: RecallSession | None = None) -> Steps:
    """Return what follows: nothing while a question is open; a reason, or the way on; at the end the date and another round.

    `session` is the question as this page has it, where that is in view: another page may have gone on already.
    """
    if isinstance(stage, Ended):
        return _at_the_end(stage)
    if not isinstance(stage, Asking):
        return {}
    shown, place = session or stage.session, {"place": which(stage)}
    if not shown.answered:
        return place
    if shown.reason_waits:
        return {**place, "why": WHY}
    reasons = {"wrote": shown.own_words, "reason": shown.question().why} if shown.own_words else {}
    others = [s for s in stage.round.sessions if s and s.exercise.id != shown.exercise.id]
    return {**place, **reasons, "next": TO_THE_END if all(s.answered for s in others) else NEXT}


def _at_the_end(stage: Ended) -> Steps:
    file = date_file(stage.round, stage.learned)
    if file:
        put_date_file(stage.round.identity, file)
    return {
        "place": "Done:",
        "date": to_builtins(file) if file else {},
        "another": ANOTHER if is_more_due(stage.learned) else "",
    }
