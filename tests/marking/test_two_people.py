"""What takes two people, whatever order it is entered in."""

from pathlib import Path
from unicodedata import normalize

import pytest
from msgspec.structs import replace
from test_flags import ONE, TWO

from bitepoint.errors import BadInput
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.registry.register import Register

MARK = {"learner": ONE, "exercise": "start.number", "score": 1.0}
OVERRIDE = Entry(kind="override", by="A. Assessor", text="seen", **MARK)
SECOND = Entry(kind="second mark", by="A. Assessor", **MARK)
DECISION = Entry(kind="decision", learner=ONE, by="A. Assessor", criterion="all", text="may go on")
RECEIVED = Entry(kind="appeal", learner=ONE, by="A. Assessor", text="disputes it", exercise="start.number")
DECIDED = Entry(
    kind="appeal", learner=ONE, by="a assessor", text="looked at", exercise="start.number", outcome="upheld"
)


@pytest.mark.parametrize(
    ("before", "then", "said"),
    [
        (OVERRIDE, SECOND, "A second mark is another person's."),
        (DECISION, SECOND, "A second mark is another person's."),
        (SECOND, OVERRIDE, "Enter a resolution instead."),
        (OVERRIDE, DECIDED, "Who decides an appeal is not who marked."),
        (SECOND, DECIDED, "Who decides an appeal is not who marked."),
        (DECISION, DECIDED, "Who decides an appeal is not who marked."),
    ],
)
def test_one_person_does_not_do_both(tmp_path: Path, before: Entry, then: Entry, said: str) -> None:
    """Refused in one line, the second entry not written."""
    book = Register(tmp_path)
    book.add(before)
    with pytest.raises(BadInput, match=said):
        book.add(then)
    assert [before.kind] == [e.kind for e in book.entries()]


@pytest.mark.parametrize("older", ["NFC", "NFD"])
def test_a_name_typed_on_another_keyboard_is_no_other_person(tmp_path: Path, older: str) -> None:
    """An ö may be one letter or an o with dots behind it: the same name, also in an entry of an older register."""
    book, newer = Register(tmp_path), "NFD" if older == "NFC" else "NFC"
    book.write(replace(OVERRIDE, by=normalize(older, "Jörg")))
    with pytest.raises(BadInput, match="A second mark is another person's"):
        book.add(replace(SECOND, by=normalize(newer, "JÖRG")))


@pytest.mark.parametrize(
    ("before", "then"),
    [
        (OVERRIDE, Entry(kind="second mark", by="B. Beside", **MARK)),
        (OVERRIDE, Entry(kind="second mark", by="A. Assessor", **(MARK | {"learner": TWO}))),
        (OVERRIDE, Entry(kind="second mark", by="A. Assessor", **MARK, word="red-kite")),
        (OVERRIDE, RECEIVED),
        (RECEIVED, DECIDED),
    ],
)
def test_what_one_person_may_do(tmp_path: Path, before: Entry, then: Entry) -> None:
    """Another learner's mark, another sitting's, an appeal that is received: no second person is needed."""
    book = Register(tmp_path)
    book.add(before)
    book.add(then)

    assert 2 == len(book.entries())


def test_an_appeal_says_how_and_when_it_was_decided(tmp_path: Path) -> None:
    """The outcome is one of a list; the day is today's when none is given, and needs an outcome."""
    Register(tmp_path).add(RECEIVED)
    found = Register(tmp_path).add(DECIDED)

    assert found.outcome == "upheld"
    assert len(found.decided) == 10
    with pytest.raises(BadInput, match="--outcome must be one of upheld, partly upheld, not upheld, taken back"):
        Register(tmp_path).add(Entry(kind="appeal", learner=ONE, by="C", text="t", outcome="won"))
    with pytest.raises(BadInput, match="--decided needs --outcome"):
        Register(tmp_path).add(Entry(kind="appeal", learner=ONE, by="C", text="t", decided="2026-07-01"))


def test_a_declaration_says_whether_it_was_signed(tmp_path: Path) -> None:
    """Yes or no, nothing else."""
    said = {"kind": "declaration", "learner": ONE, "by": ONE}

    assert "no" == Register(tmp_path).add(Entry(**said, signed="no")).signed
    with pytest.raises(BadInput, match="--signed must be one of yes, no"):
        Register(tmp_path).add(Entry(**said, signed="perhaps"))
