"""A bundle's parts: every package, wheels that are what was installed, start files, and one line where it does not fit."""

import errno
import importlib.util
import os
import platform
import subprocess
import sys
import zipfile
from importlib.metadata import distribution
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.classroom.bundles.bundle import make_bundle, zipped
from bitepoint.classroom.bundles.parts import run_time_parts
from bitepoint.classroom.bundles.start_files import SYSTEMS, start_name, start_text
from bitepoint.classroom.bundles.wheels import packed
from bitepoint.cli import main
from bitepoint.errors import BadInput, CannotRun

HERE = f"{platform.system()} {platform.machine()}"
MINE = ".".join(map(str, sys.version_info[:3]))


def test_every_part_that_another_asks_for_is_there() -> None:
    """The course's own needs and theirs, down to the last, without the course and without what only tests need."""
    parts = {part.name: part for part in run_time_parts()}
    assert {"jupyterlab", "matplotlib", "numpy", "msgspec", "tornado", "pyzmq"} <= set(parts)
    assert not {"bitepoint", "pytest", "playwright", "scipy"} & set(parts)
    assert "bitepoint" in parts["numpy"].asked_by
    assert "matplotlib" in parts["numpy"].asked_by


def test_a_wheel_is_what_was_installed(tmp_path: Path) -> None:
    """Installed again elsewhere it gives the same files, but for what pip adds itself."""
    wheel = packed(distribution("click"), tmp_path)
    assert "click-" + distribution("click").version + "-py3-none-any.whl" == wheel.name
    line = [sys.executable, "-m", "pip", "install", "-q", "--isolated", "--no-index", "--no-deps", "--target"]
    subprocess.run([*line, str(tmp_path / "again"), str(wheel)], check=True)
    added = ("INSTALLER", "REQUESTED", "RECORD", "direct_url.json")
    for file in distribution("click").files or []:
        if "__pycache__" not in file.parts and file.name not in added and ".." not in file.parts:
            assert (tmp_path / "again" / file).read_bytes() == Path(str(file.locate())).read_bytes()


def test_two_wheels_of_one_package_are_the_same_bytes(tmp_path: Path) -> None:
    """The time of packing does not stand in them."""
    made = []
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        made.append(packed(distribution("filelock"), tmp_path / name).read_bytes())
    assert made[0] == made[1]


def test_a_file_changed_after_installing_is_named(tmp_path: Path) -> None:
    """What a bundle hands on is what the package's maker published; the line names package and file."""
    wheel = packed(distribution("click"), tmp_path)
    with zipfile.ZipFile(wheel) as pack:
        pack.extractall(tmp_path / "site")
    (tmp_path / "site" / "click" / "core.py").write_text("# changed", encoding="utf-8")
    (changed,) = (d for d in distribution("click").discover(path=[str(tmp_path / "site")]) if d.name == "click")
    with pytest.raises(CannotRun, match=r"click: click/core\.py is not as it was installed"):
        packed(changed, tmp_path)


def test_a_folder_that_is_there_is_never_made_over(tmp_path: Path) -> None:
    """One line with the status of wrong use, and nothing in it is changed."""
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    assert 2 == main(["bundle", str(tmp_path)])
    assert ["mine.txt"] == [path.name for path in tmp_path.iterdir()]


def test_a_class_without_start_files_is_told(tmp_path: Path) -> None:
    """Before anything is packed: which file is missing."""
    class_folder = tmp_path / "autumn"
    main(["class", "new", str(class_folder), "--title", "Autumn", "--class-word", "oak-2026", "--learners", "1"])
    next((class_folder / "start").iterdir()).unlink()
    with pytest.raises(BadInput, match=r"has no start/L01-.\.toml"):
        make_bundle(tmp_path / "stick", class_folder=class_folder)
    assert not (tmp_path / "stick").exists()


