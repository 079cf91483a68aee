"""What is left of an error that no check foresaw: one line about its hand-in, and the class goes on."""

import errno
from collections.abc import Sequence

SHOWN = 5
_OWN = {errno.ENOSPC, errno.EDQUOT, errno.EROFS}


def is_own(error: Exception) -> bool:
    """Whether an error is about this computer's disk, not about what was handed in: it ends the run."""
    return isinstance(error, OSError) and error.errno in _OWN


def unforeseen(what: str, error: Exception) -> str:
    """Return the sentence for an error that no check foresaw.

    Raises
    ------
    OSError
        The error itself, where it is about this computer's own disk.
    """
    if is_own(error):
        raise error
    return (
        f"{what} ({type(error).__name__}), and this program does not know why. "
        "Look at it by hand, and keep the file for whoever looks after the program."
    )


def first_of(problems: Sequence[str], name: str, *, rest: str = "They stand in marks.jsonl.") -> list[str]:
    """Return the first five problems of a source, and how many more there are; `rest` says where they stand."""
    if len(problems) <= SHOWN + 1:
        return list(problems)
    return [*problems[:SHOWN], f"{name}: and {len(problems) - SHOWN:,} more. {rest}"]
