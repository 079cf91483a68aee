"""Every kind of question has its row, and the row says what its questions do."""

import ast
import importlib
import pkgutil
from collections.abc import Iterable, Mapping
from pathlib import Path
from random import Random

import pytest

import bitepoint
import bitepoint.questions
from bitepoint.bank import exercises
from bitepoint.marking.rehearsal.apprentice import Apprentice, Habit
from bitepoint.questions.kinds import KINDS, interaction, kind_of
from bitepoint.questions.question import Question

IDS = sorted(exercises())


def every_kind(root: type[Question] = Question) -> list[type[Question]]:
    """Return every class of question that the package has, each module of it loaded."""
    for module in pkgutil.iter_modules(bitepoint.questions.__path__, "bitepoint.questions."):
        importlib.import_module(module.name)
    found = []
    for kind in root.__subclasses__():
        if kind.__module__.startswith("bitepoint."):
            found += [kind, *every_kind(kind)]
    return found


def without_row(kinds: Iterable[type[Question]], rows: Mapping[type[Question], object], where: str) -> list[str]:
    """Return one line for each kind that a table leaves out."""
    return [f"{kind.__name__} ({kind.__module__}) has no entry in {where}." for kind in kinds if kind not in rows]


def test_every_kind_has_a_row() -> None:
    """No class of question is forgotten by the table, and none stands there that is no class any more."""
    assert without_row(every_kind(), KINDS, "bitepoint/questions/kinds.py") == []
    assert set(KINDS) == set(every_kind())


def test_a_kind_without_a_row_is_named_in_one_line() -> None:
    """The check can fail: a made-up kind is named, with its module and the table that lacks it."""
    riddle = type("Riddle", (Question,), {"__module__": "made_up"}, kw_only=True, frozen=True)
    assert without_row([*every_kind(), riddle], KINDS, "bitepoint/questions/kinds.py") == [
        "Riddle (made_up) has no entry in bitepoint/questions/kinds.py."
    ]


def ladders(code: str) -> list[int]:
    """Return the lines that ask a question for its class, or compare the name of its kind with a text."""
    classes, names = {kind.__name__ for kind in KINDS}, {row.name for row in KINDS.values()}
    asks_class = (
        node.lineno
        for node in _calls(code, "isinstance")
        if classes & {n.id for n in ast.walk(node.args[1]) if isinstance(n, ast.Name)}
    )
    compares = (
        node.lineno
        for node in ast.walk(ast.parse(code))
        if isinstance(node, ast.Compare) and isinstance(node.left, ast.Attribute) and node.left.attr == "kind"
        if names & {n.value for c in node.comparators for n in ast.walk(c) if isinstance(n, ast.Constant)}
    )
    return sorted([*asks_class, *compares])


def _calls(code: str, name: str) -> list[ast.Call]:
    calls = [node for node in ast.walk(ast.parse(code)) if isinstance(node, ast.Call)]
    return [call for call in calls if isinstance(call.func, ast.Name) and call.func.id == name]


def test_nobody_but_the_kinds_asks_what_kind_a_question_is() -> None:
    """Outside the questions and their views there is no ladder that a new kind could be left out of."""
    lib = Path(bitepoint.__file__).parent
    found = []
    for path in lib.rglob("*.py"):
        name = path.relative_to(lib).as_posix()
        if not name.startswith(("questions/", "page/kinds/")):
            found += [f"{name}:{line}" for line in ladders(path.read_text(encoding="utf-8"))]
    assert found == []
    assert ladders("isinstance(q, (Number, Choice))\nq.kind == 'spots'\nq.kind in ('region', 'x')\n") == [1, 2, 3]


def test_rows_of_one_name_are_one_interaction() -> None:
    """marks.jsonl holds the name alone, so the name has to settle the interaction."""
    assert {(row.name, row.interaction) for row in KINDS.values()} == {
        (name, interaction(name)) for name in {row.name for row in KINDS.values()}
    }
    assert interaction("riddle") == "other"


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_a_row_tells_the_truth_about_questions_of_the_bank(kind: type[Question]) -> None:
    """Its name, what is on offer without a key twice, and a slip that scores what the rule of the kind says."""
    drawn = [exercises()[id].draw(class_word="oak", learner="L1") for id in IDS]
    mine = [question for question in drawn if type(question) is kind][:4]
    assert mine
    for question in mine:
        row = kind_of(question)
        keys = [key for key, _ in row.offered(question)]
        assert (question.kind, len(set(keys))) == (row.name, len(keys))
        assert (row.figure(question) is question) == (row.interaction == "numeric")
        for seed in range(6):
            slip = row.slip(question, Random(seed))
            if slip:
                assert slip.score == pytest.approx(question.mark(slip.answer).score)


def test_solutions_list_all_that_is_on_offer_in_an_enquiry_and_in_the_whole_job() -> None:
    """Without the words beside them, an answer in keys or letters says nothing to an instructor."""
    by_name = {kind.__name__: kind for kind in KINDS}
    for name in ("Enquiry", "StagedWork"):
        question = next(
            q for id in IDS if type(q := exercises()[id].draw(class_word="oak", learner="L1")) is by_name[name]
        )
        words = " ".join(text for _, text in kind_of(question).offered(question))
        parts = getattr(question, "parts", ())
        assert all(card.text in words for part in parts for card in part.cards)
        assert all(suspect.label in words for suspect in getattr(question, "suspects", ()))


def test_a_rehearsed_answer_comes_by_the_control_that_the_page_has_for_its_kind() -> None:
    """A place is pointed at in a form, cards and bolts are a drill; what is typed is typed."""
    person = Apprentice("oak", "L1", Habit(ability=0.8), Random(1), vehicle="A")
    person.work([list(exercises().values())], dict.fromkeys(exercises(), 0.2))
    for _, _, fields in person.written:
        question = exercises()[fields["exercise"]].draw(class_word="oak", learner="L1", turn=fields["turn"])
        assert fields["how"] in ("typed", kind_of(question).how)
