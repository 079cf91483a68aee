"""The assessor's commands beside `mark`: exports, answers as they were asked."""

from pathlib import Path

import click

from bitepoint.cli.register_place import gone_beside, register_there
from bitepoint.cli.terminal import PATH


@click.command()
@click.argument("results", metavar="RESULTS", type=PATH)
@click.option("--format", "form", metavar="FORMAT", required=True, help="xapi, oneroster or csv.")
@click.option("--out", metavar="FOLDER", type=PATH, required=True, help="Where the files go.")
@click.option("--home", metavar="ADDRESS", default="https://bitepoint.invalid", show_default=True)
def export(results: Path, form: str, out: Path, home: str) -> int:
    """Write results in a form that other systems read.

    RESULTS is the folder that “bitepoint mark” wrote. ADDRESS is your college's, under which accounts and
    exercises are named.

    \b
    Examples:
      bitepoint export --format xapi marks --out statements
      bitepoint export --format oneroster marks --out gradebook
    """
    from bitepoint.marking.exporting.exports import export as write

    def tell(line: str) -> None:
        click.echo(f"bitepoint: {line}", err=True)

    for path in write(results, out, form=form, home=home, tell=tell, gone=gone_beside(results)):
        click.echo(str(path))
    return 0


@click.command("as-asked")
@click.argument("inputs", metavar="HANDINS...", nargs=-1, required=True, type=PATH)
@click.option("--learner", metavar="ID", required=True, help="Whose answers, such as L07-K.")
@click.option("--exercise", metavar="ID", default="", help="Only this exercise; all when left out.")
@click.option("--out", metavar="FILE", type=PATH, required=True, help="The page, such as appeal.html.")
@click.option("--register", metavar="FOLDER", type=PATH, help="As for “mark”: “register” beside you when it is there.")
def as_asked(inputs: tuple[Path, ...], learner: str, exercise: str, out: Path, register: Path | None) -> int:
    """Print a learner's answers with each question as it was read, for an appeal.

    An exercise a page: question with its figures, answers, mark and reason, how it is marked, right answer, and what the
    register says about the appeal. Words bettered since are taken from the release that the learner worked with.

    \b
    Examples:
      bitepoint as-asked hand-ins --learner L07-K --exercise star.impact --out appeal.html
    """
    from bitepoint.marking.pages.as_asked import write_as_asked
    from bitepoint.marking.registry.register import Register
    from bitepoint.marking.rehearsal.place import without_register

    book = register or register_there(*inputs)
    entries = Register(book).entries() if book else []
    count = write_as_asked(
        out, [without_register(path) for path in inputs], learner=learner, exercise=exercise, entries=entries
    )
    click.echo(f"{out}: {count} {'answer' if count == 1 else 'answers'}.")
    return 0


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    for command in (export, as_asked):
        group.add_command(command)
