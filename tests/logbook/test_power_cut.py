"""A power cut: the last block of a file never reached the disk, and is cut off there or comes back as zeros."""

from pathlib import Path

import pytest
from test_book import FIELDS, logbook

from bitepoint.logbook.book import Logbook
from bitepoint.logbook.record import chain_problems

BLOCK = 4096


def long_logbook(folder: Path) -> Logbook:
    """Return a logbook of three blocks."""
    mine = logbook(folder)
    while not mine.path.is_file() or mine.path.stat().st_size < 2.5 * BLOCK:
        mine.append(FIELDS)
    return mine


@pytest.mark.parametrize("left", [b"", b"\0" * BLOCK], ids=["cut", "zeros"])
def test_a_block_that_comes_back_as_zeros_costs_the_lines_in_it(tmp_path: Path, left: bytes) -> None:
    """Wherever the block begins: each whole line before it is there, the next answer follows it, and the chain holds."""
    mine = long_logbook(tmp_path)
    whole = mine.path.read_bytes()
    begins = [at + 1 for at, sign in enumerate(whole) if sign == ord("\n")]
    for at in (0, 1, begins[0] - 1, begins[0], begins[0] + 1, BLOCK, 2 * BLOCK, begins[-2], len(whole) - 1):
        mine.path.write_bytes(whole[:at] + left)
        before = [line for line, end in zip(whole.splitlines(), begins, strict=True) if end <= at]
        mine.append(FIELDS)

        assert before == mine.path.read_bytes().splitlines()[:-1]
        assert chain_problems(mine.lines()) == []
        assert len(before) + 1 == len(mine.lines())


def test_zeros_between_two_lines_are_told_and_break_nothing(tmp_path: Path) -> None:
    """A block in the middle that came back as zeros, with its line ends gone: the lines beside it are read."""
    mine = long_logbook(tmp_path)
    whole = mine.path.read_bytes()
    mine.path.write_bytes(whole[:1000] + b"\0" * BLOCK + whole[1000 + BLOCK :])
    mine.append(FIELDS)
    problems = chain_problems(mine.lines())

    assert any("cannot be read" in problem for problem in problems)
    assert mine.lines()[-1].problem == ""
    assert mine.lines()[0].problem == ""
