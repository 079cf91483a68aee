"""Who is asking: ids, class words and workbook.toml."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import BadData, BadInput
from bitepoint.logbook.identity import (
    FILE,
    Identity,
    checked_learner,
    checked_name,
    find_workbook,
    learner_id,
    read_identity,
    same_name,
    write_identity,
)


@pytest.mark.parametrize(
    "name", ["", "../x", "CON", "con.txt", "lpt1", "x" * 33, "x" * 255, "a b", "ö", "-a", "a.", "a/b", "a\x00", None, 7]
)
def test_names_that_cannot_be_used_are_refused(name: object) -> None:
    """Paths, reserved names, long names, other letters: one sentence that says what can be used."""
    with pytest.raises(BadInput, match="Use 1 to 32 letters, digits, dots, hyphens or underscores"):
        checked_name(name, "The learner id")


@pytest.mark.parametrize("name", ["L07-K", "a", "9", "x" * 32, "Anna_B.2"])
def test_names_that_can_be_used_come_back(name: str) -> None:
    """Letters, digits, dots, hyphens and underscores."""
    assert name == checked_name(name, "The learner id")


def test_ids_are_the_same_whatever_their_capitals() -> None:
    """L07-K and l07-k are one learner."""
    assert same_name("L07-K", "l07-k")
    assert not same_name("L07-K", "L08-K")


def test_a_wrong_letter_is_told_before_the_work_begins() -> None:
    """Number and letter belong together in a class; small letters are mended."""
    right = learner_id("oak-2026", 7)
    other = "ABCDEFGHJKLMNPRSTUVWXYZ".replace(right[-1], "")[0]

    assert right == checked_learner(right.lower(), "Oak-2026")
    with pytest.raises(BadInput, match="does not fit class oak-2026"):
        checked_learner(f"L07-{other}", "oak-2026")


@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=40))
def test_a_title_survives_the_file(tmp_path_factory: pytest.TempPathFactory, title: str) -> None:
    """Whatever stands in a title, workbook.toml gives it back."""
    folder = tmp_path_factory.mktemp("workbook")
    write_identity(Identity(learner="L07-K", class_word="oak-2026", title=title), folder)

    assert title == read_identity(folder / FILE).title


def test_it_is_on_the_disk_before_it_takes_the_old_ones_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A power cut or a full disk while somebody says who they are leaves the file as it was, never an empty one."""
    write_identity(Identity(learner="L07-K", class_word="oak-2026"), tmp_path)

    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_identity(Identity(learner="L08-J", class_word="oak-2026"), tmp_path)
    assert "L07-K" == read_identity(tmp_path / FILE).learner
    assert [FILE] == [path.name for path in tmp_path.iterdir()]


def test_the_nearest_workbook_upward_counts(tmp_path: Path) -> None:
    """A notebook in a folder below finds its workbook; above all folders is the practice learner."""
    write_identity(Identity(learner="L07-K", class_word="oak-2026"), tmp_path)
    below = tmp_path / "a" / "b"
    below.mkdir(parents=True)

    assert ("L07-K", tmp_path) == (find_workbook(below).learner, find_workbook(below).folder)
    assert not find_workbook(Path("/")).kept


def test_a_workbook_file_that_cannot_be_used_names_itself(tmp_path: Path) -> None:
    """One sentence: which file, what is wrong, what to do."""
    (tmp_path / FILE).write_text('learner = "../x"\nclass_word = "oak"\n', encoding="utf-8")

    with pytest.raises(BadData, match=r"^workbook\.toml: The learner id '\.\./x' cannot be used\..*bitepoint open"):
        find_workbook(tmp_path)
