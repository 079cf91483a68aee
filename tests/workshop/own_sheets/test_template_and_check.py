"""The form of an own sheet and its commands: every key, no invented figure, checked by a second person."""

import itertools
from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.missing import is_missing
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from, read_own_sheet
from bitepoint.workshop.own_sheets.template import RELEASES, Choices, template
from bitepoint.workshop.sheets import Vehicle

OWN = Path(__file__).parents[2] / "own_sheets" / "k7v.toml"
KINDS = list(itertools.product(("front", "rear"), RELEASES, ("rigid", "dual-mass"), ("conventional", "self-adjusting")))


def entered(text):
    """Return a template in which somebody is named."""
    for key in ("by", "document", "pages"):
        text = text.replace(f'{key} = ""', f'{key} = "x"')
    return text


@pytest.mark.parametrize(("drive", "release", "flywheel", "cover"), KINDS)
def test_a_new_sheet_of_every_kind_can_be_read_and_holds_no_figure(drive, release, flywheel, cover):
    """All that stands in it is what was chosen; the rest is to be looked up."""
    text = template(Choices(id="K7V", drive=drive, release=release, flywheel=flywheel, cover=cover))
    sheet = own_sheet_from(entered(text).encode("utf-8"))
    assert sheet.vehicle.release.kind == RELEASES[release]
    assert len(sheet.missing) > 95
    assert not [line for line in text.splitlines() if line.partition(" = ")[2][:1].isdigit() and "date" not in line]


def test_a_new_sheet_has_every_figure_that_a_training_vehicle_has():
    """Over all kinds of vehicle each key of the type stands in a template, but for those a college cannot know."""
    left_out = {"edition", "variants", "job_date", "entered_by", "missing", "figures"}
    texts = "".join(template(Choices(id="K7V", drive=d, release=r, flywheel=f, cover=c)) for d, r, f, c in KINDS)
    for name in set(Vehicle.__struct_fields__) - left_out:
        assert f"{name} = " in texts or f"[{name}]" in texts


def test_a_new_sheet_is_asked_for_and_never_written_over(tmp_path, capsys):
    """The command writes the form once; a second time there is one line."""
    said = ["vehicle", "new", str(tmp_path / "v.toml"), "--id", "k7v", "--drive", "rear", "--release", "external"]
    said += ["--flywheel", "rigid", "--cover", "conventional"]
    assert main(said) == 0
    text = (tmp_path / "v.toml").read_text(encoding="utf-8")
    assert 'id = "K7V"' in text
    assert main(said) == 2
    assert "is there already" in capsys.readouterr().err
    assert (tmp_path / "v.toml").read_text(encoding="utf-8") == text


@pytest.mark.parametrize("letter", ["a", "A", "", "TOOLONG", "7K", "K-7"])
def test_an_id_that_no_sheet_may_have_is_refused_at_once(tmp_path, capsys, letter):
    """One letter is a training vehicle's; nothing is written."""
    said = ["vehicle", "new", str(tmp_path / "v.toml"), "--id", letter, "--drive", "rear", "--release", "external"]
    assert main([*said, "--flywheel", "rigid", "--cover", "conventional"]) == 2
    assert "two to four capitals or digits" in capsys.readouterr().err
    assert not (tmp_path / "v.toml").exists()


def test_a_check_is_recorded_and_a_changed_figure_asks_for_a_new_one(tmp_path, capsys):
    """NOT CHECKED until the second person; the one who entered it is refused; a new check replaces the old one."""
    path = tmp_path / "v.toml"
    path.write_text(OWN.read_text(encoding="utf-8"), encoding="utf-8")
    assert main(["vehicle", "check", str(path)]) == 1
    assert "NOT CHECKED" in capsys.readouterr().out
    assert main(["vehicle", "check", str(path), "--checked-by", "Bell College"]) == 2
    assert main(["vehicle", "check", str(path), "--checked-by", "C. Second"]) == 0
    path.write_text(path.read_text(encoding="utf-8").replace("oil_litre = 1", "oil_litre = 2"), encoding="utf-8")
    capsys.readouterr()
    assert main(["vehicle", "check", str(path)]) == 1
    assert "A figure was changed since it was checked" in capsys.readouterr().out
    assert main(["vehicle", "check", str(path), "--checked-by", "D. Third"]) == 0
    assert read_own_sheet(path).checked.by == "D. Third"
    assert path.read_text(encoding="utf-8").count("[checked]") == 1


def test_a_missing_torque_stays_missing():
    """A sheet without a torque has none, whatever else it says."""
    text = OWN.read_text(encoding="utf-8").replace("torque_nm = 22", 'torque_nm = "look it up"', 1)
    assert is_missing(own_sheet_from(text.encode("utf-8")).vehicle.clutch.cover.torque_nm)


def test_a_check_that_is_refused_leaves_the_earlier_one(tmp_path, capsys):
    """Nothing of the file changes when the second person is nobody or the one who entered the figures."""
    path = tmp_path / "v.toml"
    path.write_text(OWN.read_text(encoding="utf-8"), encoding="utf-8")
    assert main(["vehicle", "check", str(path), "--checked-by", "C. Second"]) == 0
    before = path.read_bytes()
    for nobody in (" ", "Bell College"):
        assert main(["vehicle", "check", str(path), "--checked-by", nobody]) == 2
        assert path.read_bytes() == before
    assert [*tmp_path.iterdir()] == [path]
    assert main(["vehicle", "check", str(path), "--checked-by", "D. Third"]) == 0
    assert read_own_sheet(path).checked.by == "D. Third"
    capsys.readouterr()
