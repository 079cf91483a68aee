"""Every picture of the library is light enough for a notebook."""

import json

import pytest

from bitepoint.page import html
from bitepoint.pictures import draw, keys


@pytest.mark.parametrize("key", keys())
def test_a_figure_weighs_less_than_120_kb_as_stored(key: str) -> None:
    """Drawn with its defaults, encoded with its alt text and caption as a notebook stores it."""
    assert len(json.dumps(html.figure(draw(key))).encode()) < 120_000
