"""The widgets' style sheets beside each other: on one page all of them hold, each for its own."""

import re
from collections import defaultdict
from pathlib import Path

from bitepoint.page import widgets

SHEETS = sorted(Path(widgets.__file__).parent.glob("*.css"))
COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)


def grounded(sheet):
    """Return the classes that a sheet gives a ground of their own, wherever they stand."""
    text = COMMENT.sub("", sheet.read_text(encoding="utf-8"))
    rules = re.findall(r"([^{}]+)\{([^{}]*)\}", text)
    chosen = {one.strip() for where, what in rules if "background:" in what for one in where.split(",")}
    return {one for one in chosen if re.fullmatch(r"\.bp-[\w-]+", one)}


def named(sheet):
    return set(re.findall(r"\.bp-[\w-]+", COMMENT.sub("", sheet.read_text(encoding="utf-8"))))


def test_no_sheet_gives_a_ground_to_what_another_draws():
    """A white ground for the picture of one control once lay under the words of another's in the dark."""
    owners = defaultdict(set)
    for sheet in SHEETS:
        for name in grounded(sheet):
            owners[name].add(sheet.name)
    assert owners
    found = {
        (name, other.name)
        for name, own in owners.items()
        if "common.css" not in own
        for other in SHEETS
        if other.name not in own and name in named(other)
    }
    assert set() == found
