"""A question found wrong is withdrawn: results are worked out with it and without it, and the better stands."""

from datetime import date
from pathlib import Path
from time import process_time

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_flags import OAK, ONE, line, marked

from bitepoint.bank import exercises
from bitepoint.bank.corrections import Correction, Withdrawal
from bitepoint.logbook import standing
from bitepoint.logbook.standing import Marked
from bitepoint.marking import mark_hand_ins, passing, rows
from bitepoint.marking.figures import teaching
from bitepoint.marking.flagging import answers as flags
from bitepoint.marking.result import Result, Row
from bitepoint.marking.rows import rows_of
from bitepoint.marking.rules import ClassRules
from bitepoint.questions.draw import STANDARD, own_letter
from bitepoint.questions.question import Verdict

RULES = ClassRules(lessons=("start",))
IDS = [e.id for e in RULES.wanted()]
GONE = "start.choice"
WHY = "Two of the options say the same."


def row(exercise: str, mark: float, *, critical: bool = False, withdrawn: str = "") -> Row:
    """Return a learner's marks in one exercise."""
    return Row(
        learner=ONE, exercise=exercise, first_score=mark, last_score=mark, critical_made=critical,
        critical_open=critical, withdrawn=withdrawn,
    )  # fmt: skip


@pytest.fixture
def withdrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """Withdraw one question of lesson start."""
    found = Withdrawal(exercise=GONE, revisions=(1,), date=date(2027, 2, 1), why=WHY)

    def of(exercise: str, revision: int) -> Withdrawal | None:
        return found if exercise == GONE and revision == 1 else None

    for module in (rows, standing):
        monkeypatch.setattr(module, "withdrawal_of", of)
    for module in (passing, teaching):
        monkeypatch.setattr(module, "withdrawn_now", lambda: frozenset({GONE}))


def test_many_dangerous_answers_to_a_withdrawn_question_cost_no_more_each(withdrawn: None) -> None:
    """A hostile hand-in may hold thousands: four times as many take about four times as long."""
    said = Verdict(0.0, "a", "Dangerous.", "Wrong.", ("m",), True)

    def least(count: int) -> float:
        records = [marked(GONE, turn=1).record] * count
        lines = [
            Marked(msgspec.structs.replace(r, n=n, turn=n, hash=str(n)), said, 2)
            for n, r in enumerate(records, start=1)
        ]
        spent = []
        for _ in range(3):
            began = process_time()
            rows._critical(lines)
            spent.append(process_time() - began)
        return min(spent)

    assert least(4000) < 9 * least(1000)


def test_who_had_it_wrong_is_counted_without_it() -> None:
    """Seven of eight right needs seven of eight; without the withdrawn one it is seven of seven."""
    rows = [row(e, 0.0 if e == GONE else 1.0, withdrawn=WHY if e == GONE else "") for e in IDS]
    found = passing.count(rows, RULES)
    assert (len(IDS) - 1, len(IDS) - 1, True) == (found.right, found.rest, found.left_out)
    assert found.other is not None
    assert (len(IDS) - 1, len(IDS)) == (found.other.right, found.other.rest)
    assert f"Counted without the withdrawn {GONE}, which is the better; with:" in found.reason


def test_who_had_it_right_keeps_it() -> None:
    """A right answer to a withdrawn question still helps where without it too few are right."""
    rows = [row(e, 1.0 if e == GONE else 0.0, withdrawn=WHY if e == GONE else "") for e in IDS]
    found = passing.count(rows, RULES)
    assert (1, len(IDS), False) == (found.right, found.rest, found.left_out)


@given(
    marks=st.lists(
        st.tuples(st.sampled_from([0.0, 0.5, 1.0, None]), st.booleans()), min_size=len(IDS), max_size=len(IDS)
    ),
    gone=st.sets(st.sampled_from(IDS), max_size=4),
)
@settings(deadline=None, max_examples=300)
def test_nobody_falls(marks: list[tuple[float | None, bool]], gone: set[str]) -> None:
    """Whatever was answered: a withdrawal takes the rule from nobody who met it, and lowers nobody's share."""
    before = [row(e, m, critical=c and m != 1) for e, (m, c) in zip(IDS, marks, strict=True) if m is not None]
    after = [
        msgspec.structs.replace(
            r, withdrawn=WHY, critical_made=False, critical_open=False, critical_dropped="x" if r.critical_made else ""
        )
        if r.exercise in gone
        else r
        for r in before
    ]
    old, new = passing.count(before, RULES), passing.count(after, RULES)
    assert new.met or not old.met
    assert len(new.critical_open) <= len(old.critical_open)
    assert new.right / max(1, new.rest) >= old.right / max(1, old.rest)
    if new.other is not None:
        assert passing._rank(new) >= passing._rank(new.other)


