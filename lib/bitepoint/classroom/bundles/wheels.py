"""A wheel made again from an installed package, so that a bundle holds what ran here and nothing is loaded for it.

A wheel is a zip of the package's files with a list of their digests (RECORD). Installing writes that list too, so the way
back is open: what pip added is left out, the rest must have the digest that the list says.
"""

import base64
import csv
import hashlib
import io
import subprocess
import sys
from importlib.metadata import Distribution, PackagePath
from pathlib import Path, PurePosixPath
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from bitepoint.errors import CannotRun

_ADDED_BY_PIP = ("INSTALLER", "REQUESTED", "direct_url.json", "RECORD")
# The earliest time that a zip can hold: two bundles of the same packages are the same bytes.
_WHEN = (1980, 1, 1, 0, 0, 0)


def packed(package: Distribution, into: Path) -> Path:
    """Write the wheel of an installed package into a folder and return its path.

    Raises
    ------
    CannotRun
        The installation keeps no list of its files, or a file is not the one that was installed.
    """
    name, info, files = package.metadata["Name"], _info(package), package.files
    about = package.read_text("WHEEL")
    if not (info and files and about):
        raise CannotRun(f"{name} was not installed from a wheel, so none can be made of it. Install it again by pip.")
    path = into / f"{info.removesuffix('.dist-info')}-{_tags(about)}.whl"
    record = f"{info}/RECORD"
    rows = io.StringIO(newline="")
    write = csv.writer(rows, lineterminator="\n").writerow
    with ZipFile(path, "w", ZIP_DEFLATED, compresslevel=1) as wheel:
        for file in sorted(files, key=str):
            if place := _place(file, info, package):
                content = _content(file, name, place)
                wheel.writestr(_entry(place, file), content)
                write([place, f"sha256={_digest(content)}", len(content)])
        write([record, "", ""])
        wheel.writestr(_entry(record), rows.getvalue())
    return path


def built(checkout: Path, into: Path) -> None:
    """Build the wheel of a checkout by pip, which fetches the builder where it is told to.

    Raises
    ------
    CannotRun
        pip could not; its last line is told.
    """
    line = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(into), str(checkout)]
    run = subprocess.run(line, capture_output=True, text=True, encoding="utf-8", errors="replace", check=False)
    if run.returncode:
        said = (run.stderr.strip().splitlines() or ["it said nothing"])[-1]
        raise CannotRun(f"pip could not build the course in {checkout}: {said}")


def _info(package: Distribution) -> str:
    """Return the name of the folder with what is said about the package."""
    parts = (file.parts[0] for file in package.files or [] if file.name == "WHEEL" and len(file.parts) == 2)
    return next((part for part in parts if part.endswith(".dist-info")), "")


def _tags(about: str) -> str:
    """Return for which Pythons and systems a wheel is, as its file name says it."""
    found = [line.partition(":")[2].strip().split("-") for line in about.splitlines() if line.startswith("Tag:")]
    return "-".join(".".join(sorted(set(kind))) for kind in zip(*found, strict=True))


def _place(file: PackagePath, info: str, package: Distribution) -> str:
    """Return where an installed file stands in the wheel; "" for what pip wrote itself."""
    if "__pycache__" in file.parts or (file.parts[0] == info and file.name in _ADDED_BY_PIP and len(file.parts) == 2):
        return ""
    outside = [part for part in file.parts if part != ".."]
    if len(outside) == len(file.parts):
        return str(PurePosixPath(*file.parts))
    data = info.replace(".dist-info", ".data")
    if outside[0] in ("bin", "Scripts"):
        commands = {entry.name for entry in package.entry_points if entry.group in ("console_scripts", "gui_scripts")}
        return (
            ""
            if PurePosixPath(outside[-1]).stem in commands or outside[-1] in commands
            else (f"{data}/scripts/{outside[-1]}")
        )
    return f"{data}/data/{'/'.join(outside)}"


def _content(file: PackagePath, name: str, place: str) -> bytes:
    """Return a file's bytes, once they are those that were installed."""
    try:
        content = Path(str(file.locate())).read_bytes()
    except OSError as error:
        raise CannotRun(f"{name}: {file} cannot be read ({error.strerror}). Install {name} again.") from None
    if "/scripts/" in place:
        first, _, rest = content.partition(b"\n")
        return b"#!python\n" + rest if first.startswith(b"#!") and b"python" in first else content
    if file.hash and file.hash.mode == "sha256" and file.hash.value != _digest(content):
        raise CannotRun(f"{name}: {file} is not as it was installed. Install {name} again, then make the bundle.")
    return content


def _digest(content: bytes) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(content).digest()).decode("ascii").rstrip("=")


def _entry(place: str, file: PackagePath | None = None) -> ZipInfo:
    entry = ZipInfo(place, _WHEN)
    entry.compress_type = ZIP_DEFLATED
    runs = file is not None and Path(str(file.locate())).stat().st_mode & 0o111
    entry.external_attr = (0o100755 if runs else 0o100644) << 16
    return entry
