"""What `mark --classes` and `mark --cluster` do and say: one run over a folder of classes, workers of a cluster."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from bitepoint.cli.terminal import DONE, LOOK, WRONG, one_line, progress_bar, say
from bitepoint.errors import BadInput

if TYPE_CHECKING:
    from bitepoint.marking.college.run import College
    from bitepoint.marking.processes import Pool

_MOST_NAMED = 20


def mark_college(
    folder: Path,
    *,
    out: Path,
    workers: int,
    cluster: str,
    pass_share: float | None,
    browser: str,
    marked: datetime | None,
    across: bool,
    given: dict[str, Any],
) -> int:
    """Mark every class in a folder and say what it came to; `given` are the options that are about one class alone.

    Raises
    ------
    BadInput
        One of those is given, or a register lies beside; or as mark_classes.
    """
    from bitepoint.marking.college.run import mark_classes
    from bitepoint.marking.rehearsal.place import REGISTER
    from bitepoint.marking.rules import checked_share

    for name, value in given.items():
        if value:
            raise BadInput(
                f"{name} is about one class, and --classes marks many, each with what lies in its own folder. Leave one out."
            )
    for place in {Path(REGISTER), folder / REGISTER}:
        if place.is_dir():
            raise BadInput(
                f"{place} is a register of no single class. Move it into the folder of the class that it is about, such as "
                f"{folder / 'autumn' / REGISTER}."
            )
    if pass_share is not None:
        checked_share(pass_share, "--pass-share")
    with progress_bar() as progress, cluster_or_none(cluster, workers) as pool:
        found = mark_classes(
            folder,
            out=out,
            workers=workers,
            pool=pool,
            progress=progress,
            pass_share=pass_share,
            browser=browser,
            marked=marked,
            across=across,
        )
    _tell(found)
    say(str(found.page))
    if not found.marked:
        return WRONG
    return LOOK if found.look else DONE


@contextmanager
def cluster_or_none(address: str, workers: int) -> Iterator["Pool | None"]:
    """Work on the cluster at an address for a while; None where no address was given.

    Raises
    ------
    BadInput
        A number of workers is given too; or as `cluster`.
    """
    if not address:
        yield None
        return
    if workers != 1:
        raise BadInput("--workers is about this computer, and --cluster has workers of its own. Leave one out.")
    from bitepoint.marking.cluster import cluster

    with cluster(address) as pool:
        yield pool


def _tell(found: "College") -> None:
    """Say what a person must know at once; what is in the report of a class is counted only."""
    for line in found.classes:
        for said in line.told:
            _say(line.name, said)
        if line.refused:
            _say(line.name, line.refused)
    for said in found.beside:
        click.echo(f"bitepoint: {one_line(said)}", err=True)
    for copy in found.across.copies if found.across else ():
        click.echo(one_line(f"bitepoint: {copy.who}: {copy.kind}. The college page has the evidence."), err=True)
    moved = [line.name for line in found.classes if line.moved]
    if moved:
        more = f" and {len(moved) - _MOST_NAMED} more" if len(moved) > _MOST_NAMED else ""
        click.echo(
            f"Results moved since the marking before in {', '.join(moved[:_MOST_NAMED])}{more}. Their reports say whose.",
            err=True,
        )
    marked = found.marked
    learners, rows, flags, unread = (
        sum(getattr(line, name) for line in marked) for name in ("learners", "rows", "flags", "unread")
    )
    counted = f"Classes: {len(marked)} marked, {len(found.refused)} not. Learners: {learners}. Marks: {rows}."
    look = (
        f"For a person to look at: flags {flags}, held or not readable {unread}."
        if found.look
        else "Nothing to look at."
    )
    click.echo(one_line(f"{counted} {look}"), err=True)


def _say(name: str, said: str) -> None:
    begins = "" if said.startswith(f"{name}: ") else f"{name}: "
    click.echo(one_line(f"bitepoint: {begins}{said}"), err=True)
