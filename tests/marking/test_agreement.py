"""Second marks beside first ones: agreement, each difference by name, and what was agreed on."""

from pathlib import Path
from typing import Any

import pytest
from test_appeal_cases import IN, ONE, TWO, WORD, Room, answer, asked, chained, critical, right, wrong

from bitepoint.marking.moderation.agreement import COMPUTED, compared, in_words
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.result import Result, Row

HOME = "2026-06-20T16:00:00+00:00"


@pytest.fixture
def room(tmp_path: Path) -> Room:
    """Return an empty room."""
    return Room(tmp_path)


def entry(kind: str, exercise: str, score: float, by: str, **more: Any) -> Entry:
    """Return an entry about a mark of the first learner."""
    return Entry(kind=kind, learner=ONE, exercise=exercise, score=score, by=by, text=f"{kind} by {by}", **more)


def result(*entries: Entry) -> Result:
    """Return a result with a right and a wrong answer."""
    right_one, wrong_one = asked()[:2]
    rows = (
        Row(learner=ONE, exercise=right_one, first_score=1.0, last_score=1.0),
        Row(learner=ONE, exercise=wrong_one, first_score=0.0, last_score=0.0),
    )
    return Result(name=ONE, class_word="oak", rows=rows, entries=entries)


def test_two_marks_are_compared_and_a_resolution_settles_the_difference() -> None:
    """The first mark is the computed one, or an override's; the newest second mark of a person counts; n of m."""
    one, two = asked()[:2]
    seconds = (
        entry("second mark", one, 0.0, "B"),
        entry("second mark", one, 1.0, "B"),
        entry("second mark", two, 1.0, "B"),
    )
    first, second = compared(result(*seconds))

    assert (True, COMPUTED, False, False) == (first.agrees, first.first_by, second.agrees, second.settled)
    assert "1 of 2" == in_words([first, second])
    _, settled = compared(result(*seconds, entry("resolution", two, 0.5, "C")))
    assert (False, True, 0.0) == (settled.agrees, settled.settled, settled.first)
    _, again = compared(result(entry("resolution", two, 0.5, "C"), *seconds))
    assert not again.settled
    _, given = compared(result(entry("override", two, 1.0, "A"), *seconds))
    assert (True, "A") == (given.agrees, given.first_by)


def test_a_mark_after_a_resolution_stands_beside_what_was_agreed_on_and_hides_nothing() -> None:
    """The difference that was settled stays named with its resolution; the newer mark differs from what was agreed on."""
    bad = asked()[1]
    round_one = (entry("second mark", bad, 1.0, "B"), entry("resolution", bad, 0.5, "C"))
    again = entry("second mark", bad, 0.0, "B")
    settled, opened = compared(result(*round_one, again))

    assert (0.0, COMPUTED, 1.0, 0.5) == (
        settled.first,
        settled.first_by,
        settled.second.score,
        settled.resolution.score,
    )  # type: ignore[union-attr]
    assert (0.5, "agreed on by C", 0.0, False) == (opened.first, opened.first_by, opened.second.score, opened.settled)
    assert "0 of 2" == in_words([settled, opened])
    *_, closed = compared(
        result(*round_one, again, entry("resolution", bad, 0.25, "C"), entry("resolution", bad, 0, "C"))
    )
    assert (True, 0) == (closed.settled, closed.resolution.score)  # type: ignore[union-attr]
    *_, same = compared(result(*round_one, entry("second mark", bad, 0.5, "D")))
    assert same.agrees


def test_two_second_markers_are_each_compared() -> None:
    """A further one by another person hides nobody; one person's newest mark counts; one resolution settles both."""
    bad = asked()[1]
    marks = (
        entry("second mark", bad, 1.0, "B"),
        entry("second mark", bad, 0.5, "b."),
        entry("second mark", bad, 0.0, "D"),
    )
    found = compared(result(*marks))

    assert [("b.", 0.5, False), ("D", 0.0, True)] == [(c.second.by, c.second.score, c.agrees) for c in found]
    assert "1 of 2" == in_words(found)
    assert [True, True] == [c.settled for c in compared(result(*marks, entry("resolution", bad, 0.5, "C")))]


