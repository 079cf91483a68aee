"""The static card of an exercise: question, answer as understood, verdict. It stands on its own without any control."""

from collections.abc import Sequence

from markupsafe import Markup

from bitepoint import pictures
from bitepoint.page import html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import KindView, view_of
from bitepoint.questions.question import Question
from bitepoint.workshop.vehicles import frame_of

MIME = "application/vnd.bitepoint.record+json"
WAKE = "No form below? Click here, then press Shift and Enter."


class Card:
    """What a notebook shows of an exercise; redrawn from the session each time it is asked for."""

    def __init__(self, session: ExerciseSession, note: str = "") -> None:
        self.session, self.note = session, note

    def __repr__(self) -> str:
        tone, word, _ = self.session.feedback()
        return f"{self.session.exercise.title}: {word.replace(':', '.') if tone else 'not answered yet'}"

    def _repr_mimebundle_(self, include: object = None, exclude: object = None) -> dict[str, object]:
        bundle: dict[str, object] = {"text/plain": repr(self), "text/html": str(card_html(self.session, self.note))}
        lines = [line.text for line in self.session.lines] if self.session.identity.kept else []
        if lines:
            bundle[MIME] = {"lines": lines}
        return bundle


def card_html(
    session: ExerciseSession,
    note: str = "",
    *,
    head: str = "",
    below: Sequence[tuple[str, str, str]] = (),
    can_be_typed: bool = True,
) -> Markup:
    """Return the card as HTML; `below` the verdict panels of tone, leading word and text, `head` in place of the lesson's own."""
    question, view = session.question(), view_of(session.question())
    tone, word, text = session.feedback()
    return html.render(
        "card.html.jinja",
        state=_state(session, tone),
        head=head or _head(session),
        title=session.exercise.title,
        above=_above(session),
        aside=session.other_car,
        frame=frame_of(question.vehicle),
        ask=question.ask,
        table=question.table,
        table_under=question.table_under,
        picture=_picture(question, view),
        drawn=view.draws,
        offer=view.offer(question),
        tone=tone,
        word=word,
        text=text,
        understood=session.understood if tone else "",
        below=below,
        note=note,
        wake=WAKE,
        can_be_typed=can_be_typed,
        typed_is="open the corrected question" if session.dangerous else "type an answer",
        typed_as=question.typed_as,
        typed=_typed_example(session, view.typed(question)),
    )


def _state(session: ExerciseSession, tone: str) -> str:
    """Return the state that the card's frame shows."""
    if session.dangers_open:
        return "danger"
    if session.dangerous:
        return "not yet"
    return tone if tone in ("right", "not yet", "danger") else ""


def _above(session: ExerciseSession) -> tuple[tuple[str, str, str], ...]:
    """Return what stands above a question that is not asked any more as it was: tone, leading words and text."""
    found, gone = session.correction, session.withdrawal
    lost = session.of_other_questions
    above = []
    if found and found.dangerous:
        says = f"Doing as the question below says could hurt someone. {found.what} Take the corrected question."
        above.append(("not yet", f"Corrected on {found.date.isoformat()}: do not follow it.", says))
    elif found:
        says = f"{found.what} Your answer stays as it was marked; the corrected question comes with new figures."
        above.append(("note", f"Corrected on {found.date.isoformat()}.", says))
    if gone:
        says = (
            f"{gone.why} You need not answer it any more. Results are worked out with it and without it, and the better "
            "counts."
        )
        above.append(("note", f"Withdrawn on {gone.date.isoformat()}.", says))
    if lost:
        many = "One earlier answer belongs" if lost == 1 else f"{lost} earlier answers belong"
        says = f"{many} to a question that this version does not ask. Nothing is lost: it stays in your logbook."
        above.append(("note", "Kept.", says))
    if session.still_open and not session.answers(session.turn):
        above.append(("danger", "", session.still_open))
    return tuple(above)


def _head(session: ExerciseSession) -> str:
    turn = f" · turn {session.turn}" if session.turn > 1 else ""
    deeper = " · go deeper" if session.exercise.beyond else ""
    who = "" if session.identity.kept else " · practice learner, nothing is kept"
    return f"Exercise {session.exercise.id} · about {session.exercise.minutes:g} min{deeper}{turn}{who}"


def _picture(question: Question, view: KindView) -> Markup:
    if question.picture is None:
        return html.NOTHING
    return view.figure(pictures.draw(question.picture.key, **question.picture.parameters))


def _typed_example(session: ExerciseSession, answer: str) -> str:
    if session.dangerous:
        return f"ask({session.exercise.id!r}, turn={session.turn + 1})"
    turn = f", turn={session.turn}" if session.turn > 1 else ""
    return f"ask({session.exercise.id!r}, {answer}{turn})"
