"""A second set, written after the first by somebody who had seen neither the questions nor what the first set brought.

Tried once before anything was changed for it: 40 of 60 slips were questioned, and 10 of 30 right sheets more than once, mostly by torques that are
odd figures in N·m. These are asked about together since, and axle loads may be rounded; the rest stands as it was.
"""

from bitepoint.errors import BadInput
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from
from bitepoint.workshop.questioning.questioned import questioned

from .entries import content
from .entries_second import RIGHT, WRONG, right_tables, wrong_tables


def asked(tables):
    """Return the keys that are questioned; of a sheet that is refused outright, its refusal."""
    try:
        return {one.key for one in questioned(own_sheet_from(content(tables)).vehicle)}
    except BadInput:
        return {"refused"}


def test_most_right_sheets_are_questioned_at_most_once():
    """Three of thirty are asked about twice, none oftener."""
    counts = [len(asked(right_tables(id))) for id in RIGHT]
    assert max(counts) <= 2
    assert sum(count > 1 for count in counts) <= 3


def test_two_slips_in_three_are_questioned():
    """On sheets for which nothing was fitted: 43 of 60."""
    found = [wrong for wrong in WRONG if asked(wrong_tables(wrong)) - asked(right_tables(wrong.sheet))]
    assert len(found) >= 43
