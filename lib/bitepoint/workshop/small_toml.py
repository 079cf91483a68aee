"""Small TOML files that a person or a learner's folder brings: read within limits, whatever is in them.

The limits are counted in the text before it is taken apart: how deep a reader may nest, and how long a number it makes,
differs from one Python to the next.
"""

import os
import re
import stat
from codecs import BOM_UTF8
from pathlib import Path
from typing import TypeVar

import msgspec

from bitepoint.errors import BadInput

MAX_TOML = 200_000
_MAX_DIGITS = 300
_LONG_NUMBER = re.compile(rb"[0-9A-Fa-f_]{%d}" % (_MAX_DIGITS + 1))

T = TypeVar("T")


class TomlLimits(msgspec.Struct, frozen=True):
    """How much a file may hold: bytes, brackets that open, dots (a dotted key nests once a dot)."""

    bytes: int = MAX_TOML
    brackets: int = 500
    dots: int = 2_000


_A_FEW_KEYS = TomlLimits()


def decode_toml(content: bytes, kind: type[T], limits: TomlLimits = _A_FEW_KEYS) -> T:
    """Return what a TOML text says; a byte order mark, as some editors write one, is no part of it.

    Raises
    ------
    BadInput
        It is too big, too deep, no TOML, or not of this kind; says what is wrong, without the file's name.
    """
    content = content.removeprefix(BOM_UTF8)
    if len(content) > limits.bytes:
        raise BadInput(f"holds more than {limits.bytes // 1000} kB, too much for such a file")
    if content.count(b"[") + content.count(b"{") > limits.brackets:
        raise BadInput(f"holds more than {limits.brackets} brackets, too many for such a file")
    if content.count(b".") > limits.dots:
        raise BadInput(f"holds more than {limits.dots:,} dots, too many for such a file")
    if _LONG_NUMBER.search(content):
        raise BadInput(f"holds a number of more than {_MAX_DIGITS} digits")
    try:
        return msgspec.toml.decode(content, type=kind)
    except UnicodeDecodeError:
        raise BadInput("is not written in UTF-8") from None
    except RecursionError:
        raise BadInput("is nested too deeply") from None
    # A day that no month has is a plain ValueError of Python's own.
    except (msgspec.MsgspecError, ValueError, OverflowError) as error:
        raise BadInput(str(error)) from None


def read_toml_file(path: Path, kind: type[T], limits: TomlLimits = _A_FEW_KEYS) -> T:
    """Return what a TOML file says.

    Raises
    ------
    BadInput
        As decode_toml, or it is no file; says what is wrong, without the file's name.
    OSError
        It cannot be opened or read.
    """
    return decode_toml(small_file(path, limits.bytes), kind, limits)


def small_file(path: Path, most: int = MAX_TOML) -> bytes:
    """Read a file, but at most just above so many bytes; a pipe is not waited for.

    Raises
    ------
    BadInput
        It is no file.
    OSError
        It cannot be opened or read.
    """
    descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    if not stat.S_ISREG(os.fstat(descriptor).st_mode):
        os.close(descriptor)
        raise BadInput("is a folder, a pipe or a device, not a file")
    with os.fdopen(descriptor, "rb") as file:
        return file.read(most + 1)
