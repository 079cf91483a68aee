"""The card of one question of a round: as in its lesson, with its number in the round and nothing to type in a cell."""

from typing import Any

from bitepoint.bank.lessons import lessons_in_use
from bitepoint.page.cards import Card, card_html
from bitepoint.page.recall.recall_session import RecallSession

YOURS, OURS = "Why, in your own words:", "Why, as the course says it:"


class RecallCard(Card):
    """What a notebook shows of a question of recall. It carries no lines: those of recall travel in the logbook alone."""

    session: RecallSession

    def __init__(self, session: RecallSession, which: str, note: str = "") -> None:
        super().__init__(session, note)
        self.which = which

    def __repr__(self) -> str:
        return f"{self.which}: {super().__repr__()}"

    def _repr_mimebundle_(self, include: object = None, exclude: object = None) -> dict[str, Any]:
        lesson = lessons_in_use()[self.session.exercise.lesson].title
        html = card_html(
            self.session,
            self.note,
            head=f"{self.which} · {lesson}",
            below=reasons(self.session),
            can_be_typed=False,
        )
        return {"text/plain": repr(self), "text/html": str(html)}


def reasons(session: RecallSession) -> tuple[tuple[str, str, str], ...]:
    """Return the learner's own reason and the course's as panels; nothing where none was written."""
    if not session.own_words:
        return ()
    return (("note", YOURS, session.own_words), ("note", OURS, session.question().why))
