"""An exercise on a learner's session: turns, tries, what is recorded and what may be said."""

import json
from pathlib import Path

import pytest

from bitepoint.bank import exercise_named
from bitepoint.errors import BadData, NotUnderstood
from bitepoint.logbook import Identity, read_folder
from bitepoint.logbook.identity import write_identity
from bitepoint.page.exercise_session import ExerciseSession

NUMBER = "start.number"
CHOICE = "start.choice"


def learner(folder: Path, **changes: object) -> Identity:
    return Identity(**{"learner": "L07-K", "class_word": "oak", "folder": folder, **changes})  # type: ignore[arg-type]


def session(folder: Path, exercise: str = NUMBER, **changes: object) -> ExerciseSession:
    if not (folder / "workbook.toml").exists():
        write_identity(learner(folder, **changes), folder)
    return ExerciseSession(exercise_named(exercise), learner(folder, **changes))


def kept(folder: Path) -> list[dict[str, object]]:
    lines = [line for found in read_folder(folder).values() for line in found]
    return [json.loads(line.text) for line in lines]


def wrong(d: ExerciseSession, index: int = 0) -> object:
    return d.question().known_mistakes()[index][0]


def test_a_right_answer_is_recorded_and_explained(tmp_path: Path) -> None:
    """A right answer leaves one line and says why it is right."""
    d = session(tmp_path)
    d.answer(d.question().right_answer(), how="form")
    assert [line["score"] for line in kept(tmp_path)] == [1.0]
    assert d.feedback()[:2] == ("right", "Right.")
    assert d.question().why in d.feedback()[2]


def test_the_three_misses_say_mistake_then_step_then_solution(tmp_path: Path) -> None:
    """First miss its own words, second the next step, third the worked solution, and the turn closes."""
    d = session(tmp_path)
    question = d.question()
    says = question.mark(wrong(d)).feedback
    d.answer(wrong(d), how="form")
    assert d.feedback()[2] == says
    d.answer(wrong(d), how="form")
    assert question.step in d.feedback()[2]
    assert question.solution not in d.feedback()[2]
    assert not d.closed
    d.answer(wrong(d), how="form")
    assert question.solution in d.feedback()[2]
    assert d.closed


def test_a_choice_closes_at_its_second_miss(tmp_path: Path) -> None:
    """Two misses of a choice leave little to choose from, so its turn closes."""
    d = session(tmp_path, CHOICE)
    d.answer(wrong(d, 0), how="form")
    assert not d.closed
    d.answer(wrong(d, 1), how="form")
    assert d.closed


def test_a_closed_turn_takes_no_answer_and_names_the_next(tmp_path: Path) -> None:
    """After the solution was shown only a new turn counts."""
    d = session(tmp_path)
    for _ in range(3):
        d.answer(wrong(d), how="form")
    with pytest.raises(NotUnderstood, match=r"turn=2"):
        d.answer(d.question().right_answer(), how="form")
    d.again()
    d.answer(d.question().right_answer(), how="form")
    assert [line["turn"] for line in kept(tmp_path)] == [1, 1, 1, 2]
    assert d.right


def test_the_next_turn_has_other_figures(tmp_path: Path) -> None:
    """A new turn is a new question."""
    d = session(tmp_path)
    first = d.question().facts_digest()
    d.again()
    assert first != d.question().facts_digest()


def test_running_all_cells_three_times_adds_no_line(tmp_path: Path) -> None:
    """A typed answer is recorded once, however often its cell runs, also when a later turn is open."""
    for _ in range(3):
        d = session(tmp_path)
        d.answer("3 N·m", how="typed")
    d.answer(wrong(d), how="form")
    d.answer(wrong(d), how="form")
    d.again()
    d.answer(d.question().right_answer(), how="form")
    session(tmp_path).answer("3 N·m", how="typed")
    assert len(kept(tmp_path)) == 4


def test_a_typed_answer_for_a_named_turn_is_kept_apart(tmp_path: Path) -> None:
    """turn=2 answers the second turn's figures, again only once."""
    d = session(tmp_path)
    second = d.question(2).right_answer()
    for _ in range(2):
        session(tmp_path).answer(second, how="typed", turn=2)
    assert [line["turn"] for line in kept(tmp_path)] == [2]
    assert session(tmp_path).right


def test_two_notebooks_open_at_once_see_each_other(tmp_path: Path) -> None:
    """A session reads the logbook once more before it takes an answer."""
    here, there = session(tmp_path), session(tmp_path)
    for _ in range(3):
        here.answer(wrong(here), how="form")
    with pytest.raises(NotUnderstood):
        there.answer(there.question().right_answer(), how="form")


