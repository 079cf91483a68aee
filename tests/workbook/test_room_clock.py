"""The room's clock typed at the opening of a sitting: kept in the workbook, and in every answer from then on."""

from datetime import datetime
from pathlib import Path

import pytest

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import read_identity, write_identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.workbook.room_clock import seconds_ahead, with_room_clock

SAT = Identity(learner="ann", class_word="oak", sitting="red", feedback="after hand-in")


@pytest.mark.parametrize(
    ("typed", "now", "ahead"),
    [
        ("09:03", "2026-06-30T09:03:20", 20),
        ("09:03", "2026-06-30T08:01", -3720),
        ("00:02", "2026-06-29T23:58", -240),
        ("23:58", "2026-06-30T00:03", 300),
        ("2026-06-30T09:03", "2016-06-30T09:03", -3652 * 86400),
    ],
)
def test_the_nearest_day_counts_unless_it_is_said(typed: str, now: str, ahead: int) -> None:
    """Over midnight too; ten years off with the day typed."""
    assert ahead == seconds_ahead(typed, datetime.fromisoformat(now))


@pytest.mark.parametrize("typed", ["9 o'clock", "25:00", "", "2026-06-31T09:00"])
def test_what_is_no_time_is_told(typed: str) -> None:
    """With two examples of how to write it."""
    with pytest.raises(BadInput, match=r"such as 09:03 or 2026-06-30T09:03, but you gave"):
        seconds_ahead(typed, datetime(2026, 6, 30, 9, 0))


def test_it_stays_in_the_workbook_and_in_each_answer(tmp_path: Path) -> None:
    """And is for sittings alone."""
    now = datetime(2026, 6, 30, 10, 5)
    write_identity(with_room_clock(SAT, "09:03", now), tmp_path)
    who = read_identity(tmp_path / "workbook.toml")
    assert 3720 == who.clock_ahead_s
    session = ExerciseSession(exercises()["start.number"], who)
    session.answer("84 N·m", how="typed")
    assert [3720] == [line.record.clock_ahead_s for line in session.lines if line.record]
    assert SAT == with_room_clock(SAT, None, now)
    with pytest.raises(BadInput, match="--room-clock is for a sitting"):
        with_room_clock(Identity(learner="ann", class_word="oak"), "09:03", now)
