"""Jobs and photos for the tests of this folder."""

import struct
from datetime import date
from pathlib import Path
from zlib import compress, crc32

from bitepoint.job.opening import NewJob, open_on_sheet
from bitepoint.job.tightening import Wrench
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet
from bitepoint.workshop.questioning.checking import answer_question, open_questions, record_check

OWN = Path(__file__).parents[1] / "own_sheets" / "k7v.toml"
PERSONAL = {
    "customer": "Wilhelmina Quist",
    "telephone": "+43 660 555 0177",
    "registration": "ZZ-417 KV",
    "vin": "ZZ0LKT22PFD071999",
}
WRENCH = Wrench(
    name="wrench 2", calibrated=date(2026, 1, 12), due=date(2027, 1, 12), lowest_nm=20, highest_nm=100, lever_mm=410
)
DAY = date(2026, 11, 29)


def checked_sheet(folder: Path, text: str | None = None) -> Path:
    """Return an own sheet that a second person has checked."""
    path = folder / "k7v.toml"
    path.write_text(text or OWN.read_text(encoding="utf-8"), encoding="utf-8")
    for one in open_questions(read_own_sheet(path)):
        answer_question(path, one.key, by="A. Tutor", why="page 14, seen twice")
    record_check(path, "C. Second")
    return path


def new_job(folder: Path, *, personal: dict[str, str] | None = None, text: str | None = None) -> Path:
    """Return the folder of a job just begun."""
    job = folder / "job"
    said = NewJob(by="T. Prentice", complaint="It slips uphill in fourth", mileage_km=143_200)
    open_on_sheet(job, checked_sheet(folder, text), said, personal)
    return job


def png(*, more: bytes = b"") -> bytes:
    """Return a picture of two dots; `more` are further chunks."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 2, 1, 8, 2, 0, 0, 0))
    data = chunk(b"IDAT", compress(b"\0" + b"\x10\x20\x30" * 2))
    return b"\x89PNG\r\n\x1a\n" + head + more + data + chunk(b"IEND", b"")


def chunk(kind: bytes, body: bytes) -> bytes:
    """Return a chunk of a PNG."""
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", crc32(kind + body))
