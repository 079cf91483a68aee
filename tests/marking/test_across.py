"""Copies across classes: the same hand-in in two, wrong figures that are right for a learner of another; bounded."""

import csv
import re
import shutil
from pathlib import Path

import pytest
from test_bad_hand_ins import chain, fields, zipped

from bitepoint.bank import exercises
from bitepoint.cli import main
from bitepoint.logbook.identity import learner_id
from bitepoint.marking.college import across
from bitepoint.marking.college.run import mark_classes
from bitepoint.marking.flagging.answers import TWICE
from bitepoint.marking.flagging.neighbours import OTHER_FIGURES
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

COPIER, VICTIM = learner_id("ash-2026", 1), learner_id("elm-2026", 2)
FIGURES = 16


def car_of(folder: Path, learner: str) -> str:
    """The letter of a learner's car, as the roster has it."""
    with (folder / "roster.csv").open(encoding="utf-8") as file:
        return next(row["vehicle"] for row in csv.DictReader(file) if row["learner"] == learner)


def right_for(question: Question, other: Question) -> float | None:
    """The other's right figure, where here it is plainly wrong and no known mistake."""
    mine, theirs = kind_of(question).figure(question), kind_of(other).figure(other)
    if mine is None or theirs is None or mine.unit != theirs.unit:
        return None
    known = [mine.answer, *(m.value for m in mine.mistakes)]
    far = all(abs(theirs.answer - value) > 4 * mine.within.width(value) for value in known)
    return theirs.answer if far else None


@pytest.fixture(scope="module")
def college(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three classes; one learner of ash hands in figures of one of elm, and one file of elm lies in oak too."""
    folder = tmp_path_factory.mktemp("college")
    for number, name in enumerate(("ash", "elm", "oak")):
        rehearse(folder / name, learners=6, seed=number, lessons=("start", "torque"), class_word=f"{name}-2026")
    lines = []
    for key, exercise in exercises().items():
        drawn = [
            exercise.draw(class_word=word, learner=who, vehicle=car_of(folder / place, who))
            for place, word, who in (("ash", "ash-2026", COPIER), ("elm", "elm-2026", VICTIM))
        ]
        figure = right_for(*drawn)
        if figure is not None and len(lines) < FIGURES:
            said = {"exercise": key, "facts": drawn[0].facts_digest(), "answer": repr(figure), "class": "ash-2026"}
            said |= {"vehicle": drawn[0].own_vehicle, "edition": drawn[0].sheets}
            lines.append(fields(learner=COPIER, revision=exercise.revision, **said))
    content = "".join(f"{line}\n" for line in chain(*lines)).encode("ascii")
    (place,) = (folder / "ash" / "hand-ins").glob(f"{COPIER}-*")
    who = f'learner = "{COPIER}"\nclass_word = "ash-2026"\n'.encode()
    place.write_bytes(zipped(workbook_toml=who, logbook__start_a_jsonl=content))
    (twice,) = (folder / "elm" / "hand-ins").glob(f"{learner_id('elm-2026', 3)}-*")
    shutil.copy(twice, folder / "oak" / "hand-ins")
    return folder


@pytest.mark.parametrize("workers", [1, 2])
def test_a_copy_out_of_another_class_is_found(college: Path, tmp_path: Path, workers: int) -> None:
    """Both kinds, nothing else, by one process and by two; the results of the classes stay those of a run without."""
    found = mark_classes(college, out=tmp_path, across=True, workers=workers)
    assert found.across is not None
    assert [
        (OTHER_FIGURES, f"ash: {COPIER}; elm: {VICTIM}"),
        (TWICE, f"elm: {learner_id('elm-2026', 3)}"),
    ] == sorted((copy.kind, copy.who.partition("-20260630")[0]) for copy in found.across.copies)
    (figures,) = (copy for copy in found.across.copies if copy.kind == OTHER_FIGURES)
    assert re.match(
        rf"(\d+) of \1 wrong figures of {COPIER} that no known mistake explains are right for {VICTIM}",
        figures.evidence,
    )
    page = found.page.read_text(encoding="utf-8")
    assert f"ash: {COPIER}; elm: {VICTIM}" in page
    assert OTHER_FIGURES not in (tmp_path / "ash" / "report.html").read_text(encoding="utf-8")
    assert [] == [path for path in tmp_path.iterdir() if path.name.startswith(".across")]


def test_nothing_is_compared_unless_asked(college: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """And asked for at the terminal, each copy is one line there; --across without classes is refused."""
    said = ["mark", "--classes", str(college), "--out", str(tmp_path)]
    assert main(said) == 1
    assert OTHER_FIGURES not in capsys.readouterr().err
    assert "Copies across classes" not in (tmp_path / "college.html").read_text(encoding="utf-8")
    assert main([*said, "--across"]) == 1
    assert f"bitepoint: ash: {COPIER}; elm: {VICTIM}: {OTHER_FIGURES}. The college page" in capsys.readouterr().err
    assert main(["mark", str(college / "ash"), "--across"]) == 2


def test_comparing_is_bounded_and_says_so(college: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No more questions are drawn than the limit; how many were left out stands on the page."""
    monkeypatch.setattr(across, "MOST_DRAWS", 18)
    found = mark_classes(college, out=tmp_path, across=True)
    assert found.across is not None
    assert OTHER_FIGURES not in {copy.kind for copy in found.across.copies}
    assert found.across.left_out > 0
    page = found.page.read_text(encoding="utf-8")
    assert f"{found.across.left_out} rarely answered questions were left out of it" in page


def test_who_was_deleted_on_request_is_not_named(college: Path, tmp_path: Path) -> None:
    """The copy is still found; of whom, nothing says."""
    folder = tmp_path / "college"
    shutil.copytree(college, folder)
    deleted = Entry(kind="deletion", learner=VICTIM, by="A. Head", text="request", date="2026-06-01")
    Register(folder / "elm" / "register").add(deleted)
    found = mark_classes(folder, out=tmp_path / "marks", across=True)
    page = found.page.read_text(encoding="utf-8")
    assert f"ash: {COPIER}; elm: a learner who was deleted on request" in page
    assert VICTIM not in page


def test_rehearsals_are_not_compared_with_each_other(tmp_path: Path) -> None:
    """Invented classes have one word, so their learners are asked for the same figures: who copied in one would fit in all."""
    for seed in (6, 7):
        rehearse(tmp_path / "college" / f"group-{seed}", learners=8, seed=seed)
    found = mark_classes(tmp_path / "college", out=tmp_path / "marks", across=True)
    assert found.across is not None
    assert found.across.compared > 0
    assert [] == found.across.copies
