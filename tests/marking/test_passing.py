"""The pass rule, its words, what is still critical, whom a second person marks, and class rules as a file says them."""

from datetime import UTC, datetime
from pathlib import Path

import msgspec
import pytest
from test_flags import OAK, ONE, line, marked

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.logbook.standing import Marked, critical_left
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.figures.counts import ExerciseCount
from bitepoint.marking.figures.sampling import candidate, plan
from bitepoint.marking.figures.teaching import by_outcome, next_practice, oral_questions, reteach
from bitepoint.marking.passing import ALL_MET, COMPLETE, MORE_WORK, OBSERVATION, OBSERVED
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.result import Flag, Result, Row
from bitepoint.marking.rows import rows_of
from bitepoint.marking.rules import ClassRules, read_rules, rules_of
from bitepoint.workbook.class_file import read_class_file

WANTED = [e.id for e in exercises().values() if not e.beyond]
BEYOND = [e.id for e in exercises().values() if e.beyond]
ORDINARY = ClassRules()


def result(right: int, *, entries: tuple[Entry, ...] = (), rules: ClassRules = ORDINARY, **changes: object) -> Result:
    """Return a learner with so many of the wanted exercises right and the others wrong; changes go to the last row."""
    rows = [Row(learner=ONE, exercise=e, first_score=0.0, last_score=float(n < right)) for n, e in enumerate(WANTED)]
    rows[-1] = msgspec.structs.replace(rows[-1], **changes)
    return Result(name=ONE, class_word=OAK, rows=tuple(rows), entries=entries, rules=rules, first_at="2026")


def test_four_fifths_are_enough_and_one_fewer_is_not() -> None:
    """The limit is met exactly; what is needed is said."""
    needed = ClassRules().needed(len(WANTED))

    assert needed - 1 < 0.8 * len(WANTED) <= needed
    assert result(needed).evidence == ALL_MET
    assert result(needed - 1).evidence == MORE_WORK
    assert result(needed).counted.reason == (
        f"{needed} of {len(WANTED)} exercises right, {needed} needed; no critical mistake open."
    )


@pytest.mark.parametrize(
    ("share", "count", "needed"), [(0.8, 10, 8), (0.7, 10, 7), (0.29, 100, 29), (1.0, 7, 7), (0.8, 1, 1)]
)
def test_needed_is_rounded_up_but_not_by_a_bit_of_a_float(share: float, count: int, needed: int) -> None:
    """0.29 × 100 is 28.999… in binary and still means 29."""
    assert needed == ClassRules(pass_share=share).needed(count)


def test_complete_needs_both_sitting_and_declaration() -> None:
    """Never without them; each missing one is named."""
    everything = len(WANTED)

    assert sat(everything, declared=True).evidence == COMPLETE
    assert sat(everything).evidence == "all knowledge exercises met; no declaration recorded that counts"
    assert sat(everything, "sitting, time to confirm", declared=True).evidence == (
        "all knowledge exercises met; sitting, time to confirm"
    )
    assert sat(everything, "unsupervised", declared=True).evidence == MORE_WORK
    assert sat(0, declared=True).evidence == MORE_WORK
    assert sat(0).sitting == "supervised by A"
    assert result(0).sitting == "unsupervised"


def test_practice_alone_is_never_complete() -> None:
    """Whatever is claimed beside it; the words name what is missing."""
    everything = msgspec.structs.replace(result(len(WANTED)), declared=True)

    assert everything.evidence == "all knowledge exercises met; no supervised sitting recorded"


def sat(right: int, standing: str = "supervised by A", *, declared: bool = False) -> Result:
    """Return a learner with so many right in a sitting and nothing in practice."""
    rows = [msgspec.structs.replace(r, sitting="red-kite", standing=standing) for r in result(right).rows]
    return msgspec.structs.replace(result(0), rows=(), sitting_rows=tuple(rows), declared=declared)


def test_one_critical_mistake_open_is_more_work_whatever_the_share() -> None:
    """All else right does not outweigh it; put right it takes its exercise out of the share."""
    rules = ClassRules(pass_share=0.5)
    still_open = result(len(WANTED) - 1, rules=rules, critical_made=True, critical_open=True)
    put_right = result(len(WANTED), rules=rules, critical_made=True)

    assert still_open.evidence == MORE_WORK
    assert f"critical mistake still open in {WANTED[-1]}." in still_open.counted.reason
    assert put_right.evidence == ALL_MET
    assert put_right.counted.rest == len(WANTED) - 1


def test_go_deeper_is_outside_the_share_but_not_outside_safety() -> None:
    """An exercise beyond the rule counts for nothing, except that a critical mistake in it must be put right."""
    done = result(len(WANTED))
    more = [Row(learner=ONE, exercise=e, first_score=0.0, last_score=0.0) for e in BEYOND]
    hurt = [msgspec.structs.replace(r, critical_made=True, critical_open=True) for r in more]

    assert BEYOND
    assert msgspec.structs.replace(done, rows=(*done.rows, *more)).counted == done.counted
    assert msgspec.structs.replace(done, rows=(*done.rows, *hurt)).evidence == MORE_WORK