def test_a_critical_mistake_in_it_is_dropped_and_named(withdrawn: None) -> None:
    """It no longer stands open, and the row says which one was dropped."""
    lines = [line for n in range(4) if (line := marked(GONE, "abcd"[n])).verdict and not line.verdict.right]
    wrong = msgspec.structs.replace(
        lines[0], verdict=msgspec.structs.replace(lines[0].verdict, critical=True, reason="Chose to lift it.")
    )
    found = rows_of(ONE, [wrong], OAK)[0]
    assert (False, False, WHY, "Chose to lift it.") == (
        found.critical_open, found.critical_made, found.withdrawn, found.critical_dropped,
    )  # fmt: skip


def test_one_that_nobody_answered_is_not_held_against_anybody(withdrawn: None) -> None:
    """A withdrawn question that a learner never answered leaves the count where that is the better."""
    rows = [row(e, 1.0) for e in IDS if e != GONE]
    found = passing.count(rows, RULES)
    assert (len(IDS) - 1, len(IDS) - 1) == (found.right, found.rest)
    unmarked = Row(learner=ONE, exercise=GONE, tries=1, turns=1, reason="Question changed since: no mark.")
    assert found.reason == passing.count([*rows, unmarked], RULES).reason


def test_what_no_car_serves_is_not_asked_and_safety_is_never_complete(monkeypatch: pytest.MonkeyPatch) -> None:
    """An outcome of safety that the class's cars leave uncovered is printed instead of the word complete."""
    found = passing.Counted(right=8, rest=8, needed=7, critical_open=(), not_covered=("Keeps off the hub nut",))
    monkeypatch.setattr(passing, "is_of_safety", lambda outcome: outcome == "Keeps off the hub nut")
    words = passing.evidence_words(found)
    assert "of safety not covered: Keeps off the hub nut" in words
    assert passing.COMPLETE not in words
    monkeypatch.setattr(passing, "is_of_safety", lambda outcome: False)
    assert passing.ALL_MET == passing.evidence_words(found)


def test_what_is_not_part_of_the_course_holds_nobody_back() -> None:
    """Something critical in an exercise that the class's cars leave out cannot be put right there, so it is not open."""
    rules = ClassRules(vehicles=("A",))
    gone = next(e.id for e in exercises().values() if e.left_out(rules.vehicles))
    rows = [row(e.id, 1.0) for e in rules.wanted()]
    found = passing.count([*rows, row(gone, 0.0, critical=True)], rules)
    assert () == found.critical_open
    assert found.met


def test_who_answered_a_dangerous_question_is_told_to_the_assessor(monkeypatch: pytest.MonkeyPatch) -> None:
    """One flag an exercise, with what was wrong and whether the corrected question was answered since."""
    found = Correction(exercise=GONE, revision=2, date=date(2027, 2, 1), what="It said to lift it.", dangerous=True)
    monkeypatch.setattr(flags, "correction_since", lambda e, r: found if e == GONE and r < 2 else None)
    monkeypatch.setattr(flags, "dangerously_corrected", lambda: {GONE})
    old, other = marked(GONE), marked(IDS[0])
    assert [] == list(flags.dangerous_question(ONE, [other]))
    (flag,) = flags.dangerous_question(ONE, [old, old, other])
    assert (flags.DANGEROUS, GONE) == (flag.kind, flag.exercise)
    assert "It said to lift it. The corrected question was not answered since." in flag.evidence
    new = msgspec.structs.replace(old, record=msgspec.structs.replace(old.record, revision=2))
    (flag,) = flags.dangerous_question(ONE, [old, new])
    assert flag.evidence.endswith("was answered since.")


def _answered(revisions: list[tuple[int, int, str]]) -> Row:
    """Return the row of someone who answered right, wrong or dangerously in turns of certain revisions."""
    right = Verdict(1.0, "", "", "right")
    hurts = Verdict(0.0, "", "", "hurts", ("it",), critical=True)
    lines = []
    for turn, revision, said in revisions:
        line = marked(GONE)
        record = msgspec.structs.replace(
            line.record, turn=turn, revision=revision, at=f"2027-01-0{turn}T08:00:00+00:00"
        )
        verdict = right if said == "right" else hurts
        lines.append(msgspec.structs.replace(line, record=record, verdict=verdict, tries_allowed=2))
    return rows_of(ONE, lines, OAK)[0]


