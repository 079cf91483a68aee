"""The static card must survive an untrusted notebook and never give an answer away."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from bitepoint import pictures, places
from bitepoint.bank import exercise_named, exercises
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import write_identity
from bitepoint.page.cards import MIME, Card, card_html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import view_of
from bitepoint.questions.number import Number
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.vehicles import FRAME

DROPPED = re.compile(r"<(svg|style|script|iframe|link|meta)\b|\b(role|aria-[a-z]+|onclick|tabindex)=|var\(", re.I)
IDS = sorted(exercises())


def practice(exercise: str, **changes: object) -> ExerciseSession:
    return ExerciseSession(
        exercise_named(exercise), Identity(**{"learner": "practice", "class_word": "practice", **changes})
    )  # type: ignore[arg-type]


class _Images(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.alts: list[str | None] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "img":
            self.alts.append(dict(attrs).get("alt"))


@pytest.mark.parametrize("id", IDS)
def test_a_card_uses_only_what_an_untrusted_notebook_keeps(id: str) -> None:
    """No svg, style, script, role or aria; every picture has its alt text; the frame stands with invented figures."""
    session = practice(id)
    page = card_html(session)
    assert DROPPED.findall(re.sub(r'src="data:[^"]*"', "", page)) == []
    images = _Images()
    images.feed(page)
    assert all(images.alts)
    assert (FRAME in page) == bool(session.question().vehicle)
    assert "not answered yet" in page


@pytest.mark.parametrize("id", IDS)
def test_an_unanswered_card_and_its_control_hold_no_answer(id: str) -> None:
    """Neither why, solution, step nor any mistake's words are there before they are due."""
    session = practice(id)
    question = session.question()
    shown = card_html(session) + str(view_of(question).spec(question, "t", True))
    offered = {o.text for o in getattr(question, "options", ())}
    hidden = [words for words in (question.why, question.solution, question.step) if words not in offered]
    for answer, _ in question.known_mistakes():
        hidden.append(question.mark(answer).feedback)
    assert [words for words in hidden if words and words in shown] == []


@pytest.mark.parametrize("id", IDS)
def test_a_card_saved_beside_its_control_is_whole(id: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A page that watches hides by style alone: the card is the one that a checker gets."""
    monkeypatch.delenv("JPY_SESSION_NAME", raising=False)
    alone = card_html(practice(id))
    monkeypatch.setenv("JPY_SESSION_NAME", "lesson.ipynb")
    assert alone == card_html(practice(id))
    assert alone.count('class="bp-twice') >= 2


@pytest.mark.parametrize("turn", [1, 2, 3])
def test_no_picture_tells_the_figure_that_is_asked_for(turn: int) -> None:
    """Alt text and caption describe what is to be read, they do not read it."""
    told = []
    for id in IDS:
        question = exercise_named(id).draw(class_word="practice", learner="practice", turn=turn)
        if isinstance(question, Number) and question.picture and question.answer > 3:
            drawing = pictures.draw(question.picture.key, **question.picture.parameters)
            for digits in (f"{question.answer:.4g}", f"{question.answer:.2f}"):
                if re.search(rf"(?<![\d.]){re.escape(digits)}(?!\d)", f"{drawing.alt} {drawing.caption}"):
                    told.append((id, digits))
    assert told == []


@pytest.mark.parametrize("id", IDS)
def test_hostile_text_shows_as_text(id: str) -> None:
    """Nothing a learner types reaches the page as HTML."""
    session = practice(id)
    page = Card(session, "<script>alert(1)</script>")._repr_mimebundle_()["text/html"]
    assert "<script" not in str(page)


def test_a_kept_card_carries_its_lines(tmp_path: Path) -> None:
    """A bare notebook can be marked: the card's output carries the exercise's own lines as text."""
    write_identity(Identity(learner="L1", class_word="oak"), tmp_path)
    session = practice("start.number", folder=tmp_path, learner="L1", class_word="oak")
    assert MIME not in Card(session)._repr_mimebundle_()
    session.answer("3 N·m", how="form")
    assert {"lines": [session.lines[0].text]} == Card(session)._repr_mimebundle_()[MIME]


def test_a_card_says_what_was_understood() -> None:
    """The card repeats the answer as it was understood, with its unit."""
    session = practice("start.number")
    session.answer((84, 2), how="typed")
    assert "84.2 N·m" in card_html(session)


def test_places_called_by_their_letter_need_no_table() -> None:
    """“a: place A” says nothing; where places have names of their own, the card gives them for typing."""
    assert "<table" not in Card(practice("carry.name-parts"))._repr_mimebundle_()["text/html"]
    assert "tag of the lift" in Card(practice("safe.lift-bay"))._repr_mimebundle_()["text/html"]


def test_how_to_type_an_answer_stands_with_the_rest_about_typing() -> None:
    """Who has no code in sight reads nothing about typing in the question: it is in the paragraph hidden with the code."""
    session = ExerciseSession(exercise_named("star.six-bolts"), Identity(learner="practice", class_word="practice"))
    assert "Typed" not in session.question().ask
    page = str(card_html(session))
    assert page.count("Typed, the answer is the bolt numbers") == 1
    assert "Typed, the answer is the bolt numbers" in page.partition("bp-typed")[2]


def test_a_table_that_says_the_picture_in_words_stands_whole_in_the_card() -> None:
    """Every row is in the saved card, outside the fold that only a live page opens and closes."""
    session = practice("fault.listen")
    page = str(card_html(session))
    fold, after = page.split("</details>", 1)
    assert session.question().table_under in fold.rpartition("<details")[2]
    assert 'style="display:none"' in fold.rpartition("<details")[2]
    assert [row for row in session.question().table if f">{row[2]}</t" not in after] == []


def test_the_frame_of_an_own_sheet_is_not_left_to_the_bar(own_pack):
    """The bar of an open page says the frame of the training vehicles; a card about a college's own car says its own."""
    cars = {"vehicle": "K7V", "vehicles": ("K7V",)}
    with using(DataFiles(places.assets(), own_pack)):
        own = str(card_html(practice("measure.end-float", **cars)))
    assert '<div class="bp-own"' in own
    assert "SHEET BY BELL COLLEGE, SITUATION INVENTED" in own
    assert '<div class="bp-once"' in str(card_html(practice("measure.end-float", vehicle="A", vehicles=("A",))))
