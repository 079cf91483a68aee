"""A photo without what it says beside the picture: no position, no time, no camera, no hidden preview, nothing after its end.

Pixels are not touched. Of a JPEG's own words only one stays, which way up it is held.
"""

import struct
from zlib import crc32

from bitepoint.errors import BadInput

MOST_BYTES = 20_000_000
_LARGEST_SIDE = 12_000
_PNG = b"\x89PNG\r\n\x1a\n"
_PNG_KEPT = (b"IHDR", b"PLTE", b"tRNS", b"IDAT", b"IEND")
_NO_PHOTO = "is no JPEG or PNG picture. Save it as one of them, then add it again."
_CUT_OFF = "is cut off or damaged. Copy it from the camera again."


def stripped(content: bytes) -> tuple[bytes, str]:
    """Return a photo without metadata, and its ending.

    Raises
    ------
    BadInput
        It is no photo, too large or damaged; says what is wrong, without the file's name.
    """
    if len(content) > MOST_BYTES:
        raise BadInput(f"is larger than {MOST_BYTES // 1_000_000} MB. Save it smaller, then add it again.")
    try:
        if content.startswith(b"\xff\xd8\xff"):
            return _jpeg(content), ".jpg"
        if content.startswith(_PNG):
            return _png(content), ".png"
    except (IndexError, struct.error):
        raise BadInput(_CUT_OFF) from None
    raise BadInput(_NO_PHOTO)


def _check_size(width: int, height: int) -> None:
    if not (0 < width <= _LARGEST_SIDE and 0 < height <= _LARGEST_SIDE):
        raise BadInput(f"is {width} by {height} dots; at most {_LARGEST_SIDE} each way. Save it smaller.")


def _png(content: bytes) -> bytes:
    kept, at, seen = [_PNG], len(_PNG), set[bytes]()
    while True:
        (length,) = struct.unpack_from(">I", content, at)
        kind, end = content[at + 4 : at + 8], at + 12 + length
        chunk = content[at:end]
        if len(chunk) != 12 + length or crc32(chunk[4:-4]) != struct.unpack(">I", chunk[-4:])[0]:
            raise BadInput(_CUT_OFF)
        if kind == b"IHDR":
            _check_size(*struct.unpack_from(">II", chunk, 8))
        if kind in _PNG_KEPT:
            kept.append(chunk)
            seen.add(kind)
        if kind == b"IEND":
            break
        at = end
    if not {b"IHDR", b"IDAT"} <= seen:
        raise BadInput(_CUT_OFF)
    return b"".join(kept)


def _jpeg(content: bytes) -> bytes:
    kept, at, scanned, turned = [b"\xff\xd8"], 2, False, 1
    sized = False
    while True:
        if content[at] != 0xFF:
            raise BadInput(_CUT_OFF)
        while content[at + 1] == 0xFF:
            at += 1
        marker = content[at + 1]
        if marker == 0xD9:
            break
        (length,) = struct.unpack_from(">H", content, at + 2)
        end = at + 2 + length
        body = content[at + 4 : end]
        if length < 2 or end > len(content):
            raise BadInput(_CUT_OFF)
        if marker == 0xE1 and body.startswith(b"Exif\0\0"):
            turned = _orientation(body[6:]) or turned
        if 0xC0 <= marker <= 0xCF and marker not in (0xC4, 0xC8, 0xCC):
            height, width = struct.unpack_from(">HH", body, 1)
            _check_size(width, height)
            sized = True
        if marker == 0xDA:
            scanned = True
            end = _end_of_scan(content, end)
        if _stays(marker, body):
            kept.append(content[at:end])
        at = end
    if not scanned or not sized:
        raise BadInput(_CUT_OFF)
    if turned != 1:
        kept.insert(1, _turned_only(turned))
    return b"".join(kept) + b"\xff\xd9"


def _stays(marker: int, body: bytes) -> bool:
    """Whether a segment is needed to draw the picture: no application data but the plain head and the kind of colour, no comment."""
    if marker == 0xE0:
        return body.startswith(b"JFIF\0") and len(body) == 14
    if marker == 0xEE:
        return body.startswith(b"Adobe") and len(body) == 12
    return not (0xE1 <= marker <= 0xEF or marker in (0xFE, 0xF0, 0xFD))


def _end_of_scan(content: bytes, at: int) -> int:
    """Return where the marker after the picture's data stands; FF 00 and the restart marks belong to the data."""
    while True:
        at = content.find(b"\xff", at)
        if at < 0:
            raise BadInput(_CUT_OFF)
        if content[at + 1] not in (0x00, *range(0xD0, 0xD8)):
            return at
        at += 2


def _orientation(tiff: bytes) -> int | None:
    """Return which way up the picture is held, 1 to 8, by the first directory of its EXIF; None where it cannot be read."""
    order = {b"II": "<", b"MM": ">"}.get(tiff[:2])
    if order is None:
        return None
    try:
        (start,) = struct.unpack_from(f"{order}I", tiff, 4)
        (count,) = struct.unpack_from(f"{order}H", tiff, start)
        for place in range(min(count, 200)):
            tag, _, _, value = struct.unpack_from(f"{order}HHIH", tiff, start + 2 + 12 * place)
            if tag == 0x0112:
                return value if 1 <= value <= 8 else None
    except struct.error:
        return None
    return None


def _turned_only(turned: int) -> bytes:
    tiff = b"II*\0" + struct.pack("<IHHHIHHI", 8, 1, 0x0112, 3, 1, turned, 0, 0)
    body = b"Exif\0\0" + tiff
    return b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body