def test_what_cannot_be_read_is_not_recorded(tmp_path: Path) -> None:
    """An unreadable answer costs no try."""
    d = session(tmp_path)
    for odd in ("9**9**9 N·m", "1,200", "", "12 kg·m", {"a": 1}, None):
        with pytest.raises(NotUnderstood):
            d.answer(odd, how="form")
    assert kept(tmp_path) == []


def test_feedback_after_hand_in_writes_and_says_nothing(tmp_path: Path) -> None:
    """In such a class neither score nor mistake is in the line, and the card only says that it was recorded."""
    d = session(tmp_path, feedback="after hand-in")
    d.answer(wrong(d), how="form")
    d.answer(d.question().right_answer(), how="form")
    d.answer(wrong(d), how="form")
    for line in kept(tmp_path):
        assert not {"score", "mistake"} & set(line)
    assert d.feedback() == ("note", "Recorded.", "The feedback comes after the hand-in.")


def test_another_learners_lines_are_not_mine(tmp_path: Path) -> None:
    """A workbook that changed hands shows each learner their own answers."""
    d = session(tmp_path)
    d.answer(d.question().right_answer(), how="form")
    assert session(tmp_path, learner="L08-X").answers() == []


def test_the_practice_learner_keeps_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a workbook answers live in memory only."""
    monkeypatch.chdir(tmp_path)
    d = ExerciseSession(exercise_named(NUMBER), Identity(learner="practice", class_word="practice"))
    d.answer(d.question().right_answer(), how="form")
    assert d.right
    assert list(tmp_path.iterdir()) == []


def test_a_workbook_is_found_upward(tmp_path: Path) -> None:
    """Who is asking comes from the nearest workbook.toml."""
    from bitepoint.logbook import find_workbook

    write_identity(learner(tmp_path), tmp_path)
    inside = tmp_path / "a" / "b"
    inside.mkdir(parents=True)
    assert ("L07-K", "oak", tmp_path) == (
        find_workbook(inside).learner,
        find_workbook(inside).class_word,
        find_workbook(inside).folder,
    )


@pytest.mark.parametrize("how", ["typed", "form"])
def test_an_answer_too_long_for_a_line_is_refused_here(tmp_path: Path, how: str) -> None:
    """A marker would set the line aside unread, so it is never written; one clear line says so."""
    d = session(tmp_path)
    right = str(d.question().right_answer())
    with pytest.raises(NotUnderstood) as refused:
        d.answer(right + " " * (4001 - len(right)), how=how)
    assert str(refused.value) == (
        "The answer is 4,001 characters long; 4,000 is the most. Nothing is recorded: write it shorter."
    )
    assert kept(tmp_path) == []
    d.answer(right, how=how)
    assert [line["score"] for line in kept(tmp_path)] == [1.0]


def test_a_drill_too_long_for_a_line_is_refused_here(tmp_path: Path) -> None:
    """Pulls arrive as a list; what counts is the line of text they make."""
    d = session(tmp_path, "star.cover-job")
    pulls = [{"bolt": 1, "stage": s, "tool": "impact", "setting": None} for s in ("hand", "stage 1") * 200]
    with pytest.raises(NotUnderstood, match=r"^The answer is \d,\d+ characters long; 4,000 is the most\."):
        d.answer(pulls, how="drill")
    assert kept(tmp_path) == []


def test_each_line_is_marked_once_however_often_the_card_asks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is said, whether the turn is closed and what is still open rest on one marking of each line."""
    d = session(tmp_path)
    d.answer(wrong(d), how="form")
    marked: list[str] = []
    afresh = d._marked_afresh
    monkeypatch.setattr(d, "_marked_afresh", lambda record: (marked.append(record.hash), afresh(record))[1])
    d.answer(d.question().right_answer(), how="form")
    assert d.right
    assert d.feedback()[0] == "right"
    assert not d.dangers_open
    assert sorted(marked) == sorted(line["hash"] for line in kept(tmp_path))


def test_a_line_that_could_not_be_marked_for_a_moment_is_marked_later(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A share that was away for a moment takes no answer out of what counts."""
    d = session(tmp_path)
    d.answer(wrong(d), how="form")

    def away(*_: object) -> None:
        raise BadData("kits.csv: cannot be read.")

    with monkeypatch.context() as patch:
        patch.setattr(ExerciseSession, "_draw", away)
        again = session(tmp_path)
        assert again.answers() == []
    assert len(again.answers()) == 1
