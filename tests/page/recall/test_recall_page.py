"""What the page of recall shows and does: fixed words for practice, the end of a round, and its controls."""

import re
from collections.abc import Callable
from datetime import datetime, time, timedelta
from pathlib import Path
from typing import Any

import pytest
from icalendar import Calendar

from bitepoint.logbook import Identity, find_workbook
from bitepoint.logbook.identity import write_identity
from bitepoint.page import output, summing_up
from bitepoint.page.recall import due, remembering, showing
from bitepoint.page.recall.live import LiveRecall
from bitepoint.page.recall.stage_cards import card_of, introduction
from bitepoint.page.recall.stages import Asking, NothingDue, Practice, stage_of
from bitepoint.recall.outlook import come_back

from .past_lines import NOW, OPTIONS, Clock, asking, decide, do_round, kept, learn, learned, workbook

Shown = list[Any]


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch) -> Shown:
    """What a cell shows."""
    found: Shown = []

    def show(thing: Any) -> Callable[[Any], None]:
        found.append(thing)
        return found.append

    monkeypatch.setattr(output, "show_static", show)
    return found


def html_of(thing: Any) -> str:
    html: str = thing._repr_mimebundle_()["text/html"]
    return html


def words_of(thing: Any) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html_of(thing)))


def live(who: Identity, shown: Shown) -> LiveRecall:
    return LiveRecall(who, stage_of(who, Clock.now), shown.append, lambda: Clock.now)


def press(page: LiveRecall, **message: Any) -> None:
    page._heard(None, message, [])


def answer(page: LiveRecall, value: object) -> None:
    assert page.control is not None
    page.control._heard(None, {"do": "answer", "answer": value}, [])


@pytest.mark.parametrize(
    ("learner", "words"), [("practice", "You work as the practice learner."), ("self-study", "Nobody has said yet")]
)
def test_on_the_wall_and_where_nobody_has_said_who_they_are(
    tmp_path: Path, shown: Shown, learner: str, words: str
) -> None:
    """A folder of nobody's gets the example too, and no line; whoever learned on their own is asked."""
    write_identity(Identity(learner=learner, class_word=learner), tmp_path)
    who = find_workbook(tmp_path)
    stage = stage_of(who, NOW)
    assert isinstance(stage, Practice)
    assert words in words_of(introduction(stage))
    page = live(who, shown)
    assert page.control is not None
    answer(page, page.control.session.question().right_answer())
    assert kept(who) == []
    if learner == "self-study":
        learn(who, *OPTIONS[:8])
        assert asking(who).number == 1


@pytest.mark.parametrize("day", [NOW, NOW + timedelta(days=400)])
def test_the_practice_learner_sees_the_same_words_on_any_day(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, shown: Shown, day: datetime
) -> None:
    """What the page does, then one question with fixed figures; no date, nothing kept."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(showing, "utc_clock", lambda: day)
    monkeypatch.setattr(output, "_STARTED", tmp_path)
    showing.keep_it()
    introduction, example = map(words_of, shown)
    assert "You work as the practice learner." in introduction
    assert "An example, not recorded · Torque and the wrench" in example
    assert "crow-foot" in example
    assert "ask(" not in example
    assert re.findall(r"20[2-9]\d|day\b", introduction + example.replace("today", "")) == []
    assert list(tmp_path.iterdir()) == []


def test_the_practice_learner_may_answer_the_example(shown: Shown) -> None:
    """The verdict comes at once; nothing follows it, for there is no round."""
    who = find_workbook(Path("/"))
    page = live(who, shown)
    assert page.control is not None
    answer(page, page.control.session.question().right_answer())
    assert page.control.widget.said["text"].startswith("Right.")
    assert page.steps.spec == {}


def test_a_card_is_the_lessons_with_its_number(tmp_path: Path) -> None:
    """Question, lesson and number in words; nothing that could be typed into a cell would take a lesson's turn."""
    who = learned(tmp_path / "work")
    stage = asking(who)
    card = card_of(stage)
    assert re.search(rf"Question 1 of {stage.of} · ", words_of(card))
    assert stage.session.question().ask.split("\n")[0] in html_of(card).replace("&#x27;", "'").replace("&amp;", "&")
    assert "ask(" not in words_of(card)
    assert set(card._repr_mimebundle_()) == {"text/plain", "text/html"}


