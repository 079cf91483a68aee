"""Python's collector of circles of objects, asked less often while a hand-in is marked.

Marking makes many small objects and hardly a circle, and the collector looked through all of them every 700: a tenth of the
processor time. It still runs between hand-ins, so that memory stays what it was.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager

_SELDOM = 50_000


@contextmanager
def seldom_collected() -> Iterator[None]:
    """Let the collector wait for so many new objects while the block, or the function that this decorates, runs."""
    before = gc.get_threshold()
    gc.set_threshold(_SELDOM, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)
