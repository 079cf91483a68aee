"""Logbook files under bad conditions: crash, torn end, two writers, no rights, full disk."""

import errno
import os
import resource
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from filelock import FileLock

from bitepoint.errors import BadData, NotRecorded
from bitepoint.logbook import chain_file
from bitepoint.logbook.book import Logbook, read_file, read_folder
from bitepoint.logbook.record import chain_problems

FIELDS: dict[str, Any] = {
    "at": "2026-04-14T08:00:00.000Z",
    "learner": "L01-X",
    "class": "oak-2026",
    "device": "0a1b2c3d",
    "exercise": "star.six-bolts",
    "revision": 1,
    "turn": 1,
    "facts": "5c2dbcd5910b59bf",
    "how": "drill",
    "answer": "1 4 2 5 3 6",
}
WRITER = f"""
import sys
from pathlib import Path
from bitepoint.logbook.book import Logbook
book = Logbook(Path(sys.argv[1]), lesson="star", device="0a1b2c3d")
for _ in range(1000):
    print(book.append({FIELDS!r}).record.hash, flush=True)
"""
APPEND_ONCE = f"""
import sys
from pathlib import Path
from bitepoint.errors import NotRecorded
from bitepoint.logbook.book import Logbook
try:
    Logbook(Path(sys.argv[1]), lesson="star", device="0a1b2c3d").append({FIELDS!r})
except NotRecorded as error:
    print(error)
"""


def logbook(folder: Path) -> Logbook:
    """Return the logbook that the tests write."""
    return Logbook(folder, lesson="star", device="0a1b2c3d")


def test_lines_are_numbered_and_chained(tmp_path: Path) -> None:
    """Three answers make a file whose chain holds."""
    found = [logbook(tmp_path).append(FIELDS) for _ in range(3)]

    assert [line.record.n for line in found if line.record] == [1, 2, 3]
    assert found == logbook(tmp_path).lines()
    assert chain_problems(found) == []


def test_a_logbook_that_is_not_there_has_no_lines(tmp_path: Path) -> None:
    """Nothing was answered yet."""
    assert (logbook(tmp_path).lines(), read_folder(tmp_path)) == ([], {})


def test_a_torn_last_line_is_set_aside(tmp_path: Path) -> None:
    """The half line goes into a file of its own, the next answer follows the last whole line."""
    mine = logbook(tmp_path)
    first = mine.append(FIELDS)
    with open(mine.path, "ab") as file:
        file.write(b'{"n":2,"at":"2026-')

    assert [first] == mine.lines()
    second = mine.append(FIELDS)

    assert [first, second] == mine.lines()
    assert chain_problems(mine.lines()) == []
    assert [p.read_bytes() for p in mine.path.parent.glob("*.torn-*")] == [b'{"n":2,"at":"2026-']


def test_a_workbook_that_is_gone_is_not_made_again(tmp_path: Path) -> None:
    """The answer is refused in one sentence; no folder appears."""
    with pytest.raises(NotRecorded, match="the course folder work was moved, renamed or deleted"):
        logbook(tmp_path / "work").append(FIELDS)
    assert [] == list(tmp_path.iterdir())


@pytest.mark.parametrize("link", ["logbook", "logbook/star.0a1b2c3d.jsonl", "logbook/star.0a1b2c3d.lock"])
def test_nothing_is_written_through_a_link(tmp_path: Path, link: str) -> None:
    """A link in a stranger's folder leads to another file, which stays as it is."""
    other = tmp_path / "letter"
    path = tmp_path / "work" / link
    path.parent.mkdir(parents=True)
    if link == "logbook":
        other.mkdir()
    else:
        other.write_text("dear", encoding="utf-8")
    path.symlink_to(other)
    with pytest.raises(NotRecorded, match=f"{path.name} is a link to another place"):
        logbook(tmp_path / "work").append(FIELDS)
    assert [] == list(other.iterdir()) if link == "logbook" else other.read_text(encoding="utf-8") == "dear"


