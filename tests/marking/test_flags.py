"""Flags: what a person should look at, each with its evidence, and nothing for honest work."""

import json
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
import pytest
from scipy import stats

from bitepoint import __version__
from bitepoint.bank import exercises
from bitepoint.bank.version import bank_digest
from bitepoint.logbook.identity import learner_id
from bitepoint.logbook.record import Line, read_line, write_line
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.flagging import answers as flags
from bitepoint.marking.flagging import neighbours
from bitepoint.marking.flagging.classmates import Classmates
from bitepoint.marking.flagging.handins import HandInNote, broken_chains, handed_in_twice
from bitepoint.marking.line_marking import MarkedLine, mark_line, reading_seconds
from bitepoint.marking.roster import Enrolled
from bitepoint.questions.number import Number

OAK = "oak-2026"
ONE, TWO, THREE = (learner_id(OAK, n) for n in (1, 2, 3))


def line(exercise: str, answer: object = None, **changes: Any) -> Line:
    """Return a line as the program writes it; without an answer the right one."""
    learner = changes.get("learner", ONE)
    found = exercises()[exercise]
    question = found.draw(class_word=changes.get("class", OAK), learner=learner, turn=changes.get("turn", 1))
    fields = {
        "at": "2026-04-14T08:00:30.000Z",
        "learner": learner,
        "class": OAK,
        "device": "0a1b2c3d",
        "exercise": exercise,
        "revision": found.revision,
        "turn": 1,
        "facts": question.facts_digest(),
        "how": "form",
        "answer": question.right_answer() if answer is None else answer,
        "score": 1.0,
        "opened": "2026-04-14T07:59:00.000Z",
        **changes,
    }
    return read_line(write_line(fields, n=1, prev="").encode("ascii"))


def marked(exercise: str, answer: object = None, **changes: Any) -> MarkedLine:
    """Return that line marked."""
    return mark_line(line(exercise, answer, **changes))


def number_exercise() -> str:
    """Return the first exercise of the bank that asks for a number and has different figures for two learners."""
    for found in exercises().values():
        mine, theirs = (found.draw(class_word=OAK, learner=who) for who in (ONE, TWO))
        if isinstance(mine, Number) and isinstance(theirs, Number) and mine.unit == theirs.unit:
            figures = [mine.answer, *(m.value for m in mine.mistakes)]
            if all(abs(theirs.answer - f) > 3 * mine.within.width(f) for f in figures):
                return found.id
    raise AssertionError("the bank has no exercise with different figures for two learners")


def test_honest_work_has_no_flag() -> None:
    """A right answer, at a reader's pace, by someone in the roster, under the right word."""
    lines = [marked(number_exercise())]
    classmates = Classmates({OAK: [ONE, TWO]})
    enrolled = Enrolled(ONE, OAK)

    assert [
        *flags.unknown_learner(ONE, [ONE], enrolled, {ONE.casefold(): enrolled}),
        *flags.wrong_class_word(ONE, lines, "Oak-2026", {OAK}),
        *neighbours.question_changed(ONE, lines, classmates),
        *neighbours.other_figures(ONE, lines, classmates),
        *flags.fast_answers(ONE, lines),
    ] == []


def number_turns(count: int) -> list[tuple[str, int]]:
    """Return (exercise, turn) of questions for a number with figures of TWO that nothing explains for ONE."""
    found = []
    for exercise in exercises().values():
        for turn in range(1, 9):
            mine, theirs = (exercise.draw(class_word=OAK, learner=who, turn=turn) for who in (ONE, TWO))
            if isinstance(mine, Number) and isinstance(theirs, Number) and mine.unit == theirs.unit:
                figures = [mine.answer, *(m.value for m in mine.mistakes)]
                if all(abs(theirs.answer - f) > 3 * mine.within.width(f) for f in figures):
                    found.append((exercise.id, turn))
    return found[:count]


def test_numbers_that_are_right_for_one_other_learner() -> None:
    """Eight wrong figures, no known mistake, right for one of twenty: one flag, both sides shown; two are chance."""
    group = [learner_id(OAK, n) for n in range(1, 21)]
    copied = [
        marked(e, exercises()[e].draw(class_word=OAK, learner=TWO, turn=t).right_answer(), turn=t)
        for e, t in number_turns(8)
    ]
    (found,) = neighbours.other_figures(ONE, copied * 2, Classmates({OAK: group}))

    assert found.kind == "fits another learner's figures"
    assert found.evidence.startswith(
        f"8 of 8 wrong figures that no known mistake explains are right for {TWO}; by chance"
    )
    assert len(found.beside) == 10
    assert str(copied[0].record.answer) in found.beside[0][1]
    assert found.beside[1][0].endswith(f"right for {TWO}")
    assert list(neighbours.other_figures(ONE, copied[:2], Classmates({OAK: group}))) == []