def critical_exercise() -> tuple[str, object]:
    """Return an exercise and an answer to its first turn that makes a critical mistake."""
    for found in exercises().values():
        question = found.draw(class_word=OAK, learner=ONE)
        for answer, _ in question.known_mistakes():
            if question.mark(answer).critical and question.tries_allowed > 2:
                return found.id, answer
    raise AssertionError("the bank has no critical mistake")


def test_a_critical_mistake_is_put_right_only_by_a_later_right_answer() -> None:
    """Also after a right one; another wrong answer, or a right one after the solution, does not do it."""
    exercise, bad = critical_exercise()

    def line(minute: int, answer: object = None, **changes: object) -> Marked:
        x = marked(exercise, answer, at=f"2026-04-14T08:{minute:02d}:00.000Z", **changes)
        assert x.verdict
        return Marked(x.record, x.verdict, x.tries_allowed)

    assert critical_left([line(1, bad)])
    assert not critical_left([line(1, bad), line(2)])
    assert critical_left([line(1), line(2, bad)])
    assert critical_left([line(1, bad), line(2, solution_shown=True)])
    assert critical_left([line(1, bad), line(2, bad), line(3, bad), line(4)])
    (row,) = rows_of(ONE, [marked(exercise, bad)], OAK)
    assert row.critical_made
    assert row.critical_open


def test_observation_is_required_until_every_criterion_was_last_seen_done_right() -> None:
    """None named, one missing, one taken back: still required; the newest counts."""
    rules = ClassRules(criteria=("Frees the disc", "Star"))

    def seen(criterion: str, result: str = "done right") -> Entry:
        return Entry(kind="observation", learner=ONE, criterion=criterion, result=result, by="A")

    both = (seen("frees the disc "), seen("Star"))
    assert result(0).observation == OBSERVATION
    assert result(0, entries=both).observation == OBSERVATION
    assert result(0, rules=rules, entries=both[:1]).observation == OBSERVATION
    assert result(0, rules=rules, entries=both).observation == OBSERVED
    assert result(0, rules=rules, entries=(*both, seen("Star", "not right yet"))).observation == OBSERVATION


def test_sampling_is_by_reason_and_by_lot_and_the_same_each_time() -> None:
    """Override over something critical, the border, a flag, and a tenth of the class."""
    override = Entry(kind="override", learner=ONE, score=1.0, by="A")
    cases = {
        "override": result(len(WANTED), override=override, critical_made=True),
        "border": result(ClassRules().needed(len(WANTED)) + 1),
        "flag": msgspec.structs.replace(result(0), flags=(Flag(kind="chain broken", learner=ONE, evidence=""),)),
        **{f"plain-{n}": result(0) for n in range(27)},
    }
    named = [msgspec.structs.replace(r, name=name) for name, r in cases.items()]
    found = plan([candidate(r) for r in named])
    reasons = {s.learner: "; ".join(s.reasons) for s in found}

    assert "override where a critical mistake was made" in reasons["override"]
    assert "on the border" in reasons["border"]
    assert "flagged: chain broken" in reasons["flag"]
    assert sum("by lot" in r for r in reasons.values()) == 3
    assert found == plan([candidate(r) for r in named])
    other = plan([candidate(msgspec.structs.replace(r, class_word="elm")) for r in named])
    assert {s.learner for s in other} != {s.learner for s in found}