def test_an_override_after_a_resolution_is_a_difference_and_no_first_mark() -> None:
    """It may come with the register of another computer: the first mark stays, and no second mark is counted."""
    bad = asked()[1]
    agreed = (entry("second mark", bad, 1.0, "B"), entry("resolution", bad, 0.5, "C"))
    settled, late = compared(result(*agreed, entry("override", bad, 1.0, "A")))

    assert (0.0, COMPUTED) == (settled.first, settled.first_by)
    assert ("A", False, None) == (late.second.by, late.settled, late.pair)
    assert "0 of 1" == in_words([settled, late])


def test_a_second_mark_where_there_is_no_first_one_agrees_with_nothing() -> None:
    """An answer that has no mark is named, and is none of the m."""
    rows = (Row(learner=ONE, exercise=asked()[0], reason="Question changed since: no mark."),)
    (found,) = compared(
        Result(name=ONE, class_word="oak", rows=rows, entries=(entry("second mark", asked()[0], 1.0, "B"),))
    )

    assert (None, False) == (found.first, found.agrees)
    assert "" == in_words([found])


def test_a_difference_stands_on_report_and_page_until_it_is_resolved_and_the_resolution_counts(room: Room) -> None:
    """Each by name with both marks and whose; the mark is the resolved one, with who and why; practice is not the sitting."""
    room.zip(ONE, chained(wrong(WORD), IN), chained(right(device="bbbbbbbb"), HOME))
    room.sits()
    bad = critical()[0]
    room.book.add(entry("second mark", bad, 0.5, "B. Beside", word=WORD))
    room.book.add(entry("second mark", bad, 1.0, "B. Beside"))
    before = room.marked(out="before")
    room.book.add(entry("resolution", bad, 0.5, "C. Third", word=WORD))
    after = room.marked(out="after")
    pages = [
        [(room.folder / out / p).read_text("utf-8") for p in ("report.html", f"assessor/{ONE}.html")]
        for out in ("before", "after")
    ]

    for page in pages[0]:
        assert "Marked a second time: 2. The two marks agree in 1 of 2. 1 differs, of these resolved: 0." in page
        assert f'<td class="id">{bad}, sitting {WORD}</td>' in page
        assert ">0, computed</td><td>0.5, B. Beside: “second mark by B. Beside”</td>" in page
        assert "not resolved yet" in page
    assert "B. Beside, " in pages[0][0].split('id="sampling"')[1]
    for page in pages[1]:
        assert "of these resolved: 1" in page
        assert "C. Third" in page
        assert '“resolution by C. Third” <span class="under">(a decision of this person, not of the program)' in page
    assert ("0", "0.5", "C. Third") == (
        before.row["sitting_mark"],
        after.row["sitting_mark"],
        after.row["sitting_override_by"],
    )
    assert "1" == after.row["mark"]


def test_an_override_after_a_resolution_is_told_apart_on_the_page(room: Room) -> None:
    """The resolution counts; the sentence counts second marks alone, and names how many such overrides there are."""
    room.zip(ONE, chained(wrong(), HOME))
    bad = critical()[0]
    room.book.add(entry("second mark", bad, 1.0, "B. Beside"))
    room.book.add(entry("resolution", bad, 0.5, "C. Third"))
    room.book.write(entry("override", bad, 1.0, "A. Assessor", date="2026-07-01"))
    found = room.marked()
    page = (room.folder / "marks" / f"assessor/{ONE}.html").read_text("utf-8")

    assert "0.5" == found.row["mark"]
    assert (
        "agree in 0 of 1. 1 differs, of these resolved: 1. Overrides entered after a resolution, which change" in page
    )
    assert "<td>1, A. Assessor (an override after the resolution): “override by A. Assessor”</td>" in page


def test_who_is_matched_with_a_flag_is_sampled_too(room: Room) -> None:
    """The one whose answers another one handed in is looked at as well."""
    lines = [right(learner=TWO), [answer(e, learner=TWO) for e in asked()]]
    room.zip(f"{ONE}-1", chained(right(), HOME), hint=ONE)
    room.zip(f"{TWO}-1", chained(lines[0], HOME), hint=TWO)
    (room.hand_ins / f"{ONE}-2.zip").write_bytes((room.hand_ins / f"{TWO}-1.zip").read_bytes())
    room.marked()
    report = (room.folder / "marks" / "report.html").read_text("utf-8")
    sampled = report.split('id="sampling"')[1].split('id="register"')[0]

    assert ONE in sampled
    assert TWO in sampled
