"""The whole job, bench after bench."""

from functools import partial

from markupsafe import Markup

from bitepoint.page import html
from bitepoint.page.kinds import bench
from bitepoint.page.kinds.form import options
from bitepoint.page.kinds.view import KindView, Spec
from bitepoint.questions.keys import letters_for
from bitepoint.questions.staged_work import GO_ON, StagedWork, WorkPart
from bitepoint.workshop.vehicles import frame_of


def _cards(part: WorkPart) -> list[tuple[str, str]]:
    return list(zip(letters_for(len(part.cards)), (card.text for card in part.cards), strict=True))


def _offer(question: StagedWork) -> Markup:
    """Return the bench of each stage, folded away: they are needed only by who types the answer."""
    benches = [
        (f"{number}. {part.title}, {len(part.cards)} cards", _routine(part), html.lettered(_cards(part)))
        for number, part in enumerate(question.parts, start=1)
    ]
    return html.render("kinds/benches.html.jinja", benches=benches)


def _routine(part: WorkPart) -> str:
    """Return what the partner does in this stage, as a line; nothing where nobody does."""
    return f"Your partner does, where it belongs: {'; '.join(part.routine)}." if part.routine else ""


def _typed(question: StagedWork) -> str:
    rows = [" ".join(letters_for(min(2, len(part.cards)))) for part in question.parts[:2]]
    return repr(f"{f' {GO_ON} '.join(rows)} {GO_ON} …")


def _spec(question: StagedWork, title: str, at_once: bool) -> Spec:
    """Return the spec of the same bench, one for each stage; `own` is how many cards belong there."""
    benches = [
        {"title": part.title, "cards": options(_cards(part)), "own": len(part.example), "routine": _routine(part)}
        for part in question.parts
    ]
    return {"title": title, "benches": benches, "at_once": at_once, "frame": frame_of(question.vehicle)}


def _judge(question: StagedWork, row: list[str]) -> bench.Told:
    """Say also whether the open stage has all its cards, and then why the others do not belong there."""
    work = question.work(row, sent_back=True)
    stage = row.count(GO_ON)
    picks = [bench.said(pick) for picks in work.picks for pick in picks]
    for at in (place for place, token in enumerate(row) if token == GO_ON):
        picks.insert(at, {"letter": GO_ON, "safe": True, "says": ""})
    finished = not work.left[stage]
    strangers = [bench.said(pick) for pick in question.strangers(stage)] if finished else []
    return {"picks": picks, "finished": finished, "strangers": strangers}


VIEW = KindView(
    question=StagedWork,
    offer=_offer,
    typed=_typed,
    spec=_spec,
    control=partial(bench.control, _judge),
    fresh=bench.FRESH,
    record=bench.record,
    tell=partial(bench.tell, _judge),
    begun=bench.begun(_judge),
)
