"""Order of work from one bench."""

from functools import partial

from markupsafe import Markup

from bitepoint.page import html
from bitepoint.page.kinds import bench
from bitepoint.page.kinds.form import options
from bitepoint.page.kinds.options import offered
from bitepoint.page.kinds.view import KindView, Spec
from bitepoint.questions.keys import letters_for
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.vehicles import frame_of


def _offer(question: WorkOrder) -> Markup:
    """Return the parts of the job, what is done, and the bench as a lettered list."""
    parts = []
    if question.stages:
        parts.append(html.table([("Part of the job", "State"), *((s.title, s.state) for s in question.stages)]))
    if question.done:
        parts.append(html.paragraphs("Done already:\n" + "\n".join(f"✓ {text}" for text in question.done)))
    return html.joined([*parts, html.paragraphs("On the bench:"), offered(question)])


def _typed(question: WorkOrder) -> str:
    return repr(f"{' '.join(letters_for(min(3, len(question.cards))))} …")


def _spec(question: WorkOrder, title: str, at_once: bool) -> Spec:
    """Return the spec of the bench of work cards."""
    return {
        "title": title,
        "cards": options(kind_of(question).offered(question)),
        "done": list(question.done),
        "stages": [{"title": s.title, "state": s.state} for s in question.stages],
        "at_once": at_once,
        "frame": frame_of(question.vehicle),
    }


def _judge(question: WorkOrder, row: list[str]) -> bench.Told:
    return {"picks": [bench.said(pick) for pick in question.picks(row, sent_back=True)]}


VIEW = KindView(
    question=WorkOrder,
    offer=_offer,
    typed=_typed,
    spec=_spec,
    control=partial(bench.control, _judge),
    fresh=bench.FRESH,
    record=bench.record,
    tell=partial(bench.tell, _judge),
    begun=bench.begun(_judge),
)
