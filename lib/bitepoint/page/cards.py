"""The static card of an exercise: question, answer as understood, verdict. It stands on its own without any control."""

from html import escape

from msgspec import structs

from bitepoint import pictures
from bitepoint.page import html, output
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.enquiry import Enquiry
from bitepoint.questions.keys import letters_for
from bitepoint.questions.number import Number
from bitepoint.questions.order import Order
from bitepoint.questions.question import Question, shown_number
from bitepoint.questions.region import Region
from bitepoint.questions.spots import Spots
from bitepoint.questions.staged_work import GO_ON, StagedWork
from bitepoint.questions.sweep import Sweep
from bitepoint.questions.tightening import Tightening
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.vehicles import FRAME

MIME = "application/vnd.bitepoint.record+json"
WAKE = "No form below? Click here, then press Shift and Enter."


class Card:
    """What a notebook shows of an exercise; redrawn from the session each time it is asked for."""

    def __init__(self, session: ExerciseSession, note: str = "") -> None:
        self.session, self.note = session, note

    def __repr__(self) -> str:
        tone, word, _ = self.session.feedback()
        return f"{self.session.exercise.title}: {word if tone else 'not answered yet'}"

    def _repr_mimebundle_(self, include: object = None, exclude: object = None) -> dict[str, object]:
        bundle: dict[str, object] = {"text/plain": repr(self), "text/html": card_html(self.session, self.note)}
        lines = [line.text for line in self.session.lines] if self.session.identity.kept else []
        if lines:
            bundle[MIME] = {"lines": lines}
        return bundle


def card_html(session: ExerciseSession, note: str = "") -> str:
    """Return the card as HTML."""
    question = session.question()
    parts = [
        f'<div style="font-size:13px;opacity:0.8">{escape(_head(session))}</div>',
        f'<h3 style="margin:2px 0 6px;font-size:18px">{escape(session.exercise.title)}</h3>',
        html.frame(FRAME) if question.vehicle else "",
        html.paragraphs(question.ask),
        html.table(question.table) if question.table else "",
        _picture(question),
        _offer(question),
        _verdict(session),
        html.panel("note", "Note.", html.paragraphs(note)) if note else "",
        _foot(session, question),
    ]
    return html.card("".join(parts), edge=_edge(session))


def _head(session: ExerciseSession) -> str:
    turn = f" · turn {session.turn}" if session.turn > 1 else ""
    deeper = " · go deeper" if session.exercise.beyond else ""
    who = "" if session.identity.kept else " · practice learner, nothing is kept"
    return f"Exercise {session.exercise.id} · about {session.exercise.minutes:g} min{deeper}{turn}{who}"


def _edge(session: ExerciseSession) -> str:
    tone = session.feedback()[0]
    return {"right": "#0072b2", "not yet": "#d55e00"}.get(tone, "#767676")


def _picture(question: Question) -> str:
    if question.picture is None:
        return ""
    drawing = pictures.draw(question.picture.key, **question.picture.parameters)
    width = drawing.width_px
    if isinstance(question, Tightening):
        # The drill draws the ring once more, large and live; here it only shows the numbers.
        width = 320
    elif isinstance(question, (Region, Spots)) and output.page_watches():
        width = min(480, width)  # its places are pointed at on the large one right below
    figure = html.figure(structs.replace(drawing, width_px=width))
    return _all_at_once(figure) if isinstance(question, Sweep) else figure


def _all_at_once(figure: str) -> str:
    """Fold away every reading of a sweep where the learner takes them one by one right below."""
    opened = "" if output.page_watches() else " open"
    summary = '<summary style="padding:6px 0;cursor:pointer">All readings in one picture, if there is nothing to turn below</summary>'
    return f"<details{opened}>{summary}{figure}</details>"


def _offer(question: Question) -> str:
    """Return what is on offer, so that an answer can be typed without the form."""
    if isinstance(question, (Choice, Several)):
        return _lettered([o.text for o in question.options])
    if isinstance(question, Order):
        return _lettered(list(question.steps))
    if isinstance(question, WorkOrder):
        return _bench(question)
    if isinstance(question, StagedWork):
        return _benches(question)
    if isinstance(question, Enquiry):
        return _case(question)
    if isinstance(question, (Region, Spots)):
        return _places(question)
    if isinstance(question, Tightening) and len(question.stages) > 1:
        return _stages(question)
    return ""


def _places(question: Region | Spots) -> str:
    """Return the places with their keys, unless each is called by its letter alone: the picture shows that."""
    if all(spot.label.casefold() == f"place {spot.key}" for spot in question.spots):
        return ""
    return html.table([("Key", "Place"), *((spot.key, spot.label) for spot in question.spots)])


