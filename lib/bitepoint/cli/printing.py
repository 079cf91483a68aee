"""The command that prints the pages of a marked class."""

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
