"""The pages about one learner: each says to its reader what that reader may and must know."""

import html
import re
from datetime import date, datetime
from pathlib import Path

import msgspec
import pytest
from markupsafe import Markup
from test_flags import OAK, ONE

from bitepoint import places
from bitepoint.bank import corrections, exercises
from bitepoint.bank.corrections import Withdrawal
from bitepoint.bank.coverage import left_out
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import REHEARSAL
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.figures.teaching import by_outcome, question_of
from bitepoint.marking.pages.asked import asked_of
from bitepoint.marking.pages.assessor import assessor_page
from bitepoint.marking.pages.coming_about import how_it_came
from bitepoint.marking.pages.dangers import grouped
from bitepoint.marking.pages.evidence import evidence_page
from bitepoint.marking.pages.learner import learner_page
from bitepoint.marking.pages.render import moment, numbered, piece
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.result import Flag, Result, Row, SittingWork
from bitepoint.marking.rules import ClassRules, read_rules
from bitepoint.questions.kinds import kind_of
from bitepoint.workshop.datafiles import DataFiles, using

MARKED = datetime.fromisoformat("2026-06-30T15:04+02:00")
RIGHT = Row(learner=ONE, exercise="start.number", first_score=1.0, last_score=1.0, tries=1, turns=1, answer="84 N·m")
WRONG = Row(
    learner=ONE,
    exercise="star.impact",
    first_score=0.0,
    last_score=0.0,
    tries=2,
    turns=1,
    answer="b: with the impact tool",
    says="It bends the cover.",
    critical_open=True,
    critical_made=True,
    critical_mistake="impact tool",
    critical_says="It bends the cover.",
    reason="Chose b instead of a: impact tool.",
)


def result(*rows: Row, **more: object) -> Result:
    """Return a learner with these rows."""
    return Result(name=ONE, class_word=OAK, rows=rows, first_at="2026-06-30", last_at="2026-06-30", **more)  # type: ignore[arg-type]


def text(page: str) -> str:
    """Return what stands on a page, without its head, tags and line breaks."""
    return re.sub(r" (?=[,.:;])", "", " ".join(re.sub(r"<[^>]+>", " ", page.partition("<body")[2]).split()))


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (RIGHT, "Right at the first try: mark 1."),
        (WRONG, "Not right yet after 2 tries: mark 0. A critical mistake is open."),
        (
            Row(learner=ONE, exercise="a", first_score=0.0, last_score=0.5, tries=1, turns=1),
            "Partly right after 1 try: mark 0.5.",
        ),
        (
            Row(learner=ONE, exercise="a", first_score=0.0, last_score=1.0, tries=4, turns=2, turn=2, solutions_seen=1),
            "Right after 4 tries, in the second of 2 sets of figures: mark 1. The solution was shown once.",
        ),
        (Row(learner=ONE, exercise="a", tries=2), "No mark: the question has changed since it was asked."),
        (
            Row(
                learner=ONE,
                exercise="a",
                first_score=0.0,
                last_score=0.0,
                tries=1,
                override=Entry(kind="override", by="A. Assessor", date="2026-06-29", score=1.0, text="Said it."),
            ),
            "Not right yet after 1 try: mark 0. A. Assessor gave 1 on 29 June 2026: “Said it.” This is a decision of this",
        ),
    ],
)
def test_a_mark_is_told_in_a_sentence(row: Row, said: str) -> None:
    """First try, later, partly, wrong, changed, decided by a person."""
    assert how_it_came(row).startswith(said)


def test_the_learners_page_has_nothing_of_anybody_else() -> None:
    """Neither the other's id and figures nor what to listen for; that somebody will look is said."""
    flag = Flag(
        kind="fits another learner's figures", learner=ONE, evidence="as L07-K", beside=(("right for L07-K", "93.1"),)
    )
    note = Entry(kind="lines", learner=ONE, by="A", text="lines of L07-K counted", date="2026-06-30")
    found = result(RIGHT, WRONG, flags=(flag,), entries=(note,))
    own, assessors = text(learner_page(found, MARKED)), text(assessor_page(found, MARKED))

    assert "L07-K" not in own
    assert "93.1" not in own
    assert "Listen for" not in own
    assert "fits another learner" in own
    assert "That is a question, not a verdict" in own
    assert "93.1" in assessors
    assert "Listen for" in assessors