def test_class_rules_are_read(tmp_path: Path) -> None:
    """Share, date, criteria, lessons; a share on the command line wins."""
    path = tmp_path / "class.toml"
    path.write_text(
        'class_word = "K7"\npass_share = 0.75\ndue = 2026-06-30\nzone = "Europe/Vienna"\ncriteria = ["A"]\nlessons = ["star"]\n',
        "utf-8",
    )
    found = read_rules(path)

    assert (0.75, ("A",), ("star",)) == (found.pass_share, found.criteria, found.lessons)
    assert found.due == datetime(2026, 6, 30, 21, 59, 59, tzinfo=UTC)
    assert "2026-06-30 23:59 (+02:00, Europe/Vienna)" == found.due_said
    assert {e.lesson for e in found.wanted()} == {"star"}
    assert rules_of(path, 1.0).pass_share == 1.0
    assert rules_of(None) == ClassRules()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("pass_share = 80", "class.toml: pass_share must be a number above 0 and up to 1, but you gave 80. Write 0.8"),
        ("pass_share = true", "class.toml: pass_share must be a number"),
        ("pass_share = nan", "class.toml: pass_share must be a number"),
        (
            'zone = "Mars"',
            "class.toml: zone must be the name of a time zone such as zone = \"Europe/Vienna\", but it is 'Mars'.",
        ),
        ("zone = 2", "class.toml: zone must be the name of a time zone"),
        ('zone = "../x"', "class.toml: zone must be the name of a time zone"),
        ('zone = "Europe"', "class.toml: zone must be the name of a time zone"),
        ('due = "June"', "class.toml: due must be a date such as 2026-06-30, but it is 'June'."),
        ('criteria = "A"', "class.toml: criteria must be a list of texts"),
        ("supervisor = 3", "class.toml: supervisor must be one line of at most 120 characters"),
        ('supervisor = "two\\nlines"', "class.toml: supervisor must be one line of at most 120 characters"),
        ('lessons = ["moon"]', "class.toml: lessons names 'moon', which is no lesson."),
        ("pass_share 1", "class.toml: "),
        (
            "retake = 0",
            "class.toml: there is no key “retake” (did you mean “retakes”?). The keys are: class_word, title, ",
        ),
        ("x = 1\nAppeal_days = 3", "class.toml: there is no key “x”, “Appeal_days” (did you mean “appeal_days”?)."),
        ("[marking]\nretakes = 0", "class.toml: there is no key “marking”"),
        ('feedback = "later"', 'class.toml: feedback must be "at once" or "after hand-in", but it is \'later\'.'),
        ("feedback = [1]", 'class.toml: feedback must be "at once" or "after hand-in", but it is \'[1]\'.'),
        ("lessons = []", "class.toml: lessons names none. Leave the line out when all count, or choose from start, "),
        ('sitting = "red kite"', "class.toml: The sitting word 'red kite' cannot be used."),
        ("class_word = 7", "class.toml: The class word '7' cannot be used."),
        ('counts = "first"', 'class.toml: counts must be "last" or "best"'),
        ("vehicles = []", "class.toml: vehicles must be a list of letters"),
    ],
)
def test_a_rule_that_cannot_be_used_is_one_line(tmp_path: Path, content: str, said: str) -> None:
    """File, key, rule."""
    path = tmp_path / "class.toml"
    path.write_text(content, "utf-8")

    with pytest.raises(BadInput) as raised:
        read_rules(path)
    assert str(raised.value).startswith(said)


def test_a_class_file_with_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    """Some editors write one before the first line."""
    (tmp_path / "class.toml").write_bytes(b'\xef\xbb\xbfclass_word = "K7"\npass_share = 0.75\n')

    assert 0.75 == read_rules(tmp_path / "class.toml").pass_share
    assert "K7" == read_class_file(tmp_path / "class.toml").class_word


def test_a_page_speaks_of_the_lessons_that_count(tmp_path: Path) -> None:
    """In a class of one lesson the exercises of the others are neither counted nor called unanswered."""
    line_ = line("start.number")
    (tmp_path / "a.jsonl").write_text(line_.text + "\n", "ascii")
    mark_hand_ins([tmp_path / "a.jsonl"], out=tmp_path / "out", rules=ClassRules(lessons=("start",)))
    page, report = ((tmp_path / "out" / name).read_text("utf-8") for name in (f"assessor/{ONE}.html", "report.html"))
    count = sum(e.lesson == "start" for e in exercises().values())

    assert f"<dd>1 of {count}</dd>" in page
    assert f"<dd>1 of {count}</dd>" in report
    assert "start.choice" in page
    assert "torque.crow-foot" not in page


def test_by_outcome_counts_every_wanted_exercise_once() -> None:
    """Right and all add up to what the pass rule counts."""
    found = by_outcome(result(3))

    assert len(WANTED) == sum(all_ for _, _, all_ in found)
    assert sum(right for _, right, _ in found) == 3


def test_practice_begins_with_what_could_hurt() -> None:
    """Critical first, then wrong ones, then the unanswered."""
    found = next_practice(result(len(WANTED) - 2, critical_made=True, critical_open=True))

    assert (WANTED[-1], "a critical mistake is still open") == found[0]
    assert WANTED[-2] == found[1][0]


def test_two_oral_questions_come_from_the_learners_own_figures() -> None:
    """Drawn again for this learner and turn; the same at each marking."""
    rows = rows_of(ONE, [marked(e) for e in ("start.number", "start.choice", "start.several")], OAK)
    found = oral_questions(Result(name=ONE, class_word=OAK, rows=tuple(rows)))

    assert len(found) == 2
    assert found == oral_questions(Result(name=ONE, class_word=OAK, rows=tuple(reversed(rows))))
    for oral in found:
        assert oral.asked == exercises()[oral.exercise].draw(class_word=OAK, learner=ONE).ask
        assert "Explain why that is right" in oral.ask
    wrong = [msgspec.structs.replace(r, last_score=0.0) for r in rows]
    assert "how you would answer now" in oral_questions(Result(name=ONE, class_word=OAK, rows=tuple(wrong)))[0].ask


def test_what_to_teach_again_is_said_in_words() -> None:
    """By outcome, below 60 in 100, with the commonest mistake."""
    count = ExerciseCount(id="a.b", title="B", outcome="Does it")
    count.counts |= {"right at first try": 5, "not right yet": 5}
    count.mistakes.update({"forgets it": 4, "other": 1})
    (found,) = reteach([count])

    assert found.words.startswith("50 % right at first try. Commonest mistake, made 4 times: forgets it.")
    count.counts["right at first try"] = 15
    assert reteach([count]) == []
