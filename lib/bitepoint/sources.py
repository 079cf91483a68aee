"""Every outside source once, by key; an exercise, a constant or a check names its source by this key.

`seen` says how far we have seen it: "print" (read in the document itself), "quoted" (read in a page that
quotes it, the named document being the authority), "memory" (not confirmed). A trade rule without a source
has the key "common-practice", a figure of an invented data sheet "invented", one that follows from the
others "derived".
"""

from pathlib import Path
from typing import Literal

from msgspec import Struct, convert

from bitepoint import places
from bitepoint.toml_once import toml_once

Seen = Literal["print", "quoted", "memory", "none"]


class Source(Struct, frozen=True):
    """One source: what it is and how it was seen; a textbook is named with its edition, or counts as not confirmed."""

    title: str
    seen: Seen
    note: str = ""


def _read() -> dict[str, Source]:
    content = (places.assets() / "sources.toml").read_bytes()
    return convert(toml_once(Path(__file__), content), dict[str, Source])


SOURCES = _read()

OWN_DOCUMENT = "own document: "
"""Begins the key of a source that a college names for a question of its own; the rest is the name it gives."""


def source(key: str) -> Source:
    """Return the source with this key, or the college's own document that it names.

    Raises
    ------
    KeyError
        The key is unknown; tests make sure that no exercise or constant uses such a key.
    """
    if key.startswith(OWN_DOCUMENT):
        return Source(key.removeprefix(OWN_DOCUMENT), "none", "named by the college, not seen by us")
    return SOURCES[key]