def test_the_learners_page_says_how_to_appeal_whom_to_ask_and_by_when() -> None:
    """The days of the class count from the day of the marking; without a name it is the assessor."""
    rules = ClassRules(appeal_days=14, appeal_to="B. Head, room 12")

    said = text(learner_page(result(RIGHT, rules=rules), MARKED))
    assert "Ask B. Head, room 12, by 14 July 2026 (14 days after the marking)." in said
    said = text(learner_page(result(RIGHT, rules=ClassRules(appeal_days=0)), MARKED))
    assert "Ask your assessor. You will be shown the question as you read it" in said
    assert "by 10 July 2026 (10 days after" in text(learner_page(result(RIGHT), MARKED))


def test_what_was_dangerous_stands_before_all_marks() -> None:
    """Its name and why, then what to practise."""
    said = text(learner_page(result(RIGHT, WRONG), MARKED))

    assert said.index("impact tool") < said.index("What to practise next") < said.index("Right at first try")
    assert "It bends the cover." in said


def test_the_page_is_the_feedback_where_feedback_comes_after_the_hand_in() -> None:
    """What was asked, what was answered, right or wrong and why; in other classes the right ones are folded."""
    row = Row(**{f: getattr(RIGHT, f) for f in ("learner", "exercise", "first_score", "last_score", "tries", "turns")})
    found = result(row, WRONG, rules=ClassRules(withheld=True))
    question, wrong = question_of(found, row), question_of(found, WRONG)
    assert question
    assert wrong
    said, folded = (
        text(learner_page(r, MARKED)).replace("&#39;", "'").replace("&#34;", '"') for r in (found, result(row, WRONG))
    )

    assert question.why.partition(". ")[0] in said
    assert " ".join(wrong.ask.split())[:60] in said
    assert "b: with the impact tool" in said
    assert question.why.partition(". ")[0] not in folded
    assert exercises()["start.number"].title in folded


def test_the_record_says_what_is_there_and_what_is_missing() -> None:
    """A line for the name, the criteria, what was observed, the words of the evidence, lines to sign, the frame."""
    seen = Entry(
        kind="observation", learner=ONE, by="A. Assessor", date="2026-06-30", criterion="Straps it", result="done right"
    )
    rules = ClassRules(criteria=("Straps it", "Stops and asks"), title="Autumn group")
    said = text(evidence_page(result(RIGHT, rules=rules, entries=(seen,)), MARKED))

    for words in (
        "Name",
        "Autumn group",
        "30 June 2026, 15:04 (UTC+02:00)",
        "Straps it done right A. Assessor 30 June 2026",
        "Stops and asks ☐ done right ☐ not right yet ☐ not watched",
        "practical observation still required",
        "more work needed",
        "No answers of a sitting were handed in.",
        "none recorded",
        "Learner: this is my own work",
        "Verifier",
        "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR",
    ):
        assert words in said


def test_dangers_are_grouped_by_exercise_with_who_made_them() -> None:
    """The exercise that most are open in comes first; ids in the order of their numbers; nobody counts twice."""
    rows = [
        Row(learner=who, exercise=exercise, critical_open=True, critical_mistake=name, critical_says="It breaks.")
        for who, exercise, name in [
            ("L100-B", "star.impact", "impact tool"),
            ("L11-A", "star.impact", "impact tool"),
            ("L11-A", "star.impact", "impact tool"),
            ("L9-C", "star.impact", "oil"),
            ("L9-C", "safe.tags", "trusts the cradle"),
        ]
    ]
    groups = grouped(rows)

    assert [("star.impact", 3), ("safe.tags", 1)] == [(g.exercise, g.learners) for g in groups]
    assert [("impact tool", ("L11-A", "L100-B")), ("oil", ("L9-C",))] == [
        (d.name, d.learners) for d in groups[0].dangers
    ]


