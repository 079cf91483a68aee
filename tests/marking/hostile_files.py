"""Small generators of hand-ins that were made, or fell, to stop a run or to cost it much."""

import io
import json
import zipfile
from pathlib import Path

from test_bad_hand_ins import fields, logbook, notebook, zipped

from bitepoint.bank import exercises
from bitepoint.logbook.record import write_line


def own_line(n: int, **changes: object) -> str:
    """Return one line of a learner who is nobody's neighbour; its question is none that was ever asked."""
    return write_line(fields(learner="L50-A", turn=n, facts="0" * 16, answer="x", **changes), n=n, prev="0" * 32)


def changed_lines(count: int) -> bytes:
    """Return a logbook of so many lines whose question nobody was asked."""
    return "".join(f"{own_line(n)}\n" for n in range(1, count + 1)).encode("ascii")


def long_answers(count: int, exercise: str = "star.printed-order") -> bytes:
    """Return a logbook of so many answers of 4,000 characters to a question that was asked: the dearest to mark."""
    asked = exercises()[exercise]
    lines = []
    for n in range(1, count + 1):
        facts = asked.draw(class_word="oak-2026", learner="L50-A", turn=n).facts_digest()
        said = {"exercise": asked.id, "turn": n, "facts": facts, "answer": "1>2 " * 1_000, "revision": asked.revision}
        lines.append(write_line(fields(learner="L50-A", **said), n=n, prev="0" * 32))
    return "".join(f"{line}\n" for line in lines).encode("ascii")


def numbers_right_for_nobody(count: int) -> bytes:
    """Return a logbook of so many wrong figures that no known mistake explains: each is compared with the others'."""
    asked = exercises()["start.number"]
    lines = []
    for n in range(1, count + 1):
        facts = asked.draw(class_word="oak-2026", learner="L50-A", turn=n).facts_digest()
        said = {"exercise": asked.id, "turn": n, "facts": facts, "answer": f"{100_000 + n}", "revision": asked.revision}
        lines.append(write_line(fields(learner="L50-A", **said), n=n, prev="0" * 32))
    return "".join(f"{line}\n" for line in lines).encode("ascii")


def empty_name() -> bytes:
    """Return a zip of one entry without a name."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("x", b"")
    return _nameless(packed.getvalue())


def _nameless(packed: bytes) -> bytes:
    """Take the one-letter name of the one entry out of both places, and set the lengths and the offset to it."""
    content = bytearray(packed)
    table = content.index(b"PK\x01\x02")
    del content[table + 46], content[30]
    table -= 1
    content[26:28] = content[table + 28 : table + 30] = b"\x00\x00"
    end = content.index(b"PK\x05\x06")
    content[end + 12 : end + 20] = (end - table).to_bytes(4, "little") + table.to_bytes(4, "little")
    return bytes(content)


def flipped_notebook() -> bytes:
    """Return a notebook with one flipped byte in the string of a record."""
    whole = notebook({"lines": [logbook().decode("ascii").strip()]})
    at = whole.index(b"oak-2026")
    return whole[:at] + bytes([whole[at] ^ 0x80]) + whole[at + 1 :]


def many_inner(count: int, content: bytes) -> bytes:
    """Return a zip of so many zips, each with one logbook or notebook."""
    inner = zipped(a_ipynb=content)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for n in range(count):
            archive.writestr(f"{n}.zip", inner)
    return packed.getvalue()


def bad_names(count: int) -> bytes:
    """Return a zip whose every entry leads out of it, under a name that moves the cursor."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        for n in range(count):
            archive.writestr(f"../\x1b[2J{n}\u202e", b"")
    return packed.getvalue()


def damaged_notebook(size: int, part: bytes) -> bytes:
    """Return a notebook of so many bytes that is cut off, full of one part."""
    return b'{"nbformat":4,"cells":[' + part * (size // len(part))


CELLS = b'{"outputs":[{"data":{}}]},'
SHORT_LINES = b'"{\\"n\\":1}",'
ITEMS = b"1,"


def record_of_items(size: int) -> bytes:
    """Return a whole notebook with one record of very many items."""
    return notebook({"lines": "@"}).replace(b'"@"', b"[" + ITEMS * (size // 2) + b"1]")


def workbook(folder: Path, toml: bytes, *, learner: str = "L51-B") -> Path:
    """Write a workbook folder with one right answer and this workbook.toml."""
    (folder / "logbook").mkdir(parents=True)
    (folder / "workbook.toml").write_bytes(toml)
    (folder / "logbook" / "star.0a1b2c3d.jsonl").write_bytes(logbook(fields(learner=learner)))
    return folder


def hostile_folder(folder: Path) -> list[str]:
    """Write every kind into a folder; return the names, each of one source."""
    files = {
        "nameless.zip": empty_name(),
        "flipped.ipynb": flipped_notebook(),
        "inner.zip": many_inner(20, bytes(60_000_000)),
        "inner-damaged.zip": many_inner(20, damaged_notebook(15_000_000, SHORT_LINES)),
        "names.zip": bad_names(2_000),
        "damaged.zip": zipped(a_ipynb=damaged_notebook(60_000_000, SHORT_LINES)),
        "damaged.ipynb": damaged_notebook(30_000_000, SHORT_LINES),
        "cells.ipynb": damaged_notebook(15_000_000, CELLS),
        "items.ipynb": record_of_items(15_000_000),
        "changed.jsonl": changed_lines(8_000),
        "newlines.jsonl": b"\n" * 10_000_000,
        "noise.jsonl": b"x\n" * 2_000_000,
        "long.jsonl": b"x" * 20_000_000,
        "cut.zip": zipped(a_jsonl=logbook())[:-30],
        "none.zip": b"PK\x05\x06" + bytes(18),
        "empty.ipynb": b"",
        "turned\u202egpj.zip": b"x",
        "line\nbreak\x1b[2J.jsonl": b"\xff\n",
        "odd-type.jsonl": (json.dumps({"n": 1, "hash": "x" * 32}) + "\n").encode(),
    }
    for name, content in files.items():
        (folder / name).write_bytes(content)
    folders = {
        "digits": b"n = " + b"9" * 5_000,
        "deep": b"n = " + b"[" * 5_000 + b"]" * 5_000,
        "hex": b"learner = 0x" + b"f" * 5_000,
        "half": b'learner = "\\ud800"',
        "latin": b'learner = "\xff"',
    }
    for name, toml in folders.items():
        workbook(folder / name, toml)
    (folder / "loop").symlink_to(folder / "loop")
    return [*files, *folders, "loop"]
