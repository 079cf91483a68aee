"""The commands for a college's own questions: a file to start from, its check, the calculators that a number may name."""

import re
from pathlib import Path

import click

from bitepoint.cli.terminal import DONE, LOOK, PATH, WRONG, say
from bitepoint.errors import BadInput


@click.group()
def exercise() -> None:
    """Questions of your own for a class: start a file, check it, list the calculators.

    \b
    Examples:
      bitepoint exercise new questions.toml
      bitepoint exercise check questions.toml
      bitepoint exercise calculators torque
    """


@exercise.command()
@click.argument("file", metavar="FILE", type=PATH)
def new(file: Path) -> int:
    """Write FILE with one good question of each kind and notes; a file that is there is never written over."""
    from bitepoint.bank.own import template
    from bitepoint.logbook.one_step import write_new

    try:
        write_new(file, template())
    except FileExistsError:
        raise BadInput(f"{file} is there already. Name another file, or move that one away.") from None
    except OSError as error:
        raise BadInput(
            f"{file} cannot be written ({error.strerror or error}). Name a file in a folder of yours."
        ) from None
    say(f"{file} has four examples, one of each kind. Change them, then: bitepoint exercise check {file}")
    return DONE


@exercise.command()
@click.argument("file", metavar="FILE", type=PATH)
@click.option("--vehicles", metavar="LIST", default="A,B,C,D", help="Cars of the class: letters, own sheets (files).")
def check(file: Path, vehicles: str) -> int:
    """Check the questions in FILE: drawn 300 times each and marked, options measured, words and sources looked at.

    \b
    Examples:
      bitepoint exercise check questions.toml
      bitepoint exercise check questions.toml --vehicles A,our-van.toml

    \b
    Exit status: 0 all is well, 1 a person should look, 2 something cannot be used.
    """
    from bitepoint.classroom.own_things import own_things, questions_tried

    letters, sheets = own_things(vehicles)
    found = questions_tried(file, letters, sheets)
    for line in (*found.refused, *found.look):
        click.echo(line, err=True)
    if found.refused:
        return WRONG
    for line in found.told:
        say(line)
    return LOOK if found.look else DONE


@exercise.command()
@click.argument("word", required=False, default="")
def calculators(word: str) -> int:
    """List the calculators that a number question may name, with their fields; with WORD only those that mention it."""
    from bitepoint.bank.own.calculators import own_calculators

    shown = [
        c
        for c in own_calculators().values()
        if word.casefold() in f"{c.name} {c.about} {' '.join(c.fields)}".casefold()
    ]
    if not shown:
        raise BadInput(f"No calculator mentions {word[:40]!r}. Without a word all are listed.")
    for found in shown:
        say(f"{found.name}: {_plain(found.about)}")
        for field in found.fields.values():
            unit = field.unit or ("a whole number" if field.whole else "a plain figure")
            say(f"    {field.name} ({unit}{', may be left out' if field.optional else ''})")
    return DONE


def _plain(about: str) -> str:
    """Return what a calculator says of itself without its formula."""
    return re.sub(r"[,:]?\s*:math:`[^`]*`", "", about).replace("`", "").rstrip(".") + "."
