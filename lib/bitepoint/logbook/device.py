"""Which machine writes: a short random name kept in the user's own state folder, never in the workbook."""

import os
import secrets
import sys
import uuid
from hashlib import blake2b
from pathlib import Path


def state_folder() -> Path:
    """Return the folder of this user where the program keeps its own state.

    BITEPOINT_STATE names another one (tests, shared rooms).
    """
    chosen = os.environ.get("BITEPOINT_STATE")
    if chosen:
        return Path(chosen)
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local"
    elif sys.platform == "darwin":
        base = Path.home() / "Library" / "Application Support"
    else:
        base = os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state"
    return Path(base) / "bitepoint"


def device_name() -> str:
    """Return eight hexadecimal digits for this user on this machine; copies of a disk image differ by network card."""
    path = state_folder() / "device"
    try:
        seed = path.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError):
        seed = secrets.token_hex(16)
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(seed, encoding="ascii")
        except OSError:
            seed = "no-state-folder"
    return blake2b(f"{seed}/{uuid.getnode()}".encode(), digest_size=4).hexdigest()
