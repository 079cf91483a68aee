"""The kit list: what it may hold, and which list belongs to which vehicle."""

import shutil
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import kit_list
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.kit_list import all_kits, kits_for


def folder_with(tmp_path: Path, kit: str = "SK-5190") -> Path:
    """Return a folder that adds a vehicle E, built like A, and a list with one kit."""
    assets = places.assets()
    (tmp_path / "vehicles").mkdir()
    sheet = (assets / "vehicles" / "a.toml").read_text(encoding="utf-8")
    (tmp_path / "vehicles" / "e.toml").write_text(sheet.replace('id = "A"', 'id = "E"', 1), encoding="utf-8")
    head, first, *_ = (assets / "kits.csv").read_text(encoding="utf-8").splitlines()
    (tmp_path / "kits.csv").write_text(f"{head}\n{first.replace('SK-1190', kit)}\n", encoding="utf-8")
    return tmp_path


def test_an_added_list_is_looked_up_for_the_vehicles_beside_it_only(tmp_path: Path) -> None:
    """A to D keep the shipped list; the added vehicle's list is the shipped one with its own kit behind it."""
    shipped = all_kits()
    with using(DataFiles(places.assets(), folder_with(tmp_path))):
        assert [kits_for(letter) for letter in "ABCD"] == [shipped] * 4
        assert [kit.kit for kit in kits_for("E")] == [*(kit.kit for kit in shipped), "SK-5190"]
        assert kits_for("E") == all_kits()


def test_a_vehicle_may_bring_its_kits_beside_its_sheet(tmp_path: Path) -> None:
    """Also in the shipped folder: only its own kit is looked up there, and everybody else's list stays as it was."""
    shutil.copytree(places.assets(), tmp_path / "assets")
    head, first, *_ = (places.assets() / "kits.csv").read_text(encoding="utf-8").splitlines()
    own = tmp_path / "assets" / "vehicles" / "a.kits.csv"
    own.write_text(f"{head}\n{first.replace('SK-1190', 'SK-5190')}\n", encoding="utf-8")
    shared = [kit.kit for kit in kit_list.all_kits()]
    with using(DataFiles(tmp_path / "assets")):
        assert [*shared, "SK-5190"] == [kit.kit for kit in kit_list.kits_for("A")]
        assert shared == [kit.kit for kit in kit_list.kits_for("B")]


def test_a_retired_edition_of_the_list_can_be_pinned(tmp_path: Path) -> None:
    """A table has no place for its number; the edition that is kept has it in its name."""
    shutil.copytree(places.assets(), tmp_path / "assets")
    kept = tmp_path / "assets" / "retired" / "kits.1.csv"
    kept.parent.mkdir(exist_ok=True)
    shutil.copyfile(places.assets() / "kits.csv", kept)
    lines = (places.assets() / "kits.csv").read_text(encoding="utf-8").splitlines()
    (tmp_path / "assets" / "kits.csv").write_text("\n".join([*lines[:-1], ""]), encoding="utf-8")
    files = DataFiles(tmp_path / "assets")
    with using(files):
        newest = len(kit_list.kits_for("B"))
    with using(files.pinned({"kits.csv": 1})):
        assert newest + 1 == len(kit_list.kits_for("B"))


def test_a_number_that_another_list_has_is_refused(tmp_path: Path) -> None:
    """Two lists with one number would make an answer mean two kits."""
    with using(DataFiles(places.assets(), folder_with(tmp_path, "SK-3235"))), pytest.raises(BadData) as caught:
        kits_for("E")
    assert str(caught.value) == "kits.csv: kit: 'SK-3235' stands twice. Correct that key in the data file."


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "SK-1200,OP10-C,2016-09,,5E,,200",
            "SK-1200,OP10-C,2016-09,,5E,,wide",
            r"line 3: Expected `float`.*plate_od_mm",
        ),
        ("SK-1200,", "SK-1190,", r"kit: 'SK-1190' stands twice"),
        ("2016-09,,5E", "2016-13,,5E", r"line 3: .*build_from"),
        ("2015-05,,6K2", "2015-05,2015-04,6K2", r"line 4 build_from: must not be after build_to"),
        ("rigid,no,no", "rigid,maybe,no", r"line 2: Expected `bool`.*flywheel_in_kit"),
        ("kit,engine_code", "kit,engine", r"line 2: .*engine"),
        ("SK-1190,OP10-C,,2016-08", "SK-1190,OP10-C,2016-08", r"line 2: must have one field a column"),
        ("SK-1190,OP10-C,,2016-08", "SK-1190,OP10-C,,,2016-08", r"line 2: must have one field a column"),
    ],
)
def test_a_bad_list_names_file_line_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A kit list that breaks a rule says in one line which file, which line, which column."""
    text = (places.assets() / "kits.csv").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "kits.csv"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(BadData, match=message) as caught:
        kit_list.read_kits(path)

    assert str(caught.value).startswith("kits.csv: ")
    assert "\n" not in str(caught.value)


def test_a_list_that_cannot_be_read(tmp_path: Path) -> None:
    """A missing list, or one that is no text, is named."""
    (tmp_path / "bytes.csv").write_bytes(b"kit\n\xff\xfe\n")

    with pytest.raises(BadData, match=r"^none\.csv: cannot be read \(No such file"):
        kit_list.read_kits(tmp_path / "none.csv")
    with pytest.raises(BadData, match=r"^bytes\.csv: is not written in UTF-8"):
        kit_list.read_kits(tmp_path / "bytes.csv")
