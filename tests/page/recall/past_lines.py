"""Workbooks with answers of weeks ago, for the tests of the page of recall."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from bitepoint.bank import exercise_named, exercises
from bitepoint.bank.coverage import can_hurt
from bitepoint.logbook import Identity, Record, find_workbook, read_folder
from bitepoint.logbook.asked import asked_fields
from bitepoint.logbook.identity import write_identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.recall.recall_session import RecallSession
from bitepoint.page.recall.stages import Asking, Stage, go_on, stage_of
from bitepoint.recall.choosing import is_asked_again

NOW = datetime(2026, 12, 1, 9, tzinfo=UTC)


class Clock:
    """The time that answers get: no test hangs on the day it is run."""

    now = NOW

    @classmethod
    def stamp(cls) -> str:
        return stamp(cls.now)


def stamp(at: datetime) -> str:
    """Return a time as a line holds it."""
    return at.isoformat(timespec="milliseconds").replace("+00:00", "Z")


OPTIONS = [id for id, e in exercises().items() if is_asked_again(e) and id.startswith(("safe.", "fault.", "kit."))]


def workbook(folder: Path, **more: Any) -> Identity:
    """Return a learner in a new workbook."""
    folder.mkdir(exist_ok=True)
    write_identity(Identity(learner="ann", class_word="oak", **more), folder)
    return find_workbook(folder)


def learn(who: Identity, *ids: str, weeks: float = 5) -> None:
    """Answer exercises right in their lessons, so many weeks ago."""
    for id in ids:
        session = ExerciseSession(exercise_named(id), who)
        question = session.question()
        asked = asked_fields(question, 1, who.vehicles)
        at = stamp(NOW - timedelta(weeks=weeks))
        fields = session.book.fields(**asked, how="form", answer=question.right_answer(), opened=at)
        session.book.append(fields | {"at": at, "score": 1.0, "mistake": None}, after=0)


def learned(folder: Path, count: int = 12, **more: Any) -> Identity:
    """Return a learner who learned so many exercises of three lessons five weeks ago, half of them safety-critical."""
    who = workbook(folder, **more)
    critical = [id for id in OPTIONS if can_hurt(id)][: count // 2]
    harmless = [id for id in OPTIONS if not can_hurt(id)][: count - count // 2]
    learn(who, *critical, *harmless)
    return who


def kept(who: Identity) -> list[Record]:
    """Return the lines of recall."""
    assert who.folder is not None
    return [line.record for found in read_folder(who.folder, "keep-it").values() for line in found if line.record]


def decide(session: RecallSession, right: bool = True) -> None:
    """Answer a question right, or by its first known mistake."""
    question = session.question()
    session.answer(question.right_answer() if right else question.known_mistakes()[0][0], how="recall")


def asking(who: Identity) -> Asking:
    """Return the question in view."""
    stage = stage_of(who, Clock.now)
    assert isinstance(stage, Asking)
    return stage


def do_round(who: Identity, *, wrong: tuple[int, ...] = ()) -> Stage:
    """Do a round from where it is to its end, the named questions wrong; return what is shown then."""
    while isinstance(stage := stage_of(who, Clock.now), Asking):
        if not stage.session.answered:
            decide(stage.session, stage.number not in wrong)
        go_on(who, Clock.now)
    return stage