def test_names_come_in_the_order_of_their_numbers() -> None:
    """A name without a number, or with hundreds of digits, does no harm."""
    names = ["L100-B", "L11-A", "ann", "9" * 400, "L9-C", ""]

    assert ["", "ann", "L9-C", "L11-A", "L100-B", "9" * 400] == sorted(names, key=numbered)


def test_a_time_says_its_zone() -> None:
    """In the zone of whoever marked."""
    assert moment(MARKED) == "30 June 2026, 15:04 (UTC+02:00)"


@pytest.mark.parametrize("value", ["-1", "366", "true", "2.5", '"10"'])
def test_days_to_appeal_are_a_whole_number(tmp_path: Path, value: str) -> None:
    """What cannot be used is said with its key."""
    (tmp_path / "class.toml").write_text(f"appeal_days = {value}\n", "utf-8")
    with pytest.raises(BadInput, match=r"^class\.toml: appeal_days must be a whole number from 0 to 365, but it is "):
        read_rules(tmp_path / "class.toml")


def test_title_feedback_and_appeals_stand_in_the_class_file(tmp_path: Path) -> None:
    """And ten days are given where it says nothing."""
    file = tmp_path / "class.toml"
    file.write_text(
        'title = "Autumn group"\nfeedback = "after hand-in"\nappeal_days = 5\nappeal_to = "B. Head"\n', "utf-8"
    )
    found = read_rules(file)
    assert ("Autumn group", True, 5, "B. Head") == (found.title, found.withheld, found.appeal_days, found.appeal_to)
    file.write_text("pass_share = 0.8\n", "utf-8")
    found = read_rules(file)
    assert ("", False, 10, "") == (found.title, found.withheld, found.appeal_days, found.appeal_to)


def test_no_learners_page_of_a_class_names_another_learner(tmp_path: Path) -> None:
    """Also where cases are planted, one of which copies from another."""
    rehearse(tmp_path, learners=24, seed=2, planted=True)
    mark_hand_ins([tmp_path / "hand-ins"], roster=tmp_path / "roster.csv", out=tmp_path / "marks", marked=MARKED)
    pages = {p.stem: text(p.read_text("utf-8")) for p in (tmp_path / "marks" / "learners").iterdir()}

    assert len(pages) >= 18
    for name, said in pages.items():
        assert [] == [other for other in pages if other != name and other in said]
        assert name in said


def test_the_report_says_class_day_and_zone(tmp_path: Path) -> None:
    """The title of the class, else its word; bars are of the class."""
    rehearse(tmp_path, learners=3, seed=2, lessons=["start"])
    common = {"roster": tmp_path / "roster.csv", "marked": MARKED}
    mark_hand_ins([tmp_path / "hand-ins"], out=tmp_path / "a", rules=ClassRules(title="Autumn group"), **common)  # type: ignore[arg-type]
    mark_hand_ins([tmp_path / "hand-ins"], out=tmp_path / "b", **common)  # type: ignore[arg-type]
    first, second = ((tmp_path / x / "report.html").read_text("utf-8") for x in "ab")

    assert "<h1>Autumn group: report</h1>" in first
    assert "Marked on 30 June 2026, 15:04 (UTC+02:00)." in first
    assert f"<h1>{REHEARSAL}: report</h1>" in second
    assert re.search(r'aria-label="Of 3: [^"]*, \d not answered"', first)


def test_letters_are_told_with_what_stands_behind_them() -> None:
    """A page without the question would say “b, c” and no more."""
    row = Row(learner=ONE, exercise="safe.protection", first_score=1.0, last_score=1.0, tries=1, turns=1, answer="a, b")
    found = result(row, rules=ClassRules(withheld=True))
    question = question_of(found, row)
    assert question
    texts = dict(kind_of(question).offered(question))

    assert f"a: {texts['a']}; b: {texts['b']}" in html.unescape(text(learner_page(found, MARKED)))