@pytest.mark.parametrize("expected", [0.01, 0.5, 2.0, 9.0])
@pytest.mark.parametrize("count", [1, 3, 8, 20, 171, 400])
def test_the_chance_of_so_many_fits(count: int, expected: float) -> None:
    """The upper tail of the Poisson distribution, against scipy."""
    assert neighbours.at_least(count, expected) == pytest.approx(stats.poisson.sf(count - 1, expected), rel=1e-9)


def test_a_known_mistake_is_no_copy() -> None:
    """A wrong figure that a misconception explains is not held against anyone."""
    exercise = number_exercise()
    question = exercises()[exercise].draw(class_word=OAK, learner=ONE)
    lines = [marked(exercise, answer) for answer, _ in question.known_mistakes()]

    assert list(neighbours.other_figures(ONE, lines, Classmates({OAK: [ONE, TWO, THREE]}))) == []


def test_an_answer_to_another_learners_question() -> None:
    """The digest is not the one drawn for this learner: no mark, and the owner of the question is named."""
    exercise = number_exercise()
    theirs = line(exercise, learner=TWO)
    assert theirs.record is not None
    taken = marked(exercise, "1", facts=theirs.record.facts)
    (found,) = neighbours.question_changed(ONE, [taken], Classmates({OAK: [ONE, TWO]}))

    assert (taken.verdict, taken.status) == (None, "question changed")
    assert theirs.record.facts in found.evidence
    assert taken.now in found.evidence
    assert found.evidence.endswith(f"The question asked is the one drawn for {TWO}.")


def test_form_answers_faster_than_reading() -> None:
    """Five or more below a third of the reading time; four are none; typed answers never are."""
    slowest = max(exercises().values(), key=lambda e: reading_seconds(e.draw(class_word=OAK, learner=ONE)))
    fast = marked(slowest.id, at="2026-04-14T07:59:01.000Z")
    typed = marked(slowest.id, at="2026-04-14T07:59:01.000Z", how="typed")
    slow = marked(slowest.id)
    (found,) = flags.fast_answers(ONE, [fast] * 5)

    assert found.kind == "form answers faster than reading"
    assert found.evidence.startswith("5 form answers came faster than a third of the reading time, such as")
    assert list(flags.fast_answers(ONE, [fast] * 4 + [typed] * 5 + [slow] * 5)) == []


def test_times_that_cannot_be_read_flag_nobody() -> None:
    """Missing, mixed or odd times are no evidence."""
    odd = [marked("start.number", at=at) for at in ("", "soon", "2026-04-14T07:59:01", "2026-04-14T07:58:00Z")]

    assert list(flags.fast_answers(ONE, odd * 5)) == []


def test_reading_time_is_200_words_a_minute() -> None:
    """A question of 20 words takes 6 s to read."""
    question = exercises()["start.number"].draw(class_word=OAK, learner=ONE)
    twenty = msgspec.structs.replace(question, ask="word " * 20, table=())

    assert reading_seconds(twenty) == 6.0


def test_someone_who_is_not_in_the_roster() -> None:
    """The id as written is the evidence; without a roster nobody is unknown."""
    (found,) = flags.unknown_learner("unknown-1", ["../x\n"], None, {})

    assert found.evidence == "The lines are of “../x ”, who is not in the roster."
    assert list(flags.unknown_learner(ONE, [ONE], None, None)) == []


def test_another_class_word_than_the_rosters() -> None:
    """Each other word once, with how many lines stand under it."""
    lines = [marked("start.number"), *(marked("start.number", **{"class": "elm-2026"}) for _ in range(2))]
    (found,) = flags.wrong_class_word(ONE, lines, OAK, {OAK})

    assert found.evidence == "2 lines under class word “elm-2026”; the class word of this learner is “oak-2026”."