def test_a_round_by_its_controls(tmp_path: Path, shown: Shown) -> None:
    """Answer, verdict, next, in place, to the end: each answer is one line, and the card of the next question follows."""
    who = learned(tmp_path / "work")
    page, count = live(who, shown), asking(who).of
    assert page.steps.spec == {"place": f"Question 1 of {count}"}
    for number in range(1, count + 1):
        assert page.control is not None
        question = page.control.session.question()
        answer(page, question.right_answer())
        assert page.control.widget.said["closed"]
        assert not page.control.widget.said["again"]
        if page.steps.spec.get("why"):
            assert "next" not in page.steps.spec
            assert page.control.widget.said["text"] == "Right."
            press(page, do="why", text="So that nobody is hurt.")
            assert page.steps.spec["wrote"] == "So that nobody is hurt."
            assert page.steps.spec["reason"] == question.why
        assert len([r for r in kept(who) if not r.in_own_words]) == number
        assert page.steps.spec["next"] == ("Next question" if number < count else "To the end")
        press(page, do="next")
    assert page.control is None
    assert words_of(shown[-1]).strip().startswith(f"Done: {count} of {count} right.")
    assert page.steps.spec["date"]["name"] == "keep-it.ics"


def test_skipping_a_reason_shows_the_courses(tmp_path: Path, shown: Shown) -> None:
    """No line is written; the verdict then says why."""
    who = learned(tmp_path / "work")
    page = live(who, shown)
    while not page.steps.spec.get("why"):
        assert page.control is not None
        answer(page, page.control.session.question().right_answer())
        if not page.steps.spec.get("why"):
            press(page, do="next")
    assert page.control is not None
    press(page, do="why", text="  ")
    assert page.steps.said["text"].startswith("Write a line first")
    press(page, do="pass")
    assert page.steps.said["text"] == ""
    assert page.control.session.question().why in page.control.widget.said["text"]
    assert not any(record.in_own_words for record in kept(who))
    assert page.steps.spec["next"]


def test_what_is_no_answer_leaves_the_question_open(tmp_path: Path, shown: Shown) -> None:
    """The form says what is missing; nothing follows."""
    who = learned(tmp_path / "work")
    page = live(who, shown)
    answer(page, "?")
    assert page.control is not None
    assert page.control.widget.said["tone"] == "note"
    assert page.steps.spec == {"place": f"Question 1 of {asking(who).of}"}
    assert kept(who) == []


def test_a_second_page_catches_up(tmp_path: Path, shown: Shown) -> None:
    """Answered and gone on elsewhere: this page says so, and its button leads to the question in view there."""
    who = learned(tmp_path / "work")
    one, other = live(who, shown), live(who, [])
    assert one.control is not None
    right = one.control.session.question().right_answer()
    answer(one, right)
    press(one, do="next")
    answer(other, right)
    assert other.control is not None
    assert "answered already" in other.control.widget.said["text"]
    assert other.steps.spec["next"] == "Next question"
    press(other, do="next")
    assert other.steps.spec == {"place": one.steps.spec["place"]}
    assert len(kept(who)) == 1


def test_nothing_that_is_right_is_sent_before_the_answer(tmp_path: Path, shown: Shown) -> None:
    """Neither reason nor solution is in a trait while the question is open."""
    who = learned(tmp_path / "work")
    page = live(who, shown)
    assert page.control is not None
    question = page.control.session.question()
    sent = str([page.steps.get_state(), page.control.widget.spec, page.control.widget.said])
    assert question.why not in sent
    assert question.solution == "" or question.solution not in sent


def exercise_why(stage: Any, exercise: str) -> str:
    [session] = [one for one in stage.round.sessions if one.exercise.id == exercise]
    return str(session.question().why)


def test_enter_pressed_twice_says_the_verdict_alone(tmp_path: Path, shown: Shown) -> None:
    """The second is no answer of another page: one line, and no word about one."""
    who = learned(tmp_path / "work")
    page = live(who, shown)
    assert page.control is not None
    right = page.control.session.question().right_answer()
    for _ in range(2):
        answer(page, right)
        assert page.control.widget.said["text"].startswith("Right.")
        assert "another page" not in page.control.widget.said["text"]
    assert len(kept(who)) == 1


def test_the_end_says_what_was_dangerous_and_where_to_read(tmp_path: Path) -> None:
    """Named with its exercise and a link to the cell that taught it; a miss that hurts nobody stands apart."""
    who = workbook(tmp_path / "work")
    learn(who, "safe.dust", "kit.find-kit", "fault.decide", "safe.tags")
    while hasattr(stage := stage_of(who, NOW), "session"):
        question = stage.session.question()
        wrong = [a for a, _ in question.known_mistakes()]
        critical = [a for a in wrong if question.mark(a).critical]
        stage.session.answer((critical or wrong)[0], how="recall")
        stage.round.next()
    end = words_of(card_of(stage))
    assert "Dangerous: On a car this would hurt someone" in end
    assert "“Grey dust in the housing” : " in end
    assert f"Why: {exercise_why(stage, 'safe.dust')}" in end
    assert re.search(r"02-working-safely\.ipynb#cell-id=[a-z-]+", html_of(card_of(stage)))
    assert "border-top:8px double" in html_of(card_of(stage))


