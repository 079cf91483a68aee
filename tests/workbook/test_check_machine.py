"""Plain sentences, an honest exit status, and one line to copy without a name or a path."""

import getpass
from pathlib import Path

import pytest

from bitepoint.workbook import check_machine as machine
from bitepoint.workbook.check_machine import MachineCheck, check_machine

CHECKS = ("python", "versions", "lessons", "writable", "kernel", "port", "browser")


def findings(monkeypatch: pytest.MonkeyPatch, **levels: machine.Level) -> None:
    """Let every check find all well, save for the ones named."""
    for name in CHECKS:
        found = MachineCheck(levels.get(name, "well"), f"About {name}.", f"{name}-word")
        monkeypatch.setattr(machine, name, lambda *_, found=found: found)


@pytest.mark.parametrize(
    ("levels", "expected"),
    [
        ({}, 0),
        ({"browser": "look"}, 1),
        ({"browser": "look", "kernel": "stop"}, 3),
        ({"kernel": "stop", "browser": "look", "port": "well"}, 3),
    ],
)
def test_the_worst_finding_decides(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, levels: dict[str, machine.Level], expected: int
) -> None:
    """All well is 0, something to look at 1, something in the way 3; each check is a line."""
    findings(monkeypatch, **levels)
    said: list[str] = []
    assert expected == check_machine(tmp_path, say=said.append)
    assert [f"About {name}." for name in CHECKS] == [line[6:] for line in said[: len(CHECKS)]]
    assert said[-1].endswith(" | ".join(f"{name}-word" for name in CHECKS))


def test_the_line_to_copy_has_no_user_name_and_no_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Also when a folder cannot be written and a kernel does not start."""
    broken = tmp_path / getpass.getuser()
    monkeypatch.setattr(machine, "kernel", lambda: MachineCheck("well", "", "kernel ok"))
    monkeypatch.setattr(machine.tempfile, "TemporaryFile", no_room)
    said: list[str] = []
    assert check_machine(broken, say=said.append) == 3
    assert "not writable" in said[-1]
    assert not {"/", "\\"} & set(said[-1])
    assert str(tmp_path) in "".join(said[:-1])


def no_room(**_: object) -> None:
    """A disk without room."""
    raise OSError(28, "No space left on device")


def test_a_package_that_does_not_fit_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """Missing and too old are told apart; what another extra or system needs is not asked for."""
    asked = ["here>=2", "gone", "old>=3", "never; extra == 'test'", "other; python_version < '3'"]
    monkeypatch.setattr(machine.metadata, "requires", lambda _: asked)
    monkeypatch.setattr(machine, "_version", lambda name: {"here": "2.1", "old": "1.0"}.get(name))
    assert machine.unmet("bitepoint") == ["gone is missing", "old is 1.0, but bitepoint needs >=3"]


def test_this_installation_has_what_it_needs() -> None:
    """The packages the tests run on fit each other, page parts included."""
    assert machine.versions().level == "well"


def test_a_folder_to_come_is_checked_where_it_will_be(tmp_path: Path) -> None:
    """A folder that is not there yet is made in the nearest one that is."""
    assert tmp_path == machine.nearest(tmp_path / "a" / "b")
    assert machine.writable(tmp_path / "a" / "b").level == "well"
    assert list(tmp_path.iterdir()) == []