def test_class_words_that_nobody_gave_out() -> None:
    """One that the roster does not have, and one that cannot be one."""
    unknown = flags.wrong_class_word(ONE, [marked("start.number")], OAK, {"elm-2026"})
    unusable = flags.wrong_class_word(ONE, [marked("start.number", **{"class": "=1+1"})], "=1+1", set())

    assert [f.evidence for f in unknown] == ["1 line under class word “oak-2026”, which is not in the roster."]
    assert [f.evidence for f in unusable] == ["1 line under “=1+1”, which cannot be a class word."]


def note(name: str, **changes: Any) -> HandInNote:
    """Return what is kept of a hand-in."""
    kept = {"sha256": "s", "line_set": "l", "hint": "", "learners": (ONE,), "breaks": (), **changes}
    return HandInNote(name=name, **kept)


KNOWN = {ONE.casefold(): ONE, TWO.casefold(): TWO}


def test_the_same_hand_in_from_two_learners() -> None:
    """Both senders are flagged, by the name of the file or by workbook.toml."""
    by_name = list(handed_in_twice([note(f"{ONE}-2026.zip"), note(f"{TWO}-2026.zip")], KNOWN))
    by_hint = list(handed_in_twice([note("a.zip", hint=ONE), note("b.zip", hint=TWO, sha256="t")], KNOWN))

    assert [ONE, TWO] == [flag.learner for flag in by_name] == [flag.learner for flag in by_hint]
    assert f"{ONE}-2026.zip, {TWO}-2026.zip: hand-ins of 2 learners with the same bytes." == by_name[0].evidence
    assert by_hint[0].evidence == "a.zip, b.zip: hand-ins of 2 learners with the same lines."


def test_handing_in_twice_oneself_is_no_flag() -> None:
    """The same file sent again, renamed by a browser, and two empty hand-ins."""
    again = [note(f"{ONE}-2026.zip"), note(f"{ONE}-2026 (1).zip")]
    empty = [note(f"{ONE}.zip", line_set=""), note(f"{TWO}.zip", line_set="")]

    assert list(handed_in_twice(again, KNOWN)) + list(handed_in_twice(empty, KNOWN)) == []


def test_a_broken_chain_names_the_learner_and_the_line() -> None:
    """Who sent the hand-in; where nobody is known to have, nobody is named."""
    broken = "a.zip: Line 2: cannot be read."
    notes = [
        note("a", breaks=(broken,), sender=ONE),
        note("b", breaks=(broken,), sender=TWO),
        note("c", breaks=(broken,)),
    ]

    assert [(ONE, broken), (TWO, broken), ("", broken)] == [(f.learner, f.evidence) for f in broken_chains(notes)]


def test_two_devices_join_without_a_flag(tmp_path: Path) -> None:
    """The chains of two machines stand side by side, and the answers count together."""
    folder = tmp_path / "L01" / "logbook"
    folder.mkdir(parents=True)
    for device, answer in (("aaaaaaaa", "1 N·m"), ("bbbbbbbb", None)):
        text = line("start.number", answer, device=device, at=f"2026-04-14T08:0{int(device > 'b')}:30.000Z").text
        (folder / f"start.{device}.jsonl").write_text(text + "\n", encoding="ascii")
    outcome = mark_hand_ins([tmp_path / "L01"], out=tmp_path / "marks")
    marks = (tmp_path / "marks" / "marks.csv").read_text(encoding="utf-8").splitlines()

    assert (outcome.learners, outcome.rows, outcome.flags, outcome.problems) == (1, 1, 0, [])
    assert marks[1].startswith(f"{ONE},start.number,0,1,2,1,0,no,")


def test_the_trail_leads_from_each_mark_to_its_line(tmp_path: Path) -> None:
    """marks.jsonl: input, its hash, the version, and for each line hash, revisions, digests, score and reason."""
    written = line("start.number")
    assert written.record is not None
    (tmp_path / "a.jsonl").write_text(written.text + "\n", encoding="ascii")
    mark_hand_ins([tmp_path / "a.jsonl"], out=tmp_path / "out")
    head, trail = (json.loads(text) for text in (tmp_path / "out" / "marks.jsonl").read_text("utf-8").splitlines())

    assert {
        "hand_in": "a.jsonl",
        "sha256": sha256((tmp_path / "a.jsonl").read_bytes()).hexdigest(),
        "bitepoint": __version__,
        "bank": bank_digest(),
        "problems": [],
    } == head
    assert (written.record.hash, 1.0, "marked", 1) == (
        trail["line"],
        trail["score"],
        trail["status"],
        trail["bank_revision"],
    )
    assert trail["facts"] == trail["facts_now"] == written.record.facts
