"""One row a kind of question: what marking, the classroom and the page ask about a question without knowing its kind.

How a kind is read and marked stands in a module of its own beside this one, how it shows in a notebook in `page/kinds/`.
"""

from collections.abc import Callable
from random import Random
from typing import Any, Literal

from msgspec import Struct

from bitepoint.questions import partly_wrong
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.enquiry import Enquiry
from bitepoint.questions.keys import letters_for
from bitepoint.questions.number import Number
from bitepoint.questions.order import Order
from bitepoint.questions.partly_wrong import Decided
from bitepoint.questions.question import Question
from bitepoint.questions.region import Region
from bitepoint.questions.spots import Spots
from bitepoint.questions.staged_work import StagedWork
from bitepoint.questions.sweep import Sweep
from bitepoint.questions.tightening import Tightening
from bitepoint.questions.work_order import WorkOrder

Interaction = Literal["numeric", "choice", "sequencing", "other"]
Offered = list[tuple[str, str]]


def _nothing(question: Question) -> list[Any]:
    return []


def _no_figure(question: Question) -> None:
    return None


def _known_mistakes_only(question: Question, rng: Random) -> None:
    return None


def _as_understood(answer: str) -> str:
    return answer


def _without_letter(answer: str) -> str:
    letter, colon, text = answer.partition(": ")
    return text if colon and len(letter) == 1 else answer


class Kind(Struct, frozen=True, kw_only=True):
    """What has to be known of a kind.

    `name` is what its questions say of themselves and marks.jsonl repeats. `interaction`: its interactionType in
    xAPI 1.0.3. `how` its live control answers, in a line's word. `offered`: what a learner chooses from, with the keys
    for it. `read`: what is read before answering, beside question and table. `judged`: the options of a choice, each with whether it is right. `aloud`: an answer as understood, as one
    says it face to face. `figure`: the question where it asks for a figure that could be another learner's.
    `slip`: a wrong answer that is no known mistake, or None.
    """

    question: type[Question]
    name: str
    interaction: Interaction
    how: Literal["form", "drill"]
    offered: Callable[[Any], Offered]
    read: Callable[[Any], list[str]] = _nothing
    judged: Callable[[Any], list[tuple[str, bool]]] = _nothing
    aloud: Callable[[str], str] = _as_understood
    figure: Callable[[Any], Number | None] = _no_figure
    slip: Callable[[Any, Random], Decided | None] = _known_mistakes_only


def _itself(question: Number) -> Number:
    return question


def _option_texts(question: Choice | Several) -> list[str]:
    return [option.text for option in question.options]


def _judged_options(question: Choice | Several) -> list[tuple[str, bool]]:
    return [(option.text, option.right) for option in question.options]


def _steps(question: Order) -> list[str]:
    return list(question.steps)


def _lettered(texts: list[str]) -> Offered:
    return list(zip(letters_for(len(texts)), texts, strict=True))


def _places(question: Region | Spots) -> Offered:
    return [(spot.key, spot.label) for spot in question.spots]


def _cards_of_every_stage(question: StagedWork) -> Offered:
    return [
        (f"{number}: {letter}", text)
        for number, part in enumerate(question.parts, start=1)
        for letter, text in _lettered([card.text for card in part.cards])
    ]


def _observations_and_causes(question: Enquiry) -> Offered:
    asked = [(o.key, o.label) for o in question.observations if o.key not in question.free]
    return asked + [(s.key, s.label) for s in question.suspects]


_ROWS = (
    Kind(
        question=Number,
        name="number",
        interaction="numeric",
        how="form",
        offered=_nothing,
        figure=_itself,
        slip=partly_wrong.slip_of_the_calculator,
    ),
    Kind(
        question=Sweep,
        name="number",
        interaction="numeric",
        how="form",
        offered=_nothing,
        figure=_itself,
    ),
    Kind(
        question=Choice,
        name="choice",
        interaction="choice",
        how="form",
        offered=lambda question: _lettered(_option_texts(question)),
        read=_option_texts,
        judged=_judged_options,
        aloud=_without_letter,
    ),
    Kind(
        question=Several,
        name="several",
        interaction="choice",
        how="form",
        offered=lambda question: _lettered(_option_texts(question)),
        read=_option_texts,
        judged=_judged_options,
        slip=partly_wrong.some_picks,
    ),
    Kind(
        question=Order,
        name="order",
        interaction="sequencing",
        how="form",
        offered=lambda question: _lettered(_steps(question)),
        read=_steps,
    ),
    Kind(
        question=Enquiry,
        name="enquiry",
        interaction="other",
        how="form",
        offered=_observations_and_causes,
    ),
    Kind(
        question=Region,
        name="region",
        interaction="choice",
        how="form",
        offered=_places,
    ),
    Kind(
        question=Spots,
        name="spots",
        interaction="choice",
        how="form",
        offered=_places,
        slip=partly_wrong.one_overlooked,
    ),
    Kind(
        question=Tightening,
        name="tightening",
        interaction="sequencing",
        how="drill",
        offered=_nothing,
    ),
    Kind(
        question=WorkOrder,
        name="workorder",
        interaction="sequencing",
        how="drill",
        offered=lambda question: _lettered([card.text for card in question.cards]),
        slip=partly_wrong.one_wrong_card,
    ),
    Kind(
        question=StagedWork,
        name="stagedwork",
        interaction="other",
        how="drill",
        offered=_cards_of_every_stage,
        slip=partly_wrong.one_wrong_card_of_a_stage,
    ),
)
KINDS: dict[type[Question], Kind] = {row.question: row for row in _ROWS}
_INTERACTIONS = {row.name: row.interaction for row in _ROWS}


def kind_of(question: Question) -> Kind:
    """Return the row of a question's kind."""
    return KINDS[type(question)]


def interaction(name: str) -> Interaction:
    """Return the interaction of a kind by the name that marks.jsonl has for it; "other" where there is none."""
    return _INTERACTIONS.get(name, "other")
