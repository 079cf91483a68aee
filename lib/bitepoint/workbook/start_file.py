"""A file to double-click in the workbook: it opens the course without a word typed."""

import contextlib
import os
import shlex
import sys
from pathlib import Path

from bitepoint.logbook.one_step import write_in_one_step

_NAME = "Open my course"


def start_file(platform: str = sys.platform, python: str = sys.executable) -> tuple[str, str]:
    """Return name and text of the file for a platform. It finds the workbook from where it lies itself."""
    if platform == "win32":
        quoted = python.replace("%", "%%")
        # The dot keeps the closing quote from being escaped by the folder's last backslash.
        start = f'"{quoted}" -P -m bitepoint open "%~dp0."'
        lines = ["@echo off", "chcp 65001 >nul", start, "if errorlevel 1 pause"]
        return f"{_NAME}.bat", "\r\n".join(lines) + "\r\n"
    suffix = "command" if platform == "darwin" else "sh"
    lines = [
        "#!/bin/sh",
        f'exec {shlex.quote(python)} -P -m bitepoint open "$(dirname "$0")"',
    ]
    return f"{_NAME}.{suffix}", "\n".join(lines) + "\n"


def write_start_file(folder: Path) -> Path:
    """Write the file of this machine into a workbook, over the one of an earlier time.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    name, text = start_file()
    path = folder / name
    if not path.is_file() or path.read_bytes() != text.encode("utf-8"):
        write_in_one_step(path, text.encode("utf-8"))
    if os.name == "posix":
        # A memory stick may know no such right; the course opens all the same.
        with contextlib.suppress(OSError):
            path.chmod(0o755)
    return path
