"""docs/assessor.md: each command in it is one that the program takes; those about a college do what the page says."""

import re
import shlex
from pathlib import Path

import click
import pytest

from bitepoint.cli import cli, main
from bitepoint.marking.rehearsal.rehearse import rehearse

PAGE = (Path(__file__).parents[2] / "docs" / "assessor.md").read_text(encoding="utf-8")


def commands() -> list[str]:
    """The commands of the page, without what stands beside them and without the places that a reader fills."""
    found = re.findall(r"^    (bitepoint .+)$", PAGE, re.M)
    return list(dict.fromkeys(re.split(r"\s{2,}", line)[0].replace("…", "X") for line in found))


@pytest.mark.parametrize("line", commands())
def test_a_command_of_the_page_is_taken(line: str) -> None:
    """Command, options and what they want are known; nothing is run."""
    words = shlex.split(line)[1:]
    found: click.Command = cli
    while isinstance(found, click.Group):
        found = found.commands[words.pop(0)]
    found.make_parser(click.Context(found)).parse_args(words)


def test_the_commands_about_a_college_do_what_the_page_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Run as they stand, on three classes of which one has no roster: page and results lie where the page says."""
    monkeypatch.chdir(tmp_path)
    for name in ("autumn", "spring", "winter"):
        rehearse(Path("college", name), learners=2, seed=1, lessons=("start",), class_word=f"{name}-2026")
    Path("college", "winter", "roster.csv").unlink()
    lines = [line for line in commands() if "--classes" in line and "--cluster" not in line]
    assert len(lines) == 2
    for line in lines:
        assert main(shlex.split(line.replace("--workers 4", "--workers 1"))[1:]) == 1
    page = Path("marks-college", "college.html").read_text(encoding="utf-8")
    assert "has no roster.csv" in page
    assert "Copies across classes" in page
    assert {"autumn", "spring", "college.html", ".lock"} == {path.name for path in Path("marks-college").iterdir()}
