"""Data files have editions: the newest lies in its place, what it replaced is kept and can be pinned."""

import re
import shutil
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.bank import exercises
from bitepoint.errors import BadData
from bitepoint.workshop.criteria import criteria
from bitepoint.workshop.datafiles import DataFiles, data_files, kept_a_set, once_a_set, shipped, using
from bitepoint.workshop.vehicles import SHEETS, sheets_edition, vehicle, vehicles


@pytest.fixture
def corrected(tmp_path: Path) -> Path:
    """A copy of the data in which the clamp load of B was corrected: the sheet is edition 2, and edition 1 is kept."""
    folder = tmp_path / "assets"
    shutil.copytree(places.assets(), folder, ignore=shutil.ignore_patterns("retired", "releases"))
    for path in folder.rglob("*.toml"):  # the shipped files may have been corrected since
        as_first = re.sub(r"^edition = \d+$", "edition = 1", path.read_text(encoding="utf-8"), flags=re.MULTILINE)
        path.write_text(as_first, encoding="utf-8")
    sheet = folder / "vehicles" / "b.toml"
    kept = folder / "retired" / "vehicles" / "b.1.toml"
    kept.parent.mkdir(parents=True)
    shutil.copyfile(sheet, kept)
    text = sheet.read_text(encoding="utf-8").replace("edition = 1", "edition = 2", 1)
    sheet.write_text(re.sub(r"clamp_load_new_n = \d+", "clamp_load_new_n = 7000", text), encoding="utf-8")
    return folder


def test_an_edition_of_the_set_of_sheets_is_drawn_as_it_was(corrected: Path) -> None:
    """One number pins every sheet: the corrected one goes back, the others are the same in both."""
    files = DataFiles(corrected)
    with using(files):
        assert (2, 7000) == (sheets_edition(), vehicle("B").clutch.clamp_load_new_n)
        whole = vehicles()
    with using(files.pinned({SHEETS: 1})):
        assert 1 == sheets_edition()
        assert vehicle("B").clutch.clamp_load_new_n == vehicles()["B"].clutch.clamp_load_new_n != 7000
        assert all(vehicles()[letter] == whole[letter] for letter in "ACD")


def test_a_draw_pins_by_its_own_files_and_only_what_came_before(corrected: Path) -> None:
    """An edition before the newest is pinned, whichever files are passed; one that is not there yet is the newest."""
    files, drawn = DataFiles(corrected), exercises()["release.line-pressure"].draw
    who = {"class_word": "oak", "learner": "L1", "vehicle": "B", "data": files}
    assert (2, 1, 2) == tuple(drawn(**who, edition=edition).edition for edition in (0, 1, 3))
    for edition in range(3, 40):
        drawn(**who, edition=edition)
    assert 1 == len(files._pinned), "a line that names an edition costs no set of files of its own"
    with pytest.raises(BadData, match="There is no edition -1"):
        drawn(**who, edition=-1)


def test_a_car_that_came_later_is_not_there_before(corrected: Path) -> None:
    """In the edition before a car was added there is no such car, and that is said."""
    text = (corrected / "vehicles" / "d.toml").read_text(encoding="utf-8")
    later = text.replace('id = "D"', 'id = "F"').replace("edition = 1", "edition = 2", 1)
    (corrected / "vehicles" / "f.toml").write_text(later, encoding="utf-8")
    files = DataFiles(corrected)
    with using(files):
        assert "F" in vehicles()
    with using(files.pinned({SHEETS: 1})), pytest.raises(BadData, match="There is no training vehicle 'F'"):
        vehicle("F")


def test_a_retired_edition_of_any_file_can_be_pinned(corrected: Path) -> None:
    """An old revision rests on the edition it was drawn from; who pins nothing reads the newest."""
    kept = corrected / "retired" / "criteria.1.toml"
    shutil.copyfile(corrected / "criteria.toml", kept)
    text = (corrected / "criteria.toml").read_text(encoding="utf-8")
    (corrected / "criteria.toml").write_text(text.replace("edition = 1", "edition = 2", 1), encoding="utf-8")
    files = DataFiles(corrected)
    with using(files):
        assert 2 == criteria().edition
    with using(files.pinned({"criteria.toml": 1})):
        assert 1 == criteria().edition


def test_what_is_in_use_ends_with_its_block(corrected: Path) -> None:
    """Outside, and after an error inside, the shipped files are read; the same pins give the same set."""
    files = DataFiles(corrected)

    def broken_off() -> None:
        with using(files):
            assert data_files() is files
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        broken_off()
    assert data_files() is shipped()
    assert shipped().is_shipped
    assert not files.is_shipped
    assert files.pinned({SHEETS: 1}) is files.pinned({SHEETS: 1})
    assert files.pinned({}) is files


def test_a_reader_reads_once_a_set(corrected: Path) -> None:
    """Each set keeps what was read from it, apart from the other's."""
    calls: list[str] = []

    @once_a_set
    def read(name: str) -> str:
        calls.append(name)
        return name

    with using(DataFiles(corrected)):
        assert [read("x"), read("x"), read("y")] == ["x", "x", "y"]
    read("x")
    assert ["x", "y", "x"] == calls


def test_the_latest_results_are_kept_for_each_set(corrected: Path) -> None:
    """So many and no more; another set gets its own, and what went wrong is tried again."""
    calls: list[str] = []

    @kept_a_set(2)
    def found(letter: str) -> float:
        calls.append(letter)
        return vehicle(letter).clutch.clamp_load_new_n

    files = DataFiles(corrected)
    with using(files):
        assert [7000, 7000] == [found("B"), found("B")]
        for letter in ("A", "C", "B"):
            found(letter)
    assert ["B", "A", "C", "B"] == calls
    assert found("B") != 7000
    for _ in range(2):
        with pytest.raises(BadData):
            found("Q")
    assert ["B", "Q", "Q"] == calls[4:]


@pytest.mark.parametrize("path", sorted(places.assets().glob("*.toml")), ids=lambda p: p.name)
def test_the_edition_of_a_file_follows_the_ones_kept(path: Path) -> None:
    """A data file of the bank names its edition, one more than the newest that is kept."""
    # Neither is drawn from: what a lesson needs first, and where a statement comes from.
    if path.name in ("course-map.toml", "sources.toml"):
        return
    number = re.search(r"^edition = (\d+)$", path.read_text(encoding="utf-8"), re.MULTILINE)
    kept = [int(p.name.split(".")[1]) for p in (path.parent / "retired").glob(f"{path.stem}.*.toml")]
    assert number is not None
    assert max(kept, default=0) + 1 == int(number[1])
