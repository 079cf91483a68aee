"""Ask for one observation after the other, then name the cause."""

from typing import Any

from markupsafe import Markup

from bitepoint.errors import NotUnderstood
from bitepoint.page import html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import form
from bitepoint.page.kinds.view import Begun, KindView, Message, Spec, as_understood
from bitepoint.questions.enquiry import Enquiry


def _offer(question: Enquiry) -> Markup:
    """Return what is known, what can be asked for and the possible causes; never what an observation shows."""
    known = [(o.label, o.shows) for o in question.observations if o.key in question.free]
    asks = [(o.key, o.label) for o in question.observations if o.key not in question.free]
    parts = [html.table([question.heads, *known])] if known else []
    return html.joined([*parts, html.table([("Ask", question.heads[0]), *asks]), _causes(question)])


def _causes(question: Enquiry) -> Markup:
    causes = [(s.key, s.label) for s in question.suspects]
    word = question.cause.capitalize()
    if all(label.casefold() == key for key, label in causes):
        return html.paragraphs(f"{word}: one of {', '.join(label for _, label in causes)}.")
    return html.table([(word, "Meaning"), *causes])


def _typed(question: Enquiry) -> str:
    return repr(question.right_form())


def _spec(question: Enquiry, title: str, at_once: bool) -> Spec:
    return form.form_spec(
        question,
        title,
        options=[{"key": o.key, "text": o.label} for o in question.observations if o.key not in question.free],
        causes=[{"key": s.key, "text": s.label} for s in question.suspects],
        heads=list(question.heads),
        cause=question.cause,
        whole=question.whole,
        known=[{"text": o.label, "shows": o.shows} for o in question.observations if o.key in question.free],
    )


def _tell(widget: Any, session: ExerciseSession, message: Message) -> None:
    """Show one observation; it is a fact of the case, so every class sees it."""
    question: Any = session.question()
    key = message.get("key")
    if message.get("do") == "ask" and key in {o.key for o in question.observations}:
        widget.told = {"shown": {**widget.told.get("shown", {}), key: question.shown(str(key))}}


def _asked(told: Any) -> list[str]:
    return list(told.get("shown", ()))


def _resume(widget: Any, session: ExerciseSession, keys: Any) -> None:
    """Show again what was asked for: what it shows comes from the question, never from what was kept."""
    question: Any = session.question()
    asks = [o.key for o in question.observations if o.key not in question.free]
    if isinstance(keys, list) and len(keys) <= len(asks) and all(key in asks for key in keys):
        widget.told = {"shown": {key: question.shown(key) for key in keys}}


def _look(question: Enquiry, typed: object) -> str:
    """Return what the observations show that were typed without a cause yet: nothing is recorded by asking."""
    if not isinstance(typed, str) or ">" in typed:
        return ""
    labels = {o.key: o.label for o in question.observations}
    keys = list(dict.fromkeys(typed.casefold().split()))
    if not keys or not set(keys) <= set(labels):
        raise NotUnderstood(
            f"Ask for one or more of: {', '.join(labels)}. Or write what you asked for, then >, then the cause."
        )
    return "\n".join(f"{labels[k]}: {question.shown(k)}" for k in keys)


VIEW = KindView(
    question=Enquiry,
    offer=_offer,
    typed=_typed,
    spec=_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    record=as_understood,
    tell=_tell,
    look=_look,
    begun=Begun(trait="told", resume=_resume, kept=_asked, is_the_answer=False),
)
