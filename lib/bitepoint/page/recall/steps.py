"""What the page offers below a question of recall, or below the end of a round, as the control is told it."""

from typing import Any

from msgspec import to_builtins

from bitepoint.page.recall.date_file import date_file, put_date_file
from bitepoint.page.recall.recall_session import MOST_LETTERS
from bitepoint.page.recall.stage_cards import which
from bitepoint.page.recall.stages import Asking, Ended, Stage
from bitepoint.recall.choosing import round_of

NEXT, TO_THE_END, ANOTHER = "Next question", "To the end", "Another round"
WHY = {
    "label": "Say why, in your own words",
    "hint": "One line. No names and nothing personal: your instructor may read it. No machine marks it.",
    "most": MOST_LETTERS,
}
Steps = dict[str, Any]


def steps_of(stage: Stage) -> Steps:
    """Return what follows: nothing while a question is open; a reason, or the way on; at the end the date and another round."""
    if isinstance(stage, Ended):
        return _at_the_end(stage)
    if not isinstance(stage, Asking):
        return {}
    if not stage.session.answered:
        return {"place": which(stage)}
    if stage.session.reason_waits:
        return {"place": which(stage), "why": WHY}
    wrote = stage.session.own_words
    reasons = {"wrote": wrote, "reason": stage.session.question().why} if wrote else {}
    return steps_behind(stage) | reasons


def steps_behind(stage: Asking) -> Steps:
    """Return the way on from a question alone."""
    is_last = all(s is None or s.answered or s is stage.session for s in stage.round.sessions)
    return {"place": which(stage), "next": TO_THE_END if is_last else NEXT}


def _at_the_end(stage: Ended) -> Steps:
    file = date_file(stage.round, stage.learned)
    if file:
        put_date_file(stage.round.identity, file)
    more = round_of(stage.learned.items, stage.learned.now)
    return {"place": "Done:", "date": to_builtins(file) if file else {}, "another": ANOTHER if more else ""}
