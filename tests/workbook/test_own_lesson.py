"""The notebook of a college's own questions: canonical, put in once, brought up to date, known to its own page alone."""

import json
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.bank.lessons import LESSONS, OWN_NOTEBOOK
from bitepoint.bank.own import FILE, template
from bitepoint.workbook.canonical import is_canonical
from bitepoint.workbook.notebooks import joined, read_notebook
from bitepoint.workbook.own_lesson import own_lesson, put_own_lesson
from bitepoint.workbook.runtime_folder import AWAKE_NAME, write_settings
from bitepoint.workshop.datafiles import DataFiles, shipped

OTHER = template().replace('topic = "wrong-grease"', 'topic = "right-grease"')


def files(folder: Path, text: str = template()) -> DataFiles:
    """Return data files with this file of questions."""
    folder.mkdir(exist_ok=True)
    (folder / FILE).write_text(text, encoding="utf-8")
    return DataFiles(places.assets(), folder)


def test_the_notebook_is_canonical_and_asks_each_question_once(tmp_path: Path) -> None:
    """Title, safety, a cell a question, where one stands: in the form of the other lessons."""
    lesson = own_lesson(files(tmp_path / "college"))
    assert lesson
    assert is_canonical(lesson) == []
    code = [joined(cell["source"]) for cell in lesson["cells"] if cell["cell_type"] == "code"]
    asks = [f'ask("own.{topic}")' for topic in ("wrong-grease", "before-the-ramp", "battery-off", "crow-foot")]
    assert asks == code[1:-1]
    assert code[-1].endswith('summary("own")')
    title = joined(lesson["cells"][0]["source"])
    assert title.startswith("# Questions of our workshop\n")
    assert "**Safety:**" in title


def test_a_college_s_words_are_no_markdown(tmp_path: Path) -> None:
    """What could be read as markup is shown as it is written."""
    text = template().replace(
        'outcome = "Greases the splines', 'outcome = "Greases *all* the `splines` [so](x) #1 <= 2'
    )
    lesson = own_lesson(files(tmp_path / "college", text.replace("[so](x)", "[so] (x)")))
    assert lesson
    outcomes = joined(next(cell for cell in lesson["cells"] if cell["id"] == "outcomes")["source"])
    assert r"Greases \*all\* the \`splines\` \[so\] (x) \#1 \<= 2" in outcomes


def test_without_own_questions_nothing_is_put_in(tmp_path: Path) -> None:
    """The shipped data files have none."""
    assert own_lesson(shipped()) is None
    assert put_own_lesson(tmp_path, shipped()) == []
    assert list(tmp_path.iterdir()) == []


def test_it_is_put_in_once_and_a_new_edition_replaces_an_untouched_one(tmp_path: Path) -> None:
    """Silently at first; a changed file says so; one that went missing comes back."""
    work = tmp_path / "work"
    work.mkdir()
    assert put_own_lesson(work, files(tmp_path / "college")) == []
    before = (work / OWN_NOTEBOOK).read_bytes()
    assert put_own_lesson(work, files(tmp_path / "college")) == []
    assert before == (work / OWN_NOTEBOOK).read_bytes()
    said = put_own_lesson(work, files(tmp_path / "college", OTHER))
    assert said == [f"{OWN_NOTEBOOK} was brought up to date; you had changed nothing in it."]
    (work / OWN_NOTEBOOK).unlink()
    said = put_own_lesson(work, files(tmp_path / "college", OTHER))
    assert said == [f"{OWN_NOTEBOOK} was not there; a fresh one was put in."]


def test_one_that_the_learner_changed_stays(tmp_path: Path) -> None:
    """The new one is put beside it."""
    work = tmp_path / "work"
    work.mkdir()
    put_own_lesson(work, files(tmp_path / "college"))
    mine = read_notebook(work / OWN_NOTEBOOK)
    assert mine
    mine["cells"][0]["source"] = ["# My notes"]
    (work / OWN_NOTEBOOK).write_text(json.dumps(mine), encoding="utf-8")
    [said] = put_own_lesson(work, files(tmp_path / "college", OTHER))
    assert "beside it: 15-class-questions (new).ipynb" in said
    assert read_notebook(work / OWN_NOTEBOOK) == mine


@pytest.mark.parametrize("own", [True, False])
def test_the_page_knows_its_cells_in_that_lesson_alone(tmp_path: Path, own: bool) -> None:
    """The list beside the extension has one lesson more, with cells of its own; a later opening without takes it out."""
    runtime = tmp_path / "runtime"
    write_settings(runtime, files=files(tmp_path / "college"))
    if not own:
        write_settings(runtime)
    static = runtime / "share" / "labextensions" / AWAKE_NAME / "static"
    found = json.loads((static / "lessons.json").read_text(encoding="utf-8"))
    assert not [source for source in found["known"] if '"own' in source]
    assert list(LESSONS) == [lesson["key"] for lesson in found["lessons"]][: len(LESSONS)]
    assert "keep-it" == found["lessons"][len(LESSONS)]["key"]
    extra = found["lessons"][len(LESSONS) + 1 :]
    if own:
        [lesson] = extra
        assert (OWN_NOTEBOOK, "own") == (lesson["file"], lesson["key"])
        assert 'ask("own.crow-foot")' in lesson["known"]
    else:
        assert extra == []
