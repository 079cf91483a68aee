"""The exercises of a lesson in the order in which its page asks them."""

import json
import re

import pytest

from bitepoint import places
from bitepoint.bank import exercises_of
from bitepoint.bank.lessons import LESSONS
from bitepoint.logbook import Identity
from bitepoint.page import summing_up
from bitepoint.page.page_order import as_on_the_page


@pytest.mark.parametrize("key", LESSONS)
def test_the_order_is_that_of_the_notebook(key: str) -> None:
    """What the cells of the lesson's notebook ask, one after the other, and all that the bank has."""
    cells = json.loads((places.course() / LESSONS[key].notebook).read_text(encoding="utf-8"))["cells"]
    code = "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "code")
    asked = re.findall(r"ask\(\"([\w.-]+)\"", code)
    assert asked == [exercise.id for exercise in as_on_the_page(key)]
    assert set(asked) == {exercise.id for exercise in exercises_of(key)}


def test_the_card_at_the_end_lists_them_so() -> None:
    """They stand as the reader met them, “go deeper” marked: the first half on the left, the second half beside it."""
    who = Identity(learner="practice", class_word="practice")
    shown = [session.exercise for session in summing_up.sessions_of("star", who)]
    assert shown == as_on_the_page("star")
    card = str(summing_up._card(summing_up.sessions_of("star", who), who, "star"))
    rows = [e.title + (" (go deeper)" if e.beyond else "") for e in shown]
    half = -(-len(rows) // 2)
    told = re.findall(r"<td[^>]*>([^<]*)</td>", card)
    assert rows == told[::4] + told[2::4][: len(rows) - half]
    assert half == len(told) // 4
    assert any(e.beyond for e in shown)
