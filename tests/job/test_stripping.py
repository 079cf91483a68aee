"""Photos without metadata: pixels untouched, nothing of place, time and camera left, what is none refused in a line."""

import io
import struct
from collections.abc import Callable

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from bitepoint.errors import BadInput
from bitepoint.job.stripping import stripped

from .job_rooms import chunk, png

SECRET = b"N48.2082 E16.3738"


def photo(kind: str = "JPEG", **more: object) -> bytes:
    """Return a photo as a program writes it."""
    picture = Image.linear_gradient("L").convert("RGB").resize((64, 40))
    out = io.BytesIO()
    picture.save(out, kind, **more)
    return out.getvalue()


def with_position(**more: object) -> bytes:
    """Return a JPEG with a position, a camera, a comment, a profile, XMP, held sideways, something after its end."""
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010F] = "Camera of somebody"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (48.0, 12.0, 29.5)
    plain = photo(exif=exif.tobytes(), comment=SECRET, icc_profile=b"p" * 200, **more)
    xmp = b"http://ns.adobe.com/xap/1.0/\0" + SECRET
    segment = b"\xff\xe1" + struct.pack(">H", len(xmp) + 2) + xmp
    return plain[:2] + segment + plain[2:] + SECRET


def pixels(content: bytes) -> bytes:
    return Image.open(io.BytesIO(content)).convert("RGB").tobytes()


@pytest.mark.parametrize("more", [{}, {"progressive": True}, {"subsampling": 0, "quality": 95}])
def test_a_jpeg_keeps_its_pixels_and_which_way_up(more: dict[str, object]) -> None:
    """Position, camera, comment, profile, XMP and what lies behind the end are gone."""
    content = with_position(**more)
    assert SECRET in content
    clean, ending = stripped(content)
    found = Image.open(io.BytesIO(clean))
    assert ending == ".jpg"
    assert pixels(clean) == pixels(content)
    assert dict(found.getexif()) == {0x0112: 6}
    assert not found.getexif().get_ifd(0x8825)
    assert "icc_profile" not in found.info
    assert "comment" not in found.info
    for word in (SECRET, b"Camera", b"adobe.com"):
        assert word not in clean
    assert stripped(clean)[0] == clean


def test_a_jpeg_of_four_colours_is_still_read_right() -> None:
    """The segment that says the kind of colour stays."""
    out = io.BytesIO()
    Image.linear_gradient("L").convert("CMYK").save(out, "JPEG")
    assert pixels(stripped(out.getvalue())[0]) == pixels(out.getvalue())


@pytest.mark.parametrize("mode", ["RGB", "P", "RGBA", "L"])
def test_a_png_keeps_what_draws_it_alone(mode: str) -> None:
    """Text, time, EXIF and private chunks are gone, and so is what lies behind the end."""
    words = PngInfo()
    words.add_text("Comment", SECRET.decode())
    exif = Image.Exif()
    exif[0x010F] = "Camera of somebody"
    out = io.BytesIO()
    Image.linear_gradient("L").resize((30, 20)).convert(mode).save(out, "PNG", pnginfo=words, exif=exif)
    content = out.getvalue() + SECRET
    clean, ending = stripped(content)
    assert ending == ".png"
    assert pixels(clean) == pixels(content)
    assert SECRET not in clean
    assert b"Camera" not in clean
    assert stripped(clean)[0] == clean


def test_a_chunk_of_its_own_is_dropped() -> None:
    """Whatever another program hides in a PNG goes."""
    assert stripped(png(more=chunk(b"prVt", SECRET)))[0] == png()


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (lambda: b"", "is no JPEG or PNG picture"),
        (lambda: b"GIF89a" + b"\0" * 40, "is no JPEG or PNG picture"),
        (lambda: b"%PDF-1.7", "is no JPEG or PNG picture"),
        (lambda: b"\xff\xd8\xff", "is cut off or damaged"),
        (lambda: photo()[:-300], "is cut off or damaged"),
        (lambda: photo()[:40], "is cut off or damaged"),
        (lambda: b"\xff\xd8\xff\xd9", "is cut off or damaged"),
        (lambda: png()[:-14], "is cut off or damaged"),
        (lambda: png().replace(b"IDAT", b"IDAU"), "is cut off or damaged"),
        (lambda: png()[:8] + chunk(b"IEND", b""), "is cut off or damaged"),
        (lambda: png()[:8] + chunk(b"IHDR", struct.pack(">IIB", 90_000, 1, 8)), "is 90000 by 1 dots"),
        (lambda: b"\x89PNG\r\n\x1a\n" + b"\0" * 20_000_000, "is larger than 20 MB"),
    ],
)
def test_what_is_no_photo_is_refused_in_a_line(make: Callable[[], bytes], told: str) -> None:
    """Empty, another kind, cut off, damaged, too large."""
    with pytest.raises(BadInput, match=told) as raised:
        stripped(make())
    assert "\n" not in str(raised.value)


def test_every_cut_of_a_photo_is_refused_or_read() -> None:
    """Wherever a copy was cut off there is one line, and nothing else goes wrong."""
    for content in (with_position(), png()):
        for end in range(0, len(content) - len(SECRET) - 2, 7):
            with pytest.raises(BadInput):
                stripped(content[:end])
