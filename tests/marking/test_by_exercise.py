"""Hand-ins marked together, exercise by exercise: each comes to what it comes to alone."""

from collections.abc import Sequence
from pathlib import Path

import msgspec
import pytest

from bitepoint.logbook.record import Line
from bitepoint.marking import batch, by_exercise
from bitepoint.marking.batch import Batch, read_and_mark, read_and_mark_all
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.line_marking import MarkedLine, mark_line
from bitepoint.marking.reading.gather import HandIn
from bitepoint.marking.reading.handins import HandInSource, find_sources
from bitepoint.marking.rehearsal.rehearse import rehearse


@pytest.fixture(scope="module")
def sources(tmp_path_factory: pytest.TempPathFactory) -> list[HandInSource]:
    """The hand-ins of an invented class of 20, among them those of its planted cases."""
    folder = tmp_path_factory.mktemp("together") / "class"
    rehearse(folder, learners=20, seed=1, lessons=["carry", "safe"])
    return find_sources([folder / "hand-ins"])[0]


def said(found: Sequence[Sequence[Batch]]) -> list[list[object]]:
    """Return all that batches hold, with the lines of each learner as they go to another process."""
    return [
        [
            {**msgspec.structs.asdict(one), "lines": {key: lines.encoded for key, lines in one.lines.items()}}
            for one in batches
        ]
        for batches in found
    ]


@pytest.mark.parametrize("lines_together", [batch._LINES_TOGETHER, 40, 1])
def test_together_they_come_to_what_each_comes_to_alone(
    sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch, lines_together: int
) -> None:
    """However many lines are marked in one go: the trail, the lines, the flags' evidence and the figures are the same."""
    alone = said([read_and_mark(source) for source in sources])
    monkeypatch.setattr(batch, "_LINES_TOGETHER", lines_together)

    assert len(sources) > 15
    assert said(read_and_mark_all(sources)) == alone


def test_the_lines_of_one_exercise_are_marked_one_after_another(
    sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Those of all learners, so no exercise comes twice."""
    order: list[str] = []

    def told(line: Line, cars: ClassCars) -> MarkedLine:
        assert line.record
        if order[-1:] != [line.record.exercise]:
            order.append(line.record.exercise)
        return mark_line(line, cars)

    monkeypatch.setattr(by_exercise, "mark_line", told)
    read_and_mark_all(sources)

    assert len(order) > 20
    assert len(order) == len(set(order))


def test_no_more_lines_are_held_than_are_marked_together(
    sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder of many hand-ins, or a zip of a whole class, fits into memory: a hand-in more and no further."""
    most, held = 300, []
    monkeypatch.setattr(batch, "_LINES_TOGETHER", most)
    found = list(batch._together(sources))
    held = [[len(hand_in.lines) for _, hand_in in some] for some in found]

    assert len(held) > 2
    assert all(sum(lines[:-1]) < most for lines in held)
    assert [number for some in found for number, _ in some] == sorted(number for some in found for number, _ in some)


def test_cards_of_notebooks_count_too(sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch) -> None:
    """A notebook with few answers may be large."""
    large = HandIn(name="large.ipynb", sha256="", cards={"start.choice": b"." * (batch._CARDS_TOGETHER // 2)})
    monkeypatch.setattr(batch, "read_source", lambda source: iter([large]))

    assert [len(some) for some in batch._together(sources[:5])] == [2, 2, 1]


def test_a_line_that_cannot_be_marked_costs_no_other_line(
    sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its hand-in has a line about it, in the order in which it was written, and every other mark."""
    whole = {hand_in.name: hand_in for some in batch._together(sources[:3]) for _, hand_in in some}
    spoilt = whole[sources[1].name].lines[::7]

    def broken(line: Line, cars: ClassCars) -> MarkedLine:
        if line in spoilt:
            raise ZeroDivisionError
        return mark_line(line, cars)

    monkeypatch.setattr(by_exercise, "mark_line", broken)
    first, second, third = by_exercise.marked_by_exercise(list(whole.values()), ORDINARY)

    assert not first.problems
    assert not third.problems
    assert len(second.lines) == len(whole[sources[1].name].lines) - len(spoilt)
    told = [
        f"an answer to {line.record.exercise!r} cannot be marked (ZeroDivisionError)" for line in spoilt if line.record
    ]
    assert len(told) == len(second.problems) > 3
    assert all(what in problem for what, problem in zip(told, second.problems, strict=True))


def test_nothing_handed_in_is_nothing_marked(tmp_path: Path) -> None:
    """No source, and a source without a line."""
    (tmp_path / "empty.jsonl").write_text("", "ascii")

    assert read_and_mark_all([]) == []
    (found,) = read_and_mark_all(find_sources([tmp_path])[0])
    assert [dict(one.lines) for one in found] == [{}]
