"""A TOML file among our modules is read the same the second time, from what was kept of it."""

from datetime import date
from pathlib import Path

import msgspec
import pytest

from bitepoint.errors import BadData
from bitepoint.workshop.reading import read_toml

TEXT = 'n = 1\nf = 1.0\nwords = ["a", "ä “b”"]\n[t]\nyes = true\n'


@pytest.fixture
def file(package: Path) -> Path:
    """Return a file in a package whose compiled modules may be written."""
    path = package / "forms.toml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_it_is_parsed_once(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And says the same again, whole numbers and others told apart."""
    first = read_toml(file, dict[str, object])
    monkeypatch.setattr(msgspec.toml, "decode", None)
    again = read_toml(file, dict[str, object])
    assert repr(first) == repr(again) == repr({"n": 1, "f": 1.0, "words": ["a", "ä “b”"], "t": {"yes": True}})


def test_a_changed_file_is_read_anew(file: Path) -> None:
    """Also one of the same size."""
    read_toml(file, dict[str, object])
    file.write_text(TEXT.replace("n = 1", "n = 2"), encoding="utf-8")
    assert 2 == read_toml(file, dict[str, object])["n"]


def test_a_date_is_a_date_the_second_time(file: Path) -> None:
    """What the kept form has no word for is not kept."""
    file.write_text("on = 2026-06-30\nat = 1e400\n", encoding="utf-8")
    first, again = (read_toml(file, dict[str, object]) for _ in range(2))
    assert {"on": date(2026, 6, 30), "at": float("inf")} == first == again


def test_a_file_elsewhere_keeps_nothing_beside_it(file: Path) -> None:
    """A class's own folder stays as it is."""
    (file.parent / "__init__.py").unlink()
    read_toml(file, dict[str, object])
    assert [file] == list(file.parent.iterdir())


@pytest.mark.parametrize("text", ["n = ", "n = 'a'\n"])
def test_a_file_that_cannot_be_used_says_so_each_time(file: Path, text: str) -> None:
    """The same line whether it was kept or not."""
    file.write_text(text, encoding="utf-8")
    said = []
    for _ in range(2):
        with pytest.raises(BadData) as told:
            read_toml(file, dict[str, int])
        said.append(str(told.value))
    assert said[0] == said[1]
