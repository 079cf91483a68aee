"""What is begun of each drill outlives its kernel, belongs to one learner and question, and is no answer."""

import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, read_folder
from bitepoint.logbook.draft import FOLDER, MAX_BYTES
from bitepoint.logbook.handin import make_hand_in
from bitepoint.logbook.identity import write_identity
from bitepoint.marking.reading.handins import find_sources, read_source
from bitepoint.page import begun_rows
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import VIEWS, view_of

PULLS = [{"bolt": 1, "stage": "order", "tool": "wrench", "setting": None}]
BEGUN: dict[str, dict[str, Any]] = {
    "star.six-bolts": {"pulls": PULLS},
    "strip.clutch-off": {"picked": ["b", "a"]},
    "job.order": {"picked": ["b", "a", "/", "c"]},
    "torque.order-of-use": {"step": {"row": ["b", "a", "c", "d", "e", "f"]}},
    "start.region": {"step": {"marked": ["1"]}},
    "strip.find-damage": {"step": {"marked": ["a", "c"]}},
    "measure.run-out": {"step": {"at": 3, "held": True, "notes": ["0,12", *[""] * 8]}},
    "fault.noise": {"told": {"shown": {}}},
}
"""An exercise of each kind that can be begun, with what a learner has done so far."""
FORGED: list[Any] = [
    None,
    7,
    "a",
    ["zz"],
    [["a"]],
    {"row": "abc"},
    {"row": ["a"]},
    {"marked": ["nowhere"]},
    {"marked": [["a"]]},
    {"at": 99, "held": True, "notes": [""] * 9},
    {"at": 0, "held": 1, "notes": [""] * 9},
    {"at": 0, "held": True, "notes": ["x" * 99] * 9},
    [{"bolt": 99, "stage": "order", "tool": "wrench", "setting": None}],
    [{"bolt": 1, "stage": ["order"], "tool": {}, "setting": None}],
    [{"bolt": 1, "stage": "order", "tool": "wrench", "setting": "9" * 99}],
    ["up", "the answer"],
]


@pytest.fixture
def workbook(tmp_path: Path) -> Path:
    write_identity(Identity(learner="L07-K", class_word="oak"), tmp_path)
    return tmp_path


@pytest.fixture(autouse=True)
def _nothing_of_practice() -> Iterator[None]:
    begun_rows.forget()
    yield
    begun_rows.forget()


def _control(workbook: Path | None, exercise: str, learner: str = "L07-K", turn: int = 1) -> Any:
    """Return the control as a fresh kernel makes it."""
    session = ExerciseSession(
        exercise_named(exercise), Identity(learner=learner, class_word="oak", folder=workbook, vehicle="B")
    )
    session.turn = turn
    return AnswerControl(session, lambda card: None)


def _begin(workbook: Path | None, exercise: str) -> tuple[str, Any]:
    """Do what a learner has done so far; return the trait it lies in and what is there."""
    control = _control(workbook, exercise)
    question = control.session.question()
    ((trait, value),) = BEGUN[exercise].items()
    if exercise == "fault.noise":
        key = next(o.key for o in question.observations if o.key not in question.free)
        control._heard(control.widget, {"do": "ask", "key": key}, [])
        return trait, {"shown": {key: question.shown(key)}}
    if exercise == "start.region":
        value = {"marked": [question.spots[0].key]}
    elif exercise == "strip.find-damage":
        value = {"marked": [spot.key for spot in question.spots[:2]]}
    elif exercise == "torque.order-of-use":
        value = {"row": list(reversed(question.right_answer()))}
    elif exercise == "star.six-bolts":
        value = [PULLS[0] | {"stage": question.stages[0].key}]
    setattr(control.widget, trait, value)
    return trait, value


def test_every_drill_can_be_begun() -> None:
    """A kind that keeps what is begun has its exercise in this list."""
    kinds = {type(exercise_named(id).draw(class_word="oak", learner="L07-K")) for id in BEGUN}
    assert kinds == {kind for kind, view in VIEWS.items() if view.begun}


@pytest.mark.parametrize("exercise", BEGUN)
def test_a_fresh_kernel_finds_what_was_begun(workbook: Path, exercise: str) -> None:
    """It lies as it lay, for this learner and turn; not a line of the logbook was written."""
    trait, value = _begin(workbook, exercise)
    assert getattr(_control(workbook, exercise).widget, trait) == value
    assert getattr(_control(workbook, exercise, learner="L08-J").widget, trait) != value
    assert getattr(_control(workbook, exercise, turn=2).widget, trait) != value
    assert not any(read_folder(workbook).values())


