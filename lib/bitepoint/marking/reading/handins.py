"""Finding and reading hand-ins: folders, zips, single notebooks and logbooks; nothing is unpacked to disk."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.book import FOLDER
from bitepoint.logbook.identity import FILE
from bitepoint.marking.reading.files import open_regular
from bitepoint.marking.reading.gather import Gatherer, HandIn
from bitepoint.marking.reading.guard import is_own, unforeseen
from bitepoint.marking.reading.limits import NotReadFurther
from bitepoint.marking.reading.zips import read_zip
from bitepoint.printable import printable

MAX_FOLDERS = 2
_FILES = (".ipynb", ".jsonl")
_NO_HAND_IN = (".csv", ".toml", ".lock", ".html", ".md", ".txt", ".ini", ".db")


class HandInSource(Struct, frozen=True):
    """Where hand-ins come from: a zip (may hold zips), a workbook folder, or one file."""

    name: str
    path: Path
    kind: str


def find_sources(inputs: Sequence[Path], *, leave_out: Path | None = None) -> tuple[list[HandInSource], list[str]]:
    """Return what there is to read under the paths given, and what is none, each as one line.

    `leave_out` is a folder that holds no hand-ins even if it lies among them: that of the marks.
    """
    sources: list[HandInSource] = []
    problems: list[str] = []
    for path in inputs:
        if path.is_symlink():
            problems.append(f"{path.name}: is a link and was not followed. Name the file or folder it points to.")
        elif path.is_dir():
            before = len(sources) + len(problems)
            _walk(path, path.name, 0, sources, problems, leave_out)
            if len(sources) + len(problems) == before:
                problems.append(f"{path.name}: holds no hand-in. Put the hand-in zips into it, or name another folder.")
        else:
            _one(path, path.name, sources, problems, named=True)
    return sources, [printable(problem) for problem in problems]


def _walk(
    folder: Path, name: str, depth: int, sources: list[HandInSource], problems: list[str], leave_out: Path | None
) -> None:
    try:
        if (folder / FILE).is_file() or (folder / FOLDER).is_dir():
            sources.append(HandInSource(printable(name), folder, "workbook"))
            return
        inside = sorted(folder.iterdir())
    except OSError as error:
        problems.append(f"{name}: cannot be listed ({error.strerror}). Check that you may read it.")
        return
    for path in inside:
        below = path.name if depth == 0 else f"{name}/{path.name}"
        if path.name.startswith((".", "__MACOSX")):
            continue
        if path.is_symlink() or not path.is_dir():
            _one(path, below, sources, problems, named=False)
        elif leave_out and path.resolve() == leave_out.resolve():
            continue
        elif depth < MAX_FOLDERS:
            _walk(path, below, depth + 1, sources, problems, leave_out)
        else:
            problems.append(f"{below}: lies more than {MAX_FOLDERS} folders deep. Name that folder itself.")


def _one(path: Path, name: str, sources: list[HandInSource], problems: list[str], *, named: bool) -> None:
    suffix = path.suffix.casefold()
    if suffix == ".zip":
        sources.append(HandInSource(printable(name), path, "zip"))
    elif suffix in _FILES:
        sources.append(HandInSource(printable(name), path, "file"))
    elif named and not path.exists():
        problems.append(f"{name}: is not there. Check the path.")
    elif named or suffix not in _NO_HAND_IN:
        problems.append(
            f"{name}: is no zip, notebook or logbook and was not read. Ask for the zip of “Make my hand-in”."
        )


def read_source(source: HandInSource) -> Iterator[HandIn]:
    """Yield the hand-ins of a source; whatever is wrong stands in their problems, nothing is raised.

    Raises
    ------
    OSError
        This computer's own disk is full: that is nobody's hand-in.
    """
    try:
        yield from _read(source)
    # Whatever it is, one source does not end the marking of a class.
    except Exception as error:
        gatherer = Gatherer(source.name)
        gatherer.problem(unforeseen("cannot be read", error))
        yield gatherer.result()


def _read(source: HandInSource) -> Iterator[HandIn]:
    gatherer = Gatherer(source.name)
    try:
        if source.kind == "workbook":
            _read_workbook(source.path, gatherer)
        else:
            with open_regular(source.path) as file:
                if source.kind == "zip":
                    yield from read_zip(source.name, file)
                    return
                gatherer.add(source.name, file)
    except (BadInput, OSError) as error:
        if is_own(error):
            raise
        gatherer.problem(_said(error))
    yield gatherer.result()


def _said(error: Exception) -> str:
    if isinstance(error, BadInput):
        return str(error)
    return f"cannot be read ({getattr(error, 'strerror', None) or type(error).__name__}). Ask for it again."


def _read_workbook(folder: Path, gatherer: Gatherer) -> None:
    """Read the logbooks first, so that a swollen notebook costs no recorded answer."""
    logbook = folder / FOLDER
    found = [folder / FILE] if (folder / FILE).exists() else []
    if logbook.is_symlink():
        gatherer.problem("is a link and was not followed. Ask for the folder itself.", FOLDER)
    elif logbook.is_dir():
        found += _inside(logbook, ".jsonl", gatherer)
    found += _inside(folder, ".jsonl", gatherer) + _inside(folder, ".ipynb", gatherer)
    for path in found:
        where = path.relative_to(folder).as_posix()
        try:
            with open_regular(path) as file:
                gatherer.add(where, file)
        except NotReadFurther:
            raise
        except (BadInput, OSError) as error:
            if is_own(error):
                raise
            gatherer.problem(_said(error), where)


def _inside(folder: Path, suffix: str, gatherer: Gatherer) -> list[Path]:
    found = []
    for path in folder.iterdir():
        gatherer.allowed.entries.take()
        if path.suffix.casefold() == suffix and not path.name.startswith("."):
            found.append(path)
    return sorted(found)
