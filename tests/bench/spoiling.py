"""Files cut off, zeroed and half copied, at every place: what is lost by it, and whether it is told in one clear line."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from attacks import clean
from breaking import FIELDS, Cut, logbook
from corpus import SHEET, class_files, job_files, zipped

from bitepoint.bank.own import template
from bitepoint.bank.own.reading import read_questions
from bitepoint.errors import BitepointError
from bitepoint.job.reading import read_job
from bitepoint.logbook.identity import read_identity
from bitepoint.logbook.record import chain_problems, read_line
from bitepoint.marking.reading.handins import find_sources, read_source
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import read_rules
from bitepoint.workbook.class_file import read_class_file
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet

BLOCK = 4096


def cut_logbooks(folder: Path) -> Cut:
    """Cut the last block off a logbook, or have it come back as zeros, at every place in it, and answer once more."""
    folder.mkdir()
    mine, lost, breaks, places = logbook(folder), 0, 0, 0
    while not mine.path.is_file() or mine.path.stat().st_size < 2 * BLOCK:
        mine.append(FIELDS)
    whole = mine.path.read_bytes()
    with _no_sync():
        for at in range(len(whole) - BLOCK, len(whole)):
            for left in (b"", b"\0" * BLOCK):
                mine.path.write_bytes(whole[:at] + left)
                mine.append(FIELDS)
                now = mine.path.read_bytes().splitlines()
                before = whole[: whole.rfind(b"\n", 0, at) + 1].splitlines()
                lost += len(before) - sum(a == b for a, b in zip(before, now, strict=False))
                breaks += bool(chain_problems(map(read_line, now)))
                places += 1
    return Cut(places, lost, breaks)


@contextmanager
def _no_sync() -> Iterator[None]:
    """What is tried here is what is read afterwards: thousands of lines need not reach the disk for it."""
    real, os.fsync = os.fsync, lambda descriptor: None
    try:
        yield
    finally:
        os.fsync = real


def spoilt_files(folder: Path) -> dict[str, tuple[int, int, int]]:
    """Return for each kind of file: places at which it was cut or ended in zeros, read all the same, one clear line."""
    folder.mkdir()
    found, questions = class_files(), template().encode("utf-8")
    read: dict[str, tuple[Callable[[Path], object], bytes]] = {
        "workbook.toml": (read_identity, found.workbook),
        "class.toml": (read_rules, found.class_file),
        "L01-X.toml": (read_class_file, found.class_file + b'learner = "ann"\n'),
        "roster.csv": (read_roster, found.roster),
        "k7v.toml": (read_own_sheet, SHEET.read_bytes()),
        "questions.toml": (read_questions, questions),
        "job.jsonl": (lambda path: read_job(path.parent), job_files()["job.jsonl"]),
        "personal.json": (lambda path: read_job(path.parent), job_files()["personal.json"]),
    }
    told: dict[str, tuple[int, int, int]] = {}
    for name, (reader, whole) in read.items():
        for other, content in job_files().items():
            (folder / other).parent.mkdir(exist_ok=True)
            (folder / other).write_bytes(content)
        places = [(len(whole) * n // 256, left) for n in range(256) for left in (b"", b"\0" * 64)]
        kept = sum(_is_read(folder / name, whole[:at] + left, reader) for at, left in places)
        told[name] = (len(places), kept, len(places) - kept)
    return told


def _is_read(path: Path, content: bytes, reader: Callable[[Path], object]) -> bool:
    """Whether a spoilt file is read all the same; if not, it must be one clear line, or this raises."""
    path.write_bytes(content)
    try:
        reader(path)
    except BitepointError as error:
        clean(str(error))
        return False
    return True


def half_copied(folder: Path) -> Cut:
    """Put a hand-in cut at every sixteenth, with and without zeros to its full length, beside a whole one, and read both."""
    folder.mkdir()
    found = class_files()
    whole = zipped({"workbook.toml": found.workbook, **found.logbooks})
    (folder / "whole.zip").write_bytes(whole)
    lines = sum(content.count(b"\n") for content in found.logbooks.values())
    places = lost = told = 0
    for sixteenth in range(16):
        for left in (b"", b"\0"):
            copied = whole[: len(whole) * sixteenth // 16]
            (folder / "half.zip").write_bytes(copied + left * (len(whole) - len(copied)))
            read = {h.name: h for source in find_sources([folder])[0] for h in read_source(source)}
            places, lost = places + 1, lost + lines - len(read["whole.zip"].lines)
            told += len(read["half.zip"].problems) == 1
    return Cut(places, lost, places - told)
