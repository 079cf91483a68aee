"""The register on the command line, entry by entry."""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import click

from bitepoint.cli.register_place import chosen
from bitepoint.cli.terminal import PATH
from bitepoint.errors import BadInput
from bitepoint.printable import printable

FOLDER = click.option(
    "--register",
    "folder",
    metavar="FOLDER",
    type=PATH,
    callback=chosen,
    help="“register” beside you; in a rehearsal its own.",
)


def of_class(command: Callable[..., int]) -> Callable[..., int]:
    """Give a command the options that say whose learners and criteria an entry may name."""
    for option in (
        click.option(
            "--roster", metavar="FILE", type=PATH, help="roster.csv of the class; else the one beside the register."
        ),
        click.option(
            "--class-folder", metavar="FOLDER", type=PATH, help="Where roster.csv and class.toml lie, if elsewhere."
        ),
    ):
        command = option(command)
    return command


@click.group(no_args_is_help=True)
def register() -> None:
    """Keep the register: who decided what, when and why.

    Nothing in it is ever changed or deleted. Marking with --register replays it.

    \b
    Examples:
      bitepoint register add sitting --word red-kite --from 2026-06-30T09:00+02:00 --to 2026-06-30T11:00+02:00 \\
          --room 12 --by "A. Assessor"
      bitepoint register add override --learner L07-K --exercise star.impact --score 1 --by "A. Assessor" --text "…"
      bitepoint register import decided.csv
      bitepoint register show --learner L07-K
      bitepoint register verify
    """


@register.command()
@click.argument("kind", metavar="KIND", nargs=-1, required=True)
@click.option("--learner", metavar="ID", default="", help="Whom it is about, such as L07-K.")
@click.option("--by", metavar="NAME", default="", help="Who did it or decided it.")
@click.option("--date", metavar="DAY", default="", help="When, such as 2026-06-30; today when left out.")
@click.option("--text", metavar="TEXT", default="", help="Why, or what was found. Nothing about health, no names.")
@click.option(
    "--exercise", metavar="ID", default="", help="Which exercise (override, second mark, resolution, appeal)."
)
@click.option("--score", metavar="0..1", type=float, default=None, help="The mark (override, second mark, resolution).")
@click.option(
    "--criterion", metavar="TEXT", default="", help="Of class.toml (decision, observation); a decision may say all."
)
@click.option(
    "--result",
    metavar="TEXT",
    default="",
    help="Observation: done right, not right yet, not watched. Confirmation: not in the sitting.",
)
@click.option("--action", metavar="TEXT", default="", help="What was done about it (verification).")
@click.option("--lesson", metavar="KEY", default="", help="Which lesson (code).")
@click.option("--code", metavar="CODE", default="", help="The noted check code, such as AD7-QB7.")
@click.option("--number", metavar="N", type=int, default=None, help="Which resubmission it is.")
@click.option("--word", metavar="WORD", default="", help="Which sitting; of a mark, practice when left out.")
@click.option("--from", "begins", metavar="TIME", default="", help="Begin of a sitting with its zone.")
@click.option("--to", "ends", metavar="TIME", default="", help="End of a sitting with its zone.")
@click.option("--lessons", metavar="KEYS", default="", help="Lessons of a sitting, by commas; all when left out.")
@click.option("--room", metavar="ROOM", default="", help="Which room (sitting, confirmation).")
@click.option("--hand-in", metavar="SHA256", default="", help="Which hand-in, as the report says (sender, lines).")
@click.option("--outcome", metavar="TEXT", default="", help="Appeal: upheld, partly upheld, not upheld or taken back.")
@click.option("--decided", metavar="DAY", default="", help="When an appeal was decided; today when left out.")
@click.option("--signed", metavar="yes|no", default="", help="Whether a declaration was signed on paper.")
@click.option("--again", metavar="ID", default="", help="Deletion: the id once more, so that no slip deletes anybody.")
@of_class
@FOLDER
def add(
    kind: tuple[str, ...],
    folder: Path,
    lessons: str,
    again: str,
    class_folder: Path | None,
    roster: Path | None,
    **said: Any,
) -> int:
    """Add one entry.

    KIND is one of: sitting, confirmation, declaration, decision, verification, override, withdraw override, second mark,
    resolution, adjustment, resubmission, appeal, observation, code, sender, lines, deletion.

    Learner and criterion are looked up in roster.csv and class.toml beside the register. A second mark, and the outcome
    of an appeal, are another person's than the first mark. An adjustment says only what it is (extra time, another
    day), never why: nothing about anybody's health belongs here.
    """
    from bitepoint.marking.registry.checking import check_entry
    from bitepoint.marking.registry.class_lists import find_class
    from bitepoint.marking.registry.register import Entry, Register

    keys = tuple(key.strip() for key in lessons.split(",") if key.strip())
    known = find_class(folder, folder=class_folder, roster=roster)
    entry = known.checked(check_entry(Entry(kind=" ".join(kind).casefold(), lessons=keys, **said)))
    if entry.kind == "deletion":
        _ask_again(entry.learner, again)
    if entry.learner:
        tell_unchecked(known)
    entry = Register(folder).add(entry)
    click.echo(f"Recorded: {_line(entry)}")
    if entry.kind == "override" and not entry.word:
        click.echo("It is of practice only. For a sitting, enter one with its word: --word red-kite", err=True)
    if entry.kind == "appeal" and entry.outcome in ("upheld", "partly upheld"):
        _tell_how_to_change(entry, Register(folder).entries())
    return 0


