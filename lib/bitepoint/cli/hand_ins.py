"""Marking hand-ins, and an invented class to practise it on."""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bitepoint.cli.college import cluster_or_none, mark_college
from bitepoint.cli.register_place import register_of_class
from bitepoint.cli.terminal import DONE, LOOK, PATH, Examples, check_there, one_line, progress_bar, say
from bitepoint.errors import BadInput

if TYPE_CHECKING:
    from bitepoint.marking import Outcome

_MOST_NAMED = 8


@click.command(
    cls=Examples,
    examples="bitepoint mark hand-ins/\n"
    "bitepoint mark hand-ins/ --roster roster.csv --out marks-june\n"
    "bitepoint mark L07-K-20260414-101500.zip L08-M.ipynb\n"
    "bitepoint mark --classes college --out marks-college --workers 4",
)
@click.argument("inputs", metavar="HANDINS...", type=PATH, nargs=-1)
@click.option(
    "--classes",
    metavar="COLLEGE",
    type=PATH,
    help="Instead of HANDINS: a folder of class folders, each with class.toml, roster.csv and hand-ins.",
)
@click.option("--across", is_flag=True, help="With --classes: also look for copies across classes; takes longer.")
@click.option("--roster", metavar="FILE", type=PATH, help="The class list (CSV): who should have handed in.")
@click.option("--out", metavar="FOLDER", type=PATH, default=Path("marks"), show_default=True)
@click.option("--workers", metavar="N", type=click.IntRange(1, 64), default=1, show_default=True)
@click.option("--cluster", metavar="ADDRESS", default="", help="Instead of --workers: a Dask scheduler.")
@click.option("--class-file", metavar="FILE", type=PATH, help="class.toml: pass_share, due, criteria, lessons.")
@click.option("--pass-share", metavar="SHARE", type=float, help="Share that must be right, such as 0.8 (the default).")
@click.option(
    "--register",
    metavar="FOLDER",
    type=PATH,
    help="The register; “register” beside you or in the class folder, when it is there; a rehearsal's own.",
)
@click.option("--pdf", is_flag=True, help="Also print report and pages to PDF (needs Chromium; about a second a page).")
@click.option("--marked", metavar="TIME", default="", help="What the pages say as time of marking; now when left out.")
def mark(
    inputs: tuple[Path, ...],
    classes: Path | None,
    across: bool,
    roster: Path | None,
    out: Path,
    workers: int,
    cluster: str,
    class_file: Path | None,
    pass_share: float | None,
    register: Path | None,
    pdf: bool,
    marked: str,
) -> int:
    """Mark hand-ins: zips, folders, single notebooks or logbooks.

    Nothing a learner sent is run. FOLDER gets marks.csv, learners.csv, marks.jsonl, report.html, three pages for
    each learner and manifest.json. Marking into the same folder again replaces them all together and keeps the set
    before in FOLDER/former; files of your own stay. Exit status 1: something is flagged for you to look at.

    With --classes every class in COLLEGE is marked by the same processes, with its own class file, roster, register and
    own sheets. Its results lie in a folder of its name in FOLDER; college.html stands above them. A class that cannot be
    marked costs one line.
    """
    for path in (*inputs, *(p for p in (classes, roster, class_file, register) if p)):
        check_there(path)
    from bitepoint.marking import mark_hand_ins
    from bitepoint.marking.pages.pdf import find_browser
    from bitepoint.marking.rehearsal.place import without_register
    from bitepoint.marking.rules import rules_of

    browser = find_browser() if pdf else ""
    at = _moment(marked) if marked else None
    if classes:
        alone = {"HANDINS": inputs, "--roster": roster, "--class-file": class_file, "--register": register}
        return mark_college(
            classes,
            out=out,
            workers=workers,
            cluster=cluster,
            pass_share=pass_share,
            browser=browser,
            marked=at,
            across=across,
            given=alone,
        )
    if across:
        raise BadInput("--across looks for copies across classes. Name their folder: --classes college")
    if not inputs:
        raise BadInput("HANDINS is missing. Name the folder with the hand-ins, or --classes with a folder of classes.")
    rules = rules_of(class_file, pass_share)
    register = register or register_of_class(class_file, inputs)
    with progress_bar() as progress, cluster_or_none(cluster, workers) as pool:
        outcome = mark_hand_ins(
            [without_register(path) for path in inputs],
            roster=roster,
            out=out,
            workers=workers,
            pool=pool,
            progress=progress,
            register=register,
            rules=rules,
            class_file=class_file,
            browser=browser,
            marked=at,
            tell=lambda line: click.echo(f"bitepoint: {one_line(line)}", err=True),
        )
    for problem in outcome.problems:
        click.echo(f"bitepoint: {one_line(problem)}", err=True)
    if outcome.moved:
        who = ", ".join(m.learner for m in outcome.moved[:_MOST_NAMED])
        more = f" and {len(outcome.moved) - _MOST_NAMED} more" if len(outcome.moved) > _MOST_NAMED else ""
        click.echo(f"Moved since the marking before: {who}{more}. The report says from what to what.", err=True)
    click.echo(_came_to(outcome), err=True)
    say(str(out / "report.html"))
    return LOOK if outcome.look else DONE


