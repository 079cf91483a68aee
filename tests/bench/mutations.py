"""Damage to files: what a disk, an editor, a spreadsheet or a person with bad intent does to them."""

from random import Random

PIECES = (
    *(
        b"9" * 5_000,
        b"[" * 5_000,
        b"{a=" * 200,
        b"9" * 19,
        b"-1",
        b"1e999",
        b"nan",
        b"-inf",
        b"0x" + b"f" * 400,
        b"1_0",
    ),
    *(
        b"[",
        b"]",
        b"{",
        b"}",
        b'"',
        b"'",
        b'"""',
        b"\\",
        b",",
        b";",
        b":",
        b"=",
        b".",
        b"#",
        b"null",
        b"[]",
        b"{}",
        b'""',
    ),
    *(b"\n", b"\r", b"\r\n", b"\t", b"\x00", b"\x1b[2J", b"\xff", b"\xef\xbb\xbf", b"\xe2\x80\xae", b"\xe2\x80\xa8"),
    *(
        b"\\ud800",
        b"\\u0000",
        b"\\u202e",
        b"\xc5\xbf",
        b"\xe2\x84\xaa",
        b"../",
        b"C:\\",
        b"con",
        b"unknown-",
        b"a" * 500,
    ),
    *(b"2026-02-30", b"0001-01-01T00:00:00+23:59", b"9999-12-31T23:59:59-23:59", b"override", b"deletion", b"score"),
)
_ENDS = (b",", b"\n", b'"', b"}")
_BEGINS = (b":", b"=", *_ENDS[:3])


def mutated(content: bytes, random: Random) -> bytes:
    """Return a file with one to six damages: bits, pieces, cuts, copies, other values, lines out of order."""
    data = content
    for _ in range(random.choice((1, 1, 1, 2, 3, 6))):
        at = random.randrange(len(data) + 1)
        data = random.choice(_DAMAGES)(data, at, random)
    return data[:400_000]


def _bit(data: bytes, at: int, random: Random) -> bytes:
    if at == len(data):
        return data
    return data[:at] + bytes([data[at] ^ 1 << random.randrange(8)]) + data[at + 1 :]


def _piece(data: bytes, at: int, random: Random) -> bytes:
    return data[:at] + random.choice(PIECES) + data[at:]


def _cut_out(data: bytes, at: int, random: Random) -> bytes:
    return data[:at] + data[at + random.choice((1, 2, 5, 20, 200)) :]


def _cut_off(data: bytes, at: int, random: Random) -> bytes:
    return data[:at]


def _copied(data: bytes, at: int, random: Random) -> bytes:
    return data[:at] + data[at : at + random.choice((1, 4, 30))] * random.choice((2, 10, 60)) + data[at:]


def _other_value(data: bytes, at: int, random: Random) -> bytes:
    begin = max(data.rfind(mark, 0, at) for mark in _BEGINS) + 1
    end = min((e for mark in _ENDS if (e := data.find(mark, at)) >= 0), default=len(data))
    return data[:begin] + random.choice(PIECES) + data[end:]


def _shuffled(data: bytes, at: int, random: Random) -> bytes:
    lines = data.split(b"\n")
    random.shuffle(lines)
    return b"\n".join(lines)


_DAMAGES = (_bit, _piece, _piece, _cut_out, _cut_off, _copied, _other_value, _other_value, _shuffled)
