"""The developers' command refuses what would lose a release, in one line."""

from pathlib import Path

import pytest

from bitepoint.releases import __main__ as command
from bitepoint.workshop.datafiles import DataFiles


@pytest.fixture
def released(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder in which one release is kept."""
    (tmp_path / "0.2.0.json").write_text("{}", encoding="utf-8")
    monkeypatch.setattr(command, "releases_folder", lambda: tmp_path)
    return tmp_path


def test_samples_are_made_anew_only_as_long_as_nothing_is_released(
    released: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Beside a release they would hold the changed questions, and nobody would see which are new."""
    monkeypatch.setattr("sys.argv", ["releases", "sample"])
    assert command.run() == 2
    said = capsys.readouterr().err
    assert said == "0.2.0 is released: samples are not made anew. Run check, and do what its lines say.\n"
    assert [path.name for path in released.iterdir()] == ["0.2.0.json"]


def test_a_table_is_retired_by_the_next_number(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """kits.csv has no line for its edition: what was released is kept as 1, then 2, and the table is left to be corrected."""
    (tmp_path / "kits.csv").write_text("kit\nSK-1\n", encoding="utf-8")
    monkeypatch.setattr("bitepoint.workshop.datafiles._shipped", [DataFiles(tmp_path)])
    monkeypatch.setattr("bitepoint.places.assets", lambda: tmp_path)
    monkeypatch.setattr("sys.argv", ["releases", "retire", "kits.csv"])
    assert [0, 0] == [command.run(), command.run()]
    assert ["kits.1.csv", "kits.2.csv"] == sorted(path.name for path in (tmp_path / "retired").iterdir())
    assert "kit\nSK-1\n" == (tmp_path / "kits.csv").read_text(encoding="utf-8")
