"""The server that runs on a workbook now, as far as its runtime folder tells: address and token."""

import json
import urllib.request
from pathlib import Path
from urllib.parse import quote

from msgspec import Struct

_FILES = "jpserver-*.json"


class Running(Struct, frozen=True):
    """A server that answered: `address` ends with a slash."""

    address: str
    token: str

    def page(self, notebook: str, *, single: bool = False) -> str:
        """Return the address to open in a browser, on this notebook and with no tabs of last time.

        A single document fills the page; otherwise the list of lessons stands beside it.
        """
        return f"{self.address}{'doc' if single else 'lab'}/tree/{quote(notebook)}?reset&token={self.token}"

    def answers(self) -> bool:
        """Whether the server still answers."""
        return _ask(self, "api/status") is not None

    def stop(self) -> bool:
        """Ask the server to stop, kernels first; return whether it heard."""
        return _ask(self, "api/shutdown", method="POST") is not None


def running(runtime: Path) -> Running | None:
    """Return the server of this runtime folder if one answers."""
    for path in sorted((runtime / "runtime").glob(_FILES)):
        try:
            told = json.loads(path.read_text(encoding="utf-8"))
            found = Running(address=f"http://127.0.0.1:{int(told['port'])}/", token=str(told["token"]))
        except (OSError, ValueError, KeyError, TypeError):
            continue
        if found.answers():
            return found
    return None


def _ask(server: Running, what: str, *, method: str = "GET") -> bytes | None:
    request = urllib.request.Request(
        server.address + what, method=method, headers={"Authorization": f"token {server.token}"}
    )
    # An address of this machine is never asked through a proxy.
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    try:
        with opener.open(request, timeout=5) as reply:
            content: bytes = reply.read()
            return content
    except (OSError, ValueError):
        return None
