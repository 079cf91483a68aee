"""The commands that print: the pages of a marked class, and a warm-up made from what it has forgotten."""

from datetime import date, datetime, timedelta
from pathlib import Path

import click

from bitepoint.cli.register_place import gone_beside
from bitepoint.cli.terminal import PATH


@click.command("print")
@click.argument("results", metavar="RESULTS", type=PATH)
@click.option(
    "--pages",
    type=click.Choice(["learners", "assessor", "evidence"]),
    default="learners",
    show_default=True,
    help="For the learners, for the assessor, or the records to sign.",
)
@click.option("--out", metavar="FOLDER", type=PATH, required=True, help="Where the PDFs go.")
@click.option("--one-file", is_flag=True, help="All in one PDF, each learner on a new page.")
def print_(results: Path, pages: str, out: Path, one_file: bool) -> int:
    """Print the pages of a marked class to PDF (needs Chromium): one file a learner, or all in one.

    RESULTS is the folder that “bitepoint mark” wrote.

    \b
    Examples:
      bitepoint print marks --out to-hand-out
      bitepoint print marks --pages evidence --one-file --out to-sign
    """
    from bitepoint.marking.pages.printing import print_class

    print_class(
        results, pages, out, one_file=one_file, say=lambda path: click.echo(str(path)), gone=gone_beside(results)
    )
    return 0


@click.command("warm-up")
@click.argument("results", metavar="RESULTS", type=PATH)
@click.option("--out", metavar="FOLDER", type=PATH, required=True, help="Where the pages go.")
@click.option("--class-file", metavar="FILE", type=PATH, help="class.toml: title and cars.")
@click.option(
    "--day", metavar="DAY", type=click.DateTime(["%Y-%m-%d"]), help="Other figures each day; tomorrow when left out."
)
@click.option("--pdf", is_flag=True, help="Also print to PDF (needs Chromium).")
@click.option("--letter", is_flag=True, help="US Letter paper; A4 when left out.")
def warm_up(results: Path, out: Path, class_file: Path | None, day: datetime | None, pdf: bool, letter: bool) -> int:
    """Make five questions for tomorrow's first ten minutes from what a class has forgotten most.

    RESULTS is the folder that “bitepoint mark” wrote. FOLDER gets screens for the wall (a question each, its answer on the
    next: Page Down), a sheet for the learners, and answers with reasons for the instructor. Where nobody was asked again
    yet, what was missed most in the lessons is asked. No learner has these figures.

    \b
    Examples:
      bitepoint warm-up marks --out warm-up
      bitepoint warm-up marks --out warm-up --class-file autumn/class.toml --pdf
    """
    from bitepoint.classroom.bench_sheets.sheets import class_of
    from bitepoint.classroom.warm_ups.pages import write_warm_up
    from bitepoint.marking.pages.pdf import find_browser, print_pdf
    from bitepoint.questions.draw import STANDARD

    browser = find_browser() if pdf else ""
    title, _, cars = class_of(class_file) if class_file else ("", (), STANDARD)
    when = day.date() if day else date.today() + timedelta(days=1)
    pages, missed = write_warm_up(
        results,
        out,
        cars=cars,
        day=when,
        title=title,
        paper="letter" if letter else "A4",
        gone=gone_beside(results),
    )
    for path in pages:
        click.echo(str(path))
        if browser:
            click.echo(str(print_pdf(path, browser)))
    if not missed.from_recall:
        click.echo("Nobody was asked again yet: these are the questions most missed in the lessons.", err=True)
    return 0


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    for command in (print_, warm_up):
        group.add_command(command)
