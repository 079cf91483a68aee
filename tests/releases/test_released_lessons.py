"""The cells of the lessons as each release shipped them are kept in its zip."""

import json
import zipfile
from pathlib import Path

import pytest

from bitepoint.errors import BadData
from bitepoint.releases.lessons import NAME, cell_sources, released_sources


def _release(folder: Path, version: str, *sources: str) -> None:
    with zipfile.ZipFile(folder / f"{version}.zip", "w") as archive:
        archive.writestr(NAME, json.dumps(sources))


def test_the_oldest_release_comes_first_and_each_cell_once(tmp_path: Path) -> None:
    """0.10.0 is younger than 0.9.0; none released is no error."""
    assert [] == released_sources(tmp_path)
    _release(tmp_path, "0.10.0", "b", "c")
    _release(tmp_path, "0.9.0", "a", "b")
    assert ["a", "b", "c"] == released_sources(tmp_path)


def test_a_release_without_its_list_is_named(tmp_path: Path) -> None:
    """Silently left out, a learner's older lesson would never wake."""
    with zipfile.ZipFile(tmp_path / "0.2.0.zip", "w"):
        pass
    with pytest.raises(BadData, match=r"^0\.2\.0\.zip: holds no lessons\.json"):
        released_sources(tmp_path)


def test_the_cells_of_today_are_all_there() -> None:
    """Every lesson's question and its end are among them, none twice."""
    found = cell_sources()
    assert len(found) == len(set(found))
    assert {'ask("start.number")', '# Where you stand\nsummary("start")', '# Where you stand\nsummary("carry")'} <= set(
        found
    )
