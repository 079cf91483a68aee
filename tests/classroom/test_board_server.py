"""The board's address: token, Host, methods, nothing but its pages; and two hundred workbooks written live."""

import http.client
import json
import socket
import threading
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from random import Random
from urllib.parse import urlsplit

import pytest

from bitepoint.bank import exercise_named
from bitepoint.classroom.boards.board import Board
from bitepoint.classroom.boards.rehearsal import LiveClass
from bitepoint.classroom.boards.server import BoardServer, Page
from bitepoint.errors import BadInput

NUMBER = "start.number"


@pytest.fixture
def live(tmp_path: Path) -> LiveClass:
    """Two learners, one answer."""
    made = LiveClass(tmp_path / "share", learners=2)
    made.answer(made.ids[0], NUMBER)
    return made


@pytest.fixture
def server(live: LiveClass) -> Iterator[BoardServer]:
    """A board with names, on a free port."""
    with BoardServer(Board(live.folder), with_names=True) as opened:
        until(lambda: opened.board.ready)
        yield opened


def until(true: object, seconds: float = 20) -> float:
    """Wait until something is true; return how long it took [s]."""
    start = time.monotonic()
    while not true():  # type: ignore[operator]
        assert time.monotonic() - start < seconds
        time.sleep(0.02)
    return time.monotonic() - start


def ask(
    server: BoardServer, path: str, *, method: str = "GET", host: str | None = None
) -> tuple[int, dict[str, str], bytes]:
    """Status, headers, content."""
    connection = http.client.HTTPConnection(server.host, server.port, timeout=10)
    connection.putrequest(method, path, skip_host=True)
    if host != "":
        connection.putheader("Host", host or f"{server.host}:{server.port}")
    connection.endheaders()
    reply = connection.getresponse()
    found = (reply.status, dict(reply.getheaders()), reply.read())
    connection.close()
    return found


def query(server: BoardServer, kind: str = "wall") -> str:
    """Path and token of a page."""
    parts = urlsplit(server.address(kind))
    return f"{parts.path}?{parts.query}"


def test_the_address_opens_the_wall_on_loopback(server: BoardServer, live: LiveClass) -> None:
    """With its token; on 127.0.0.1 alone."""
    status, headers, content = ask(server, query(server))
    assert 200 == status
    assert "text/html; charset=utf-8" == headers["Content-Type"]
    assert b"Start here" in content
    assert live.ids[0].encode() not in content
    assert "127.0.0.1" == server._server.server_address[0]


@pytest.mark.parametrize("token", ["", "x", "é", "0" * 24, "%00"])
def test_a_wrong_or_missing_token_opens_nothing(server: BoardServer, token: str) -> None:
    """403 for each page and its news, without a word of the class."""
    for path in ("/", "/names", "/wall.json", "/names.json"):
        for asked in (path, f"{path}?token={urllib.request.quote(token)}"):
            status, _, content = ask(server, asked)
            assert 403 == status
            assert b"Start here" not in content


def test_the_walls_token_does_not_open_the_names(server: BoardServer, live: LiveClass) -> None:
    """Who reads the address off the wall sees the wall."""
    token = query(server).partition("?")[2]
    assert 403 == ask(server, f"/names?{token}")[0]
    assert 403 == ask(server, f"/names.json?{token}")[0]
    status, _, content = ask(server, query(server, "names"))
    assert 200 == status
    assert live.ids[0].encode() in content


def test_without_names_there_is_no_names_page(live: LiveClass) -> None:
    """Not even with a token."""
    with BoardServer(Board(live.folder)) as opened:
        assert 403 == ask(opened, query(opened, "names"))[0]
        assert 403 == ask(opened, "/names.json?" + query(opened, "names").partition("?")[2])[0]


