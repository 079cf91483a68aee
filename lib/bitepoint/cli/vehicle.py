"""The commands for a college's own sheet: begin one, see what is missing or questioned, record that a second person checked it."""

from pathlib import Path
from typing import Any

import click

from bitepoint.cli.terminal import DONE, LOOK, PATH, Examples, say
from bitepoint.errors import BadInput


@click.group("vehicle", no_args_is_help=True)
def vehicle() -> None:
    """Enter a vehicle's own figures from its repair data, and have them checked.

    \b
    Examples:
      bitepoint vehicle new our-van.toml --id K7V --drive front --release concentric
      bitepoint vehicle check our-van.toml
      bitepoint vehicle check our-van.toml --checked-by "C. Second"
    """


@vehicle.command()
@click.argument("file", metavar="FILE", type=PATH)
@click.option(
    "--id",
    "letter",
    metavar="ID",
    prompt="Short name on every page, such as K7V",
    help="Two to four capitals or digits.",
)
@click.option("--drive", type=click.Choice(["front", "rear"]), prompt="Driven wheels")
@click.option(
    "--release",
    type=click.Choice(["cable", "concentric", "external"]),
    prompt="Release: cable, concentric slave or external slave",
)
@click.option("--flywheel", type=click.Choice(["rigid", "dual-mass"]), prompt="Flywheel fitted now")
@click.option("--cover", type=click.Choice(["conventional", "self-adjusting"]), prompt="Clutch cover")
def new(file: Path, letter: str, **chosen: Any) -> int:
    """Begin a sheet: FILE gets every key that this kind of vehicle has, with its unit, and “look it up” everywhere.

    What is not given is asked for. A file that is there is never written over.
    """
    from bitepoint.logbook.one_step import write_new
    from bitepoint.workshop.own_sheets.template import Choices, template

    text = template(Choices(id=letter.strip().upper(), **chosen))
    try:
        write_new(file.expanduser(), text)
    except FileExistsError:
        raise BadInput(f"{file} is there already and is not written over. Name another file.") from None
    say(str(file))
    say(f"Next: write in what the repair data says, then: bitepoint vehicle check {file}")
    return DONE


@vehicle.command(
    cls=Examples,
    examples='bitepoint vehicle check our-van.toml\nbitepoint vehicle check our-van.toml --checked-by "C. Second"\n'
    'bitepoint vehicle check our-van.toml --answer wheels.torque_nm --by "A. Tutor" --why "page 14, seen twice"',
)
@click.argument("file", metavar="FILE", type=PATH)
@click.option("--checked-by", metavar="NAME", help="A second person, who compared every figure with the document.")
@click.option("--answer", metavar="KEY", help="A figure that was questioned and stands so in the document.")
@click.option("--by", metavar="NAME", default="", help="With --answer: who looked again.")
@click.option("--why", metavar="TEXT", default="", help="With --answer: what was found, and where.")
def check(file: Path, checked_by: str | None, answer: str | None, by: str, why: str) -> int:
    """Tell what a sheet does not have and what in it is questioned; with --checked-by record the second person's check.

    A question refuses nothing: look at the document once more, then correct the figure or answer the question. Changing a
    figure removes the check. Exit status 1: there are questions, or nobody has checked the sheet.
    """
    from bitepoint.workshop.questioning.checking import answer_question, looked_at, record_check

    if answer:
        answer_question(file, answer, by=by, why=why)
    if checked_by:
        record_check(file, checked_by)
    lines, fine = looked_at(file)
    for line in lines:
        say(line)
    return DONE if fine else LOOK


def add_to(group: click.Group) -> None:
    """Add the commands to the command line."""
    group.add_command(vehicle)