def _lettered(texts: list[str]) -> str:
    items = "".join(
        f'<p style="margin:4px 0 4px 1.6em;text-indent:-1.6em"><b>{k}</b>&nbsp; {escape(text)}</p>'
        for k, text in zip(letters_for(len(texts)), texts, strict=True)
    )
    return f'<div style="margin:8px 0">{items}</div>'


def _bench(question: WorkOrder) -> str:
    """Return the parts of the job, what is done, and the bench as a lettered list."""
    stages = html.table([("Part of the job", "State"), *((s.title, s.state) for s in question.stages)])
    done = html.paragraphs("Done already:\n" + "\n".join(f"✓ {text}" for text in question.done))
    bench = html.paragraphs("On the bench:") + _lettered([card.text for card in question.cards])
    return (stages if question.stages else "") + (done if question.done else "") + bench


def _benches(question: StagedWork) -> str:
    """Return the bench of each stage, folded away: they are needed only by who types the answer."""
    folded = "".join(
        f'<details style="margin:2px 0 2px 14px"><summary>{number}. {escape(part.title)}, {len(part.cards)} cards</summary>'
        f"{_lettered([card.text for card in part.cards])}</details>"
        for number, part in enumerate(question.parts, start=1)
    )
    return f"<details><summary>All benches, to answer by typing</summary>{folded}</details>"


def _case(question: Enquiry) -> str:
    """Return what is known, what can be asked for and the possible causes; never what an observation shows."""
    known = [(o.label, o.shows) for o in question.observations if o.key in question.free]
    asks = [(o.key, o.label) for o in question.observations if o.key not in question.free]
    facts = html.table([question.heads, *known]) if known else ""
    table = html.table([("Ask", question.heads[0]), *asks])
    causes = [(s.key, s.label) for s in question.suspects]
    word = question.cause.capitalize()
    if all(label.casefold() == key for key, label in causes):
        return facts + table + html.paragraphs(f"{word}: one of {', '.join(label for _, label in causes)}.")
    return facts + table + html.table([(word, "Meaning"), *causes])


def _stages(question: Tightening) -> str:
    rows = [("Stage", "What the sheet asks")]
    for stage in question.stages:
        rows.append((stage.key, stage.label))
    fitted = question.fitted.label
    extra = html.paragraphs(f"Fitted to the torque wrench: {fitted}.") if fitted else ""
    return html.table(rows) + extra


def _verdict(session: ExerciseSession) -> str:
    tone, word, text = session.feedback()
    if not tone:
        return html.paragraphs("not answered yet")
    last = session.answers(session.turn)[-1]
    understood = f'<p style="margin:8px 0 0">Your answer, as understood: <b>{escape(last.verdict.understood)}</b></p>'
    return understood + html.panel(tone, word, html.paragraphs(text))


def _foot(session: ExerciseSession, question: Question) -> str:
    turn = f", turn={session.turn}" if session.turn > 1 else ""
    typed = f"ask({session.exercise.id!r}, {_typed_example(question)}{turn})"
    return (
        f'<p style="margin:10px 0 0;font-size:13px;opacity:0.85">{escape(WAKE)} '
        f"You can also type an answer in a code cell: <code>{escape(typed)}</code></p>"
    )


def _typed_example(question: Question) -> str:
    if isinstance(question, Number):
        return repr(f"{shown_number(1.5 if question.unit != '' else 3)} {question.unit}".strip())
    if isinstance(question, Choice):
        return "'a'"
    if isinstance(question, Several):
        return "'a b'"
    if isinstance(question, Order):
        return repr(" ".join(letters_for(len(question.steps))))
    if isinstance(question, WorkOrder):
        return repr(f"{' '.join(letters_for(min(3, len(question.cards))))} …")
    if isinstance(question, StagedWork):
        first = (letters_for(min(2, len(part.cards))) for part in question.parts)
        return repr(f"{f' {GO_ON} '.join(' '.join(row) for row in list(first)[:2])} {GO_ON} …")
    if isinstance(question, Enquiry):
        return repr(question.right_form())
    if isinstance(question, Spots):
        return repr(" ".join(s.key for s in question.spots[:2]))
    if isinstance(question, Region):
        return repr(question.spots[0].key)
    if isinstance(question, Tightening) and len(question.stages) > 1:
        stages = "; ".join(f"{s.key}{' at … N·m' if s.needs_setting else ''}: 1 2 …" for s in question.stages)
        return repr(stages)
    return "[1, 2, …]"
