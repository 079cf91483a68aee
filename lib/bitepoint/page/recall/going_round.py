"""A round of recall on its way: made of what is due, gone through in place, over when its last question was answered."""

from contextlib import suppress
from datetime import date, datetime

from msgspec import Struct, structs

from bitepoint.bank import exercises
from bitepoint.bank.coverage import can_hurt
from bitepoint.errors import BitepointError
from bitepoint.logbook import Identity
from bitepoint.page.recall.kept_round import KeptRound, RoundQuestion, keep_round, read_round
from bitepoint.page.recall.recall_session import RecallSession
from bitepoint.page.recall.remembering import Remembered, end_of_day
from bitepoint.recall.asking import recall_question
from bitepoint.recall.choosing import is_asked_again, round_of
from bitepoint.recall.reasons import reasons_asked
from bitepoint.recall.times import read_time


class GoingRound(Struct, frozen=True):
    """A round with a session for each of its questions; None for one that cannot be asked any more."""

    identity: Identity
    kept: KeptRound
    sessions: tuple[RecallSession | None, ...]

    @property
    def current(self) -> RecallSession | None:
        """The question in view; None at the end."""
        return self.sessions[self.kept.at] if self.kept.at < len(self.sessions) else None

    @property
    def answered(self) -> list[RecallSession]:
        """The questions that were answered, in the order of the round."""
        return [session for session in self.sessions if session and session.answered]

    def next(self) -> None:
        """Go on to the next question that is not answered, at the end of all to what the round came to."""
        keep_round(self.identity, structs.replace(self.kept, at=self._open_from(self.kept.at + 1)))

    def pass_reason(self) -> None:
        """Go without a reason in own words for the question in view."""
        if self.current:
            passed = (*self.kept.passed, self.current.exercise.id)
            keep_round(self.identity, structs.replace(self.kept, passed=passed))

    def _open_from(self, place: int) -> int:
        """Return the place of the first open question from there on, else of the first at all, else that of the end."""
        still = [at for at, session in enumerate(self.sessions) if session and not session.answered]
        return next((at for at in still if at >= place), next(iter(still), len(self.sessions)))

    def at_an_open_place(self) -> "GoingRound":
        """Return the round with a question in view that can be shown, or at its end."""
        if self.current or self.kept.at >= len(self.sessions):
            return self
        return structs.replace(self, kept=structs.replace(self.kept, at=self._open_from(self.kept.at)))

    def is_of(self, today: date) -> bool:
        """Whether it still stands: it is under way, or was made or ended on this day."""
        if self.kept.at < len(self.sessions) and self.answered:
            return True
        ends = [read_time(record.at) for session in self.answered for record in session.decisions]
        days = {date.fromisoformat(self.kept.day)} | {at.astimezone().date() for at in ends if at}
        return max(days) == today


def going_round(identity: Identity, kept: KeptRound) -> GoingRound:
    """Return the sessions of a round that was kept, with the reasons that wait for the learner's own."""
    sessions = tuple(_session(identity, one) for one in kept.asked)
    answered = [session for session in sessions if session and session.answered]
    wanted = reasons_asked([(session.right and session.decides, can_hurt(session.exercise.id)) for session in answered])
    for session, asks in zip(answered, wanted, strict=True):
        session.reason_waits = asks and not session.own_words and session.exercise.id not in kept.passed
    return GoingRound(identity, kept, sessions).at_an_open_place()


def _session(identity: Identity, one: RoundQuestion) -> RecallSession | None:
    """Return the session of a question; None where it is gone, withdrawn or not of these cars, and was not answered before."""
    exercise = exercises().get(one.exercise)
    if exercise is None:
        return None
    with suppress(BitepointError):
        session = RecallSession(exercise, identity, one.turn)
        session.question()
        if session.answered or is_asked_again(exercise, identity.vehicles):
            return session
    return None


def round_under_way(identity: Identity, today: date) -> GoingRound | None:
    """Return the round that this learner is in; None where there is none, or it is over since an earlier day."""
    kept = read_round(identity)
    if kept is None:
        return None
    found = going_round(identity, kept)
    return found if any(found.sessions) and found.is_of(today) else None


def new_round(identity: Identity, learned: Remembered) -> GoingRound | None:
    """Make a round of what is due today and keep it; None where nothing is."""
    asked = []
    for item in round_of(learned.items, end_of_day(learned.now)):
        with suppress(BitepointError):
            _, turn = recall_question(item.exercise, identity, learned.lines_of(item.exercise))
            asked.append(RoundQuestion(item.exercise, turn))
    if not asked:
        return None
    kept = KeptRound(tuple(asked), day=local_date(learned.now).isoformat())
    keep_round(identity, kept)
    return going_round(identity, kept)


def local_date(at: datetime) -> date:
    """Return the date on this computer's own clock."""
    return at.astimezone().date()
