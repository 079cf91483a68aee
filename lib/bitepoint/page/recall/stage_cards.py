"""The static card of each stage of the page of recall; it stands without any control."""

from typing import Any

from bitepoint.page import html, output
from bitepoint.page.recall.end_card import end_card, nothing_due_card
from bitepoint.page.recall.question_card import RecallCard
from bitepoint.page.recall.stages import Asking, Ended, NothingDue, Practice, Stage

EXAMPLE = "An example, not recorded"
WHAT_IT_DOES = """\
What you learned once fades. This page asks you again what is due: six to ten short questions from different lessons, with new figures, one answer to each. You are told at once what was right and why. At the end it says what is firm, what fades and when to come back."""
BELOW = "Below stands one question as this page asks it."


def which(stage: Asking | Practice) -> str:
    """Return which question of its round it is, in words."""
    return f"Question {stage.number} of {stage.of}" if isinstance(stage, Asking) else EXAMPLE


def card_of(stage: Stage) -> Any:
    """Return what to show of a stage."""
    if isinstance(stage, (Asking, Practice)):
        return RecallCard(stage.session, which(stage))
    if isinstance(stage, Ended):
        return end_card(stage)
    if isinstance(stage, NothingDue):
        return nothing_due_card(stage)
    return _sentence("Not here.", stage.why)


def introduction(stage: Practice) -> output.Static:
    """Return what this page does, where nobody is asked by it."""
    title = "Ten minutes, so that it stays"
    words = f"{WHAT_IT_DOES}\n\n{stage.why} {BELOW}"
    return output.Static(title, html.card(html.joined([html.title(title), html.paragraphs(words)])))


def _sentence(word: str, text: str) -> output.Static:
    return output.Static(text, html.card(html.panel("note", word, html.paragraphs(text))))
