"""A road-test log in a job: judged for its car, kept without its name and without what the map does not name."""

from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.job.events import RoadTest
from bitepoint.job.opening import NewJob, open_for_training
from bitepoint.job.reading import read_job
from bitepoint.job.road_tests import propose_for, road_test
from bitepoint.workshop.own_log import read_log, read_map, result_from
from bitepoint.workshop.simulator import simulate
from bitepoint.workshop.vehicles import vehicle

HEAD = "Time (s);Engine speed (rpm);Speed (km/h);Gear;Throttle (%);Latitude;Longitude"


@pytest.fixture
def room(tmp_path: Path) -> Path:
    """A job on a training vehicle, and beside it the log of its slipping clutch, with positions in it."""
    open_for_training(tmp_path / "job", "A", NewJob())
    rows = [
        f"{s.t_s:.2f};{s.engine_rpm:.1f};{s.driven_wheel_km_h:.2f};{s.gear};{s.throttle_pct:.0f};48.2082;16.3738"
        for s in simulate(vehicle("A"), "slip", seed=1).samples
    ]
    (tmp_path / "Quist ZZ-417.csv").write_text("\n".join([HEAD, *rows, ""]).replace(".", ","), encoding="utf-8")
    return tmp_path


def confirmed(room: Path) -> Path:
    column_map, _ = propose_for(room / "Quist ZZ-417.csv")
    column_map.write_text(
        column_map.read_text(encoding="utf-8").replace("confirmed = false", "confirmed = true"), encoding="utf-8"
    )
    return column_map


def test_a_log_is_judged_and_kept_without_its_name_and_positions(room: Path) -> None:
    """Slip is found; the copy reads as the log did; neither name nor position is anywhere in the job."""
    log = room / "Quist ZZ-417.csv"
    column_map = confirmed(room)
    road_test(room / "job", log, column_map)
    job = read_job(room / "job")
    (event,) = job.all_of(RoadTest)
    assert event.words[0].startswith("Slip in gear 3: slips")
    assert result_from(event.result).slip.outcome == "slips"
    kept = read_log(job.folder / event.log, read_map(job.folder / event.map))
    original = read_log(log, read_map(column_map))
    assert (len(kept), kept.engine_rpm[:50]) == (len(original), original.engine_rpm[:50])
    for path in (room / "job").rglob("*"):
        assert "Quist" not in path.name
        if path.is_file():
            assert not [word for word in (b"Quist", b"48,2082", b"48.2082", b"Latitude") if word in path.read_bytes()]


def test_from_the_command_line_a_map_is_proposed_first(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Unconfirmed it is refused in a line; confirmed it is judged; a map that is there is not written over."""
    log = room / "Quist ZZ-417.csv"
    column_map = room / "Quist ZZ-417.map.toml"
    assert main(["job", "road-test", str(room / "job"), str(log)]) == 1
    assert str(column_map) in capsys.readouterr().out
    assert main(["job", "road-test", str(room / "job"), str(log)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert main(["job", "road-test", str(room / "job"), str(log), "--map", str(column_map)]) == 2
    assert "confirmed" in capsys.readouterr().err
    column_map.write_text(
        column_map.read_text(encoding="utf-8").replace("confirmed = false", "confirmed = true"), encoding="utf-8"
    )
    assert main(["job", "road-test", str(room / "job"), str(log), "--map", str(column_map)]) == 0
    assert "Slip in gear 3: slips" in capsys.readouterr().out
    assert main(["job", "print", str(room / "job")]) == 0
    record = (room / "job" / "print" / "record.html").read_text(encoding="utf-8")
    assert "Slip in gear 3: slips" in record
    assert "INVENTED FIGURES" in record


def test_a_log_that_cannot_be_used_is_one_line_and_not_recorded(room: Path) -> None:
    """Not there, no table, another gear than the car has."""
    column_map = confirmed(room)
    (room / "letter.csv").write_text("dear\n", encoding="utf-8")
    before = (room / "job" / "job.jsonl").read_bytes()
    for log, gear in (("none.csv", None), ("letter.csv", None), ("Quist ZZ-417.csv", 9)):
        with pytest.raises(BadInput) as raised:
            road_test(room / "job", room / log, column_map, gear=gear)
        assert "\n" not in str(raised.value)
    assert (room / "job" / "job.jsonl").read_bytes() == before
