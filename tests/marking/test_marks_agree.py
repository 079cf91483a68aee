"""Marks of an invented class agree with what its learners really did."""

import csv
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bitepoint.errors import BadInput, OutOfRange
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.rehearsal.rehearse import rehearse

FORMS = ("zip", "folder", "logbook", "notebook")
COMPARED = ("learner", "exercise", "first_score", "last_score")


def table(path: Path) -> list[dict[str, str]]:
    """Return the rows of a CSV file."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def compared(path: Path) -> list[tuple[str, ...]]:
    """Return the four columns that truth and marks share."""
    return [tuple(row[column] for column in COMPARED) for row in table(path)]


MARKED = datetime(2026, 7, 1, 9, tzinfo=UTC)
"""The time that the pages say, so that two markings a minute apart are the same."""


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file under a folder by its name."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


@pytest.mark.parametrize("form", FORMS)
def test_every_row_agrees_with_the_truth(tmp_path: Path, form: str) -> None:
    """24 learners, four ways to hand in: learner, exercise, first and counting score are those decided."""
    rehearse(tmp_path / "class", learners=24, seed=7, form=form)
    out = tmp_path / "marks"
    outcome = mark_hand_ins([tmp_path / "class" / "hand-ins"], roster=tmp_path / "class" / "roster.csv", out=out)
    truth = compared(tmp_path / "class" / "truth.csv")

    assert truth == compared(out / "marks.csv")
    assert (24, len(truth), []) == (outcome.learners, outcome.rows, outcome.problems)
    assert len(truth) > 24 * 5


def test_another_class_agrees_too(tmp_path: Path) -> None:
    """Agreement is not a property of one seed; partial scores and misses occur among the rows."""
    rehearse(tmp_path / "class", learners=30, seed=2026)
    mark_hand_ins([tmp_path / "class" / "hand-ins"], out=tmp_path / "marks")
    rows = compared(tmp_path / "marks" / "marks.csv")

    assert compared(tmp_path / "class" / "truth.csv") == rows
    assert {"0", "1"} <= {row[3] for row in rows}
    assert any(row[2] not in ("0", "1") for row in rows)


def test_only_the_hasty_and_the_copier_are_flagged(tmp_path: Path) -> None:
    """In a rehearsed class a person has to look at two learners, and at no harmless one."""
    rehearse(tmp_path / "class", learners=24, seed=7)
    outcome = mark_hand_ins(
        [tmp_path / "class" / "hand-ins"], roster=tmp_path / "class" / "roster.csv", out=tmp_path / "marks"
    )
    flagged = {
        (row["learner"][:3], flag)
        for row in table(tmp_path / "marks" / "marks.csv")
        for flag in row["flags"].split("; ")
    }

    assert outcome.look
    assert {("L04", "form answers faster than reading"), ("L06", "fits another learner's figures")} == {
        (learner, flag) for learner, flag in flagged if flag
    }


def test_a_lesson_handed_in_several_ways_counts_once(tmp_path: Path) -> None:
    """Zip, logbook files and notebooks of the same work together give the marks of one of them, and no flag more."""
    for form in FORMS:
        rehearse(tmp_path / form, learners=4, seed=11, form=form)
    one = mark_hand_ins([tmp_path / "zip" / "hand-ins"], out=tmp_path / "one")
    all_ = mark_hand_ins([tmp_path / form / "hand-ins" for form in FORMS], out=tmp_path / "all")

    assert (tmp_path / "one" / "marks.csv").read_bytes() == (tmp_path / "all" / "marks.csv").read_bytes()
    assert (one.flags, []) == (all_.flags, all_.problems)


def test_several_workers_write_the_same_files(tmp_path: Path) -> None:
    """How many processes mark changes no byte; progress counts up to the number of hand-ins."""
    seen: list[tuple[int, int]] = []
    rehearse(tmp_path / "class", learners=10, seed=5)
    for workers in (1, 2):
        mark_hand_ins(
            [tmp_path / "class" / "hand-ins"],
            out=tmp_path / f"marks-{workers}",
            workers=workers,
            marked=MARKED,
            progress=lambda done, total: seen.append((done, total)),
        )

    assert contents(tmp_path / "marks-1") == contents(tmp_path / "marks-2")
    assert [(n, 10) for n in range(1, 11)] * 2 == seen


def test_several_workers_find_the_same_in_a_class_with_cases(tmp_path: Path) -> None:
    """Flags, sittings, held hand-ins and what to read are the same, and in the same order, whichever process finds them."""
    folder = tmp_path / "class"
    rehearse(folder, learners=24, seed=5, planted=True, sittings=True, lessons=("start", "safe"))
    found = [
        mark_hand_ins(
            [folder / "hand-ins"],
            roster=folder / "roster.csv",
            register=folder / "register",
            out=tmp_path / f"marks-{workers}",
            workers=workers,
            marked=MARKED,
        )
        for workers in (1, 2)
    ]

    assert contents(tmp_path / "marks-1") == contents(tmp_path / "marks-2")
    assert found[0].problems == found[1].problems
    assert found[0].flags == found[1].flags > 0


def test_marks_among_the_hand_ins_are_no_hand_in(tmp_path: Path) -> None:
    """Marking into a folder inside the hand-ins, twice, gives the same marks."""
    rehearse(tmp_path, learners=2, seed=5)
    inside = tmp_path / "hand-ins" / "marks"
    first = mark_hand_ins([tmp_path / "hand-ins"], out=inside, marked=MARKED)
    before = contents(inside)

    again = mark_hand_ins([tmp_path / "hand-ins"], out=inside, marked=MARKED)
    assert (first.learners, first.rows, first.flags, first.problems) == (
        again.learners,
        again.rows,
        again.flags,
        again.problems,
    )
    assert before == {name: data for name, data in contents(inside).items() if not name.startswith("former/")}


@pytest.mark.parametrize("form", FORMS)
def test_a_rehearsal_is_the_same_for_the_same_seed(tmp_path: Path, form: str) -> None:
    """Every byte, also when it is made again in the same folder; another seed gives another class."""
    for name in ("a", "b", "a"):
        rehearse(tmp_path / name, learners=3, seed=1, form=form)
    rehearse(tmp_path / "c", learners=3, seed=2, form=form)

    assert contents(tmp_path / "a") == contents(tmp_path / "b")
    assert (tmp_path / "a" / "truth.csv").read_bytes() != (tmp_path / "c" / "truth.csv").read_bytes()


def test_a_rehearsal_touches_no_folder_of_others(tmp_path: Path) -> None:
    """A folder with something else in it is refused and left as it was."""
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")

    with pytest.raises(BadInput, match="is not empty and no rehearsal made it"):
        rehearse(tmp_path, learners=3, seed=1)
    assert contents(tmp_path) == {"mine.txt": b"mine"}


@pytest.mark.parametrize("learners", [0, -1, 1000])
def test_a_class_has_1_to_999_learners(tmp_path: Path, learners: int) -> None:
    """The number is refused, not mended."""
    with pytest.raises(OutOfRange, match="learners must be between 1 and 999"):
        rehearse(tmp_path, learners=learners, seed=1)


def test_an_unknown_form_names_the_known_ones(tmp_path: Path) -> None:
    """The message lists what can be asked for."""
    with pytest.raises(BadInput, match="Choose one of zip, folder, logbook, notebook"):
        rehearse(tmp_path, learners=1, seed=1, form="paper")
