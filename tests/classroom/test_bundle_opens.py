"""A bundle that is made, installed and opened where no network leads anywhere.

It starts JupyterLab, but in a network and a home folder of its own: nothing else on the machine is in its way.
"""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from bitepoint.cli import main

HELPER = Path(__file__).with_name("without_routes.py")


@pytest.fixture(scope="session")
def own_network() -> list[str]:
    """The command that runs another in a network of its own, as root or as anybody where the system lets them."""
    for line in (["unshare", "-n"], ["unshare", "-rn"]):
        if shutil.which("unshare") and not subprocess.run([*line, "true"], capture_output=True, check=False).returncode:
            return line
    if os.environ.get("CI") == "true":
        pytest.fail("no network of its own can be made here (unshare -n), so the bundle is not tried without one")
    pytest.skip("no network of its own can be made here (unshare -n): the bundle is NOT tried without one")


@pytest.fixture(scope="session")
def bundle(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A bundle for a class of two, made once by the command; its folder has a space and a letter beyond ASCII."""
    base = tmp_path_factory.mktemp("stick")
    class_folder, out = base / "autumn", base / "Kurs ö 1"
    assert 0 == main(
        ["class", "new", str(class_folder), "--title", "Autumn", "--class-word", "oak-2026", "--learners", "2"]
    )
    assert 0 == main(["bundle", str(out), "--class", str(class_folder)])
    return out


@pytest.mark.slow
def test_it_installs_and_opens_without_a_network(own_network: list[str], bundle: Path, tmp_path: Path) -> None:
    """A learner's own start file sets the course up and Lab serves page and lesson to that learner; the bundle is only read."""
    (start,) = (bundle / "learners").glob("*L01*.sh")
    pythons, home = tmp_path / "pythons", tmp_path / "home"
    pythons.mkdir()
    home.mkdir()
    python = pythons / f"python3.{sys.version_info[1]}"
    python.write_text(f'#!/bin/sh\nexec "{sys.executable}" "$@"\n', encoding="utf-8")
    python.chmod(0o755)
    before = sorted(bundle.rglob("*"))
    line = [*own_network, sys.executable, str(HELPER), str(start), str(home), str(pythons)]
    run = subprocess.run(line, capture_output=True, text=True, encoding="utf-8", check=False)
    assert (0, "") == (run.returncode, run.stderr)
    seen = json.loads(run.stdout)
    assert "Network is unreachable" == seen["outside"]
    assert "without the net" in seen["said"]
    assert f"the course of {start.stem.split()[-1]}" in seen["said"], seen["said"]
    assert "jupyter-config-data" in seen["page"]
    assert seen["cells"] > 10
    assert (home / "clutch-course-program" / "set-up.txt").is_file()
    assert before == sorted(bundle.rglob("*"))
    size = sum(file.stat().st_size for file in (bundle / "wheels").iterdir()) / 1e6
    print(f"bundle {size:.0f} MB; set up and opened in {seen['seconds']:.0f} s")