def test_a_line_of_noise_breaks_no_later_answer(tmp_path: Path) -> None:
    """An unreadable line in the middle is reported by the chain; the next answer is recorded all the same."""
    mine = logbook(tmp_path)
    mine.append(FIELDS)
    with open(mine.path, "ab") as file:
        file.write(b"\xff\x00noise\n")
    after = mine.append(FIELDS)

    assert after == mine.lines()[-1]
    assert chain_problems(mine.lines()) == ["Line 2: cannot be read."]


def test_a_line_longer_than_a_block_is_found_again(tmp_path: Path) -> None:
    """Reading backward over blocks of 64 kB finds the start of a long last line."""
    mine = logbook(tmp_path)
    mine.append({**FIELDS, "note": "x" * 200_000})
    mine.append(FIELDS)

    assert chain_problems(mine.lines()) == []


def test_a_held_logbook_is_one_clear_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another program that keeps the lock leads to one sentence, and nothing is written."""
    monkeypatch.setattr(chain_file, "_LOCK_SECONDS", 0.05)
    mine = logbook(tmp_path)
    mine.append(FIELDS)
    before = mine.path.read_bytes()
    with FileLock(mine.path.with_suffix(".lock"), is_singleton=False), pytest.raises(NotRecorded) as raised:
        mine.append(FIELDS)

    assert (
        str(raised.value)
        == "Your answer was not recorded: star.0a1b2c3d.jsonl is held by another program. Answer once more."
    )
    assert before == mine.path.read_bytes()


def test_two_writers_killed_at_work_lose_no_acknowledged_line(tmp_path: Path) -> None:
    """Three times: two processes append, both are killed with no warning; every acknowledged line is there, once."""
    acknowledged: list[str] = []
    for round_ in range(3):
        outputs = [tmp_path / f"ack-{round_}-{i}" for i in range(2)]
        writers = [_start_writer(tmp_path, output) for output in outputs]
        _wait_for(outputs, 60 + 37 * round_)
        for writer in writers:
            os.kill(writer.pid, signal.SIGKILL)
        for writer in writers:
            writer.wait()
        for output in outputs:
            whole = output.read_text(encoding="ascii").splitlines(keepends=True)
            acknowledged += [line.strip() for line in whole if line.endswith("\n")]
    last = logbook(tmp_path).append(FIELDS)
    lines = logbook(tmp_path).lines()
    hashes = [line.record.hash for line in lines if line.record]

    assert chain_problems(lines) == []
    assert set() == set(acknowledged) - set(hashes)
    assert len(set(hashes)) == len(hashes)
    assert last == lines[-1]
    assert len(acknowledged) > 180


def _start_writer(folder: Path, output: Path) -> "subprocess.Popen[bytes]":
    with open(output, "wb") as file:
        return subprocess.Popen([sys.executable, "-c", WRITER, str(folder)], stdout=file, stderr=subprocess.DEVNULL)


def _wait_for(outputs: list[Path], lines: int) -> None:
    """Wait until each writer has acknowledged some and both together so many lines."""
    until = time.monotonic() + 30
    while time.monotonic() < until:
        counts = [output.read_bytes().count(b"\n") for output in outputs]
        if min(counts) > 5 and sum(counts) >= lines:
            return
        time.sleep(0.02)
    raise AssertionError(f"the writers did not get to {lines} lines in 30 s")


def test_a_full_disk_is_one_clear_line_and_leaves_the_rest(tmp_path: Path) -> None:
    """With room for half a line more, the answer is refused, and the file ends after the last whole line."""
    mine = logbook(tmp_path)
    for _ in range(3):
        mine.append(FIELDS)
    before = mine.path.read_bytes()
    limit = len(before) + 100

    def no_more() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    done = subprocess.run(
        [sys.executable, "-c", APPEND_ONCE, str(tmp_path)],
        capture_output=True,
        check=True,
        encoding="utf-8",
        preexec_fn=no_more,
    )

    assert done.stdout == (
        "Your answer was not recorded: star.0a1b2c3d.jsonl cannot be written (File too large). "
        "Make room on the disk or move the course folder to a place where you may write, then answer again.\n"
    )
    assert done.stderr == ""
    assert before == mine.path.read_bytes()
    mine.append(FIELDS)
    assert chain_problems(mine.lines()) == []


def test_a_folder_without_rights_is_one_clear_line(tmp_path: Path) -> None:
    """A logbook that may not be written is refused in one sentence, and stays as it was."""
    mine = logbook(tmp_path)
    mine.append(FIELDS)
    before = mine.path.read_bytes()
    os.chmod(mine.path, 0o444)
    os.chmod(mine.path.parent, 0o555)
    try:
        done = subprocess.run(
            [*_without_root(), sys.executable, "-c", APPEND_ONCE, str(tmp_path)],
            capture_output=True,
            check=True,
            encoding="utf-8",
        )
    finally:
        os.chmod(mine.path.parent, 0o755)

    assert done.stdout == (
        "Your answer was not recorded: star.0a1b2c3d.jsonl cannot be written (Permission denied). "
        "Make room on the disk or move the course folder to a place where you may write, then answer again.\n"
    )
    assert before == mine.path.read_bytes()


def _without_root() -> list[str]:
    """Return the start of a command that drops the rights by which root may write anywhere; none is needed by others."""
    if os.geteuid() != 0:
        return []
    setpriv = shutil.which("setpriv")
    if setpriv is None:
        if os.environ.get("CI") == "true":
            pytest.fail("setpriv is missing, so a folder without rights cannot be tested as root")
        pytest.skip("as root without setpriv nothing is forbidden")
    return [setpriv, "--bounding-set=-dac_override,-dac_read_search", "--inh-caps=-all"]


def test_several_devices_have_a_file_each(tmp_path: Path) -> None:
    """The folder gives each file by name; a folder in place of a file is left alone."""
    for device in ("aaaaaaaa", "bbbbbbbb"):
        Logbook(tmp_path, lesson="star", device=device).append(FIELDS)
    (tmp_path / "logbook" / "star.x.jsonl").mkdir()

    assert list(read_folder(tmp_path, "star")) == ["star.aaaaaaaa.jsonl", "star.bbbbbbbb.jsonl"]
    assert read_folder(tmp_path, "torque") == {}


def test_a_logbook_that_a_share_does_not_give_is_one_clear_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A share that fell away while a card is shown is told in a sentence; nothing of the logbook is touched."""
    mine = logbook(tmp_path)
    mine.append(FIELDS)

    def gone(*_: object, **__: object) -> None:
        raise OSError(errno.ESTALE, os.strerror(errno.ESTALE))

    monkeypatch.setattr(chain_file, "open", gone, raising=False)
    with pytest.raises(
        BadData, match=r"star\.0a1b2c3d\.jsonl cannot be read \(Stale file handle\)\. Is the stick or share"
    ):
        read_folder(tmp_path)


def test_a_byte_order_mark_costs_no_line(tmp_path: Path) -> None:
    """An editor that saved the logbook put one before the first line: all are read, and the next answer follows."""
    mine = logbook(tmp_path)
    first = mine.append(FIELDS)
    mine.path.write_bytes(b"\xef\xbb\xbf" + mine.path.read_bytes())
    second = mine.append(FIELDS)

    assert [first, second] == mine.lines()
    assert chain_problems(mine.lines()) == []


def test_lines_with_the_line_ends_of_another_system_are_read(tmp_path: Path) -> None:
    """A logbook that went through a program that turns line ends is still whole."""
    mine = logbook(tmp_path)
    lines = [mine.append(FIELDS) for _ in range(2)]
    mine.path.write_bytes(mine.path.read_bytes().replace(b"\n", b"\r\n"))

    assert lines == list(read_file(mine.path))
