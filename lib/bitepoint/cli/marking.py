"""The assessor's commands beside `mark`: the register, noted codes, observations, exports."""

from pathlib import Path
from typing import Any

import click

from bitepoint.cli.register_place import register_beside
from bitepoint.errors import BadInput
from bitepoint.printable import printable

_PATH = click.Path(path_type=Path)
_FOLDER = click.option(
    "--register", "folder", metavar="FOLDER", type=_PATH, help="“register” beside you; in a rehearsal its own."
)


@click.group(no_args_is_help=True)
def register() -> None:
    """Keep the register: who decided what, when and why.

    Nothing in it is ever changed or deleted. Marking with --register replays it.

    \b
    Examples:
      bitepoint register add sitting --word red-kite --from 2026-06-30T09:00+02:00 --to 2026-06-30T11:00+02:00 \\
          --room 12 --by "A. Assessor"
      bitepoint register add override --learner L07-K --exercise star.impact --score 1 --by "A. Assessor" --text "…"
      bitepoint register show --learner L07-K
      bitepoint register verify
    """


@register.command()
@click.argument("kind", metavar="KIND", nargs=-1, required=True)
@click.option("--learner", metavar="ID", default="", help="Whom it is about, such as L07-K.")
@click.option("--by", metavar="NAME", default="", help="Who did it or decided it.")
@click.option("--date", metavar="DAY", default="", help="When, such as 2026-06-30; today when left out.")
@click.option("--text", metavar="TEXT", default="", help="Why, what was sampled, the comment or note.")
@click.option("--exercise", metavar="ID", default="", help="Which exercise (override, second mark).")
@click.option("--score", metavar="0..1", type=float, default=None, help="The mark (override, second mark).")
@click.option("--criterion", metavar="TEXT", default="", help="Which criterion (decision, observation).")
@click.option("--result", metavar="TEXT", default="", help="done right, not right yet or not watched.")
@click.option("--action", metavar="TEXT", default="", help="What was done about it (verification).")
@click.option("--lesson", metavar="KEY", default="", help="Which lesson (code).")
@click.option("--code", metavar="CODE", default="", help="The noted check code, such as AD7-QB7.")
@click.option("--number", metavar="N", type=int, default=None, help="Which resubmission it is.")
@click.option(
    "--word", metavar="WORD", default="", help="Which sitting (sitting, confirmation, declaration, override)."
)
@click.option("--from", "begins", metavar="TIME", default="", help="Begin of a sitting with its zone.")
@click.option("--to", "ends", metavar="TIME", default="", help="End of a sitting with its zone.")
@click.option("--lessons", metavar="KEYS", default="", help="Lessons of a sitting, by commas; all when left out.")
@click.option("--room", metavar="ROOM", default="", help="Which room (sitting, confirmation).")
@click.option("--hand-in", metavar="SHA256", default="", help="Which hand-in, as the report says (sender, lines).")
@_FOLDER
def add(kind: tuple[str, ...], folder: Path | None, lessons: str, **said: Any) -> int:
    """Add one entry.

    KIND is one of: sitting, confirmation, declaration, decision, verification, override, second mark, adjustment,
    resubmission, appeal, observation, code, sender, lines, deletion.
    """
    from bitepoint.marking.registry.register import Entry, Register

    keys = tuple(key.strip() for key in lessons.split(",") if key.strip())
    entry = Register(folder or register_beside()).add(Entry(kind=" ".join(kind).casefold(), lessons=keys, **said))
    click.echo(f"Recorded: {_line(entry)}")
    return 0


@register.command()
@click.option("--learner", metavar="ID", default="", help="Only what is about this learner.")
@_FOLDER
def show(learner: str, folder: Path | None) -> int:
    """Show the entries, oldest first."""
    from bitepoint.marking.registry.register import about

    book = _existing(folder)
    entries = list(about(book.entries(), learner)) if learner else book.entries()
    for entry in entries:
        click.echo(_line(entry))
    if not entries:
        click.echo(f"No entry about {learner}." if learner else "No entry yet.")
    return 0


