"""The board on a port of this computer: two pages and their news, nothing else, read only."""

import contextlib
import http.server
import ipaddress
import json
import os
import secrets
import socket
import socketserver
import threading
from collections.abc import Callable, Mapping
from typing import Any, Self
from urllib.parse import parse_qs, urlencode, urlsplit

from bitepoint.classroom.boards import connections
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.connections import BoundedThreads, timed_reader
from bitepoint.classroom.boards.page import AGAIN, ALL, FOLLOW, View, policy
from bitepoint.errors import BadInput, BitepointError, CannotRun
from bitepoint.printable import printable

LOOPBACK = "127.0.0.1"
FIRST_PORT = 8800
PORTS_TRIED = 50
EVERY_SECONDS = 1.0
_SECONDS = 10
_HEADERS = {
    "Cache-Control": "no-store",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}


class _Server(BoundedThreads, http.server.HTTPServer):
    # Elsewhere this lets two programs share a port; on Windows it would let one steal it.
    allow_reuse_address = os.name == "posix"

    def __init__(self, address: tuple[str, int], board_server: "BoardServer") -> None:
        self.board_server = board_server
        if ":" in address[0]:
            self.address_family = socket.AF_INET6
        super().__init__(address, _Handler)

    def server_bind(self) -> None:
        # Without asking a name server what this computer is called.
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = str(self.server_address[0]), int(self.server_address[1])

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say nothing: a browser that went away is no news."""


class _Handler(http.server.BaseHTTPRequestHandler):
    server: _Server
    server_version, sys_version = "bitepoint", ""

    def setup(self) -> None:
        """Read the request within its time; the answer then has as long again."""
        super().setup()
        self.rfile = timed_reader(self.connection)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("do_"):
            return self._only_reading
        raise AttributeError(name)

    def do_GET(self) -> None:
        """Answer one of the four addresses; whatever is wrong is said in a line."""
        if not self.server.board_server.is_own_host(self.headers.get_all("Host") or []):
            return self._send(403, "This address is not the board's.")
        parts = urlsplit(self.path)
        asked = {key: values[0] for key, values in parse_qs(parts.query).items()}
        page = self.server.board_server.pages.get(parts.path)
        if page is None or not page.opens(asked.get("token", "")):
            return self._send(403, "Open the address that the board printed: its token is missing or wrong.")
        view = View(page.kind, asked.get("lesson", FOLLOW) if page.kind == "wall" else "")
        if view.lesson and view.lesson not in (FOLLOW, AGAIN, ALL, *self.server.board_server.board.lessons):
            return self._send(404, "There is no such lesson.")
        if page.news:
            return self._news(view, asked.get("since", ""))
        return self._send(200, self.server.board_server.whole(view), "text/html")

    do_HEAD = do_GET

    def _news(self, view: View, since: str) -> None:
        version, html = self.server.board_server.board.part(view)
        if version == since:
            return self._send(204, "")
        return self._send(200, json.dumps({"version": version, "html": html}), "application/json")

    def _only_reading(self) -> None:
        self._send(405, "The board can only be read.", allow=True)

    def _send(self, status: int, text: str, kind: str = "text/plain", *, allow: bool = False) -> None:
        content = text.encode("utf-8")
        self.connection.settimeout(connections.REQUEST_SECONDS)
        self.send_response(status)
        for name, value in _HEADERS.items():
            self.send_header(name, value)
        self.send_header("Content-Security-Policy", f"{policy(live=True)}; frame-ancestors 'none'")
        if allow:
            self.send_header("Allow", "GET, HEAD")
        if status != 204:
            self.send_header("Content-Type", f"{kind}; charset=utf-8")
            self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(content)

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """Answer a request that cannot be read, without repeating any of it."""
        self.command = self.command or "GET"
        self._send(code, "The request cannot be read.")

    def log_message(self, format: str, *args: Any) -> None:
        """Keep no log: the addresses in it would hold the token."""


class Page:
    """One address: its view, whether it is the news alone, and the token that opens it."""

    def __init__(self, kind: Any, token: str, *, news: bool = False) -> None:
        self.kind, self.news, self._token = kind, news, token

    def opens(self, token: str) -> bool:
        """Whether a token is the right one; takes the same time whatever is given."""
        return secrets.compare_digest(token.encode("utf-8", "replace"), self._token.encode("ascii"))


class BoardServer:
    """The board at an address. `with BoardServer(board) as server:` starts it and stops it.

    The wall and the names have a token each: who reads the wall's address off the wall cannot open the names.
    """

    def __init__(self, board: Board, *, host: str = LOOPBACK, port: int = FIRST_PORT, with_names: bool = False) -> None:
        self.board, self.with_names = board, with_names
        self.host = _checked_host(host)
        self._tokens = {"wall": secrets.token_urlsafe(18), "names": secrets.token_urlsafe(18)}
        self.pages: Mapping[str, Page] = {
            "/": Page("wall", self._tokens["wall"]),
            "/wall.json": Page("wall", self._tokens["wall"], news=True),
        }
        if with_names:
            self.pages = {
                **self.pages,
                "/names": Page("names", self._tokens["names"]),
                "/names.json": Page("names", self._tokens["names"], news=True),
            }
        self._server = self._bound(port)
        self._stop = threading.Event()
        self._threads = [
            threading.Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True),
            threading.Thread(target=self._refresh, daemon=True),
        ]

    def _bound(self, first: int) -> _Server:
        for port in range(first, min(first + PORTS_TRIED, 65536)):
            try:
                return _Server((self.host, port), self)
            except OSError as error:
                if isinstance(error, socket.gaierror) or not _is_taken(self.host, port):
                    raise BadInput(
                        f"--host {self.host} is no address of this computer ({error.strerror}). Leave it out, or give the one "
                        "that the other computers reach."
                    ) from None
        raise CannotRun(f"The ports from {first} on are taken. Choose another: bitepoint board FOLDER --port 9500")

    @property
    def port(self) -> int:
        """Where it listens."""
        return int(self._server.server_port)

    def address(self, kind: str) -> str:
        """Return the address of the wall or the names, with its token."""
        host = f"[{self.host}]" if ":" in self.host else self.host
        return f"http://{host}:{self.port}{self._path(kind)}"

    def _path(self, kind: str, *, news: bool = False, **more: str) -> str:
        path = f"/{kind}.json" if news else "/" if kind == "wall" else f"/{kind}"
        return f"{path}?{urlencode({'token': self._tokens[kind], **more})}"

    def is_own_host(self, given: list[str]) -> bool:
        """Whether a request was meant for this address: a page elsewhere that points its name here is refused."""
        names = {self.host.casefold()}
        if ipaddress.ip_address(self.host).is_loopback:
            names |= {LOOPBACK, "localhost", "::1"}
        own = {f"[{n}]:{self.port}" if ":" in n else f"{n}:{self.port}" for n in names}
        return len(given) == 1 and given[0].strip().casefold() in own

    def whole(self, view: View) -> str:
        """Return a whole page that refreshes itself."""
        lesson = {"lesson": view.lesson} if view.kind == "wall" else {}
        again = (AGAIN,) if self.board.board.recalled else ()
        keys = (FOLLOW, *self.board.lessons, *again, ALL) if lesson else ()
        links = {key: self._path("wall", lesson=key) for key in keys}
        return self.board.page(view, address=self._path(view.kind, news=True, **lesson), links=links)

    def __enter__(self) -> Self:
        for thread in self._threads:
            thread.start()
        return self

    def __exit__(self, *reason: object) -> None:
        self._stop.set()
        self._server.shutdown()
        self._server.server_close()
        for thread in self._threads:
            thread.join(_SECONDS)
        with contextlib.suppress(BitepointError):
            self.board.note_codes(at_once=True)

    def _refresh(self) -> None:
        while not self._stop.is_set():
            all_read = True
            try:
                all_read = self.board.refresh()
                self.board.note_codes()
                self.board.trouble = ""
            except BitepointError as error:
                self.board.trouble = str(error)
            except Exception as error:
                # Whatever it is, a wall that stands still must not look as if it were live.
                self.board.trouble = f"The board could not read on ({type(error).__name__}: {error}). It tries again."
            if all_read:
                self._stop.wait(EVERY_SECONDS)


def _checked_host(host: str) -> str:
    try:
        found = ipaddress.ip_address(LOOPBACK if host == "localhost" else host.strip("[]"))
    except ValueError:
        found = None
    if found is None or found.is_unspecified:
        raise BadInput(
            f"--host must be one address of this computer, such as 192.168.0.20, but you gave {host[:40]!r}."
        )
    return str(found)


def _is_taken(host: str, port: int) -> bool:
    with socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET) as probe, contextlib.suppress(OSError):
        probe.bind((host, 0))
        return True
    return False


def serve(board: Board, *, host: str, port: int, with_names: bool, say: Callable[[str], None]) -> None:
    """Show the board until Ctrl+C.

    Raises
    ------
    BadInput, CannotRun
        The address is none of this computer's, or no port is free.
    """
    with BoardServer(board, host=host, port=port, with_names=with_names) as server:
        say(f"Wall:  {server.address('wall')}")
        if with_names:
            say(f"Names: {server.address('names')}  (your own screen only)")
        if not ipaddress.ip_address(server.host).is_loopback:
            say("Anyone on this network who has an address can read it. It travels unencrypted.")
        say("Stop with Ctrl+C.")
        told = ""
        with contextlib.suppress(KeyboardInterrupt):
            while True:
                server._stop.wait(1)
                if board.trouble and board.trouble != told:
                    say(printable(board.trouble))
                told = board.trouble
