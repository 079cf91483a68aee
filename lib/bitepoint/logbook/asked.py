"""What a line says of the question that was asked, so that it can be drawn again as it was."""

from collections.abc import Sequence
from typing import Any

from bitepoint.bank.version import bank_digest
from bitepoint.questions.draw import STANDARD
from bitepoint.questions.question import Question


def asked_fields(question: Question, turn: int, cars: Sequence[str] = STANDARD) -> dict[str, Any]:
    """Return the fields of a line that name the question of a turn.

    `facts` and `words` are the digests of what decides its mark and of all that was read, `vehicle` the learner's car,
    `cars` the class's cars where they are not the standard ones, `edition` that of the set of data sheets, `bank` the
    digest of the whole bank.
    """
    among = {} if tuple(cars) == STANDARD else {"cars": " ".join(cars)}
    return {
        "exercise": question.exercise,
        "revision": question.revision,
        "turn": turn,
        "facts": question.facts_digest(),
        "words": question.words_digest(),
        "vehicle": question.own_vehicle,
        "edition": question.sheets,
        "bank": bank_digest(),
        **among,
    }


REHEARSED = {"words": "", "bank": "rehearsed"}
"""What an invented line says of words and bank: nothing, so that a bettered sentence changes no rehearsed class."""