@register.command()
@_FOLDER
def verify(folder: Path | None) -> int:
    """Check that no line of the register was changed, added or removed since it was written."""
    book = _existing(folder)
    problems = book.problems()
    for problem in problems:
        click.echo(f"bitepoint: {printable(problem)}", err=True)
    if not problems:
        count = sum(len(lines) for lines in book.lines().values())
        click.echo(f"The chain holds: {count} {'entry' if count == 1 else 'entries'}.")
    return 1 if problems else 0


@click.command("note-codes")
@click.argument("codes", metavar="CODES.csv", type=_PATH)
@_FOLDER
def note_codes(codes: Path, folder: Path | None) -> int:
    """Put noted check codes into the register.

    CODES.csv has the columns learner, lesson, code, noted at. Marking then flags a hand-in whose history
    does not hold a noted code.

    \b
    Examples:
      bitepoint note-codes codes.csv
    """
    from bitepoint.marking.registry.lists import read_codes

    return _add_all(read_codes(codes), folder or register_beside(codes), "check codes")


@click.command()
@click.argument("observations", metavar="FILE.csv", type=_PATH)
@_FOLDER
def observe(observations: Path, folder: Path | None) -> int:
    """Put observations at the vehicle into the register.

    FILE.csv has the columns criterion, result (done right, not right yet, not watched), learner, assessor,
    date and, if wanted, note. A newer observation of the same criterion takes the place of the older one in
    the marks; both stay in the register.

    \b
    Examples:
      bitepoint observe observations.csv
    """
    from bitepoint.marking.registry.lists import read_observations

    return _add_all(read_observations(observations), folder or register_beside(observations), "observations")


@click.command()
@click.argument("results", metavar="RESULTS", type=_PATH)
@click.option("--format", "form", metavar="FORMAT", required=True, help="xapi, oneroster or csv.")
@click.option("--out", metavar="FOLDER", type=_PATH, required=True, help="Where the files go.")
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

    for path in write(results, out, form=form, home=home, tell=lambda line: click.echo(f"bitepoint: {line}", err=True)):
        click.echo(str(path))
    return 0


def _add_all(entries: list[Any], folder: Path, what: str) -> int:
    from bitepoint.marking.registry.lists import add_all
    from bitepoint.marking.registry.register import Register

    new, known = add_all(Register(folder), entries)
    click.echo(f"{new} {what} recorded{f', {known} were there already' if known else ''}.")
    return 0


def _existing(folder: Path | None) -> Any:
    from bitepoint.marking.registry.register import Register

    folder = folder or register_beside()
    book = Register(folder)
    if not book.exists:
        raise BadInput(f"There is no register in {folder}. Name its folder with --register, or add a first entry.")
    return book


def _line(entry: Any) -> str:
    keys: tuple[str, ...] = ("learner", "word", "begins", "ends", "room", "hand_in", "exercise", "criterion", "result")
    keys += ("lesson", "code", "number", "score", "text", "action")
    said = [f"{getattr(entry, key)}" for key in keys if getattr(entry, key) not in ("", None)]
    by = f" by {entry.by}" if entry.by else ""
    return " ".join(printable(f"{entry.date} {entry.kind}{by}: {' · '.join(said)}").split())


@click.command("as-asked")
@click.argument("inputs", metavar="HANDINS...", nargs=-1, required=True, type=_PATH)
@click.option("--learner", metavar="ID", required=True, help="Whose answers, such as L07-K.")
@click.option("--exercise", metavar="ID", default="", help="Only this exercise; all when left out.")
@click.option("--out", metavar="FILE", type=_PATH, required=True, help="The page, such as appeal.html.")
def as_asked(inputs: tuple[Path, ...], learner: str, exercise: str, out: Path) -> int:
    """Print a learner's answers with each question as it was read, for an appeal.

    Words bettered since are taken from the release that the learner worked with.

    \b
    Examples:
      bitepoint as-asked hand-ins --learner L07-K --exercise star.impact --out appeal.html
    """
    from bitepoint.marking.pages.as_asked import write_as_asked

    count = write_as_asked(out, inputs, learner=learner, exercise=exercise)
    click.echo(f"{out}: {count} {'answer' if count == 1 else 'answers'}.")
    return 0


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    for command in (register, note_codes, observe, export, as_asked):
        group.add_command(command)
