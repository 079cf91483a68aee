"""Loaded by every Python that has this folder on its path: no socket leads out of the computer, and each try is written down.

The file to write to is named by REACHED_OUT.
"""

import os
import sys
from typing import Any

_CALLS = ("socket.connect", "socket.sendto", "socket.sendmsg", "socket.getaddrinfo", "socket.gethostbyname")
_AT_HOME = ("127.", "::1", "localhost", "0.0.0.0")


def _told(event: str, arguments: tuple[Any, ...]) -> None:
    """Refuse what leads out; names of this computer and its own loop lead nowhere."""
    if event not in _CALLS:
        return
    where = arguments[1] if event.startswith(("socket.connect", "socket.send")) else arguments
    host = where[0] if isinstance(where, tuple) and where else where
    # A path is a socket of this computer's own, and a missing host this computer itself.
    if not isinstance(where, tuple) or host in (None, "", b"") or str(host).startswith(_AT_HOME):
        return
    with open(os.environ["REACHED_OUT"], "a", encoding="utf-8") as file:
        file.write(f"{event} {host} {sys.argv}\n")
    raise OSError(f"{event} {host}: nothing leads out here")


sys.addaudithook(_told)
