"""Marking every class of a folder with one pool of processes, and the college page above them."""

from collections.abc import Callable, Iterator, Sequence
from datetime import datetime
from functools import partial
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.logbook.own_files import use_shipped
from bitepoint.marking.collecting import seldom_collected
from bitepoint.marking.college.across import Across, compare
from bitepoint.marking.college.folder import ClassPlace, find_classes
from bitepoint.marking.college.one_class import ClassLine, SameForAll, mark_class
from bitepoint.marking.college.page import PAGE, college_page, is_ours
from bitepoint.marking.college.traces import ClassTrace
from bitepoint.marking.outputs.manifest import MANIFEST
from bitepoint.marking.outputs.one_marking import alone
from bitepoint.marking.pages.render import numbered
from bitepoint.marking.processes import Pool, pool_or

_ENOUGH = 2
"""Classes for each process from which on a process gets whole classes: then nothing of a class is sent about."""


class College(Struct, frozen=True, kw_only=True):
    """What marking a folder of classes came to: a line for each class, and lines about what else lay there.

    `across` is None where no copies were looked for in other classes.
    """

    page: Path
    classes: list[ClassLine]
    beside: list[str]
    across: Across | None = None

    @property
    def marked(self) -> list[ClassLine]:
        """The classes that have results."""
        return [line for line in self.classes if not line.refused]

    @property
    def refused(self) -> list[ClassLine]:
        """The classes that could not be marked."""
        return [line for line in self.classes if line.refused]

    @property
    def look(self) -> bool:
        """Whether a person should look at something."""
        return bool(self.beside or (self.across and self.across.copies)) or any(line.look for line in self.classes)


@seldom_collected()
def mark_classes(
    college: Path,
    *,
    out: Path,
    workers: int = 1,
    pool: Pool | None = None,
    progress: Callable[[int, int], None] | None = None,
    pass_share: float | None = None,
    browser: str = "",
    marked: datetime | None = None,
    across: bool = False,
) -> College:
    """Mark every class folder in a folder; results of each go into a folder of its name, college.html stands above them.

    Each class is marked with its own class file, roster, register and own files, and gets the files that it would get
    alone. A class that cannot be marked is one line; the results that it had stay.

    Parameters
    ----------
    college
        Folder with the class folders.
    out
        Folder for the results of all; made when it is not there.
    workers
        Processes, one pool for all classes.
    pool
        Processes that are there already, instead of new ones.
    progress
        Called with (classes done, classes in all).
    pass_share
        Share that must be right in every class, whatever its class file says; None: as that says.
    browser
        Program that also prints the pages of the classes to PDF; none when empty.
    marked
        Day and time that all pages say, with its zone; None: now.
    across
        Also look for copies across classes; what is found stands on the college page alone.

    Raises
    ------
    BadInput
        There is no class, a register or somebody's own file is in the way, or the page cannot be written.
    """
    if Path(college).is_symlink() or not college.is_dir():
        raise BadInput(f"{college.name} is no folder. Name the folder in which the class folders lie.")
    _check_place(out)
    places, refused, beside = find_classes(college, leave_out=out)
    same = SameForAll(
        out=out, marked=marked or datetime.now().astimezone(), pass_share=pass_share, browser=browser, across=across
    )
    try:
        out.mkdir(parents=True, exist_ok=True)
        with alone(out):
            _check_place(out)
            found = [ClassLine(name=r.name, refused=r.why) for r in refused]
            traces: dict[str, ClassTrace] = {}
            compared: Across | None = None
            with pool_or(pool, workers) as hands:
                for line in _marked(places, same, hands):
                    if line.trace:
                        traces[line.name] = line.trace
                    found.append(replace(line, trace=None))
                    if progress:
                        progress(len(found) - len(refused), len(places))
                if across:
                    sizes = {line.name: line.learners for line in found}
                    with pool_or(hands if hands.same_disk else None, 1) as near:
                        compared = compare(places, traces, sizes, near, out)
            found.sort(key=lambda line: numbered(line.name))
            beside += _without_class(out, found)
            page = college_page(college.resolve().name, found, beside, marked=same.marked, across=compared)
            write_in_one_step(out / PAGE, page.encode("utf-8"))
    except OSError as error:
        raise BadInput(
            f"{out.name}: the college page cannot be written ({error.strerror or type(error).__name__}). Make room, or name "
            "another folder for the results. Each class that was marked has its results."
        ) from None
    finally:
        use_shipped()
    return College(page=out / PAGE, classes=found, beside=beside, across=compared)


def _marked(places: Sequence[ClassPlace], same: SameForAll, pool: Pool) -> Iterator[ClassLine]:
    """Yield what each class came to: with many classes a whole one a process, the largest first; else each shared out."""
    places = sorted(places, key=lambda place: (-place.size, place.name))
    if _whole_classes(pool, len(places)):
        yield from pool.map(partial(mark_class, same=same), places, at_once=1, lost=_lost)
    else:
        yield from (mark_class(place, same, pool) for place in places)


def _lost(place: ClassPlace) -> ClassLine:
    why = "the process that marked it was ended by this computer twice, as a rule for want of memory. Mark this class alone."
    return ClassLine(name=place.name, word=place.word, refused=why)


def _whole_classes(pool: Pool, count: int) -> bool:
    return pool.count > 1 and pool.same_disk and count >= _ENOUGH * pool.count


def _check_place(out: Path) -> None:
    """Refuse a folder that holds the results of one class, or somebody's own file where the page is to lie."""
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for the results: --out marks-college")
    if (out / MANIFEST).exists():
        raise BadInput(
            f"{out} holds the results of one class. Name another folder for those of the college: --out marks-college"
        )
    if (out / PAGE).exists() and not is_ours(out / PAGE):
        raise BadInput(
            f"{out.name}: {PAGE} is not of a marking. Move it elsewhere, or name another folder: --out marks-2"
        )


def _without_class(out: Path, found: Sequence[ClassLine]) -> list[str]:
    """Return a line for each set of results whose class is not in the folder any more."""
    known = {line.name for line in found}
    return [
        f"{path.name}: results of an earlier marking lie there, and the class is not in the folder any more."
        for path in sorted(out.iterdir())
        if path.name not in known and (path / MANIFEST).is_file()
    ]
