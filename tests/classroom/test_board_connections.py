"""Who connects to the board and does not ask: dropped after a time, and never more than a number of them at once."""

import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from bitepoint.classroom.boards import connections
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.rehearsal import LiveClass
from bitepoint.classroom.boards.server import BoardServer


@pytest.fixture
def server(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[BoardServer]:
    """A board whose patience is half a second."""
    monkeypatch.setattr(connections, "REQUEST_SECONDS", 0.5)
    with BoardServer(Board(LiveClass(tmp_path / "share", learners=1).folder)) as opened:
        yield opened


def drip(address: tuple[str, int], until: float) -> float:
    """Send a header one letter at a time; return after how many seconds the other side had enough."""
    begun = time.monotonic()
    with socket.create_connection(address, timeout=5) as line:
        line.sendall(b"GET / HTTP/1.1\r\nX: ")
        line.settimeout(0.05)
        while time.monotonic() - begun < until:
            try:
                line.sendall(b"x")
                if line.recv(1000) == b"":
                    break
            except TimeoutError:
                continue
            except OSError:
                break
    return time.monotonic() - begun


def test_a_dripped_header_does_not_reset_the_time(server: BoardServer) -> None:
    """The time runs from the start of the request, not from its last letter."""
    assert 0.4 < drip((server.host, server.port), until=10) < 5


def test_so_many_at_once_and_the_board_still_answers(server: BoardServer, monkeypatch: pytest.MonkeyPatch) -> None:
    """Who comes beyond the bound is dropped; threads do not grow, and after the time there is room again."""
    monkeypatch.setattr(connections, "REQUEST_SECONDS", 1.0)
    before = threading.active_count()
    lines = [socket.create_connection((server.host, server.port), timeout=5) for _ in range(60)]
    time.sleep(0.3)
    most = threading.active_count() - before
    time.sleep(1.5)
    with socket.create_connection((server.host, server.port), timeout=5) as line:
        line.sendall(b"GET / HTTP/1.0\r\n\r\n")
        reply = line.recv(100)
    for each in lines:
        each.close()

    assert most <= connections.MAX_FROM_ONE
    assert reply.startswith(b"HTTP/1.0 403")


def test_the_queue_holds_a_class_that_opens_the_board_at_once(server: BoardServer) -> None:
    """Longer than Python's five."""
    assert server._server.request_queue_size >= 64
