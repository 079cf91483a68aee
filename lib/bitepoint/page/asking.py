"""The verb `ask`: a question, a form to answer it, the last verdict from the logbook."""

from threading import Lock
from typing import Any

from bitepoint.bank import exercise_named
from bitepoint.errors import BitepointError, NotUnderstood
from bitepoint.page import shell, working
from bitepoint.page.cards import Card
from bitepoint.page.desk import Desk
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
        desk = Desk(exercise_named(exercise), shell.who_asks())
    except BitepointError as error:
        shell.say(error)
        return
    asked.append(desk.exercise.lesson)
    note = "" if answer is _NOTHING or answer is None or answer is ... else _take(desk, answer, "typed", turn)
    if turn is not None and answer is _NOTHING and turn >= 1:
        desk.turn = turn
    redraw = shell.show_static(Card(desk, note))
    if shell.page_watches():
        _Control(desk, redraw).show()


def _take(desk: Desk, answer: object, how: str, turn: int | None = None) -> str:
    """Record an answer; return what to say when that was not possible."""
    try:
        question = desk.question(turn)
        if how == "typed" and isinstance(question, Enquiry) and isinstance(answer, str) and ">" not in answer:
            return _observed(question, answer)
        desk.answer(answer, how=how, turn=turn)
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
    """Ties a live control to a desk: hears answers, says verdicts, redraws the card."""

    def __init__(self, desk: Desk, redraw: Any) -> None:
        self.desk, self.redraw, self.n = desk, redraw, 0
        self._one_at_a_time = Lock()
        self.widget = self._widget()
        self.widget.on_msg(self._heard)
        self._say("")

    def _widget(self) -> Any:
        from bitepoint.page import widgets

        question, spec = self.desk.question(), self._spec()
        if isinstance(question, Tightening):
            return widgets.BoltCircle(spec=spec, pulls=[], said={})
        if isinstance(question, (WorkOrder, StagedWork)):
            row = working.begun(self.desk)
            return widgets.WorkBench(spec=spec, picked=row, told=self._told(row) if row else {}, said={})
        if isinstance(question, Sweep):
            return widgets.SweepForm(spec=spec, told={}, said={}, step={})
        return widgets.AnswerForm(spec=spec, told={}, said={})

    def _spec(self) -> dict[str, Any]:
        from bitepoint.page import specs

        question, title = self.desk.question(), self.desk.exercise.title
        if isinstance(question, Tightening):
            return specs.drill_spec(question, title)
        if isinstance(question, WorkOrder):
            return specs.work_spec(question, title, at_once=not self.desk.withheld)
        if isinstance(question, StagedWork):
            return specs.staged_spec(question, title, at_once=not self.desk.withheld)
        return specs.form_spec(question, title)

    def show(self) -> None:
        shell.show_live(self.widget)

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
            self.redraw(Card(self.desk, note))

    def _tell(self, content: dict[str, Any]) -> None:
        """Say what one step of a drill or an enquiry did; nothing is recorded by it."""
        question = self.desk.question()
        if isinstance(question, (WorkOrder, StagedWork)) and content.get("do") == "pick":
            self.widget.told = self._told(content.get("picked"))
            working.keep(self.desk, content.get("picked"))
        if isinstance(question, Enquiry) and content.get("do") == "ask":
            key = content.get("key")
            if key in {o.key for o in question.observations}:
                shown = self.widget.told.get("shown", {})
                self.widget.told = {"shown": {**shown, key: question.shown(str(key))}}

    def _told(self, row: object) -> dict[str, Any]:
        """Return what is said of a row so far: nothing in a class that is told after the hand-in."""
        question = self.desk.question()
        if self.desk.withheld or not isinstance(question, (WorkOrder, StagedWork)):
            return {}
        return working.told(question, row)

    def _act(self, content: dict[str, Any]) -> str:
        question = self.desk.question()
        if content.get("do") == "answer":
            pulls = isinstance(question, Tightening)
            answer = content.get("pulls", self.widget.pulls) if pulls else content.get("answer")
            return _take(self.desk, answer, "drill" if isinstance(question, _DRILLS) else "form")
        if content.get("do") == "again" and (self.desk.right or self.desk.closed):
            self._again()
        return ""

    def _again(self) -> None:
        self.desk.again()
        question = self.desk.question()
        for name in ("pulls",) if isinstance(question, Tightening) else ("picked", "told", "step"):
            if self.widget.has_trait(name):
                setattr(self.widget, name, type(getattr(self.widget, name))())
        self.widget.spec = self._spec()

    def _say(self, note: str) -> None:
        from bitepoint.page.widgets.common import said

        tone, word, text = self.desk.feedback()
        finished = self.desk.right or self.desk.closed
        self.n += 1
        words = "\n\n".join(part for part in (f"{word} {text}".strip(), note) if part)
        text = note if note and not finished else words
        self.widget.said = said(self.n, "note" if note else tone, text, closed=finished, again=finished)
