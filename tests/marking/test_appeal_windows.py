"""Appeals about what an entry of the register reaches: hand-ins that were held, a learner's own time, which sitting counts."""

from hashlib import sha256
from pathlib import Path

import pytest
from appeal_room import HOME, Room, chained, right
from test_flags import ONE, TWO

from bitepoint.marking.passing import ALL_MET
from bitepoint.marking.registry.register import Entry


@pytest.fixture
def room(tmp_path: Path) -> Room:
    """Return an empty room."""
    return Room(tmp_path)


def test_assigning_a_copy_takes_nothing_from_whose_it_is(room: Room) -> None:
    """A neighbour hands in my file under a name of their own; the entry that assigns the copy leaves mine where it was."""
    mine = room.zip(f"{ONE}-1", chained(right(), HOME))
    copy = room.hand_ins / f"{TWO}-1.zip"
    copy.write_bytes(mine.read_bytes())
    before = room.marked(out="before")
    digest = sha256(mine.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="sender", hand_in=digest, learner=TWO, by="A. Assessor"))
    after, other = room.marked(out="after"), room.marked(TWO, out="after")

    assert [f"--hand-in {digest} --learner" in p for p in before.problems] == [True]
    assert (ALL_MET, "1", []) == (after.evidence, after.row["mark"], after.problems)
    assert "1" == before.row["mark"]
    assert ALL_MET != other.evidence


def test_an_entry_for_a_hand_in_that_is_not_held_changes_nothing_and_is_told(room: Room) -> None:
    """Name and workbook.toml agree on one learner, the entry says another: it stays where it was, with a line."""
    path = room.zip(f"{ONE}-1", chained(right(), HOME))
    digest = sha256(path.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="sender", hand_in=digest, learner=TWO, by="A. Assessor"))
    found = room.marked()

    assert (ALL_MET, "1") == (found.evidence, found.row["mark"])
    (said,) = found.problems
    assert f"says that {TWO} sent {ONE}-1.zip, but that hand-in is not held: it counts for {ONE}" in said


def test_one_entry_that_reaches_two_held_hand_ins_is_told(room: Room) -> None:
    """Two copies under two names, both held: the entry is about the bytes, so a line names both files."""
    one = room.zip("copy", chained(right(), HOME), chained(right(learner=TWO), HOME), hint="")
    (room.hand_ins / "other.zip").write_bytes(one.read_bytes())
    digest = sha256(one.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="sender", hand_in=digest, learner=ONE, by="A. Assessor"))
    found = room.marked()

    assert ALL_MET == found.evidence
    (said,) = found.problems
    assert "copy.zip, other.zip are the same to the byte" in said
    assert f"one entry says of all of them that {ONE} sent them" in said
