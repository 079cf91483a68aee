"""A save leaves live views out and everything else in."""

from copy import deepcopy

from bitepoint.workbook.save_hook import LIVE_VIEW, drop_live_views

from .small_course import notebook

CARD = {"output_type": "display_data", "data": {"text/html": "<b>card</b>"}, "metadata": {}}
VIEW = {"output_type": "display_data", "data": {LIVE_VIEW: {"model_id": "x"}, "text/plain": "Form"}, "metadata": {}}
PRINTED = {"output_type": "stream", "name": "stdout", "text": "hello\n"}


def test_live_views_go_and_cards_stay() -> None:
    """Of a card, a live view and a printed line the view alone is left out; so is the stored widget state."""
    content = notebook("ask('star.six-bolts')")
    content["cells"][1]["outputs"] = [CARD, VIEW, PRINTED]
    content["metadata"]["widgets"] = {"state": {}}
    model = {"type": "notebook", "content": content}
    drop_live_views(model=model, path="star.ipynb", contents_manager=None)
    assert content["cells"][1]["outputs"] == [CARD, PRINTED]
    assert {"kernelspec"} == set(content["metadata"])


def test_a_second_save_changes_nothing_more() -> None:
    """Cleaning a clean notebook gives the same notebook."""
    content = notebook("ask('star.six-bolts')")
    content["cells"][1]["outputs"] = [CARD, VIEW]
    model = {"type": "notebook", "content": content}
    drop_live_views(model=model)
    once = deepcopy(model)
    drop_live_views(model=model)
    assert once == model


def test_other_files_and_odd_notebooks_pass_untouched() -> None:
    """A text file, a model without content and a notebook with odd cells are saved as they are."""
    for model in (
        {"type": "file", "content": "x"},
        {"type": "notebook"},
        {"type": "notebook", "content": None},
        {"type": "notebook", "content": {"cells": None}},
        {"type": "notebook", "content": {"cells": [3, {"outputs": 4}, {"outputs": [5, {"data": 6}]}]}},
    ):
        before = deepcopy(model)
        drop_live_views(model=model)
        assert before == model
