"""What the page of recall shows now: a question of a round, what a round came to, one for practice, or why nothing is asked."""

from datetime import datetime

from msgspec import Struct

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, practice_learner
from bitepoint.logbook.identity import SELF_STUDY, same_learner, same_name
from bitepoint.page.recall.going_round import GoingRound, local_date, new_round, round_under_way
from bitepoint.page.recall.recall_session import RecallSession
from bitepoint.page.recall.remembering import Remembered, remembered

EXAMPLE = "torque.crow-foot"
FOR_PRACTICE = "You work as the practice learner. Nothing of you is asked again, so nothing can be due."
FOR_NOBODY = "Nobody has said yet who works in this folder, and nothing is answered, so nothing can be due. Begin with the first lesson."
NOT_IN_A_SITTING = "This is a sitting. Recall tells right and wrong at once, so it waits until the sitting is over."
NOT_BEFORE_THE_HAND_IN = "Your class gets its feedback after the hand-in. Recall tells right and wrong at once, so there is none in this class."


class NotAsked(Struct, frozen=True):
    """Nobody is asked here, for a reason that is one sentence."""

    why: str


class Practice(Struct, frozen=True):
    """One question as an example, of which nothing is kept, and why it is no round."""

    session: RecallSession
    why: str


class NothingDue(Struct, frozen=True):
    """Nothing is due, or nothing was learned yet."""

    learned: Remembered


class Asking(Struct, frozen=True):
    """A question of a round is in view, answered or not."""

    round: GoingRound
    session: RecallSession

    @property
    def number(self) -> int:
        """Which question of the round it is, from 1."""
        return self.round.kept.at + 1

    @property
    def of(self) -> int:
        """How many the round has."""
        return len(self.round.sessions)


class Ended(Struct, frozen=True):
    """A round is over, with what is remembered after it."""

    round: GoingRound
    learned: Remembered


Stage = NotAsked | Practice | NothingDue | Asking | Ended


def stage_of(identity: Identity, clock: datetime) -> Stage:
    """Return what to show; where something is due and no round is under way, one is begun."""
    if identity.sitting:
        return NotAsked(NOT_IN_A_SITTING)
    if identity.feedback == "after hand-in":
        return NotAsked(NOT_BEFORE_THE_HAND_IN)
    if not identity.kept or same_learner(identity, practice_learner()):
        return _example(FOR_PRACTICE)
    learned = remembered(identity, clock)
    if not learned.records and same_name(identity.learner, SELF_STUDY):
        return _example(FOR_NOBODY)
    going = round_under_way(identity, local_date(learned.now)) or new_round(identity, learned)
    return _in_round(going, learned) if going else NothingDue(learned)


def _example(why: str) -> Practice:
    return Practice(RecallSession(exercise_named(EXAMPLE), practice_learner(), 1), why)


def another_round(identity: Identity, clock: datetime) -> None:
    """Begin one more round of what is due, where the one before it is over."""
    learned = remembered(identity, clock)
    going = round_under_way(identity, local_date(learned.now))
    if going is None or going.current is None:
        new_round(identity, learned)


def go_on(identity: Identity, clock: datetime) -> None:
    """Go on to the next question, where the one in view is answered; another page may have gone on already."""
    going = round_under_way(identity, local_date(remembered(identity, clock).now))
    if going and going.current and going.current.answered:
        going.next()


def _in_round(going: GoingRound, learned: Remembered) -> Stage:
    if going.current:
        return Asking(going, going.current)
    return Ended(going, learned)
