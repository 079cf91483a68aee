"""Python's collector of circles of objects, asked less often while hand-ins are marked.

Marking makes many small objects, and hardly a circle of them; the collector looked through all of them every 700:
a tenth of the processor time. It is held back for a whole marking, in a college for all of them: let go after each part, it at once looks
through all that the next one still needs.

Lines, verdicts, questions and rows are not looked at at all (`gc=False`): they hold texts, numbers and what stands below them,
and nothing that could lead back to them.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager

_SELDOM = 50_000


@contextmanager
def seldom_collected() -> Iterator[None]:
    """Let the collector wait for so many new objects while the block, or the function that this decorates, runs.

    Inside another such block it changes nothing.
    """
    before = gc.get_threshold()
    collect_seldom()
    try:
        yield
    finally:
        gc.set_threshold(*before)


def collect_seldom() -> None:
    """Let the collector of this process wait so long from now on."""
    gc.set_threshold(_SELDOM, *gc.get_threshold()[1:])
