"""Cards, rules and the strip of an order-of-work drill, made from the operations of the job."""

from collections.abc import Sequence
from typing import Any

from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before
from bitepoint.questions.staged_work import WorkPart
from bitepoint.questions.work_order import WorkCard, WorkOrder, WorkStage
from bitepoint.workshop.datafiles import kept_a_set, once_a_set
from bitepoint.workshop.operations import job, never, operation, rules_among
from bitepoint.workshop.precedence import Rule

_MOST_BENCHES = 256
"""Benches that are kept: a few for each car."""
_LATER = "That belongs to a later part of the job. Done now, it closes or hides what is still open."


@kept_a_set(_MOST_BENCHES)
def rules_of(ids: tuple[str, ...]) -> tuple[Before, ...]:
    """Return the job's rules among these operations, with the words of their buttons."""
    return tuple(
        Before(
            operation(r.before).short,
            operation(r.after).short,
            _spoken(_reasons(r)),
            r.kind,
            r.critical,
            (r.before, r.after),
        )
        for r in rules_among(ids)
        if r.kind != "never"
    )


def _reasons(rule: Rule) -> str:
    """Return the reasons of a rule alone: what lies between its two steps is on no bench of this drill."""
    return rule.because.partition(" between them: ")[2] if rule.via else rule.because


def _spoken(because: str) -> str:
    """Return a reason as short sentences: each half of a long one for itself."""
    first, *rest = because.split("; ")
    return ". ".join([first, *(f"{part[0].upper()}{part[1:]}" for part in rest)]) + "."


@kept_a_set(_MOST_BENCHES)
def own_cards(ids: tuple[str, ...]) -> tuple[WorkCard, ...]:
    """Return the cards of operations that belong to the drill, keyed by the operation."""
    return tuple(WorkCard(operation(name).short, key=name) for name in ids)


def work_order(draw: Draw, ids: Sequence[str], *, strangers: Sequence[WorkCard], **common: Any) -> WorkOrder:
    """Return the drill of these operations, given in one safe order, its cards in a drawn order."""
    own = own_cards(tuple(ids))
    example = tuple(card.text for card in own)
    return WorkOrder(
        cards=tuple(draw.shuffle([*own, *strangers])),
        rules=rules_of(tuple(ids)),
        example=example,
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="common-practice",
        **common,
    )


def work_part(
    draw: Draw, title: str, ids: Sequence[str], *, strangers: Sequence[WorkCard], routine: Sequence[str] = ()
) -> WorkPart:
    """Return a stage of the whole job with these operations, given in one safe order, its cards in a drawn order."""
    own = own_cards(tuple(ids))
    cards = draw.shuffle([*own, *strangers])
    shown = tuple(operation(name).short for name in routine)
    return WorkPart(title, tuple(cards), tuple(card.text for card in own), shown)


def never_cards(names: Sequence[str]) -> list[WorkCard]:
    """Return cards of what is never done, with the reason."""
    return [card for name in names if (card := _never_card(name))]


@once_a_set
def _never_card(name: str) -> WorkCard | None:
    known = never(name)
    if known is None:
        return None
    return WorkCard(known.text, belongs=False, says=f"That is never done: {known.because}.", never=True, key=name)


def later_card(name: str, says: str = _LATER) -> WorkCard:
    """Return the card of an operation that belongs to a later part of the job; `says` answers who picks it."""
    return WorkCard(
        operation(name).short,
        belongs=False,
        says=says,
        key=name,
    )


def earlier_card(name: str) -> WorkCard:
    """Return the card of an operation that was done in an earlier part of the job and would undo the work now."""
    stage = next(stage.title for stage in job().stages if stage.id == operation(name).stage)
    says = f"That was done in “{stage}”. Done again now, it takes apart what you have built since."
    return WorkCard(operation(name).short, belongs=False, says=says, key=name)


@once_a_set
def strip_at(stage: str) -> tuple[WorkStage, ...]:
    """Return the strip of the whole job for a drill that works this stage of it."""
    ids = [known.id for known in job().stages]
    at = ids.index(stage)
    return tuple(
        WorkStage(known.title, "done" if place < at else "now" if place == at else "to come")
        for place, known in enumerate(job().stages)
    )
