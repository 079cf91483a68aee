"""docs/instructor.md: the commands about recall are those of the program and do what the page says."""

import re
import shlex
from pathlib import Path

import click
import pytest

from bitepoint.cli import cli, main

PAGE = (Path(__file__).parents[2] / "docs" / "instructor.md").read_text(encoding="utf-8")


def commands() -> list[str]:
    """The indented commands of the page, without what stands beside them."""
    found = re.findall(r"^    (bitepoint .+)$", PAGE, re.M)
    return list(dict.fromkeys(re.split(r"\s{2,}", line)[0] for line in found))


@pytest.mark.parametrize("line", commands())
def test_a_command_of_the_page_is_taken(line: str) -> None:
    """Command, options and what they want are known; nothing is run."""
    words = shlex.split(line.replace("\\", "/").replace("…", "X"))[1:]
    found: click.Command = cli
    while isinstance(found, click.Group):
        found = found.commands[words.pop(0)]
    found.make_parser(click.Context(found)).parse_args(words)


def test_the_weeks_of_recall_give_a_report_and_a_warm_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The three lines as they stand, with a smaller class: truth, report and the three pages lie where the page says."""
    monkeypatch.chdir(tmp_path)
    lines = [line for line in commands() if "rehearsal-weeks" in line]
    assert len(lines) == 3
    for line in lines:
        smaller = line.replace("--learners 24 --weeks 20", "--learners 3 --weeks 6")
        assert main(shlex.split(smaller)[1:]) in (0, 1)
    assert Path("rehearsal-weeks", "truth-recall.csv").is_file()
    assert "What the class is forgetting" in Path("rehearsal-weeks", "results", "report.html").read_text("utf-8")
    assert {"warm-up-screens.html", "warm-up-sheet.html", "warm-up-answers.html"} == {
        path.name for path in Path("warm-up").iterdir()
    }
