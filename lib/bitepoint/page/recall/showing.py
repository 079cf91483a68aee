"""The verb `keep_it`: what is due to be asked again, in place, and what it came to."""

from bitepoint.errors import BitepointError
from bitepoint.page import output
from bitepoint.page.recall.remembering import utc_clock
from bitepoint.page.recall.stage_cards import card_of, introduction
from bitepoint.page.recall.stages import Asking, Ended, Practice, stage_of


def keep_it() -> None:
    """Ask again what is due of earlier lessons: a round of six to ten questions, one after the other, kept at each answer."""
    try:
        identity = output.who_asks()
        stage = stage_of(identity, utc_clock())
    except BitepointError as error:
        output.say(error)
        return
    if isinstance(stage, Practice):
        output.show_static(introduction(stage))
    redraw = output.show_static(card_of(stage))
    if output.page_watches() and isinstance(stage, (Asking, Ended, Practice)):
        from bitepoint.page.recall.live import LiveRecall

        LiveRecall(identity, stage, redraw, utc_clock).show()