@pytest.mark.usefixtures("withdrawn")
def test_a_danger_in_the_question_that_stands_stays_open() -> None:
    """Right in the withdrawn revision, dangerous in the corrected one: the danger is not dropped with the withdrawal."""
    answered = _answered([(1, 1, "right"), (2, 2, "hurts")])
    assert WHY == answered.withdrawn
    found = passing.count([answered, *(row(e, 1.0) for e in IDS if e != GONE)], RULES)
    assert (GONE,) == found.critical_open
    assert not found.met


@pytest.mark.usefixtures("withdrawn")
def test_a_danger_put_right_in_the_withdrawn_question_stays_put_right() -> None:
    """A right answer that closed a critical mistake before the withdrawal closes it afterwards: nobody falls."""
    answered = _answered([(1, 2, "hurts"), (2, 1, "right")])
    assert not answered.critical_open
    assert "" == answered.critical_dropped
    assert passing.count([answered, *(row(e, 1.0) for e in IDS if e != GONE)], RULES).met


@pytest.mark.usefixtures("withdrawn")
def test_nobody_practises_or_is_asked_what_was_withdrawn() -> None:
    """A withdrawn question stands neither in what to practise next nor in what to ask face to face."""
    rows = [row(e, 1.0, withdrawn=WHY if e == GONE else "") for e in IDS if e != IDS[-1]]
    for mark in (0.0, 1.0):
        rows = [msgspec.structs.replace(r, last_score=mark) if r.exercise == GONE else r for r in rows]
        answered = Result(name=ONE, class_word=OAK, rows=tuple(r for r in rows if r.exercise == GONE), rules=RULES)
        assert [] == teaching.oral_questions(answered)
        whole = Result(name=ONE, class_word=OAK, rows=tuple(rows), rules=RULES)
        assert [IDS[-1]] == [id for id, _ in teaching.next_practice(whole)]
    nobody = Result(name=ONE, class_word=OAK, rules=RULES)
    assert GONE not in [id for id, _ in teaching.next_practice(nobody, most=99)]


def test_a_withdrawal_that_changes_nothing_is_not_called_the_better() -> None:
    """Where the count is as good with and without, that is said."""
    rows = [row(e, 1.0, withdrawn=WHY if e == GONE else "") for e in IDS[1:]]
    rows = [r if r.exercise != GONE else msgspec.structs.replace(r, last_score=0.0, critical_dropped="x") for r in rows]
    found = passing.count(rows, RULES)
    assert found.other is not None
    assert (found.right, found.rest) == (found.other.right, found.other.rest)
    assert f"The same with and without the withdrawn {GONE}." in found.reason
    assert "better" not in found.reason


def test_marking_tells_it_and_a_longer_list_of_cars_moves_nobody(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The flag reaches the outcome; who was written down with two cars is still counted by those two."""
    found = Correction(exercise=GONE, revision=2, date=date(2027, 2, 1), what="It said to lift it.", dangerous=True)
    monkeypatch.setattr(flags, "correction_since", lambda e, r: found if e == GONE and r < 2 else None)
    monkeypatch.setattr(flags, "dangerously_corrected", lambda: {GONE})
    own = own_letter(OAK, ONE)
    other, later = [letter for letter in STANDARD if letter != own][:2]
    (tmp_path / "in").mkdir()
    written = line(GONE, vehicle=own, cars=f"{own} {other}").text
    (tmp_path / "in" / "start.0a1b2c3d.jsonl").write_text(written + "\n", encoding="utf-8")
    roster = f"learner,class_word,vehicle,cars\n{ONE},{OAK},{own},{own} {other}\n"
    (tmp_path / "roster.csv").write_text(roster, encoding="utf-8")
    wanted = []
    for cars in ((own, other), (own, other, later)):
        outcome = mark_hand_ins(
            [tmp_path / "in"], out=tmp_path / f"out-{len(cars)}", roster=tmp_path / "roster.csv",
            rules=ClassRules(vehicles=cars),
        )  # fmt: skip
        assert [flags.DANGEROUS] == [flag.kind for flag in outcome.summary.flags]
        wanted.append((tmp_path / f"out-{len(cars)}" / "learners.csv").read_text(encoding="utf-8"))
    assert wanted[0] == wanted[1]
