"""The entered sheets themselves: 60 right ones and 60 with one slip each, all of them read."""

import pytest

from bitepoint.errors import BadInput
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from

from .entries import RIGHT, WRONG, Wrong, content, right_tables, value_at, wrong_tables


def _name(wrong: Wrong) -> str:
    return f"{wrong.sheet}: {wrong.slip}"


def test_sixty_of_each() -> None:
    assert len(RIGHT) == 60
    assert len(WRONG) == 60
    assert len({(wrong.sheet, *wrong.changes) for wrong in WRONG}) == 60
    assert sum(wrong.subtle for wrong in WRONG) >= 12
    assert sum(wrong.refused for wrong in WRONG) <= 6
    assert sum(len(right.changes) >= 12 for right in RIGHT.values()) >= 25


@pytest.mark.parametrize("name", RIGHT)
def test_a_right_sheet_is_read(name: str) -> None:
    assert own_sheet_from(content(right_tables(name))).vehicle.id == name


@pytest.mark.parametrize("wrong", WRONG, ids=_name)
def test_a_wrong_sheet_is_read_unless_marked(wrong: Wrong) -> None:
    text = content(wrong_tables(wrong))
    if wrong.refused:
        with pytest.raises(BadInput):
            own_sheet_from(text)
    else:
        assert own_sheet_from(text).vehicle.id == wrong.sheet


@pytest.mark.parametrize("wrong", WRONG, ids=_name)
def test_a_slip_changes_one_figure_or_swaps_two(wrong: Wrong) -> None:
    right = right_tables(wrong.sheet)
    before = [value_at(right, key) for key in wrong.changes]
    after = list(wrong.changes.values())
    assert before != after
    assert len(before) == 1 or before == after[::-1]
    assert not {None, "look it up"} & {str(value) if value else None for value in before}
