"""The verb `ask`: a question, a form to answer it, the last verdict from the logbook."""

from threading import Lock
from typing import Any

from bitepoint.bank import exercise_named
from bitepoint.errors import BitepointError, NotUnderstood
from bitepoint.page import begun_rows, output
from bitepoint.page.cards import Card
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.questions.enquiry import Enquiry
from bitepoint.questions.staged_work import StagedWork
from bitepoint.questions.sweep import Sweep
from bitepoint.questions.tightening import Tightening
from bitepoint.questions.work_order import WorkOrder

_NOTHING = object()
_DRILLS = (Tightening, WorkOrder, StagedWork)
asked: list[str] = []
"""Lessons asked about in this kernel, newest last: `summary()` without a name takes the newest."""


def ask(exercise: str, answer: object = _NOTHING, *, turn: int | None = None) -> None:
    """Show an exercise; with an answer, mark and record it.

    Parameters
    ----------
    exercise : str
        Its id, such as "torque.crow-foot".
    answer : text, number or list, optional
        Such as "84,2 Nm", "b", [1, 4, 2, 5, 3, 6]. The same answer typed again is not recorded again.
    turn : int, optional
        2, 3, …: new figures of the same exercise. Default: the turn that is open.
    """
    try:
        session = ExerciseSession(exercise_named(exercise), output.who_asks())
    except BitepointError as error:
        output.say(error)
        return
    asked.append(session.exercise.lesson)
    note = "" if answer is _NOTHING or answer is None or answer is ... else _take(session, answer, "typed", turn)
    if turn is not None and answer is _NOTHING and turn >= 1:
        session.turn = turn
    redraw = output.show_static(Card(session, note))
    if output.page_watches():
        _Control(session, redraw).show()


def _take(session: ExerciseSession, answer: object, how: str, turn: int | None = None) -> str:
    """Record an answer; return what to say when that was not possible."""
    try:
        question = session.question(turn)
        if how == "typed" and isinstance(question, Enquiry) and isinstance(answer, str) and ">" not in answer:
            return _observed(question, answer)
        session.answer(answer, how=how, turn=turn)
    except BitepointError as error:
        return str(error)
    return ""


def _observed(question: Enquiry, asked: str) -> str:
    """Return what the observations show that were typed without a cause yet: nothing is recorded by asking."""
    labels = {o.key: o.label for o in question.observations}
    keys = list(dict.fromkeys(asked.casefold().split()))
    if not keys or not set(keys) <= set(labels):
        raise NotUnderstood(
            f"Ask for one or more of: {', '.join(labels)}. Or write what you asked for, then >, then the cause."
        )
    return "\n".join(f"{labels[k]}: {question.shown(k)}" for k in keys)


class _Control:
    """Ties a live control to a session: hears answers, says verdicts, redraws the card."""

    def __init__(self, session: ExerciseSession, redraw: Any) -> None:
        self.session, self.redraw, self.n = session, redraw, 0
        self._one_at_a_time = Lock()
        self.widget = self._widget()
        self.widget.on_msg(self._heard)
        self._say("")

    def _widget(self) -> Any:
        from bitepoint.page import widgets

        question, spec = self.session.question(), self._spec()
        if isinstance(question, Tightening):
            return widgets.BoltCircle(spec=spec, pulls=[], said={})
        if isinstance(question, (WorkOrder, StagedWork)):
            row = begun_rows.begun(self.session)
            return widgets.WorkBench(spec=spec, picked=row, told=self._told(row) if row else {}, said={})
        if isinstance(question, Sweep):
            return widgets.SweepForm(spec=spec, told={}, said={}, step={})
        return widgets.AnswerForm(spec=spec, told={}, said={})

    def _spec(self) -> dict[str, Any]:
        from bitepoint.page import specs

        question, title = self.session.question(), self.session.exercise.title
        if isinstance(question, Tightening):
            return specs.drill_spec(question, title)
        if isinstance(question, WorkOrder):
            return specs.work_spec(question, title, at_once=not self.session.withheld)
        if isinstance(question, StagedWork):
            return specs.staged_spec(question, title, at_once=not self.session.withheld)
        return specs.form_spec(question, title)

    def show(self) -> None:
        output.show_live(self.widget)

    def _heard(self, _: Any, content: dict[str, Any], buffers: Any) -> None:
        """Take a message of the page. It runs beside the cells, in a thread of its own, and nobody sees what it raises."""
        with self._one_at_a_time:
            try:
                if content.get("do") in ("pick", "ask"):
                    self._tell(content)
                    return
                note = self._act(content)
            except BitepointError as error:
                note = str(error)
            except Exception as error:  # a silent form would leave the learner guessing
                note = f"Something went wrong ({type(error).__name__}). Run this cell again, then answer once more."
            self._say(note)
            self.redraw(Card(self.session, note))

    def _tell(self, content: dict[str, Any]) -> None:
        """Say what one step of a drill or an enquiry did; nothing is recorded by it."""
        question = self.session.question()
        if isinstance(question, (WorkOrder, StagedWork)) and content.get("do") == "pick":
            self.widget.told = self._told(content.get("picked"))
            begun_rows.keep(self.session, content.get("picked"))
        if isinstance(question, Enquiry) and content.get("do") == "ask":
            key = content.get("key")
            if key in {o.key for o in question.observations}:
                shown = self.widget.told.get("shown", {})
                self.widget.told = {"shown": {**shown, key: question.shown(str(key))}}

    def _told(self, row: object) -> dict[str, Any]:
        """Return what is said of a row so far: nothing in a class that is told after the hand-in."""
        question = self.session.question()
        if self.session.withheld or not isinstance(question, (WorkOrder, StagedWork)):
            return {}
        return begun_rows.told(question, row)

    def _act(self, content: dict[str, Any]) -> str:
        question = self.session.question()
        if content.get("do") == "answer":
            pulls = isinstance(question, Tightening)
            answer = content.get("pulls", self.widget.pulls) if pulls else content.get("answer")
            return _take(self.session, answer, "drill" if isinstance(question, _DRILLS) else "form")
        if content.get("do") == "again" and (self.session.right or self.session.closed):
            self._again()
        return ""

    def _again(self) -> None:
        self.session.again()
        question = self.session.question()
        for name in ("pulls",) if isinstance(question, Tightening) else ("picked", "told", "step"):
            if self.widget.has_trait(name):
                setattr(self.widget, name, type(getattr(self.widget, name))())
        self.widget.spec = self._spec()

    def _say(self, note: str) -> None:
        from bitepoint.page.widgets.common import said

        tone, word, text = self.session.feedback()
        finished = self.session.right or self.session.closed
        self.n += 1
        words = "\n\n".join(part for part in (f"{word} {text}".strip(), note) if part)
        text = note if note and not finished else words
        self.widget.said = said(self.n, "note" if note else tone, text, closed=finished, again=finished)
