"""Second marking on the command line: a plan with a blind sheet, and the second marker's list brought back."""

from pathlib import Path

import click

from bitepoint.cli.register import FOLDER, of_class, tell_unchecked
from bitepoint.cli.register_lists import tell_rows
from bitepoint.cli.register_place import register_there
from bitepoint.cli.terminal import PATH


@click.group(no_args_is_help=True)
def moderation() -> None:
    """Have some of the work marked by a second person, who does not see the first marks.

    \b
    Examples:
      bitepoint moderation plan marks hand-ins --seed 7 --roster roster.csv --class-file class.toml
      bitepoint moderation import moderation/sheet.csv --by "B. Beside"
      bitepoint register import resolutions.csv
      bitepoint mark hand-ins --roster roster.csv --class-file class.toml
    """


@moderation.command()
@click.argument("marks", metavar="RESULTS", type=PATH)
@click.argument("inputs", metavar="HANDINS...", type=PATH, nargs=-1, required=True)
@click.option("--seed", metavar="N", type=click.IntRange(0), required=True, help="Decides the lots; note it down.")
@click.option(
    "--rest",
    metavar="SHARE",
    type=click.FloatRange(0, 1),
    default=0.1,
    show_default=True,
    help="Share of all that is drawn from the rest; 1 for everybody.",
)
@click.option(
    "--answers", metavar="N", type=click.IntRange(1, 400), default=8, show_default=True, help="Of each learner."
)
@click.option("--out", metavar="FOLDER", type=PATH, help="“moderation” beside RESULTS when left out.")
@click.option("--roster", metavar="FILE", type=PATH, help="As for “mark”.")
@click.option("--class-file", metavar="FILE", type=PATH, help="As for “mark”.")
@click.option("--pass-share", metavar="SHARE", type=float, help="As for “mark”.")
@click.option("--register", metavar="FOLDER", type=PATH, help="As for “mark”: “register” beside you when it is there.")
def plan(
    marks: Path,
    inputs: tuple[Path, ...],
    seed: int,
    rest: float,
    answers: int,
    out: Path | None,
    roster: Path | None,
    class_file: Path | None,
    pass_share: float | None,
    register: Path | None,
) -> int:
    """Plan whom a second person marks, and write the sheet for it.

    RESULTS is the folder that “bitepoint mark” wrote, HANDINS what it was marked from. FOLDER gets plan.csv and plan.html
    (whom, and why: near the pass line, of each assessor, first sittings, flagged and matched, and SHARE of all by lot)
    and sheet.csv and sheet.html (each question as asked, and the answer, without its mark). Give the second marker the sheet,
    not the plan.
    """
    from bitepoint.marking.moderation.plan import make_plan
    from bitepoint.marking.pages.moderation import write_plan
    from bitepoint.marking.registry.register import Register
    from bitepoint.marking.rehearsal.place import without_register
    from bitepoint.marking.roster import read_roster
    from bitepoint.marking.rules import rules_of

    book = register or register_there(*inputs)
    made = make_plan(
        marks,
        [without_register(path) for path in inputs],
        seed=seed,
        rest=rest,
        answers=answers,
        roster=read_roster(roster) if roster else None,
        rules=rules_of(class_file, pass_share),
        entries=Register(book).entries() if book else (),
    )
    for path in write_plan(out or _beside(marks), made):
        click.echo(str(path))
    click.echo(f"Learners: {len(made.chosen)} of {made.of}. Answers: {len(made.answers)}.", err=True)
    return 0


def _beside(marks: Path) -> Path:
    """Return the folder for a plan: where the results lie, so that in a rehearsal its own register takes the sheet."""
    return marks.parent / "moderation"


@moderation.command("import")
@click.argument("sheet", metavar="SHEET.csv", type=PATH)
@click.option("--by", metavar="NAME", required=True, help="The second marker.")
@click.option("--date", metavar="DAY", default="", help="When, such as 2026-06-30; today when left out.")
@of_class
@FOLDER
def import_(sheet: Path, by: str, date: str, folder: Path, class_folder: Path | None, roster: Path | None) -> int:
    """Put a second marker's list into the register.

    SHEET.csv is the sheet with its columns mark (0 to 1) and reason filled in; rows without both are left for
    later. All lines are checked first; where one cannot be used, all such lines are named and nothing is written. It is
    refused when NAME marked or decided what is to be marked a second time.

    \b
    Examples:
      bitepoint moderation import moderation/sheet.csv --by "B. Beside"
    """
    from bitepoint.marking.moderation.importing import read_second_marks
    from bitepoint.marking.registry.class_lists import find_class
    from bitepoint.marking.registry.lists import BadRows, add_all, every_problem
    from bitepoint.marking.registry.register import Register

    known = find_class(folder, folder=class_folder, roster=roster)
    try:
        found = read_second_marks(sheet, by, date)
        new, there = add_all(Register(folder), found.rows, known)
    except BadRows as error:
        tell_rows(every_problem(error, Register(folder), known))
        return 2
    tell_unchecked(known)
    left = f", {found.empty} rows have no mark yet" if found.empty else ""
    click.echo(f"{new} second marks recorded{f', {there} were there already' if there else ''}{left}.")
    return 0


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    group.add_command(moderation)