@pytest.mark.parametrize(
    ("made_for", "said"),
    [
        (f"3.99.2 {HERE}", "Install Python 3.99 (3.99.2 or later) and start again"),
        (f"{MINE} Plan9 {platform.machine()}", "Ask for a bundle made on a computer like this one."),
        (f"{MINE} {platform.system()} z80", "Ask for a bundle made on a computer like this one."),
    ],
)
def test_another_computer_is_told_in_one_line(tmp_path: Path, made_for: str, said: str) -> None:
    """By the start file, before anything is written: what the bundle is for, what this is, what to do; the machine's status."""
    (tmp_path / "lib").mkdir()
    (tmp_path / "lib" / "set_up.py").write_bytes(places.set_up().read_bytes())
    (tmp_path / "wheels").mkdir()
    (tmp_path / "wheels" / "made-for.txt").write_text(made_for, encoding="ascii")
    start = tmp_path / start_name("Linux")
    start.write_text(start_text("Linux", made_for.split()[0]), encoding="utf-8")
    world = {"HOME": str(tmp_path), "PATH": f"{Path(sys.executable).parent}:/usr/bin:/bin"}
    line = ["sh", str(start)]
    run = subprocess.run(line, env=world, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False)
    assert (3, 1) == (run.returncode, run.stderr.count("\n"))
    assert run.stderr.startswith("set_up: this bundle is for Python ")
    assert said in run.stderr
    assert {start.name, "lib", "wheels"} == {path.name for path in tmp_path.iterdir()}


def test_no_python_at_all_is_told_in_one_line(tmp_path: Path) -> None:
    """Which Python is needed and where to read on."""
    start = tmp_path / "start.sh"
    start.write_text(start_text("Linux", "3.11.5"), encoding="utf-8")
    (tmp_path / "dirname").symlink_to("/usr/bin/dirname")
    run = subprocess.run(
        ["/bin/sh", str(start)], env={"PATH": str(tmp_path)}, capture_output=True, text=True, check=False, input=""
    )
    assert (3, 1) == (run.returncode, run.stderr.count("\n"))
    assert "This bundle needs Python 3.11: see README.html" in run.stderr


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_start_file_calls_the_one_script(system: str) -> None:
    """Every system has its file; Windows' own line ends, and what was never run says so."""
    text = start_text(system, "3.11.5", learner="L01-X", sitting="may")
    assert "set_up.py" in text
    assert "L01-X.toml" in text
    assert "sitting-may" in text
    assert ("Not run by us" in text) == (system != "Linux")
    assert (text.count("\r\n") == text.count("\n")) == (system == "Windows")


def test_a_bundle_is_installed_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second time nothing is installed, though the stick is another letter or folder; other wheels are installed again."""
    script = tmp_path / "lib" / "set_up.py"
    script.parent.mkdir()
    script.write_bytes(places.set_up().read_bytes())
    (tmp_path / "wheels").mkdir()
    (tmp_path / "wheels" / "made-for.txt").write_text(f"{MINE} {HERE}", encoding="ascii")
    spec = importlib.util.spec_from_file_location("set_up_of_bundle", script)
    assert spec is not None
    assert spec.loader is not None
    set_up = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(set_up)
    monkeypatch.setattr(set_up, "STAMP", str(tmp_path / "set-up.txt"))
    monkeypatch.setattr(set_up, "same_python", lambda: True)
    now = set_up.state()
    assert not set_up.current("open", now)
    (tmp_path / "set-up.txt").write_text(f"bitepoint {now}", encoding="ascii")
    monkeypatch.setattr(set_up, "ROOT", str(tmp_path / "wheels" / ".."))
    assert set_up.current("open", set_up.state())
    (tmp_path / "wheels" / "other.whl").write_bytes(b"another")
    assert not set_up.current("open", set_up.state())


@pytest.mark.parametrize("at", [0, 5e9])
def test_a_clock_that_is_wrong_by_years_stops_no_zip(tmp_path: Path, at: float) -> None:
    """Files of a day that a zip cannot hold are packed with one that it can."""
    (tmp_path / "stick").mkdir()
    (tmp_path / "stick" / "README.html").write_text("page", encoding="utf-8")
    os.utime(tmp_path / "stick" / "README.html", (at, at))
    with zipfile.ZipFile(zipped(tmp_path / "stick")) as pack:
        assert ["stick/README.html"] == pack.namelist()


def test_a_full_disk_leaves_no_half_zip(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The folder stays, and the same name can be used once there is room."""
    (tmp_path / "stick").mkdir()
    (tmp_path / "stick" / "README.html").write_text("page", encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(zipfile.ZipFile, "write", full)
    with pytest.raises(OSError, match="No space left"):
        zipped(tmp_path / "stick")
    assert ["stick"] == [path.name for path in tmp_path.iterdir()]
