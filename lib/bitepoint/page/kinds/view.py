"""What a kind of question must bring to show in a notebook."""

from collections.abc import Callable
from typing import Any

from markupsafe import Markup
from msgspec import Struct

from bitepoint.page import html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.pictures import Drawing
from bitepoint.questions.question import Question

Spec = dict[str, Any]
Message = dict[str, Any]


def nothing_offered(question: Question) -> Markup:
    """Return nothing: the words of the question say it all."""
    return html.NOTHING


def as_understood(question: Question, understood: str) -> str:
    """Return an answer in a record as it was understood."""
    return understood


def _nothing_to_see(question: Question, typed: object) -> str:
    return ""


def _nothing_told(widget: Any, session: ExerciseSession, message: Message) -> None:
    return None


def _nothing_marked(widget: Any, session: ExerciseSession) -> None:
    return None


def _answer(widget: Any, message: Message) -> object:
    return message.get("answer")


def _as_it_is(value: Any) -> Any:
    return value


class Begun(Struct, frozen=True, kw_only=True):
    """What of a control is kept before it is handed over, so that a reload or a restart finds it as it lay.

    `trait` is where it lies, `kept` what of it is kept; `resume` lays out what was kept. That comes from a file, so `resume`
    takes only what the question itself offers and leaves the control as it is where anything else is in it.
    `is_the_answer`: it is what is handed over, and forgotten then; readings and what was asked for stay true.
    """

    trait: str
    resume: Callable[[Any, ExerciseSession, Any], None]
    kept: Callable[[Any], Any] = _as_it_is
    is_the_answer: bool = True


class KindView(Struct, frozen=True, kw_only=True):
    """How a kind shows in a notebook; what has a default here is left out by most kinds.

    On the card: `offer` what is on offer, so that an answer can be typed; `typed` such an answer as an example, in
    Python; `figure` the picture. The control: `spec` what it is told of (question, title, whether this class is told
    at once), never anything about what is right; `control` makes the widget for a session and spec; `answer` finds the
    answer in its message; `draws` whether it shows the question's picture itself,
    `tells_understood` whether it says how a typed answer was read; `tell` says what one step did; `mark` shows in the
    control what the last answer did there; `begun` is what is kept of one not handed over; `fresh` names the traits that
    a new turn empties.
    `look`: what a typed text that is no answer yet shows, "" where it is one. `record`: an answer, as understood, in
    the words of a job record.
    """

    question: type[Question]
    offer: Callable[[Any], Markup]
    typed: Callable[[Any], str]
    spec: Callable[[Any, str, bool], Spec]
    control: Callable[[ExerciseSession, Spec], Any]
    fresh: tuple[str, ...]
    record: Callable[[Any, str], str]
    draws: bool = False
    tells_understood: bool = False
    figure: Callable[[Drawing], Markup] = html.figure
    look: Callable[[Any, object], str] = _nothing_to_see
    tell: Callable[[Any, ExerciseSession, Message], None] = _nothing_told
    mark: Callable[[Any, ExerciseSession], None] = _nothing_marked
    begun: Begun | None = None
    answer: Callable[[Any, Message], object] = _answer
