"""Connections of the board: a time for each request from its start, and a bound on how many are open at once."""

import io
import socket
import socketserver
import threading
import time
from collections import Counter
from typing import Any

REQUEST_SECONDS = 10.0
"""How long asking may take; answering may take as long again."""
MAX_CONNECTIONS, MAX_FROM_ONE = 128, 32


class UntilReader(io.RawIOBase):
    """Reads a connection until a time of the monotonic clock: a letter now and then does not begin it anew."""

    def __init__(self, connection: socket.socket, until: float) -> None:
        self._connection, self._until = connection, until

    def readable(self) -> bool:
        """Say that it can be read."""
        return True

    def readinto(self, buffer: Any, /) -> int:
        """Read what is there.

        Raises
        ------
        TimeoutError
            The time is over.
        """
        left = self._until - time.monotonic()
        if left <= 0:
            raise TimeoutError
        self._connection.settimeout(left)
        return self._connection.recv_into(buffer)


def timed_reader(connection: socket.socket) -> io.BufferedReader:
    """Return a file that reads a request within its time."""
    return io.BufferedReader(UntilReader(connection, time.monotonic() + REQUEST_SECONDS))


class BoundedThreads(socketserver.ThreadingMixIn):
    """A thread for each connection, but only so many, and so many from one address; who is too many is dropped.

    A browser asks again by itself a second later.
    """

    daemon_threads = True
    request_queue_size = 128

    def __init__(self, *arguments: Any, **named: Any) -> None:
        self._open: Counter[str] = Counter()
        self._counting = threading.Lock()
        super().__init__(*arguments, **named)

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer in a thread, or drop."""
        who = str(client_address[0])
        with self._counting:
            full = self._open.total() >= MAX_CONNECTIONS or self._open[who] >= MAX_FROM_ONE
            if not full:
                self._open[who] += 1
        if full:
            self.shutdown_request(request)  # type: ignore[attr-defined]
            return
        try:
            super().process_request(request, client_address)
        except Exception:
            self._closed(who)
            raise

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Answer, and count the connection as closed."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._closed(str(client_address[0]))

    def _closed(self, who: str) -> None:
        with self._counting:
            self._open[who] -= 1
            if self._open[who] <= 0:
                del self._open[who]
