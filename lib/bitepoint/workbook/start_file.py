"""Files to double-click that open the course without a word typed: in the workbook, and on the desktop where asked for.

They lie in the workbook, because that is the folder a learner is shown and hands about; a college's computers keep their
desktops to themselves, so nothing is put there unasked. The one in the workbook finds its folder from where it lies itself;
whatever stands elsewhere only calls it, so that a moved workbook is not begun anew where it was.
"""

import contextlib
import os
import re
import shlex
import sys
from hashlib import blake2b
from pathlib import Path

from bitepoint.logbook.one_step import write_in_one_step

_NAME = "Open my course"
_FIRST_FOLDER = "clutch-course"
_PAUSE = "[ -t 0 ] && { printf 'Press Enter to close this window. '; read -r _; }"


def start_file(platform: str = sys.platform, python: str = sys.executable) -> tuple[str, str]:
    """Return name and text of the file for a platform. It finds the workbook from where it lies itself."""
    if platform == "win32":
        quoted = python.replace("%", "%%")
        # The dot keeps the closing quote from being escaped by the folder's last backslash.
        start = f'"{quoted}" -P -m bitepoint open "%~dp0."'
        return f"{_NAME}.bat", _windows(start)
    suffix = "command" if platform == "darwin" else "sh"
    start = f'{shlex.quote(python)} -P -m bitepoint open "$(dirname "$0")" && exit'
    # A window that closes at once takes the reason with it.
    return f"{_NAME}.{suffix}", "\n".join(["#!/bin/sh", start, "status=$?", _PAUSE, "exit $status"]) + "\n"


def shortcut(start: Path, platform: str = sys.platform) -> tuple[str, str]:
    """Return name and text of a file that calls the start file from elsewhere; on Linux an entry of the desktop."""
    folder = start.parent.name
    name = _NAME if folder == _FIRST_FOLDER else f"{_NAME} ({folder})"
    if platform == "win32":
        quoted = str(start).replace("%", "%%")
        return f"{name}.bat", _windows(f'call "{quoted}"')
    if platform == "darwin":
        return f"{name}.command", f"#!/bin/sh\nexec sh {shlex.quote(str(start))}\n"
    entry = {"Type": "Application", "Name": name, "Comment": "Opens the clutch course in the browser"}
    entry |= {"Exec": f"sh {_as_argument(str(start))}", "Terminal": "true", "Categories": "Education;"}
    return f"{name}.desktop", "\n".join(["[Desktop Entry]", *(f"{key}={value}" for key, value in entry.items())]) + "\n"


def write_start_file(folder: Path) -> Path:
    """Write the file of this machine into a workbook, over the one of an earlier time; on Linux the desktop's entry too.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    name, text = start_file()
    path = _put(folder / name, text)
    if sys.platform == "linux":
        entry, words = shortcut(path)
        _put(folder / entry, words)
    return path


def write_shortcut(folder: Path) -> list[Path]:
    """Write shortcuts to a workbook's start file where this system shows them; return those that could be written."""
    name, text = shortcut(folder / start_file()[0])
    places = [_desktop() / name]
    if sys.platform == "linux":
        # Every desktop shows what lies here among its programs; what lies on the desktop itself, not every one.
        data = Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")
        mark = blake2b(str(folder).encode("utf-8", "surrogatepass"), digest_size=4).hexdigest()
        places.append(data / "applications" / f"bitepoint-{mark}.desktop")
        with contextlib.suppress(OSError):
            places[-1].parent.mkdir(parents=True, exist_ok=True)
    written = []
    for path in places:
        with contextlib.suppress(OSError):
            written.append(_put(path, text))
    return written


def _desktop() -> Path:
    """Return the folder of the desktop; on Linux it may have another name in another language."""
    home = Path.home()
    config = Path(os.environ.get("XDG_CONFIG_HOME") or home / ".config") / "user-dirs.dirs"
    with contextlib.suppress(OSError, UnicodeDecodeError):
        if found := re.search(r'^XDG_DESKTOP_DIR="\$HOME/([^"]+)"', config.read_text(encoding="utf-8"), re.M):
            return home / found[1]
    return home / "Desktop"


def _put(path: Path, text: str) -> Path:
    if path.is_symlink() or not path.is_file() or path.read_bytes() != text.encode("utf-8"):
        write_in_one_step(path, text.encode("utf-8"))
    if os.name == "posix":
        # A memory stick may know no such right; the course opens all the same.
        with contextlib.suppress(OSError):
            path.chmod(0o755)
    return path


def _windows(line: str) -> str:
    return "\r\n".join(["@echo off", "chcp 65001 >nul", line, "if errorlevel 1 pause"]) + "\r\n"


def _as_argument(path: str) -> str:
    """Quote a path for the line of a desktop entry: once for its arguments, once more for the file, and no place for a name."""
    quoted = re.sub(r'(["`$\\])', r"\\\1", path)
    return f'"{quoted}"'.replace("\\", "\\\\").replace("%", "%%")
