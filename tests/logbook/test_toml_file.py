"""Small TOML files of a person: read within limits of bytes, brackets and digits, whatever is in them."""

import os
from pathlib import Path

import pytest

from bitepoint.errors import BadInput
from bitepoint.logbook.toml_file import MAX_TOML, decode_toml, read_toml_file

DEEP = b"x = " + b"[" * 5_000 + b"]" * 5_000


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"number = " + b"9" * 5_000, "holds a number of more than 300 digits"),
        (b"number = 0x" + b"f" * 5_000, "holds a number of more than 300 digits"),
        (b"number = 1" + b"_1" * 5_000, "holds a number of more than 300 digits"),
        (b"number = 1e" + b"9" * 5_000, "holds a number of more than 300 digits"),
        (DEEP, "holds more than 500 brackets"),
        (b"x = " + b"{x=" * 5_000, "holds more than 500 brackets"),
        (b".".join([b"x"] * 5_000) + b" = 1", "holds more than 2,000 dots"),
        (b"#" * (MAX_TOML + 1), "holds more than 200 kB"),
        (b"\xff", "is not written in UTF-8"),
        (b'a = "\\ud800"', "a"),
        (b"a = 1\na = 2", "Cannot overwrite a value"),
        (b"a = 2026-02-30", "a"),
    ],
    ids=["digits", "hex", "underlines", "exponent", "lists", "tables", "dots", "bytes", "utf8", "half", "twice", "day"],
)
def test_a_file_that_is_made_to_break_the_reader_is_one_line(tmp_path: Path, content: bytes, said: str) -> None:
    """It is refused before it is taken apart, or in one sentence after."""
    (tmp_path / "class.toml").write_bytes(content)

    with pytest.raises(BadInput) as refused:
        decode_toml(content, dict)
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)
    with pytest.raises(BadInput):
        read_toml_file(tmp_path / "class.toml", dict)


def test_an_ordinary_file_is_read() -> None:
    """Words with brackets, dots and long numbers in quotes too."""
    found = decode_toml(b'title = "K7 [day] 0123456789012345678901234567890"\nlist = ["a.b", "c"]', dict)

    assert found == {"title": "K7 [day] 0123456789012345678901234567890", "list": ["a.b", "c"]}


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    """Nor is a folder read as a file."""
    os.mkfifo(tmp_path / "class.toml")

    for path in (tmp_path / "class.toml", tmp_path):
        with pytest.raises(BadInput, match="is a folder, a pipe or a device, not a file"):
            read_toml_file(path, dict)
    with pytest.raises(FileNotFoundError):
        read_toml_file(tmp_path / "none.toml", dict)
