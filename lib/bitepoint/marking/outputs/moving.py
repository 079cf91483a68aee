"""Moving a set that is complete aside into its place: by renaming alone, so that it needs no room and can be undone.

The set before goes first, its manifest before its files; then the new one comes, its manifest last. So a manifest.json
lies in the folder only while the set in it is whole. Meanwhile one of the two is whole aside, under its own manifest.
"""

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import sync_folder
from bitepoint.marking.outputs.manifest import MANIFEST, PAGES, Manifest, broken, own_file, read_manifest

NEW, OLD, FORMER = ".new", ".old", "former"
_LEAVING = "leaving.json"
"""The manifest of a set that is being taken away: it still says which files may be."""

Tell = Callable[[str], None]
_Move = Callable[[str, str], None]
"""Moves a file: where it lies, where it goes. Names, for a path object of each file took longer than moving it."""


def check_room(out: Path, names: set[str]) -> None:
    """Check that no file of somebody's own lies where a set with these names is to lie.

    Raises
    ------
    BadInput
        One does; nothing was touched.
    """
    ours = {name for path in (out / MANIFEST, out / OLD / _LEAVING) for name in _names(path)}
    waits = (out / NEW / MANIFEST).exists()
    arrived = {name for name in names if not os.path.exists(f"{out}/{NEW}/{name}")} if waits else set()
    for name in sorted(names - ours - arrived):
        if os.path.lexists(f"{out}/{name}"):
            raise own_file(out, name)
    for name in (*PAGES, FORMER):
        _check_folder(out, name)
    allowed = {MANIFEST, _LEAVING} | _names(out / FORMER / MANIFEST) | _names(out / FORMER / _LEAVING)
    for path in sorted((out / FORMER).rglob("*")):
        name = path.relative_to(out / FORMER).as_posix()
        if name not in allowed and name not in PAGES:
            raise own_file(out, f"{FORMER}/{name}")


def _check_folder(out: Path, name: str) -> None:
    if os.path.lexists(out / name) and ((out / name).is_symlink() or not (out / name).is_dir()):
        raise own_file(out, name)


def _names(path: Path) -> set[str]:
    found = read_manifest(path)
    return found.names if found else set()


def move_in(out: Path, tell: Tell) -> None:
    """Move the set that lies aside into its place; when a file cannot be moved, everything goes back.

    Raises
    ------
    BadInput
        A file of somebody's own is in the way, or a file is held by another program.
    """
    new = read_manifest(out / NEW / MANIFEST)
    if new:
        check_room(out, new.names)
        with _moves(out) as move:
            _take_away(out, move, tell)
            _bring(out, new, move)
        shutil.rmtree(out / NEW)
    _keep_former(out, tell)


@contextmanager
def _moves(out: Path) -> Iterator[_Move]:
    """Give a function that moves a file; when one cannot be moved, those before it go back."""
    done: list[tuple[str, str]] = []
    folders: set[str] = set()
    at = ""

    def move(source: str, target: str) -> None:
        nonlocal at
        at, folder = os.path.basename(source), os.path.dirname(target)
        if folder not in folders:
            Path(folder).mkdir(exist_ok=True)
            folders.add(folder)
        os.replace(source, target)
        done.append((source, target))

    try:
        yield move
    except OSError as error:
        for source, target in reversed(done):
            os.replace(target, source)
        raise BadInput(
            f"{out.name}: {at} cannot be replaced ({error.strerror or type(error).__name__}). Close it in the program "
            f"that has it open, then run the same command again. {_left(out)}"
        ) from None


def _left(out: Path) -> str:
    """Say what lies in the folder after a move that could not be made."""
    if (out / MANIFEST).exists():
        return "Nothing is mixed: the results that were there stand, the new ones wait aside."
    return "Nothing is lost: until then the new results lie there only in part, and no manifest.json says otherwise."


def _take_away(out: Path, move: _Move, tell: Tell) -> None:
    old = read_manifest(out / MANIFEST)
    if old:
        _tell_changed(out, old, tell)
        move(f"{out}/{MANIFEST}", f"{out}/{OLD}/{_LEAVING}")
    old = read_manifest(out / OLD / _LEAVING)
    if old:
        for file in old.files:
            if os.path.exists(f"{out}/{file.name}"):
                move(f"{out}/{file.name}", f"{out}/{OLD}/{file.name}")
        _sync(out)
        move(f"{out}/{OLD}/{_LEAVING}", f"{out}/{OLD}/{MANIFEST}")


def _tell_changed(out: Path, old: Manifest, tell: Tell) -> None:
    for name in broken(old, out):
        if (out / name).exists():
            tell(
                f"{out.name}: {name} was changed since it was marked; as changed it is kept in {FORMER}/, "
                "until the next marking."
            )


def _bring(out: Path, new: Manifest, move: _Move) -> None:
    for file in new.files:
        if os.path.exists(f"{out}/{NEW}/{file.name}"):
            move(f"{out}/{NEW}/{file.name}", f"{out}/{file.name}")
    _sync(out)
    move(f"{out}/{NEW}/{MANIFEST}", f"{out}/{MANIFEST}")
    sync_folder(out)


def _sync(out: Path) -> None:
    for folder in (*_pages(out), *_pages(out / OLD), out / OLD, out):
        sync_folder(folder)


def _pages(folder: Path) -> list[Path]:
    return [folder / name for name in PAGES]


def _keep_former(out: Path, tell: Tell) -> None:
    """Keep the set that was taken away as the former one, unless it holds a learner whom the new one leaves out."""
    old, new = read_manifest(out / OLD / MANIFEST), read_manifest(out / MANIFEST)
    if old is None or new is None:
        return
    _remove(out / FORMER)
    if set(new.left_out) <= set(old.left_out):
        os.replace(out / OLD, out / FORMER)
        sync_folder(out)
        return
    _remove(out / OLD)
    tell(f"{out.name}: the former results hold a learner who was deleted on request, so they are not kept.")


def _remove(folder: Path) -> None:
    """Remove a set aside: the files of its manifest and nothing else."""
    if (folder / MANIFEST).exists():
        os.replace(folder / MANIFEST, folder / _LEAVING)
    for name in _names(folder / _LEAVING):
        (folder / name).unlink(missing_ok=True)
    (folder / _LEAVING).unlink(missing_ok=True)
    for place in (*_pages(folder), folder):
        if place.is_dir():
            place.rmdir()
