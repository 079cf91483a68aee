"""Who a line belongs to: ids are compared without regard to capitals, and no foreign letter becomes one of them."""

import csv
from pathlib import Path

import pytest
from test_flags import line

from bitepoint.logbook.identity import key_of, same_name
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.registry.register import Entry, Register, about, check_entry, deleted
from bitepoint.marking.roster import public_name

LIKE_STRASSE = ("ſtrasse", "straße", "straſſe")
LIKE_KAY = ("\u212aay", "kay\u0301", "\uff4bay")


def rows_of(marks: Path) -> list[dict[str, str]]:
    """Return the rows of marks.csv."""
    with open(marks / "marks.csv", encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize(("other", "own"), [*((x, "strasse") for x in LIKE_STRASSE), *((x, "kay") for x in LIKE_KAY)])
def test_a_name_that_only_folds_to_an_id_is_not_that_learner(other: str, own: str) -> None:
    """Neither for marking nor for the register."""
    said = [Entry(kind="deletion", learner=own, by="A. Assessor", text="On request.")]

    assert key_of(own.upper()) == key_of(own) != key_of(other)
    assert not same_name(other, own)
    assert public_name(other).startswith("unknown-")
    assert list(about(said, other)) == []
    assert key_of(other) not in deleted(said)


@pytest.mark.parametrize("with_roster", [False, True])
def test_it_takes_no_name_from_the_learner(tmp_path: Path, with_roster: bool) -> None:
    """Whoever comes first: strasse keeps name and marks, the others are unknown and have rows of their own."""
    for n, learner in enumerate((*LIKE_STRASSE, "strasse", "\u212aay", "KAY")):
        text = line("start.choice", learner=learner).text
        (tmp_path / f"{n}.jsonl").write_text(f"{text}\n", "ascii")
    (tmp_path / "roster.csv").write_text("learner,class_word\nstrasse,oak-2026\nKay,oak-2026\n", "utf-8")
    roster = tmp_path / "roster.csv" if with_roster else None
    mark_hand_ins([tmp_path], roster=roster, out=tmp_path / "marks")
    names = [row["learner"] for row in rows_of(tmp_path / "marks")]

    assert [n for n in names if not n.startswith("unknown-")] == ["Kay" if with_roster else "KAY", "strasse"]
    assert len(set(names)) == 6


def test_the_register_keeps_the_id_as_the_class_has_it(tmp_path: Path) -> None:
    """A Kelvin sign typed for a K is that K."""
    entry = check_entry(Entry(kind="declaration", learner="L07-\u212a", by="A. Assessor"))

    assert entry.learner == "L07-K"
    assert Register(tmp_path).add(entry).learner == "L07-K"
