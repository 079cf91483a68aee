"""What was worked out from a file of the package, kept beside it where Python keeps its compiled modules.

Such a file is trusted as far as those are: whoever can write there can also change what Python runs. Where nothing can be
written or Python was told to write nothing, nothing is kept, and all is worked out again.
"""

import os
import sys
from contextlib import suppress
from hashlib import sha256
from importlib.util import cache_from_source
from pathlib import Path
from secrets import token_hex


def found(source: str, kind: str, key: str) -> bytes | None:
    """Return what is kept for a file under this kind and key; None where nothing is, or it is damaged.

    Parameters
    ----------
    source
        The file.
    kind
        One word for what is kept of it; a file may have one of each.
    key
        All that it hangs on: what the file says, what made it, in which version.
    """
    try:
        whole = _place(source, kind).read_bytes()
    except (OSError, ValueError, NotImplementedError):
        return None
    seal, content = whole[:32], whole[32:]
    return content if seal == _seal(key, content) else None


def keep(source: str, kind: str, key: str, content: bytes) -> None:
    """Keep what was worked out from a file, instead of what is kept for it under another key; or do nothing."""
    if sys.dont_write_bytecode:
        return
    with suppress(OSError, ValueError, NotImplementedError):
        # Writable for whoever owns it, as Python makes its own: another system replaces no file that is not.
        place, mode = _place(source, kind), os.stat(source).st_mode & 0o666 | 0o200
        place.parent.mkdir(parents=True, exist_ok=True)
        part = f"{place}.{token_hex(8)}"
        descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
        try:
            with open(descriptor, "wb") as file:
                file.write(_seal(key, content) + content)
            os.replace(part, place)
        except OSError:
            os.unlink(part)


def _place(source: str, kind: str) -> Path:
    if not os.path.isabs(source):
        raise ValueError
    return Path(cache_from_source(source, optimization=kind))


def _seal(key: str, content: bytes) -> bytes:
    return sha256(key.encode() + b"\0" + content).digest()
