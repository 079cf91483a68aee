"""A class with its college's own questions, from the file to the report: lesson, answers, hand-in, marks, pages, board."""

import csv
import re
from collections.abc import Iterator
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.bank import exercises, exercises_of
from bitepoint.bank.lessons import OWN_NOTEBOOK, lessons_in_use
from bitepoint.bank.own import FILE, own_questions
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.page import ALL, View
from bitepoint.classroom.boards.tables import lesson_keys, wall
from bitepoint.cli import main
from bitepoint.logbook import Identity
from bitepoint.logbook.handin import make_hand_in
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.pages.solutions import write_solutions
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.page import asking, output, progress, summing_up
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.notebooks import joined, read_notebook
from bitepoint.workbook.own_lesson import put_own_lesson
from bitepoint.workshop.datafiles import DataFiles, using

GOOD = (Path(__file__).parents[1] / "bank" / "own" / "data" / FILE).read_text(encoding="utf-8")
LEARNERS = ("ada", "bob", "cem")


def pack(folder: Path, text: str = GOOD) -> DataFiles:
    """Return the shipped data files with a folder that holds this file of questions."""
    folder.mkdir()
    (folder / FILE).write_text(text, encoding="utf-8")
    return DataFiles(places.assets(), folder)


@pytest.fixture(scope="module")
def college(tmp_path_factory: pytest.TempPathFactory) -> DataFiles:
    """The data files of the class."""
    return pack(tmp_path_factory.mktemp("own") / "college")


@pytest.fixture(autouse=True)
def files(college: DataFiles) -> Iterator[DataFiles]:
    """The same, in use."""
    with using(college):
        yield college


