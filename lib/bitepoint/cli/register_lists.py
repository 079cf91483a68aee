"""Lists brought to the register: entries, noted check codes, observations."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

import click

from bitepoint.cli.register import FOLDER, of_class, register, tell_unchecked
from bitepoint.cli.terminal import PATH
from bitepoint.printable import printable

_MOST_TOLD = 50


@register.command("import")
@click.argument("entries", metavar="FILE.csv", type=PATH)
@of_class
@FOLDER
def import_(entries: Path, folder: Path, class_folder: Path | None, roster: Path | None) -> int:
    """Add the entries of a list.

    FILE.csv has the column kind, and those options of “register add” that are needed as columns: learner, by, date,
    text, exercise, score, word and so on. All lines are checked first; where one cannot be used, all such
    lines are named and nothing is written. Bringing a list again adds nothing.

    \b
    Examples:
      bitepoint register import resolutions.csv
    """
    from bitepoint.marking.registry.lists import read_entries

    return _add_all(partial(read_entries, entries), folder, "entries", class_folder, roster)


@click.command("note-codes")
@click.argument("codes", metavar="CODES.csv", type=PATH)
@of_class
@FOLDER
def note_codes(codes: Path, folder: Path, class_folder: Path | None, roster: Path | None) -> int:
    """Put noted check codes into the register.

    CODES.csv has the columns learner, lesson, code, noted at. Marking then flags a hand-in whose history
    does not hold a noted code.

    \b
    Examples:
      bitepoint note-codes codes.csv
    """
    from bitepoint.marking.registry.lists import read_codes

    return _add_all(partial(read_codes, codes), folder, "check codes", class_folder, roster)


@click.command()
@click.argument("observations", metavar="FILE.csv", type=PATH)
@of_class
@FOLDER
def observe(observations: Path, folder: Path, class_folder: Path | None, roster: Path | None) -> int:
    """Put observations at the vehicle into the register.

    FILE.csv has the columns criterion, result (done right, not right yet, not watched), learner, assessor,
    date and, if wanted, note. A newer observation of the same criterion takes the place of the older one in
    the marks; both stay in the register. Learners and criteria are looked up in roster.csv and class.toml beside the
    register; all lines that cannot be used are named at once, and then nothing is written.

    \b
    Examples:
      bitepoint observe observations.csv
    """
    from bitepoint.marking.registry.lists import read_observations

    return _add_all(partial(read_observations, observations), folder, "observations", class_folder, roster)


def _add_all(
    read: Callable[[], list[Any]], folder: Path, what: str, class_folder: Path | None, roster: Path | None
) -> int:
    """Bring a list to the register; rows that cannot be used are told one a line."""
    from bitepoint.marking.registry.class_lists import find_class
    from bitepoint.marking.registry.lists import BadRows, add_all, every_problem
    from bitepoint.marking.registry.register import Register

    known = find_class(folder, folder=class_folder, roster=roster)
    try:
        new, there = add_all(Register(folder), read(), known)
    except BadRows as error:
        tell_rows(every_problem(error, Register(folder), known))
        return 2
    tell_unchecked(known)
    named = {"entries": "entry"}.get(what, what.removesuffix("s")) if new == 1 else what
    click.echo(f"{new} {named} recorded{f', {there} were there already' if there else ''}.")
    return 0


def tell_rows(problems: Sequence[str]) -> None:
    """Say which rows of a list cannot be used, and that nothing was written."""
    for problem in problems[:_MOST_TOLD]:
        click.echo(f"bitepoint: {printable(problem)}", err=True)
    more = f" ({len(problems) - _MOST_TOLD} more are not shown)" if len(problems) > _MOST_TOLD else ""
    lines = "1 line" if len(problems) == 1 else f"{len(problems)} lines"
    click.echo(
        f"bitepoint: {lines} cannot be used{more}. Nothing was written. Put them right, then try again.", err=True
    )


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    for command in (note_codes, observe):
        group.add_command(command)
