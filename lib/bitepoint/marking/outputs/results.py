"""The results folder as a whole: one marking at a time, what was begun is completed first, then a new set comes in."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.marking.outputs.manifest import MANIFEST, broken, read_manifest
from bitepoint.marking.outputs.moving import FORMER, NEW, OLD, Tell, check_room, move_in
from bitepoint.marking.outputs.new_set import NewSet
from bitepoint.marking.outputs.one_marking import LOCK, alone

_FIXED = {"report.html", "marks.csv", "marks.jsonl", "learners.csv", "recall.csv", "term.jsonl", "progress.html"}


@contextmanager
def new_results(out: Path, tell: Tell) -> Iterator[NewSet]:
    """Give a set to write; sealed when this is left, it is moved into the folder. Else the old set stays as it was.

    Raises
    ------
    BadInput
        Somebody's own file is in the way, another marking is at work here, or a file cannot be replaced.
    """
    _check_results_only(out)
    out.mkdir(parents=True, exist_ok=True)
    with alone(out):
        _complete(out, tell)
        check_room(out, _FIXED)
        try:
            new = NewSet(out / NEW)
            yield new
        except BaseException:
            shutil.rmtree(out / NEW, ignore_errors=True)
            raise
        move_in(out, tell)


def complete(out: Path, tell: Tell) -> None:
    """Finish what a marking that was stopped had begun to move in; do nothing where nothing was begun.

    Raises
    ------
    BadInput
        A marking is at work here, or a file cannot be replaced.
    """
    if any(os.path.lexists(out / name) for name in (NEW, OLD)):
        with alone(out):
            _complete(out, tell)


def whole_set(out: Path) -> Path | None:
    """Return the folder in which a set is whole by its manifest: the results folder, else one aside; None for none."""
    for folder in (out, out / NEW, out / OLD, out / FORMER):
        manifest = read_manifest(folder / MANIFEST)
        if manifest and not broken(manifest, folder):
            return folder
    return None


def _check_results_only(out: Path) -> None:
    """Refuse a folder that holds no results but other files, so that results never lie among somebody's own by mistake."""
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for the results: --out marks-2")
    if not out.is_dir() or any((out / place / MANIFEST).exists() for place in (".", NEW, OLD)):
        return
    others = sorted(path.name for path in out.iterdir() if path.name not in (NEW, OLD, FORMER, LOCK))
    if others:
        raise BadInput(
            f"{out} has other files in it ({others[0]}) and no manifest of a marking. Name a new folder: --out marks-2"
        )


def _complete(out: Path, tell: Tell) -> None:
    """Move in a set that lies complete aside; a part of one that no manifest names goes."""
    waiting = read_manifest(out / NEW / MANIFEST)
    begun = not (out / MANIFEST).exists()
    if waiting and (begun or not broken(waiting, out / NEW)):
        tell(f"{out.name}: the results of a marking that was stopped are moved in first.")
    elif (out / NEW).exists():
        shutil.rmtree(out / NEW)
    move_in(out, tell)