def _tell_how_to_change(appeal: Any, entries: Sequence[Any]) -> None:
    """Say that an upheld appeal changes no mark by itself, and which entry does."""
    from bitepoint.marking.registry.giving_marks import changed_by

    kind, exercise, word = changed_by(appeal, entries), appeal.exercise or "…", appeal.word
    click.echo(
        f"The mark stays as it is until {'an' if kind == 'override' else 'another'} {kind} says otherwise: bitepoint "
        f"register add {kind} --learner {appeal.learner} --exercise {exercise}{f' --word {word}' if word else ''} "
        "--score … --by … --text …",
        err=True,
    )


def _ask_again(learner: str, again: str) -> None:
    """Let a deletion pass when the id was given twice; on a terminal it is asked for."""
    from bitepoint.logbook.identity import same_name

    if not again and sys.stdin.isatty():
        again = click.prompt(f"This cannot be taken back. Type the id of {learner} once more", err=True)
    if not again:
        raise BadInput(f"A deletion cannot be taken back. Give the id once more: --again {learner}")
    if not same_name(again.strip(), learner):
        raise BadInput(f"--again is {again[:40]!r}, but --learner is {learner}. Nothing was deleted.")


def tell_unchecked(known: Any) -> None:
    if known.learners is None:
        click.echo(
            "bitepoint: no roster.csv lies beside the register, so the learner ids were not checked. "
            "Name it with --roster.",
            err=True,
        )


@register.command()
@click.option("--learner", metavar="ID", default="", help="Only what is about this learner.")
@FOLDER
def show(learner: str, folder: Path) -> int:
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
@FOLDER
def verify(folder: Path) -> int:
    """Check that no line of the register was changed, added or removed since it was written."""
    book = _existing(folder)
    problems = book.problems()
    for problem in problems:
        click.echo(f"bitepoint: {printable(problem)}", err=True)
    if not problems:
        count = sum(len(lines) for lines in book.lines().values())
        click.echo(f"The chain holds: {count} {'entry' if count == 1 else 'entries'}.")
    return 1 if problems else 0


def _existing(folder: Path) -> Any:
    from bitepoint.marking.registry.register import Register

    book = Register(folder)
    if not book.exists:
        raise BadInput(f"There is no register in {folder}. Name its folder with --register, or add a first entry.")
    return book


def _line(entry: Any) -> str:
    keys: tuple[str, ...] = ("learner", "word", "begins", "ends", "room", "hand_in", "exercise", "criterion", "result")
    keys += ("lesson", "code", "number", "score", "outcome", "decided")
    said = [f"{getattr(entry, key)}" for key in keys if getattr(entry, key) not in ("", None)]
    said += [f"signed on paper: {entry.signed}"] if entry.signed else []
    said += [f"“{text}”" for text in (entry.text, entry.action) if text]
    by = f" by {entry.by}" if entry.by else ""
    return " ".join(printable(f"{entry.date} {entry.kind}{by}: {' · '.join(said)}").split())


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    group.add_command(register)
