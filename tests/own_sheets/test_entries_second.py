"""The second set of entered sheets: 30 right ones and 60 with one slip each, all but the marked ones read."""

import pytest

from bitepoint.errors import BadInput
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from

from . import entries
from .entries import Wrong, content, value_at
from .entries_second import RIGHT, WRONG, right_tables, wrong_tables


def _name(wrong: Wrong) -> str:
    return f"{wrong.sheet}: {wrong.slip}"


def test_there_are_30_right_sheets_and_60_slips() -> None:
    assert len(RIGHT) == 30
    assert len(WRONG) == 60
    assert len({_name(wrong) for wrong in WRONG}) == 60
    assert {wrong.sheet for wrong in WRONG} == set(RIGHT)


def test_most_sheets_are_other_vehicles_than_the_full_ones() -> None:
    assert sum(len(sheet.changes) >= 15 for sheet in RIGHT.values()) >= 25
    assert not set(RIGHT) & set(entries.RIGHT)


def test_a_third_of_the_slips_is_subtle_and_few_are_refused() -> None:
    assert 18 <= sum(wrong.subtle for wrong in WRONG) <= 24
    assert sum(wrong.refused for wrong in WRONG) <= 6


@pytest.mark.parametrize("name", RIGHT)
def test_a_right_sheet_is_read(name: str) -> None:
    assert own_sheet_from(content(right_tables(name))).vehicle.id == name


@pytest.mark.parametrize("wrong", WRONG, ids=_name)
def test_a_slip_changes_one_key_or_swaps_two(wrong: Wrong) -> None:
    right = right_tables(wrong.sheet)
    before = [value_at(right, key) for key in wrong.changes]
    after = list(wrong.changes.values())
    assert all(old is not None and old != entries.LOOK_UP for old in before)
    assert all(old != new for old, new in zip(before, after, strict=True))
    assert len(after) == 1 or (len(after) == 2 and after == before[::-1])


@pytest.mark.parametrize("wrong", WRONG, ids=_name)
def test_a_sheet_with_a_slip_is_read_or_marked_as_refused(wrong: Wrong) -> None:
    text = content(wrong_tables(wrong))
    if wrong.refused:
        with pytest.raises(BadInput):
            own_sheet_from(text)
    else:
        assert own_sheet_from(text).vehicle.id == wrong.sheet