@pytest.fixture(scope="module")
def class_folder(college: DataFiles, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Hand-ins of three learners who ran their lesson: ada right, bob each known mistake first, cem one wrong for good."""
    folder = tmp_path_factory.mktemp("class")
    (folder / "hand-ins").mkdir()
    with using(college), pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(folder / "state"))
        for learner in LEARNERS:
            work = folder / "work" / learner
            make_workbook(work, Identity(learner=learner, class_word="oak"))
            put_own_lesson(work, college)
            patch.setattr(output, "_STARTED", work)
            patch.chdir(work)
            run_lesson(work)
            for exercise in exercises_of("own"):
                for answer in answers(learner, ExerciseSession(exercise, output.who_asks())):
                    asking.ask(exercise.id, answer)
            make_hand_in(work, into=folder / "hand-ins")
    return folder


def run_lesson(work: Path) -> None:
    """Run the code cells of the lesson from top to bottom, as its kernel would."""
    lesson = read_notebook(work / OWN_NOTEBOOK)
    assert lesson
    names: dict[str, object] = {}
    said = StringIO()
    with redirect_stdout(said):
        for cell in lesson["cells"]:
            if cell["cell_type"] == "code":
                exec(joined(cell["source"]), names)  # our own notebook, made a line above
    assert said.getvalue().count("not answered yet") == 12
    assert "Cannot do that" not in said.getvalue()


def answers(learner: str, session: ExerciseSession) -> list[object]:
    """Return what a learner answers to one exercise."""
    question = session.question()
    mistakes = [answer for answer, _ in question.known_mistakes()]
    if learner == "ada":
        return [question.right_answer()]
    return [mistakes[0], question.right_answer()] if learner == "bob" else mistakes[:1]


def mark(class_folder: Path, out: Path, files: DataFiles | None = None) -> list[dict[str, str]]:
    """Mark the hand-ins, with the data files in use or with others; return the rows of marks.csv."""
    if files:
        with using(files):
            mark_hand_ins([class_folder / "hand-ins"], out=out)
    else:
        mark_hand_ins([class_folder / "hand-ins"], out=out)
    with (out / "marks.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_twelve_questions_stand_beside_those_of_the_course() -> None:
    """They come last, in the order of the file; without the file nothing of them is there."""
    shipped = DataFiles(places.assets())
    with using(shipped):
        before = list(exercises())
    assert before == list(exercises())[: len(before)]
    own = own_questions()
    assert own
    assert [f"own.{row.topic}" for row in own.question] == list(exercises())[len(before) :]
    assert len(own.question) == 12
    assert {"choice", "several", "order", "number"} == {row.kind for row in own.question}
    assert "Questions of Millbrook College" == lessons_in_use()["own"].title


def test_each_answer_is_marked_as_it_was_meant(class_folder: Path, tmp_path: Path) -> None:
    """Ada has twelve right at first, Bob at last, Cem none; each known mistake is named."""
    rows = [row for row in mark(class_folder, tmp_path / "marks") if row["exercise"].startswith("own.")]
    assert len(rows) == 36
    by = {name: [row for row in rows if row["learner"] == name] for name in LEARNERS}
    assert {("1", "1")} == {(row["first_score"], row["last_score"]) for row in by["ada"]}
    assert {"1"} == {row["last_score"] for row in by["bob"]}
    assert all(row["first_score"] != "1" for row in by["bob"])
    assert all(row["mark"] != "1" and row["mistake"] for row in by["cem"])
    assert "yes" in {row["critical_open"] for row in by["cem"]}


def test_report_and_pages_name_lesson_and_exercises(class_folder: Path, tmp_path: Path) -> None:
    """The report counts each exercise, the learner's page has the lesson by its title, the solutions its source."""
    mark(class_folder, tmp_path / "marks")
    report = (tmp_path / "marks" / "report.html").read_text(encoding="utf-8")
    right, wrong = (
        (tmp_path / "marks" / "learners" / f"{name}.html").read_text(encoding="utf-8") for name in ("ada", "cem")
    )
    assert "Our crow-foot on the class&#39;s car" in report
    assert "counts one face" in report
    assert "Questions of Millbrook College" in right
    assert "High voltage kills at a touch." in wrong
    made = write_solutions(tmp_path / "solutions", learner="ada", class_word="oak", lesson="own")
    [solutions] = made
    text = solutions.read_text(encoding="utf-8")
    assert "solutions-15-class-questions.html" == solutions.name
    assert "Workshop handbook of the college, page 12" in text
    assert "Common practice, no source" in text


def test_the_board_has_the_lesson(class_folder: Path) -> None:
    """A row an exercise, who answered and who is right."""
    board = Board(class_folder / "work")
    while not board.refresh():
        continue
    found = wall(board.board, "own")
    assert "own" in lesson_keys()
    assert 12 == len(found.rows)
    assert {(3, 1, 2)} == {(row.answered, row.first, row.right) for row in found.rows}
    assert "Questions of Millbrook College" in board.page(View("both", ALL))


def test_the_page_counts_and_hands_in_the_lesson(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The bar and the card at the end know twelve exercises and what is done."""
    work = tmp_path / "work"
    make_workbook(work, Identity(learner="ada", class_word="oak"))
    monkeypatch.setattr(output, "_STARTED", work)
    monkeypatch.chdir(work)
    first = exercises_of("own")[0]
    asking.ask(first.id, ExerciseSession(first, output.who_asks()).question().right_answer())
    told = progress.standing("own").fields
    assert (1, 12) == (told["done"], told["of"])
    sessions = summing_up.sessions_of("own", output.who_asks())
    assert [e.id for e in exercises_of("own")] == [s.exercise.id for s in sessions]


def test_another_edition_gives_no_mark_and_says_so(class_folder: Path, tmp_path: Path) -> None:
    """A marker with another file of questions, if only one word of it differs, marks none of them."""
    other = pack(tmp_path / "other", GOOD.replace("Pads under the marked points", "Pads below the marked points"))
    assert not [row for row in mark(class_folder, tmp_path / "marks", other) if row["mark"]]
    page = (tmp_path / "marks" / "learners" / "ada.html").read_text(encoding="utf-8")
    assert re.search(r"question[s]? .*changed|changed since", page)


def test_a_marker_without_the_file_does_not_know_them(class_folder: Path, tmp_path: Path) -> None:
    """Nothing is marked as something else."""
    rows = mark(class_folder, tmp_path / "marks", DataFiles(places.assets()))
    assert not [row for row in rows if row["exercise"].startswith("own.")]


@pytest.mark.parametrize("form", ["oneroster", "xapi", "csv"])
def test_results_are_exported_where_the_file_is_not_in_use(class_folder: Path, tmp_path: Path, form: str) -> None:
    """Another computer has the results alone: what is known of a question is said, no traceback."""
    mark(class_folder, tmp_path / "marks")
    with using(DataFiles(places.assets())):
        assert 0 == main(["export", "--format", form, str(tmp_path / "marks"), "--out", str(tmp_path / form)])


def test_comments_and_line_ends_are_no_other_edition(class_folder: Path, tmp_path: Path) -> None:
    """What the file says decides, not how it was saved."""
    other = pack(tmp_path / "other", "# a note\n" + GOOD.replace("\n", "\r\n"))
    assert 36 == len([row for row in mark(class_folder, tmp_path / "marks", other) if row["mark"]])


def test_a_rehearsed_class_is_marked_equal_to_truth(tmp_path: Path) -> None:
    """Twenty-four invented learners on the own lesson: marks are what they really did."""
    rehearse(tmp_path / "class", learners=24, seed=3, lessons=("own",))
    mark_hand_ins([tmp_path / "class" / "hand-ins"], roster=tmp_path / "class" / "roster.csv", out=tmp_path / "marks")
    tables = []
    for path in (tmp_path / "class" / "truth.csv", tmp_path / "marks" / "marks.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            tables.append(
                [(r["learner"], r["exercise"], r["first_score"], r["last_score"]) for r in csv.DictReader(file)]
            )
    assert tables[0] == tables[1]
    assert 12 == len({row[1] for row in tables[0]})
