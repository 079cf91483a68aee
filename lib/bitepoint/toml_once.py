"""TOML of the package, parsed once and kept as JSON, which is read in a fiftieth of the time."""

from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec

from bitepoint import beside

_KIND = "toml"


def toml_once(module: Path, content: bytes) -> dict[str, Any]:
    """Return TOML as plain values.

    Parameters
    ----------
    module
        The file among our modules beside which it is kept.
    content
        What stands in it.

    Raises
    ------
    msgspec.DecodeError, UnicodeDecodeError
        It is no TOML.
    """
    key = sha256(content).hexdigest()
    if kept := beside.found(str(module), _KIND, key):
        return msgspec.json.decode(kept, type=dict[str, Any])
    found: dict[str, Any] = msgspec.toml.decode(content)
    as_json = msgspec.json.encode(found)
    # What JSON has no word for, such as a date, is not kept.
    if msgspec.json.decode(as_json) == found:
        beside.keep(str(module), _KIND, key, as_json)
    return found
