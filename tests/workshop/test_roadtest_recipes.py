"""Which logs are stored: a list that another folder may add to; what is not stored is simulated, for any vehicle."""

from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import roadtests
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.roadtest_files import written
from bitepoint.workshop.roadtest_verdict import verdict
from bitepoint.workshop.simulator import FAULTS, Fault, simulate
from bitepoint.workshop.vehicles import vehicle

HEAD = "name,vehicle,fault,seed\n"


def added(tmp_path: Path) -> DataFiles:
    """Return the shipped data files with a vehicle E, built like A, in a folder of its own."""
    sheet = (places.assets() / "vehicles" / "a.toml").read_text(encoding="utf-8")
    (tmp_path / "vehicles").mkdir(exist_ok=True)
    text = sheet.replace('id = "A"', 'id = "E"', 1)
    (tmp_path / "vehicles" / "e.toml").write_text(text, encoding="utf-8")
    return DataFiles(places.assets(), tmp_path)


@pytest.mark.parametrize("fault", FAULTS)
def test_a_vehicle_without_stored_logs_has_simulated_ones(tmp_path: Path, fault: Fault) -> None:
    """Its logs are named by its own letter, show the fault by calculation, and the first log is one of them."""
    with using(added(tmp_path)):
        name = roadtests.log_with("E", fault, 0)
        log = roadtests.road_test(name)
        assert (log.vehicle, verdict(log).faults) == ("E", (fault,))
        assert roadtests.first_log("E", fault) == name
    assert name.startswith("e-")


def test_the_first_log_is_the_stored_one_where_there_is_one() -> None:
    """The first of the list with that vehicle and fault; a simulated one for a fault that is not stored."""
    assert roadtests.first_log("B", "slip") == "b-5"
    assert roadtests.first_log("D", "slip") == "d-4"
    assert roadtests.first_log("A", "wheel spin") == roadtests.log_with("A", "wheel spin", 0)


def test_another_folder_adds_logs_and_changes_none(tmp_path: Path) -> None:
    """A log that a folder adds is read from there; the shipped ones stay as they are."""
    shipped = roadtests.road_test("a-1")
    files = added(tmp_path)
    (tmp_path / "road-tests").mkdir()
    (tmp_path / "road-tests" / "recipes.csv").write_text(HEAD + "e-1,E,slip,51\n", encoding="utf-8")
    with using(files):
        log = simulate(vehicle("E"), "slip", seed=51)
        for name, lines in (("e-1", log.samples), ("e-1-shake", log.shake)):
            (tmp_path / "road-tests" / f"{name}.csv").write_text(written("E", lines), encoding="utf-8")
        assert roadtests.first_log("E", "slip") == "e-1"
        assert verdict(roadtests.road_test("e-1")).faults == ("slip",)
        assert roadtests.road_test("a-1") == shipped
    assert "e-1" not in roadtests.names()


def test_a_log_is_kept_for_the_data_files_it_was_made_from(tmp_path: Path) -> None:
    """Simulated again from a corrected sheet, a log is another; back with the first files it is the first one."""
    files = added(tmp_path)
    with using(files):
        before = roadtests.road_test("e-417")
    sheet = tmp_path / "vehicles" / "e.toml"
    text = sheet.read_text(encoding="utf-8")
    sheet.write_text(text.replace("idle_rpm = 850", "idle_rpm = 900", 1), encoding="utf-8")
    with using(DataFiles(places.assets(), tmp_path)):
        assert roadtests.road_test("e-417") != before
    with using(files):
        assert roadtests.road_test("e-417") is before


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (HEAD + "a-1,A,rust,1\n", r"line 2: Invalid enum value 'rust'"),
        (HEAD + "a-1,A,slip,one\n", r"line 2: Expected `int`.*seed"),
        (HEAD + "a-101,A,slip,1\n", r"line 2: .*name"),
        (HEAD + "z-1,Z,slip,1\n", r"line 2: vehicle must be one of A, B, C, D, but is 'Z'"),
        (HEAD + "a-1,A,slip\n", r"line 2: must have one field a column"),
        ("name,vehicle,fault\na-1,A,slip\n", r"line 2: .*seed"),
        (HEAD + "a-1,A,slip,1\na-1,A,drag,2\n", r"name: 'a-1' stands twice"),
    ],
)
def test_a_bad_list_is_one_clear_line(tmp_path: Path, text: str, told: str) -> None:
    """File, line and rule are named."""
    (tmp_path / "road-tests").mkdir()
    (tmp_path / "road-tests" / "recipes.csv").write_text(text, encoding="utf-8")
    (tmp_path / "vehicles").symlink_to(places.assets() / "vehicles")
    with using(DataFiles(tmp_path)), pytest.raises(BadData, match=told) as caught:
        roadtests.stored()
    assert str(caught.value).startswith("recipes.csv: ")
    assert "\n" not in str(caught.value)
