"""docs/dependencies.md lists what runs, and the lock holds a version of each."""

import re
import tomllib
from pathlib import Path

from bitepoint.classroom.bundles.parts import RunTimePart, plain, run_time_parts
from bitepoint.workbook.dependencies import gone_without, licence, locked_versions

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "dependencies.md").read_text(encoding="utf-8")


def test_the_page_lists_what_runs_in_the_versions_of_the_lock() -> None:
    """Run `python -m bitepoint.workbook.documents`; sizes and licences are as installed where it was made."""
    locked = locked_versions(ROOT)
    parts = run_time_parts()
    missing = [part.name for part in parts if f"\n| {part.name} | {locked.get(part.name, 'not locked')} | " not in PAGE]
    assert missing == []
    assert f"\n{len(parts)} packages." in PAGE


def test_what_the_course_asks_for_is_what_pyproject_says() -> None:
    """Also where the course was installed before a need was added: the page made there is the page made afresh."""
    wanted = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    names = {plain(re.split(r"[>=<;\s]", line)[0]) for line in wanted if "sys_platform == 'win32'" not in line}
    assert names <= {part.name for part in run_time_parts() if "bitepoint" in part.asked_by}


def test_the_lock_has_every_package_that_runs() -> None:
    """What is tested is what the lock says, so nothing may come in beside it."""
    assert [part.name for part in run_time_parts() if part.name not in locked_versions(ROOT)] == []


def test_every_package_states_a_licence() -> None:
    """One without could not be handed on in a bundle."""
    assert [part.name for part in run_time_parts() if licence(part) == "not stated"] == []


def test_what_goes_with_a_package_is_what_nobody_else_asks_for() -> None:
    """A need of a need goes too; what another asks for stays; a circle of needs goes whole."""
    parts = [
        RunTimePart("a", {"bitepoint": ""}),
        RunTimePart("b", {"a": ""}),
        RunTimePart("c", {"b": ""}),
        RunTimePart("d", {"b": "", "e": ""}),
        RunTimePart("e", {"bitepoint": ""}),
        RunTimePart("f", {"a": "", "g": ""}),
        RunTimePart("g", {"f": ""}),
    ]
    assert {"a", "b", "c", "f", "g"} == gone_without("a", parts)
    assert set() == gone_without("c", parts)
