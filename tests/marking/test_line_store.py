"""Marked lines kept by learner: in memory, in a file and from another process they are the same lines."""

import pickle
from io import BytesIO

import msgspec
import pytest
from test_flags import marked

from bitepoint.marking import line_store
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.line_store import LineStore, MarkedLines

ANSWERS = ["1", "12,5 N·m", "no figure", "1e400 mm", "⚠ \U0001f600"]


def lines() -> list[MarkedLine]:
    """Return a line for each of some odd answers, each with its own hash."""
    return [marked("start.number", answer, turn=turn) for turn, answer in enumerate(ANSWERS, start=1)]


def without_text(found: list[MarkedLine]) -> list[bytes]:
    """Return lines as they are stored: what is open or shown nowhere is left out."""
    return [msgspec.json.encode(line) for line in found]


@pytest.mark.parametrize("held", [0, 3, 100])
def test_lines_are_the_same_from_memory_and_from_a_file(monkeypatch: pytest.MonkeyPatch, held: int) -> None:
    """A class that fits is held as it was made; what is beyond is written, and both come back in their order."""
    monkeypatch.setattr(line_store, "_MOST_HELD", held)
    made, file = lines(), BytesIO()
    store = LineStore(file)
    for line in made:
        store.put("l01", MarkedLines([line]))
    assert without_text(made) == without_text(store.get("l01"))
    assert [MarkedLines([line]).encoded for line in made] == store.encoded("l01")
    assert [line.record.hash in file.getvalue().decode() for line in made] == [n >= held for n in range(len(made))]
    assert store.get("nobody") == store.encoded("nobody") == []


def test_lines_go_to_another_process_encoded() -> None:
    """There they are decoded when they are asked for; their hashes are the same."""
    here = MarkedLines(lines())
    there = pickle.loads(pickle.dumps(here))
    assert there.made is None
    assert without_text(list(here.lines())) == without_text(list(there.lines()))
    assert (here.encoded, here.hashes()) == (there.encoded, there.hashes())


def test_of_two_copies_of_a_line_the_unchanged_one_stands() -> None:
    """Whether one is held and the other came from elsewhere or not."""
    (line,) = lines()[:1]
    changed = msgspec.structs.replace(line, changed=True)
    for first, second in ((changed, line), (line, changed)):
        store = LineStore(BytesIO())
        store.put("l01", MarkedLines([first]))
        store.put("l01", MarkedLines(encoded=MarkedLines([second]).encoded))
        assert [False] == [found.changed for found in store.get("l01")]
