"""What is kept beside a file of the package: found again under its key, and never in the way."""

import os
import sys
from pathlib import Path

import pytest

from bitepoint import beside


@pytest.fixture
def source(package: Path) -> Path:
    """Return a file in a package whose compiled modules may be written."""
    path = package / "page.html.jinja"
    path.write_text("{{ a }}", encoding="utf-8")
    return path


def kept(source: Path) -> list[Path]:
    """Return every file beside the source."""
    return [
        path
        for path in source.parent.rglob("*")
        if path.is_file() and path not in (source, source.with_name("__init__.py"))
    ]


def test_what_is_kept_is_found_under_its_key_alone(source: Path) -> None:
    """Another key, kind or file finds nothing; what is kept anew takes the place of the old."""
    beside.keep(str(source), "one", "key", b"content")

    assert b"content" == beside.found(str(source), "one", "key")
    assert beside.found(str(source), "one", "other") is None
    assert beside.found(str(source), "two", "key") is None
    assert beside.found(str(source.with_name("other.html.jinja")), "one", "key") is None
    beside.keep(str(source), "one", "other", b"new")
    assert (None, b"new") == (beside.found(str(source), "one", "key"), beside.found(str(source), "one", "other"))
    assert 1 == len(kept(source))


def test_it_lies_where_python_keeps_its_own(source: Path) -> None:
    """In __pycache__, with an ending that nothing copies or packs, and as readable as the file that it is of."""
    source.chmod(0o644)
    beside.keep(str(source), "one", "key", b"content")

    (path,) = kept(source)
    assert ("__pycache__", ".pyc") == (path.parent.name, path.suffix)
    assert path.stat().st_mode & 0o022 == 0


def test_what_a_killed_process_left_is_in_nobodys_way(source: Path) -> None:
    """In a container two processes may have one number; a read-only source is kept writable, so that it can be replaced."""
    (source.parent / "__pycache__").mkdir()
    place = beside._place(str(source), "one")
    Path(f"{place}.{os.getpid()}").write_bytes(b"half")
    source.chmod(0o444)
    beside.keep(str(source), "one", "key", b"content")
    assert b"content" == beside.found(str(source), "one", "key")
    assert place.stat().st_mode & 0o200


def test_it_is_kept_where_python_was_told_to_keep_its_own(
    source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """PYTHONPYCACHEPREFIX holds for this too, also before Python made the folder."""
    monkeypatch.setattr(sys, "pycache_prefix", str(tmp_path / "elsewhere"))
    beside.keep(str(source), "one", "key", b"content")
    assert b"content" == beside.found(str(source), "one", "key")
    assert not (source.parent / "__pycache__").exists()


@pytest.mark.parametrize("damage", [b"", b"x", b"x" * 32, b"x" * 90])
def test_what_is_damaged_is_not_found(source: Path, damage: bytes) -> None:
    """Cut short, empty or changed: as if nothing were there."""
    beside.keep(str(source), "one", "key", b"content")
    (path,) = kept(source)
    path.write_bytes(damage)
    assert beside.found(str(source), "one", "key") is None
    path.write_bytes(beside._seal("key", b"content") + b"contenT")
    assert beside.found(str(source), "one", "key") is None


def test_python_that_writes_nothing_keeps_nothing(source: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """PYTHONDONTWRITEBYTECODE holds for this too."""
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    beside.keep(str(source), "one", "key", b"content")
    assert [] == kept(source)


def test_a_folder_that_cannot_be_written_is_no_error(source: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nor is a full disk, a name that is no file, or a Python that compiles nowhere; nothing is left behind."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    (source.parent / "__pycache__").write_text("a file")
    beside.keep(str(source), "one", "key", b"content")
    (source.parent / "__pycache__").unlink()
    for name in ("", "<template>", "page.html.jinja", str(source.with_name("gone.jinja"))):
        beside.keep(name, "one", "key", b"content")
        assert beside.found(name, "one", "key") is None
    monkeypatch.setattr(os, "replace", full)
    beside.keep(str(source), "one", "key", b"content")
    monkeypatch.setattr(sys.implementation, "cache_tag", None)
    beside.keep(str(source), "one", "key", b"content")
    assert beside.found(str(source), "one", "key") is None
    assert [] == kept(source)