def _moment(text: str) -> datetime:
    """Return a time that says its zone."""
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.tzinfo is None:
        raise BadInput(
            f"--marked must be a time with its zone, such as 2026-06-30T15:00+02:00, but it is {text[:40]!r}."
        )
    return found


def _came_to(outcome: "Outcome") -> str:
    """Say in one line what marking came to."""
    counted = f"Learners: {outcome.learners}. Marks: {outcome.rows}."
    if not outcome.look:
        return f"{counted} Nothing to look at."
    remove = f" Files of deleted learners to remove: {outcome.to_remove}." if outcome.to_remove else ""
    return f"{counted} For a person to look at: flags {outcome.flags}, held or not readable {outcome.unread}.{remove}"


@click.command(cls=Examples, examples="bitepoint rehearse --learners 20 --seed 7 --out rehearsal")
@click.option("--learners", metavar="N", type=click.IntRange(1, 999), default=20, show_default=True)
@click.option(
    "--seed", metavar="N", type=click.IntRange(0), default=1, show_default=True, help="Same seed, same class."
)
@click.option("--out", metavar="FOLDER", type=PATH, required=True, help="A new or empty folder.")
@click.option(
    "--planted",
    is_flag=True,
    help="With cases to find, in practice and a sitting; planted.csv says which. 24 learners or more.",
)
@click.option(
    "--weeks",
    metavar="N",
    type=click.IntRange(0, 52),
    default=0,
    help="They come back for recall over so many weeks; truth-recall.csv says what they remembered.",
)
@click.option("--workbooks", is_flag=True, help="As workbooks on a share instead of zips, to try the board on.")
@click.option("--vehicles", metavar="LIST", default="A,B,C,D", help="Cars of the class: letters, own sheets (files).")
@click.option("--questions", metavar="FILE", type=PATH, help="The college's own questions.")
def rehearse(
    learners: int,
    seed: int,
    out: Path,
    planted: bool,
    weeks: int,
    workbooks: bool,
    vehicles: str,
    questions: Path | None,
) -> int:
    """Make the hand-ins of an invented class, to practise marking on."""
    if out.exists() and (not out.is_dir() or any(out.iterdir())):
        raise BadInput(f"{out} is not empty. Name a new folder, or empty this one: --out rehearsal-2")
    from bitepoint.classroom.own_things import own_things
    from bitepoint.marking.rehearsal.place import next_steps
    from bitepoint.marking.rehearsal.rehearse import rehearse as rehearse_class

    if planted and workbooks:
        raise BadInput("Planted cases come as zips. Leave out --planted or --workbooks.")
    form = "folder" if workbooks else "zip"
    cars, own = own_things(vehicles, questions)
    rehearse_class(
        out,
        learners=learners,
        seed=seed,
        planted=planted,
        sittings=planted,
        weeks=weeks,
        form=form,
        cars=cars,
        own=own,
    )
    say(str(out))
    for line in next_steps(out, planted=planted, weeks=weeks > 0, workbooks=workbooks):
        say(f"Next: {line}")
    return DONE


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    for command in (mark, rehearse):
        group.add_command(command)
