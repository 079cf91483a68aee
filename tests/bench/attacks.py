"""What every attack of the fuzzing shares: a refusal is one clear line, lines of a chain can be believed all the same."""

from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from random import Random

from bitepoint.errors import BitepointError

Attack = Callable[[Path, Random], None]
"""Damages a file in a folder and reads it as the program does; raises where that is neither a result nor one clear line."""


def clean(text: str) -> None:
    """Check that a sentence is one line that any terminal can show, and that some check knew what was wrong."""
    assert text.isprintable(), ascii(text)
    assert "this program does not know why" not in text, text


def one_line(read: Callable[[], object]) -> None:
    """Call a reader; if it refuses, its message is clean."""
    try:
        read()
    except BitepointError as error:
        clean(str(error))


def believed(content: bytes) -> bytes:
    """Return damaged lines with right hashes, as whoever forges one would write it."""
    found = []
    for line in content.split(b"\n"):
        body, mark, _ = line.rpartition(b',"hash":"')
        found.append(body + mark + sha256(body).hexdigest()[:32].encode() + b'"}' if mark else line)
    return b"\n".join(found)
