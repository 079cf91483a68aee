"""The live part of a round: the question's own control, what follows its answer, and going on in place."""

from collections.abc import Callable
from datetime import datetime
from threading import Lock
from typing import Any

from bitepoint.errors import BitepointError
from bitepoint.logbook import Identity
from bitepoint.logbook.record import RECALLED
from bitepoint.page import output
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.recall.question_card import RecallCard
from bitepoint.page.recall.recall_session import RecallSession
from bitepoint.page.recall.stage_cards import card_of, which
from bitepoint.page.recall.stages import Asking, Practice, Stage, another_round, go_on, stage_of
from bitepoint.page.recall.steps import steps_of


class RecallControl(AnswerControl):
    """The control that the question has in its lesson; an answer is one of recall, and the page hears of it."""

    session: RecallSession

    def __init__(
        self, session: RecallSession, which: str, redraw: Any, *, answered: Callable[[], None], told: Callable[[], None]
    ) -> None:
        self._which, self._answered, self._told = which, answered, told
        super().__init__(session, redraw)

    @property
    def _how(self) -> str:
        return RECALLED

    def _card(self, note: str) -> RecallCard:
        return RecallCard(self.session, self._which, note)

    def _act(self, content: dict[str, Any]) -> str:
        before = self.session.answered
        # Enter pressed twice: the verdict is said again, and no word about another page.
        if before and content.get("do") == "answer":
            return ""
        note = super()._act(content)
        if self.session.answered != before:
            self._answered()
        return note

    def _tell(self, note: str) -> None:
        super()._tell(note)
        self._told()

    def say_again(self) -> None:
        """Say the verdict once more, with what may be said now."""
        self._tell("")


class LiveRecall:
    """The live part of the page: one control and what follows it, exchanged in place."""

    def __init__(self, identity: Identity, stage: Stage, redraw: Any, clock: Callable[[], datetime]) -> None:
        import ipywidgets

        from bitepoint.page import widgets

        self.identity, self.redraw, self.clock = identity, redraw, clock
        self._one_at_a_time, self._said = Lock(), 0
        self.control: RecallControl | None = None
        self.steps = widgets.RoundSteps(spec={}, said={})
        self.steps.on_msg(self._heard)
        self.box = ipywidgets.VBox([self.steps], layout={"overflow": "visible"})
        self._lay_out(stage)

    def show(self) -> None:
        output.show_live(self.box)

    def _lay_out(self, stage: Stage) -> None:
        """Put the control of a stage in place of the one before, then what follows it."""
        self.stage = stage
        before, self.control = self.control, None
        if isinstance(stage, (Asking, Practice)):
            self.control = RecallControl(
                stage.session, which(stage), self.redraw, answered=self._judge, told=self._follow
            )
        self.box.children = [*([self.control.widget] if self.control else []), self.steps]
        self._follow()
        if before:
            before.widget.close()

    def _judge(self) -> None:
        """An answer is recorded: whether a reason is asked for before it is told why hangs on the whole round."""
        now = stage_of(self.identity, self.clock())
        if (
            self.control
            and isinstance(self.stage, Asking)
            and isinstance(now, Asking)
            and now.number == self.stage.number
        ):
            self.control.session.reason_waits = now.session.reason_waits
            self.stage = now

    def _follow(self) -> None:
        """Show what follows, after the verdict above it."""
        self.steps.spec = steps_of(self.stage, self.control.session if self.control else None)

    def _heard(self, _: Any, content: dict[str, Any], buffers: Any) -> None:
        """Take a message of the page; what goes wrong is said in place, for nobody sees what is raised here."""
        with self._one_at_a_time:
            try:
                self._act(content)
            except BitepointError as error:
                self._say(str(error))
            except Exception as error:
                self._say(f"Something went wrong ({type(error).__name__}). Run this cell again.")

    def _act(self, content: dict[str, Any]) -> None:
        does = content.get("do")
        if does in ("why", "pass") and isinstance(self.stage, Asking) and self.control:
            if does == "why":
                self.control.session.keep_reason(str(content.get("text", "")))
            else:
                self.stage.round.pass_reason()
            self._judge()
            self.control.say_again()
        elif does in ("next", "another"):
            (go_on if does == "next" else another_round)(self.identity, self.clock())
            stage = stage_of(self.identity, self.clock())
            self.redraw(card_of(stage))
            self._lay_out(stage)
        self._say("")

    def _say(self, words: str) -> None:
        from bitepoint.page.widgets.common import said

        self._said += 1
        self.steps.said = said(self._said, "note" if words else "", words)