def test_receiving_an_appeal_is_no_decision() -> None:
    """Who received it is named as that; the outcome is a decision of whoever decided."""
    said = {"kind": "appeal", "learner": ONE, "exercise": "start.number", "date": "2026-07-01"}
    received = Entry(**said, by="A. Assessor", text="The figure is read wrongly.")  # type: ignore[arg-type]
    decided = Entry(**said, by="D. Head", outcome="upheld", decided="2026-07-03", text="It was.")  # type: ignore[arg-type]
    first, both = (text(learner_page(result(RIGHT, entries=e), MARKED)) for e in ((received,), (received, decided)))

    assert "received by A. Assessor" in first
    assert "a decision of this person" not in first
    assert 1 == both.count("a decision of this person")


def test_where_two_sittings_count_every_page_says_so() -> None:
    """Two words, each about lessons of its own; one of them not in the register says nothing of its lessons."""
    begins = MARKED.astimezone()
    rows = [msgspec.structs.replace(RIGHT, sitting="a", standing="supervised by S")]
    rows += [msgspec.structs.replace(WRONG, sitting="b", standing="supervised by S")]
    works = [
        SittingWork(word=w, standing="supervised by S", begins=begins, lessons=(lesson,), rows=(row,))
        for w, lesson, row in zip("ab", ("start", "star"), rows, strict=True)
    ]
    works.append(SittingWork(word="c", standing="unsupervised"))
    both = result(sittings=tuple(works), sitting_rows=tuple(rows))
    one = result(sittings=tuple(works[:1]), sitting_rows=tuple(rows[:1]))

    for page in (learner_page, assessor_page, evidence_page):
        assert "In the 2 sittings that count" in text(page(both, MARKED))
        assert "In the sitting that counts" in text(page(one, MARKED))
    assert "all lessons" not in text(evidence_page(both, MARKED))


def test_what_is_not_answered_is_worked_out_for_each_class_by_itself() -> None:
    """Other lessons, other cars, another withdrawal: what was worked out for the class before says nothing."""
    first, other = asked_of(ClassRules(lessons=("start",))), asked_of(ClassRules(lessons=("start", "carry")))
    assert {e.lesson for e in first} == {"start"}
    assert {e.lesson for e in other} == {"start", "carry"}
    gone = Withdrawal(exercise=first[0].id, revisions=(first[0].revision,), date=date(2027, 2, 1), why="No.")
    files = DataFiles(places.assets())
    with using(files):
        files.once(corrections._corrections.__wrapped__, lambda: corrections._File(withdrawal=(gone,)))  # type: ignore[attr-defined]
        assert first[1:] == asked_of(ClassRules(lessons=("start",)))
    assert first == asked_of(ClassRules(lessons=("start",)))


def test_a_piece_made_before_is_made_again_for_other_values() -> None:
    """Equal values of another kind too: a mark of 1 and a yes are written otherwise, and text stays text."""
    assert "<li>&lt;b&gt;: &amp;</li>" == piece("left", "<b>", "&") == piece("left", "<b>", "&")
    assert "<li>1: True</li>" == piece("left", 1, True)
    assert "<li>1.0: 1</li>" == piece("left", 1.0, 1)
    assert "<li><b>: &amp;</li>" == piece("left", Markup("<b>"), "&")


@pytest.mark.parametrize(
    "rules",
    [
        ClassRules(),
        ClassRules(lessons=("start", "carry")),
        ClassRules(vehicles=("A",)),
        ClassRules(vehicles=("D", "A")),
    ],
    ids=["all", "lessons", "one car", "two cars"],
)
def test_outcomes_are_counted_over_what_the_class_is_asked(rules: ClassRules) -> None:
    """Each exercise under the pass rule stands under its outcome, in the bank's order, whatever class was before."""
    wanted = rules.wanted()
    assert list(dict.fromkeys(e.outcome for e in wanted)) == [
        outcome for outcome, _, _ in by_outcome(result(rules=rules))
    ]
    for outcome, right, of in by_outcome(result(RIGHT, WRONG, rules=rules)):
        own = [e.id for e in wanted if e.outcome == outcome]
        assert (right, of) == (own.count(RIGHT.exercise), len(own))


def test_what_a_class_lacks_is_its_own_list() -> None:
    """Whoever changes the list that was given changes nobody's else."""
    gone = left_out(("D",))
    assert gone
    gone.clear()
    assert left_out(["D"])
    assert left_out(("D",), ("start",)) != left_out(("D",))