def test_the_end_says_what_is_firm_and_when_to_come_back(tmp_path: Path) -> None:
    """By lesson, in words and counts, the day in words; that it is a model's figure stands there once."""
    end = words_of(card_of(do_round(learned(tmp_path / "work"))))
    assert re.search(r"Come back (tomorrow, |on )\w+day \d+ December\.", end)
    assert re.search(r"Work safely \d+ (firm|fading|faded)", end)
    assert end.count("A model of memory works this out") == 1
    assert re.search(r"Asked next: “[^“”]+”, “[^“”]+”, “[^“”]+”\.", end)
    assert "%" not in end
    assert re.findall(r"(?i)spaced|retention|stability|algorithm", end) == []


def test_who_was_away_for_eight_weeks_is_told(tmp_path: Path) -> None:
    """How many questions in which a mistake could hurt someone were not seen for so long, and another round is offered."""
    who = workbook(tmp_path / "work")
    learn(who, *OPTIONS[:30], weeks=9)
    end = words_of(card_of(do_round(who)))
    assert re.search(r"\d+ questions in which a mistake could hurt someone: not seen for eight weeks\.", end)
    assert live(who, []).steps.spec["another"] == "Another round"


def test_nothing_due_says_when_and_offers_nothing_else(tmp_path: Path, shown: Shown) -> None:
    """The day, how many come back and what is firm; no control."""
    who = workbook(tmp_path / "work")
    learn(who, *OPTIONS[:8], weeks=0)
    words = words_of(card_of(stage_of(who, NOW)))
    assert "Nothing is due today. Come back" in words
    assert "So far you have answered 8 exercises that come back here." in words
    assert live(who, shown).steps.spec == {}


def test_who_comes_on_the_day_that_was_named_is_asked(tmp_path: Path) -> None:
    """Also at half past five, where the questions were learned later in the evening."""
    who = workbook(tmp_path / "work")
    learn(who, *OPTIONS[:8], weeks=0)
    learned = remembering.remembered(who, NOW)
    at = come_back(learned.items, NOW)
    assert at is not None
    early = datetime.combine(at.astimezone().date(), time.min).astimezone()
    assert any(item.due > early for item in learned.items)
    assert isinstance(stage_of(who, early - timedelta(seconds=1)), NothingDue)
    assert isinstance(stage_of(who, early), Asking)


def test_the_date_is_a_calendar_file_in_the_workbook(tmp_path: Path, shown: Shown) -> None:
    """One event with an alarm on the day that the page says; the same round gives the same file, and no name is in it."""
    who = learned(tmp_path / "work")
    end = do_round(who)
    page = live(who, shown)
    path = tmp_path / "work" / "keep-it.ics"
    assert path.read_bytes().decode() == page.steps.spec["date"]["text"]
    before = path.stat().st_mtime_ns
    live(who, shown)
    assert path.stat().st_mtime_ns == before
    [event] = Calendar.from_ical(path.read_bytes()).walk("VEVENT")
    day = event["dtstart"].dt
    assert f"{day:%A} {day.day} {day:%B}" in words_of(card_of(end))
    assert not re.search(rf"{who.learner}|{who.class_word}|learner", path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("feedback", ["at once", "after hand-in"])
def test_the_end_of_a_lesson_says_how_many_are_due(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, shown: Shown, feedback: str
) -> None:
    """One sentence that names the page; none where nothing is due, nor in a class that is told after the hand-in."""
    who = learned(tmp_path / "work", 8, feedback=feedback)
    monkeypatch.setattr(output, "who_asks", lambda: who)
    for now in (NOW, NOW - timedelta(weeks=5)):
        monkeypatch.setattr(due, "utc_clock", lambda now=now: now)
        summing_up.summary("safe")
    said = ["8 questions are due to be asked again: ten minutes in 14-keep-it." in words_of(one) for one in shown]
    assert said == [feedback == "at once", False]


def test_a_folder_that_takes_no_file_stops_nobody(tmp_path: Path, shown: Shown) -> None:
    """A folder lies where the file would: the date is offered all the same."""
    who = learned(tmp_path / "work")
    (tmp_path / "work" / "keep-it.ics").mkdir()
    do_round(who)
    assert live(who, shown).steps.spec["date"]["text"].startswith("BEGIN:VCALENDAR")


def test_a_clock_set_back_ends_no_round(tmp_path: Path, clock: type[Clock]) -> None:
    """The newest line tells the time where the clock shows an earlier one: what is due stays due."""
    who = learned(tmp_path / "work")
    decide(asking(who).session)
    clock.now = NOW - timedelta(days=300)
    assert remembering.remembered(who, clock.now).now == NOW
    assert asking(who).number == 1
