"""One marking at a time in a folder of results: of a class, or of a college."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from filelock import Timeout

from bitepoint.errors import BadInput
from bitepoint.logbook.locking import locked

LOCK = ".lock"


@contextmanager
def alone(out: Path) -> Iterator[None]:
    """Hold a folder of results for a while.

    Raises
    ------
    BadInput
        Another marking is writing into it.
    """
    try:
        with locked(out / LOCK, timeout=0):
            yield
    except Timeout:
        raise BadInput(
            f"{out.name}: another marking is writing into this folder. Wait until it is done, or name another folder: "
            "--out marks-2"
        ) from None
