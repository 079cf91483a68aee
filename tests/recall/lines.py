"""Lines of a logbook for the tests of recall, written by hand."""

from datetime import UTC, datetime, timedelta
from typing import Any

import msgspec

from bitepoint.logbook.record import RECALL, Record

START = datetime(2026, 9, 1, 8, tzinfo=UTC)


def line(
    exercise: str,
    day: float = 0,
    score: float | None = 1,
    *,
    n: int = 0,
    device: str = "a",
    recall: bool = False,
    **more: Any,
) -> Record:
    """Return one line, so many days after the first of September 2026."""
    at = (START + timedelta(days=day)).isoformat().replace("+00:00", "Z")
    fields = {
        "n": n or 1 + round(day * 1000),
        "at": at,
        "learner": "L01-X",
        "class": "oak-2026",
        "device": device,
        "exercise": exercise,
        "revision": 1,
        "turn": 1,
        "facts": "q",
        "how": "recall" if recall else "form",
        "answer": "1",
        "prev": "",
        "hash": f"{exercise} {device} {day} {n} {recall} {score}",
        "score": score,
        "sitting": RECALL if recall else "",
        **more,
    }
    return msgspec.convert(fields, Record)