def test_tokens_are_long_differ_and_are_compared_in_constant_time(
    server: BoardServer, live: LiveClass, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By the standard library's comparison."""
    other = BoardServer(Board(live.folder), with_names=True)
    tokens = {query(d, kind).partition("token=")[2] for d in (server, other) for kind in ("wall", "names")}
    other._server.server_close()
    assert 4 == len(tokens)
    assert min(map(len, tokens)) >= 24
    seen: list[bytes] = []
    monkeypatch.setattr("secrets.compare_digest", lambda a, b: seen.append(a) or a == b)
    assert Page("wall", "right").opens("right")
    assert not Page("wall", "right").opens("wrong")
    assert [b"right", b"wrong"] == seen


@pytest.mark.parametrize(
    "host", ["", "example.org", "example.org:{port}", "127.0.0.1", "127.0.0.1:1", "127.0.0.1.example.org:{port}"]
)
def test_a_foreign_host_is_refused(server: BoardServer, host: str) -> None:
    """A page elsewhere that points its own name at this computer gets nothing, even with the token."""
    status, _, content = ask(server, query(server), host=host.format(port=server.port))
    assert 403 == status
    assert b"Start here" not in content


def test_localhost_is_this_computer(server: BoardServer) -> None:
    """Either name will do."""
    assert 200 == ask(server, query(server), host=f"localhost:{server.port}")[0]


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND"])
def test_it_can_only_be_read(server: BoardServer, method: str) -> None:
    """Every other method is refused, with the token too."""
    status, headers, _ = ask(server, query(server), method=method)
    assert 405 == status
    assert "GET, HEAD" == headers["Allow"]


def test_head_has_no_content(server: BoardServer) -> None:
    """The headers alone."""
    status, headers, content = ask(server, query(server), method="HEAD")
    assert (200, b"") == (status, content)
    assert int(headers["Content-Length"]) > 1000


@pytest.mark.parametrize(
    "path",
    [
        "/../../etc/passwd",
        "/%2e%2e/%2e%2e/etc/passwd",
        "//etc/passwd",
        "/board.py",
        "/names/../",
        "/logbook",
        "http://x/",
        "*",
    ],
)
def test_no_path_leads_to_a_file(server: BoardServer, path: str) -> None:
    """There are four addresses and no files."""
    token = query(server).partition("?")[2]
    status, _, content = ask(server, f"{path}?{token}")
    assert status in (200, 403)
    assert (b"Start here" in content) == (status == 200)
    assert b"root:" not in content


def test_a_lesson_that_is_none_is_refused_and_not_repeated(server: BoardServer) -> None:
    """What was asked for is not sent back."""
    status, _, content = ask(server, f"{query(server)}&lesson=%3Cscript%3E")
    assert 404 == status
    assert b"script" not in content
    assert 200 == ask(server, f"{query(server)}&lesson=all")[0]
    assert 200 == ask(server, f"{query(server)}&lesson=star")[0]


def test_every_answer_is_guarded(server: BoardServer) -> None:
    """Nothing is stored, framed, guessed or fetched from elsewhere; the server does not say what it is built on."""
    for path in (query(server), "/", query(server, "names"), "/wall.json" + query(server)[1:]):
        _, headers, _ = ask(server, path)
        assert "no-store" == headers["Cache-Control"]
        assert "no-referrer" == headers["Referrer-Policy"]
        assert "nosniff" == headers["X-Content-Type-Options"]
        rules = headers["Content-Security-Policy"]
        assert rules.startswith("default-src 'none'; style-src 'sha256-")
        assert "frame-ancestors 'none'" in rules
        assert "unsafe" not in rules
        assert "Python" not in headers["Server"]


def test_rubbish_on_the_line_is_answered_and_harms_nobody(server: BoardServer) -> None:
    """No request, half a request, a request too long; the next one is served."""
    for sent in (
        b"\r\n",
        b"GET\r\n\r\n",
        b"\x16\x03\x01\x00",
        b"GET /" + b"a" * 70_000 + b" HTTP/1.1\r\n\r\n",
        b"GET / HTTP/9.9\r\n\r\n",
    ):
        with socket.create_connection((server.host, server.port), timeout=5) as line:
            line.sendall(sent)
            line.shutdown(socket.SHUT_WR)
            assert b"Traceback" not in line.recv(65_536)
    assert 200 == ask(server, query(server))[0]


def test_news_come_only_when_there_are_some(server: BoardServer, live: LiveClass) -> None:
    """204 for the version one has; the fragment when a new answer is there."""
    path = "/wall.json" + query(server)[1:]
    status, _, content = ask(server, path)
    assert 200 == status
    version = json.loads(content)["version"]
    assert ask(server, f"{path}&since={version}")[0] in (200, 204)
    assert 204 == ask(server, f"{path}&since={json.loads(ask(server, path)[2])['version']}")[0]
    live.answer(live.ids[1], NUMBER)
    until(lambda: json.loads(ask(server, path)[2])["version"].split(".")[0] != version.split(".")[0], 5)
    assert 200 == ask(server, f"{path}&since={version}")[0]


def test_a_taken_port_gives_the_next(live: LiveClass) -> None:
    """Two boards at once stand beside each other."""
    with BoardServer(Board(live.folder)) as first, BoardServer(Board(live.folder), port=first.port) as second:
        assert first.port < second.port <= first.port + 50
        assert 200 == ask(second, query(second))[0]


def test_a_name_is_no_host(live: LiveClass) -> None:
    """A name could be pointed elsewhere."""
    with pytest.raises(BadInput, match="must be one address"):
        BoardServer(Board(live.folder), host="classroom.example")


def test_a_board_that_cannot_read_on_says_so(server: BoardServer, monkeypatch: pytest.MonkeyPatch) -> None:
    """The wall says where to look, the names say what; when it works again both are quiet."""

    def broken() -> bool:
        raise RuntimeError("odd share")

    path, names = "/wall.json" + query(server)[1:], query(server, "names").replace("/names", "/names.json")
    with monkeypatch.context() as patch:
        patch.setattr(server.board, "refresh", broken)
        until(lambda: "The board has a problem" in shown(server, path), 5)
        assert "odd share" not in shown(server, path)
        assert "could not read on (RuntimeError: odd share)" in shown(server, names)
    until(lambda: "The board has a problem" not in shown(server, path), 5)


def test_codes_that_cannot_be_written_are_told(live: LiveClass, tmp_path: Path) -> None:
    """The board goes on; nothing is lost but the file."""
    (tmp_path / "gone").mkdir()
    board = Board(live.folder, codes=tmp_path / "gone" / "codes.csv")
    (tmp_path / "gone").rmdir()
    with BoardServer(board, with_names=True) as opened:
        until(lambda: "check codes cannot be written" in board.trouble, 10)
        assert 200 == ask(opened, query(opened))[0]


def test_stopping_writes_the_codes(live: LiveClass, tmp_path: Path) -> None:
    """What was noted last is not lost."""
    codes = tmp_path / "codes.csv"
    board = Board(live.folder, codes=codes)
    with BoardServer(board):
        until(lambda: board.ready and codes.exists())
        line = live.answer(live.ids[1], NUMBER)
        until(lambda: line.record is not None and live.ids[1].casefold() in board.board.people)
    assert live.ids[1] in codes.read_text(encoding="utf-8")


def shown(server: BoardServer, path: str) -> str:
    """The fragment at a path."""
    return str(json.loads(ask(server, path)[2])["html"])


@pytest.mark.slow
def test_two_hundred_workbooks_written_live(tmp_path: Path) -> None:
    """While two hundred learners write, a new answer is on the page within three seconds; nothing but their own lines changes."""
    live = LiveClass(tmp_path / "share", learners=200)
    chance = Random(7)
    for learner in live.ids[:199]:
        live.answer(learner, "start.several", right=chance.random() < 0.5)
    last = live.ids[199]
    stop, written, bare = threading.Event(), [0], {p: p.stat().st_mtime_ns for p in live.folder.glob("*/workbook.toml")}

    def simulate() -> None:
        while not stop.wait(0.05):
            who = chance.choice(live.ids[:199])
            live.answer(who, chance.choice(["safe.dust", "safe.fluid", "safe.stands"]), right=chance.random() < 0.6)
            written[0] += 1

    with BoardServer(Board(live.folder)) as server:
        until(lambda: server.board.ready, 60)
        simulator = threading.Thread(target=simulate)
        simulator.start()
        try:
            path = f"/wall.json{query(server)[1:]}&lesson=start"
            for exercise in (NUMBER, "start.order"):
                row = f">{exercise_named(exercise).title}<"
                assert row not in shown(server, path)
                live.answer(last, exercise)
                assert until(lambda row=row: row in shown(server, path), 10) < 3
        finally:
            stop.set()
            simulator.join()
        lines = sum(len(p.read_bytes().splitlines()) for p in live.folder.glob("*/logbook/*.jsonl"))
    assert 199 + 2 + written[0] == lines
    assert bare == {p: p.stat().st_mtime_ns for p in live.folder.glob("*/workbook.toml")}
    beside = {p.suffix for p in live.folder.glob("*/logbook/*")}
    assert beside <= {".jsonl", ".lock"}
    assert [] == [p for p in live.folder.rglob("*") if p.name.endswith((".part", ".tmp"))]
