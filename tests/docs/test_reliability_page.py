"""docs/reliability.md: every promise has its test, and every figure stands below the command that makes it."""

import re
import shlex
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "reliability.md").read_text(encoding="utf-8")
PROMISED, _, MEASURED = PAGE.partition("## Measured\n")
NAMED = re.findall(r"`([\w/]+\.py)::(\w+)`", PAGE)
ROWS = [line for line in PROMISED.splitlines() if line.startswith("| ") and not line.startswith(("| fault", "| ---"))]


@pytest.mark.parametrize(("file", "test"), NAMED)
def test_each_test_that_is_named_is_there(file: str, test: str) -> None:
    """A promise whose test was renamed or taken out is a promise without a test."""
    assert re.search(rf"^def {test}\(", (ROOT / "tests" / file).read_text(encoding="utf-8"), re.M)


def test_each_promise_names_its_test() -> None:
    """Every row of the tables says fault, what happens, what is kept, what is seen, and the test that holds it."""
    assert len(ROWS) > 30
    for row in ROWS:
        cells = [cell.strip() for cell in row.strip("|").split(" | ")]
        assert 5 == len(cells), row
        assert re.fullmatch(r"`[\w/]+\.py::\w+` *", cells[-1].rstrip("|")), row


def test_no_figure_stands_where_no_command_makes_it() -> None:
    """What is promised is said without figures; those that were measured stand below, with the command before them."""
    prose = re.sub(r"`[^`]*`", "", PROMISED)
    assert [] == [line for line in prose.splitlines() if re.search(r"\d", re.sub(r"^\d\. ", "", line))]


def test_the_command_beside_the_figures_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    """It names the program and options that it takes, and stands before the first figure of a result."""
    before, _, after = MEASURED.partition("### ")
    (command,) = re.findall(r"`PYTHONPATH=lib (python [^`]+)`", before)
    _, program, *options = shlex.split(command)
    assert after
    assert (ROOT / program).is_file()
    monkeypatch.syspath_prepend(str((ROOT / program).parent))
    import reliability

    given = reliability.arguments().parse_args(options)
    assert given.rounds >= 25
    assert given.seconds >= 10
    sys.modules.pop("reliability")


def test_every_parser_stands_in_the_table(monkeypatch: pytest.MonkeyPatch) -> None:
    """The measured part is of the tool as it is: one that was added was fuzzed too."""
    monkeypatch.syspath_prepend(str(ROOT / "tests" / "bench"))
    from fuzz import ATTACKS

    rows = re.findall(
        r"^\| ([\w. ]+) \| [\d,]+ \| (\d+) \|", MEASURED.partition("### Files damaged at random")[2], re.M
    )
    assert [(parser, "0") for parser in ATTACKS] == rows
