"""Hand-ins marked together, exercise by exercise: each comes to what it comes to alone."""

import json
import subprocess
import sys
import zipfile
from collections.abc import Sequence
from pathlib import Path

import msgspec
import pytest
from hostile_files import own_line
from test_bad_hand_ins import zipped

from bitepoint.logbook.record import Line
from bitepoint.marking import batch, by_exercise
from bitepoint.marking.batch import Batch, read_and_mark, read_and_mark_all
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.line_marking import MarkedLine, mark_line
from bitepoint.marking.reading.gather import HandIn
from bitepoint.marking.reading.handins import HandInSource, find_sources
from bitepoint.marking.rehearsal.rehearse import rehearse

PEAK = """
import resource, sys
from pathlib import Path
from bitepoint.marking.run import mark_hand_ins
mark_hand_ins([Path(sys.argv[1])], out=Path(sys.argv[2]))
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)
"""


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
    assert said(list(read_and_mark_all(sources))) == alone


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
    list(read_and_mark_all(sources))

    assert len(order) > 20
    assert len(order) == len(set(order))


def held(sources: list[HandInSource]) -> list[list[HandIn]]:
    """Return the hand-ins that are marked together."""
    return [[hand_in for _, hand_in in some] for some, _ in batch._together(sources)]


def test_no_more_lines_are_held_than_are_marked_together(
    sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A hand-in more and no further; none is left out, and each is given away as soon as its lines are marked."""
    monkeypatch.setattr(batch, "_LINES_TOGETHER", 300)
    found = held(sources)

    assert len(found) > 2
    assert all(sum(len(hand_in.lines) for hand_in in some[:-1]) < 300 for some in found)
    assert [hand_in.name for some in found for hand_in in some] == [source.name for source in sources]
    assert [number for _, ready in batch._together(sources) for number in ready] == list(range(len(sources)))


def test_bytes_count_too(sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch) -> None:
    """A hand-in with few answers may be large."""
    large = HandIn(name="large.ipynb", sha256="", size=batch._BYTES_TOGETHER // 2)
    monkeypatch.setattr(batch, "read_source", lambda source: iter([large]))

    assert [len(some) for some in held(sources[:5])] == [2, 2, 1]


def test_what_was_read_of_a_hand_in_is_its_size(tmp_path: Path) -> None:
    """After unpacking, whatever it came in."""
    text = "".join(f"{own_line(n)}\n" for n in range(1, 4))
    (tmp_path / "a.jsonl").write_text(text, "ascii")
    with zipfile.ZipFile(tmp_path / "b.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("logbook/carry.0a1b2c3d.jsonl", text)

    assert [[hand_in.size for hand_in in some] for some in held(find_sources([tmp_path])[0])] == [[len(text)] * 2]


@pytest.mark.parametrize("lines_together", [batch._LINES_TOGETHER, 2, 1])
def test_the_hand_ins_of_a_zip_come_in_its_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, lines_together: int
) -> None:
    """With what was wrong in each, what could not be read before what could not be marked, and a source beside it."""
    monkeypatch.setattr(batch, "_LINES_TOGETHER", lines_together)
    with zipfile.ZipFile(tmp_path / "class.zip", "w") as archive:
        for name in ("c", "a", "b"):
            text = "".join(f"{own_line(n, device=name * 8)}\n" for n in (1, 2, 3))
            archive.writestr(f"{name}.zip", zipped(**{f"{name}_jsonl": text.encode("ascii") + b"torn"}))
    (tmp_path / "z.jsonl").write_text(f"{own_line(9)}\n", "ascii")

    def broken(line: Line, cars: ClassCars) -> MarkedLine:
        if line.record and line.record.turn == 2:
            raise ZeroDivisionError
        return mark_line(line, cars)

    monkeypatch.setattr(by_exercise, "mark_line", broken)
    packed, beside = read_and_mark_all(find_sources([tmp_path])[0])
    names = [one.note.name for one in packed]

    assert names == ["class.zip/c.zip", "class.zip/a.zip", "class.zip/b.zip"]
    assert [json.loads(one.audit.splitlines()[0])["hand_in"] for one in packed] == names
    assert [json.loads(one.audit.splitlines()[1])["line"] for one in packed] == [
        json.loads(own_line(1, device=name * 8))["hash"] for name in "cab"
    ]
    told = [(problem[:15], "torn" in problem) for problem in packed[0].problems]
    assert told == [(name, torn) for name in names for torn in (True, False)]
    assert beside[0].note.name == "z.jsonl"


def test_many_full_hand_ins_fit_into_memory(tmp_path: Path) -> None:
    """A folder of 24 with 3,000 lines each takes little more than one of three: they are given away group by group."""
    text = "".join(f"{own_line(n)}\n" for n in range(1, 3_001))
    peaks = []
    for count in (3, 24):
        folder = tmp_path / str(count)
        folder.mkdir()
        for number in range(count):
            (folder / f"{number}.jsonl").write_text(text.replace("L50-A", f"L{number + 10}-A"), "ascii")
        command = [sys.executable, "-c", PEAK, str(folder), str(tmp_path / f"marks-{count}")]
        peaks.append(int(subprocess.run(command, check=True, capture_output=True, text=True).stdout))

    assert peaks[1] < peaks[0] + 40


def test_a_line_that_cannot_be_marked_costs_no_other_line(
    sources: list[HandInSource], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its hand-in has a line about it, in the order in which it was written, and every other mark."""
    whole = {hand_in.name: hand_in for some in held(sources[:3]) for hand_in in some}
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


def test_a_hand_in_that_cannot_be_put_together_keeps_what_was_said_of_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It has no mark, and what was wrong with it before is told too."""
    (tmp_path / "a.jsonl").write_text(f"{own_line(1)}\ntorn", "ascii")
    kept, failed = batch.audit_lines, []

    def broken(hand_in: HandIn, marked: Sequence[MarkedLine]) -> bytes:
        if not failed:
            failed.append(hand_in.name)
            raise ZeroDivisionError
        return kept(hand_in, marked)

    monkeypatch.setattr(batch, "audit_lines", broken)
    ((found,),) = read_and_mark_all(find_sources([tmp_path])[0])

    assert ["torn" in problem for problem in found.problems] == [True, False]
    assert "cannot be marked (ZeroDivisionError)" in found.problems[1]
    assert not found.lines


def test_nothing_handed_in_is_nothing_marked(tmp_path: Path) -> None:
    """No source, and a source without a line."""
    (tmp_path / "empty.jsonl").write_text("", "ascii")

    assert list(read_and_mark_all([])) == []
    (found,) = read_and_mark_all(find_sources([tmp_path])[0])
    assert [dict(one.lines) for one in found] == [{}]
