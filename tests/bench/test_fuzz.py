"""Each parser on damaged files, the same ones each time: a result or one clear line, within time and memory."""

from collections.abc import Callable
from pathlib import Path
from random import Random

import attacks_on_folders
import attacks_on_marking
import fuzz
import pytest
from attacks import clean, one_line
from fuzz import ATTACKS, fuzzed
from mutations import mutated

from bitepoint.errors import BadInput, BitepointError


@pytest.mark.parametrize("parser", ATTACKS)
def test_a_damaged_file_is_a_result_or_one_clear_line(parser: str) -> None:
    """No traceback, no line break or control character of the file, no error that the guard had to catch, no slow case."""
    assert [] == fuzzed(parser, range(ATTACKS[parser][1])).findings


@pytest.mark.parametrize("parser", ATTACKS)
def test_what_is_damaged_is_read_when_it_is_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, parser: str) -> None:
    """Every file that the attacks begin with is a good one: damage to what is refused anyway would show nothing."""
    refused: list[str] = []

    def whole(content: bytes, random: Random) -> bytes:
        return content

    def told(read: Callable[[], object]) -> None:
        try:
            read()
        except BitepointError as error:
            refused.append(str(error))

    for module in (attacks_on_marking, attacks_on_folders):
        monkeypatch.setattr(module, "mutated", whole)
        monkeypatch.setattr(module, "one_line", told)
    ATTACKS[parser][0](tmp_path, Random(parser))
    assert [] == refused


def _refuses(folder: Path, random: Random) -> None:
    one_line(lambda: _raise(BadInput("says what is wrong")))


def _raise(error: Exception) -> None:
    raise error


def _fails(folder: Path, random: Random) -> None:
    if mutated(b"learner = 1", random).count(b"\0"):
        _raise(IndexError("nobody foresaw it"))


def _breaks_a_line(folder: Path, random: Random) -> None:
    clean("one\ntwo")


def _guarded(folder: Path, random: Random) -> None:
    clean("cannot be read (KeyError), and this program does not know why.")


@pytest.mark.parametrize(
    ("attack", "found"),
    [
        (_refuses, ""),
        (_fails, "nobody foresaw it"),
        (_breaks_a_line, "AssertionError"),
        (_guarded, "this program does not know why"),
    ],
)
def test_what_is_no_result_and_no_clear_line_is_found(
    monkeypatch: pytest.MonkeyPatch, attack: Callable[[Path, Random], None], found: str
) -> None:
    """A fault that is planted is found, twice alike, and named with the number of its case."""
    monkeypatch.setitem(ATTACKS, "planted", (attack, 1))
    findings = [fuzzed("planted", range(300)).findings for _ in range(2)]
    assert findings[0] == findings[1]
    assert bool(found) == bool(findings[0])
    assert all(found in what for _, what in findings[0])


def test_a_slow_case_and_one_that_grows_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever takes longer or needs more than an honest file does."""
    monkeypatch.setattr(fuzz, "SLOWEST_S", -1.0)
    monkeypatch.setitem(ATTACKS, "planted", (_refuses, 1))
    assert [(0, "took 0.0 s")] == fuzzed("planted", range(1)).findings
    monkeypatch.setattr(fuzz, "SLOWEST_S", 2.0)
    memory = iter((100.0, 310.0))
    monkeypatch.setattr(fuzz, "_memory_mb", lambda: next(memory))
    assert [(0, "grew to 310 MB")] == fuzzed("planted", range(1)).findings