@pytest.mark.parametrize("exercise", BEGUN)
def test_what_was_handed_over_is_not_laid_out_again(workbook: Path, exercise: str) -> None:
    """Where it is the answer a fresh kernel begins with nothing, else each pull would be made twice; readings stay."""
    _begin(workbook, exercise)
    control = _control(workbook, exercise)
    answer = next(iter(control.session.question().known_mistakes()))[0]
    message = {"pulls": PULLS} if exercise == "star.six-bolts" else {"answer": answer}
    control._heard(control.widget, {"do": "answer", **message}, [])

    assert [1] == [len(lines) for lines in read_folder(workbook).values()]
    begun = begun_rows.begun(control.session)
    assert (begun is None) == control.view.begun.is_the_answer


@pytest.mark.parametrize("exercise", BEGUN)
def test_what_the_question_does_not_offer_is_not_laid_out(workbook: Path, exercise: str) -> None:
    """A draft written by hand with a fitting check: the drill opens as if nothing were there."""
    empty = _control(workbook, exercise).widget
    trait = next(iter(BEGUN[exercise]))
    for forged in FORGED:
        begun_rows.keep(_control(workbook, exercise).session, forged)
        assert getattr(_control(workbook, exercise).widget, trait) == getattr(empty, trait)


def test_the_page_of_a_class_told_later_says_nothing_of_a_row_found_again(workbook: Path) -> None:
    """What is laid out again is judged only where the class is told at once."""
    _begin(workbook, "strip.clutch-off")
    who = Identity(learner="L07-K", class_word="oak", folder=workbook, vehicle="B", feedback="after hand-in")
    control = AnswerControl(ExerciseSession(exercise_named("strip.clutch-off"), who), lambda card: None)
    assert (control.widget.picked, control.widget.told) == (["b", "a"], {})


def test_an_enquiry_shows_what_the_question_shows(workbook: Path) -> None:
    """Only what was asked for is kept; a file cannot make it show something else."""
    _begin(workbook, "fault.noise")
    text = (workbook / FOLDER / "fault.noise.json").read_text(encoding="utf-8")
    question: Any = _control(workbook, "fault.noise").session.question()
    assert not any(o.shows in text for o in question.observations)


def test_new_figures_begin_afresh(workbook: Path) -> None:
    """The turn after finds nothing of the one before, and the file of the one before is gone."""
    _begin(workbook, "star.six-bolts")
    control = _control(workbook, "star.six-bolts")
    control.session.answer(control.session.question().right_answer(), how="drill")
    control._heard(control.widget, {"do": "again"}, [])
    assert (control.session.turn, control.widget.pulls) == (2, [])
    assert not list((workbook / FOLDER).iterdir())


def test_no_hand_in_carries_a_draft_and_nobody_marks_one(workbook: Path) -> None:
    """Neither the file made from the page nor the folder itself handed over."""
    session = _control(workbook, "star.six-bolts").session
    session.answer(session.question().right_answer(), how="drill")
    before = read_folder(workbook)
    for exercise in BEGUN:
        _begin(workbook, exercise)
    assert read_folder(workbook) == before
    names = zipfile.ZipFile(make_hand_in(workbook)).namelist()
    assert [name for name in names if "draft" in name] == []
    sources, problems = find_sources([workbook])
    assert (len(sources), problems) == (1, [])
    (handed,) = read_source(sources[0])
    assert "draft" not in str(handed)


def test_the_practice_learner_keeps_nothing_on_the_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is begun lasts as long as the kernel, and no file is made."""
    monkeypatch.chdir(tmp_path)
    trait, value = _begin(None, "star.six-bolts")
    assert getattr(_control(None, "star.six-bolts").widget, trait) == value
    assert list(tmp_path.iterdir()) == []


def test_a_draft_stays_small(workbook: Path) -> None:
    """A job of a thousand pulls is begun, but not kept."""
    control = _control(workbook, "star.six-bolts")
    pull = PULLS[0] | {"stage": control.session.question().stages[0].key}
    control.widget.pulls = [pull] * 36
    assert (workbook / FOLDER / "star.six-bolts.json").stat().st_size < MAX_BYTES / 4
    control.widget.pulls = [pull] * 1000
    assert not (workbook / FOLDER / "star.six-bolts.json").exists()
    assert view_of(control.session.question()).begun is not None
