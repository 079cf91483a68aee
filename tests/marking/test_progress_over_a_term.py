"""Progress over a term: what moved since the last marking of an earlier day, kept from set to set and forgotten on request."""

from datetime import datetime
from pathlib import Path

import msgspec
import pytest
from appeal_room import Room, answer, chained, wrong
from test_flags import ONE
from test_recalled import DANGER, recall

from bitepoint.marking import mark_hand_ins
from bitepoint.marking.progress import Progress, progress_of
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.rules import ClassRules
from bitepoint.marking.term import FILE, TermLine, TermStanding, read_term

LESSON, LATER = "2026-06-01T08:00:00+00:00", "2026-06-22T08:00:00+00:00"
EASY, HARD = "torque.preload", "torque.crow-foot"


def moved(before: TermStanding, now: TermStanding) -> Progress:
    """Return what moved between two standings."""
    return progress_of(TermLine(learner="L1", now=now, before=before), ClassRules())


def mark(room: Room, at: str, register: Path | None = None) -> None:
    """Mark the hand-ins of the room as at that time."""
    mark_hand_ins(
        [room.hand_ins],
        roster=room.folder / "roster.csv",
        out=room.folder / "marks",
        register=register,
        marked=datetime.fromisoformat(at),
    )


def test_each_way_in_which_an_exercise_moves_has_its_name() -> None:
    """Newly right, newly dangerous, put right, no longer right; what stays as it was is not named."""
    before = TermStanding(
        day="2026-06-01", marks={EASY: "n", HARD: "d", "star.impact": "r", "safe.keep-off": "r", "kit.label": "r"}
    )
    now = TermStanding(
        day="2026-06-30", marks={EASY: "r", HARD: "r", "star.impact": "d", "safe.keep-off": "n", "kit.label": "r"}
    )
    found = moved(before, now)
    assert (found.newly_right, found.put_right) == (("Work out the preload",), ("Set the wrench with a crow-foot",))
    assert found.newly_dangerous == ("Start the bolts by hand",)
    assert len(found.no_longer_right) == 1
    assert found.moved
    assert not moved(now, msgspec.structs.replace(now, day="2026-07-01")).moved


def test_a_lesson_is_finished_when_all_that_counts_in_it_is_right() -> None:
    """And it is named once: at the marking at which it came to be so."""
    rules = ClassRules()
    ids = [e.id for e in rules.wanted() if e.lesson == "safe"]
    most = TermStanding(day="2026-06-01", marks=dict.fromkeys(ids[1:], "r"))
    whole = TermStanding(day="2026-06-30", marks=dict.fromkeys(ids, "r"))
    assert len(moved(most, whole).lessons) == 1
    assert moved(whole, whole).lessons == ()


@pytest.mark.parametrize(
    ("before", "now", "said"),
    [
        ((8, 10), (10, 20), "2 of 10 right, less than before (8 of 10)"),
        ((2, 10), (11, 20), "9 of 10 right, more than before (2 of 10)"),
        ((5, 10), (10, 20), "5 of 10 right, the same as before (5 of 10)"),
        ((0, 0), (3, 4), "3 of 4 right"),
        ((3, 4), (3, 4), ""),
    ],
)
def test_recall_since_then_is_compared_with_recall_before(
    before: tuple[int, int], now: tuple[int, int], said: str
) -> None:
    """What was asked again since the last marking, against all before it."""
    sides = [
        TermStanding(day=day, recalled_right=right, recalled=of)
        for day, (right, of) in zip(("2026-06-01", "2026-06-30"), (before, now), strict=True)
    ]
    assert moved(*sides).recall == said


def test_pages_say_what_moved_since_an_earlier_day(tmp_path: Path) -> None:
    """Marked in June, put right by July: learner, assessor and class read it; a second marking on that day says the same."""
    room = Room(tmp_path)
    room.zip("lesson", chained(wrong(), LESSON))
    mark(room, "2026-06-02T12:00+00:00")
    assert "What moved" not in (tmp_path / "marks" / "learners" / f"{ONE}.html").read_text("utf-8")
    assert "No marking of an earlier day" in (tmp_path / "marks" / "progress.html").read_text("utf-8")
    room.zip("again", chained(wrong(), LESSON) + chained([answer(DANGER)], LATER), chained([recall(turn=2)], LATER))
    kept = []
    for _ in range(2):
        mark(room, "2026-07-02T12:00+00:00")
        own = (tmp_path / "marks" / "learners" / f"{ONE}.html").read_text("utf-8")
        assert "What moved since the marking of 2 June 2026" in own
        assert "Asked again since then:" in own
        kept.append((own, (tmp_path / "marks" / FILE).read_bytes()))
    assert kept[0] == kept[1]
    line = msgspec.json.decode(kept[0][1].splitlines()[0], type=TermLine)
    assert [step.day for step in line.steps] == ["2026-06-02", "2026-07-02"]
    page = (tmp_path / "marks" / "progress.html").read_text("utf-8")
    assert f'href="assessor/{ONE}.html#progress"' in page
    assert "a dangerous answer in it is not counted under “Newly dangerous”" in page


def test_a_learner_deleted_on_request_leaves_no_line_and_no_step(tmp_path: Path) -> None:
    """Marked twice on other days, deleted, marked again: nothing in the new set names the learner, and no former set is kept."""
    room = Room(tmp_path)
    room.zip("lesson", chained(wrong(), LESSON), chained([recall()], LATER))
    for day in ("2026-06-02", "2026-07-02"):
        mark(room, f"{day}T12:00+00:00")
    assert ONE in (tmp_path / "marks" / FILE).read_text("utf-8")
    assert ONE in (tmp_path / "marks" / "recall.csv").read_text("utf-8")
    room.book.add(Entry(kind="deletion", learner=ONE, by="A. Head", text="request", date="2026-07-03"))
    mark(room, "2026-07-04T12:00+00:00", register=tmp_path / "register")
    kept = [p for p in (tmp_path / "marks").rglob("*") if p.is_file() and p.name not in ("marks.jsonl", ".lock")]
    assert [p.name for p in kept if ONE in p.read_text("utf-8", "replace") or ONE in p.name] == []
    assert not (tmp_path / "marks" / "former").exists()


def test_lines_that_cannot_be_read_are_as_if_they_were_not_there(tmp_path: Path) -> None:
    """A damaged line costs its learner's comparison and nothing else; so does a missing file."""
    assert read_term(None) == read_term(tmp_path) == {}
    (tmp_path / FILE).write_bytes(b'{"learner":"L1"}\n\xff\n[]\n{"learner":"L2","now":{}}\n')
    assert set(read_term(tmp_path)) == {"L1", "L2"}
