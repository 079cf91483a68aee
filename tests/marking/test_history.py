"""Flags about a learner's history: what must be looked at, and what two honest machines leave behind."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import msgspec
import pytest
from markupsafe import escape
from test_flags import OAK, ONE, line, marked

from bitepoint.bank import exercises
from bitepoint.logbook.record import check_code, read_line, write_line
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.class_cars import ORDINARY
from bitepoint.marking.flagging import history
from bitepoint.marking.flagging.handins import HandInNote
from bitepoint.marking.line_marking import MarkedLine, asked_text, mark_line
from bitepoint.marking.registry.register import Entry


def chain(times: list[str], **changes: Any) -> list[MarkedLine]:
    """Return lines of one device chained in this order."""
    found: list[MarkedLine] = []
    for at in times:
        fields = json.loads(line("start.number", at=at, **changes).text)
        for key in ("n", "prev", "hash"):
            fields.pop(key)
        prev = found[-1].record.hash if found else ""
        found.append(mark_line(read_line(write_line(fields, n=len(found) + 1, prev=prev).encode("ascii"))))
    return found


T = "2026-04-14T08:{:02d}:00.000Z".format


def noted(code: str, lesson: str = "start") -> list[Entry]:
    """Return a noted code."""
    return [Entry(kind="code", learner=ONE, lesson=lesson, code=code, date="2026-04-14")]


def test_a_noted_code_that_any_line_has_is_no_flag() -> None:
    """Work that went on after the code was noted still holds it."""
    lines = chain([T(1), T(2), T(3)])

    for x in lines:
        assert list(history.noted_codes(ONE, lines, noted(check_code(x.record.hash)))) == []


def test_a_noted_code_that_no_line_has_is_flagged_with_both_codes() -> None:
    """Another history, another lesson only, or the line with that code edited."""
    lines, code = chain([T(1), T(2)]), check_code(chain([T(3)])[0].record.hash)
    (other,) = history.noted_codes(ONE, lines, noted(code))
    last = check_code(lines[-1].record.hash)
    edited = [lines[0], msgspec.structs.replace(lines[1], changed=True)]
    assert (("noted on 2026-04-14", code), ("last code handed in", last)) == other.beside
    assert len(list(history.noted_codes(ONE, lines, noted(last, "star")))) == 1
    assert len(list(history.noted_codes(ONE, edited, noted(last)))) == 1
    assert list(history.noted_codes(ONE, [], noted(code))) == []


def test_a_clock_set_back_is_flagged_and_a_minute_is_not() -> None:
    """Lines of one chain in order; a correction by the network is no flag."""
    (found,) = history.clock_backwards(ONE, chain([T(30), T(10), T(11)]))

    assert (("line 1", T(30)), ("line 2", T(10))) == found.beside
    assert list(history.clock_backwards(ONE, chain([T(30), T(29), T(31)]))) == []
    assert list(history.clock_backwards(ONE, chain([T(30), "soon", ""]))) == []


def test_two_honest_devices_are_no_flag() -> None:
    """Lines with the same numbers on two machines, one of them with another time: nothing to look at."""
    both = [*chain([T(10), T(11)], device="aaaaaaaa"), *chain([T(1), T(2)], device="bbbbbbbb")]

    assert list(history.two_histories(ONE, both)) == []
    assert list(history.clock_backwards(ONE, both)) == []


def test_two_lines_with_one_number_from_one_device_are_flagged() -> None:
    """A history that was begun again: once for lesson and device, with both codes."""
    (found,) = history.two_histories(ONE, [*chain([T(1), T(2)]), *chain([T(3), T(4)])])

    assert found.evidence.endswith("two different lines are numbered 1.")
    assert len(found.beside) == 2


def note(name: str, count: int, device: str = "aaaaaaaa") -> HandInNote:
    """Return what is kept of a hand-in with so many lines."""
    return HandInNote(
        name=name,
        sha256="",
        line_set="",
        hint="",
        learners=(ONE,),
        breaks=(),
        counts=((ONE.casefold(), device, count),),
    )


@pytest.mark.parametrize(
    ("notes", "flagged"),
    [
        ([note("L-20260601-100000.zip", 9), note("L-20260602-100000.zip", 8)], 1),
        ([note("L-20260602-100000.zip", 8), note("L-20260601-100000.zip", 9)], 1),
        ([note("L-20260601-100000.zip", 8), note("L-20260602-100000.zip", 9)], 0),
        ([note("L-20260601-100000.zip", 9), note("L-20260602-100000.zip", 8, "bbbbbbbb")], 0),
        ([note("L-20260601-100000.zip", 9), note("L-20260601-100000 (1).zip", 8)], 0),
        ([note("lesson.ipynb", 9), note("other.ipynb", 3)], 0),
    ],
)
def test_a_later_hand_in_with_fewer_lines(notes: list[HandInNote], flagged: int) -> None:
    """Same device, by the time in the name; other devices, the same time and files without time are no flag."""
    assert flagged == len(list(history.fewer_lines(ONE, history.stamped_counts(notes).get(ONE.casefold(), {}))))


def test_late_is_after_the_due_time() -> None:
    """At the due time is in time."""
    due = datetime(2026, 4, 14, 8, 2, tzinfo=UTC)

    assert list(history.late(ONE, chain([T(1), T(2)]), due)) == []
    assert [f.evidence for f in history.late(ONE, chain([T(2), T(3)]), due)] == [
        "1 answer was given after the due date."
    ]
    assert list(history.late(ONE, chain([T(3)]), None)) == []


def test_typing_everything_in_advance_is_no_flag() -> None:
    """Run All answers ten typed cells in a second."""
    from bitepoint.marking.flagging import answers as flags

    lines = [marked("start.number", how="typed", opened=T(1), at=T(1)) for _ in range(10)]
    assert list(flags.fast_answers(ONE, lines)) == []


def test_a_changed_question_is_set_out_with_the_words_of_the_learners_card(tmp_path: Path) -> None:
    """No mark; the card in the learner's notebook stands beside what the bank draws now."""
    text = line("start.number", "5 N·m", facts="0123456789abcdef").text
    html = ["<div><h4>Old title</h4>", "<p>What was asked &lt;then&gt;?</p></div>"]
    data = {"text/html": html, "application/vnd.bitepoint.record+json": {"lines": [text]}}
    cell = {"cell_type": "code", "outputs": [{"output_type": "display_data", "data": data}]}
    (tmp_path / "a.ipynb").write_text(json.dumps({"nbformat": 4, "cells": [cell]}), "utf-8")
    mark_hand_ins([tmp_path / "a.ipynb"], out=tmp_path / "marks")
    page = (tmp_path / "marks" / "assessor" / f"{ONE}.html").read_text("utf-8")
    now = exercises()["start.number"].draw(class_word=OAK, learner=ONE).ask

    assert "Old title What was asked &lt;then&gt;?" in page
    assert str(escape(now)) in page
    assert f"{ONE},start.number,,,1,1,0,no,," in (tmp_path / "marks" / "marks.csv").read_text("utf-8")


def test_a_question_of_another_turn_is_found_again() -> None:
    """A digest that the bank still draws gives back the words."""
    other = line("start.number", turn=3).record
    assert other
    mixed = msgspec.structs.replace(other, turn=1)
    assert asked_text(mixed, ORDINARY) == exercises()["start.number"].draw(class_word=OAK, learner=ONE, turn=3).ask
    assert asked_text(msgspec.structs.replace(other, facts="0" * 16), ORDINARY) == ""


def test_lines_of_dated_hand_ins_are_kept_by_learner_and_device_in_the_order_of_their_dates() -> None:
    """A hand-in without a date in its name says nothing about what came before."""
    notes = [
        note("a-20260620-090000.zip", 7),
        note("a.zip", 1),
        note("a-20260619-090000.zip", 9),
    ]
    found = history.stamped_counts(notes)[ONE.casefold()]["aaaaaaaa"]

    assert [("20260619-090000", 9), ("20260620-090000", 7)] == [(one.stamp, one.lines) for one in found]
