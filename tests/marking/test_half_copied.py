"""A hand-in that was still being copied while the class was marked."""

from pathlib import Path

import pytest
from test_bad_hand_ins import fields, logbook, read, zipped

from bitepoint.marking.reading.handins import find_sources

SAID = "half.zip: is no zip file, or is cut off or damaged. Ask for the hand-in again."


@pytest.mark.parametrize("left", [b"", b"\0"], ids=["shorter", "zeros to its full length"])
def test_a_half_copied_hand_in_costs_itself_and_a_line(tmp_path: Path, left: bytes) -> None:
    """At every sixteenth of its length: one sentence, and the hand-in beside it is read."""
    whole = zipped(workbook_toml=b'learner = "L01-X"', logbook__star_a_jsonl=logbook(fields(), fields(turn=2)))
    (tmp_path / "whole.zip").write_bytes(whole)
    for sixteenth in range(16):
        copied = whole[: len(whole) * sixteenth // 16]
        (tmp_path / "half.zip").write_bytes(copied + left * (len(whole) - len(copied)))
        half, beside = read(tmp_path)

        assert ((SAID,), 0) == (half.problems, len(half.lines))
        assert ((), 2) == (beside.problems, len(beside.lines))


def test_a_program_that_copies_leaves_names_that_are_told(tmp_path: Path) -> None:
    """A browser's and a share's own names for what is not whole yet are no hand-in, and none of them stops the class."""
    for name in ("a.zip.part", "b.zip.crdownload", "~$c.zip", ".~lock.d.zip#", "Thumbs.db", "desktop.ini"):
        (tmp_path / name).write_bytes(b"\0" * 100)
    (tmp_path / "whole.zip").write_bytes(zipped(logbook__star_a_jsonl=logbook()))

    assert {"whole.zip": 1, "~$c.zip": 0} == {hand_in.name: len(hand_in.lines) for hand_in in read(tmp_path)}
    said = "is no zip, notebook or logbook and was not read. Ask for the zip of “Make my hand-in”."
    assert [f"a.zip.part: {said}", f"b.zip.crdownload: {said}"] == find_sources([tmp_path])[1]
