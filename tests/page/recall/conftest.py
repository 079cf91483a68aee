"""Answers get the tests' own time."""

from collections.abc import Iterator

import pytest

from bitepoint.page import answer_book

from .past_lines import NOW, Clock


@pytest.fixture(autouse=True)
def clock(monkeypatch: pytest.MonkeyPatch) -> Iterator[type[Clock]]:
    """The clock, at the tests' now."""
    Clock.now = NOW
    monkeypatch.setattr(answer_book, "utc_now", Clock.stamp)
    yield Clock
    Clock.now = NOW
