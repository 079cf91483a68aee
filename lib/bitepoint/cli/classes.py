"""The instructor's commands: a new class, bench sheets, worked solutions."""

from datetime import datetime
from pathlib import Path
from typing import Any

import click

from bitepoint.cli.terminal import PATH

_LETTER = click.option("--letter", is_flag=True, help="US Letter paper; A4 when left out.")


@click.group("class", no_args_is_help=True)
def class_() -> None:
    """Set up a class, or add a learner to one.

    \b
    Examples:
      bitepoint class add autumn --learner 17 --by "A. Head" --text "came in week three"
      bitepoint class new autumn --title "Autumn clutch course" --class-word oak-2026 --learners 16
    """


@class_.command()
@click.argument("folder", metavar="FOLDER", type=PATH)
@click.option("--title", metavar="TEXT", required=True, help="Name of the class, shown to the learners.")
@click.option("--class-word", metavar="WORD", required=True, help="Decides the figures of every learner.")
@click.option("--learners", metavar="N", type=int, required=True, help="How many, 1 to 999.")
@click.option(
    "--lessons", metavar="KEYS", default="", help="Lessons that count, such as start,star; all when left out."
)
@click.option("--feedback", type=click.Choice(["at once", "after hand-in"]), default="at once", show_default=True)
@click.option("--pass-share", metavar="SHARE", type=float, default=0.8, show_default=True)
@click.option("--due", metavar="DAY", type=click.DateTime(["%Y-%m-%d"]), help="When work should be in: 2026-06-30.")
@click.option(
    "--zone", metavar="NAME", default="", help="Time zone such as Europe/Vienna; this computer's when left out."
)
@click.option(
    "--criterion", "criteria", metavar="TEXT", multiple=True, help="To observe; repeat it. Ten when left out."
)
@click.option("--sitting", metavar="WORD", default="", help="Word of a supervised sitting; other figures than before.")
@click.option("--supervisor", metavar="NAME", default="", help="Who supervises the sitting; printed on the slips.")
@click.option(
    "--vehicles",
    metavar="LIST",
    default="A,B,C,D",
    show_default=True,
    help="Cars, in order: letters, own sheets (files).",
)
@click.option("--questions", metavar="FILE", type=PATH, help="The college's own questions, checked before.")
@_LETTER
def new(
    folder: Path,
    lessons: str,
    vehicles: str,
    questions: Path | None,
    due: datetime | None,
    letter: bool,
    **said: Any,
) -> int:
    """Make the files of a class in FOLDER.

    class.toml (for opening, marking and sheets), roster.csv (ids and cars; put the names in), cards.html (slips to print and
    cut) and start, a folder with a start file for each learner, to hand out where feedback waits, there is a sitting
    word, or the class has own sheets or questions: the start file carries them. A class that is there is never replaced.

    \b
    Examples:
      bitepoint class new autumn --title "Autumn course" --class-word oak-2026 --learners 16
      bitepoint class new vans --title "Vans" --class-word elm-2026 --learners 12 --vehicles A,our-van.toml
    """
    from bitepoint.classroom.classes import NewClass, write_class
    from bitepoint.classroom.own_things import own_things, said_of_left_out

    keys = tuple(key.strip() for key in lessons.split(",") if key.strip())
    letters, own = own_things(vehicles, questions)
    made = NewClass(lessons=keys, vehicles=letters, own=own, due=due.date() if due else None, **said)
    for path in write_class(folder, made, paper="letter" if letter else "A4"):
        click.echo(str(path))
    for line in said_of_left_out(letters, keys):
        click.echo(line, err=True)
    return 0


@class_.command()
@click.argument("folder", metavar="FOLDER", type=PATH)
@click.option("--learner", metavar="ID", required=True, help="Number, such as 25; the check letter is worked out.")
@click.option("--by", metavar="NAME", required=True, help="Who decided it.")
@click.option("--text", metavar="TEXT", required=True, help="Why.")
@click.option("--date", "day", metavar="DAY", default="", help="Since when; today when left out.")
@click.option("--from", "came_from", metavar="WORD", default="", help="Class word of the class before.")
@click.option("--was", metavar="ID", default="", help="The id in the class before, as on the old card.")
@click.option("--register", metavar="FOLDER", type=PATH, help="The register; that of the class folder when left out.")
@_LETTER
def add(folder: Path, register: Path | None, letter: bool, **said: Any) -> int:
    """Add a learner who joins late, or comes from another class.

    roster.csv gets a line with check letter and car, start a start file; card-ID.html is the slip. Who decided and why goes
    into the register. With --from what was answered in the class before goes on counting, up to and with that day, as long
    as the hand-ins of both are marked together.

    \b
    Examples:
      bitepoint class add autumn --learner 17 --by "A. Head" --text "came in week three"
      bitepoint class add autumn --learner 18 --from elm-2026 --was L07-C --by "A. Head" --text "moved house"
    """
    from bitepoint.classroom.joining import Joining, add_learner

    for path in add_learner(folder, Joining(**said), register=register, paper="letter" if letter else "A4"):
        click.echo(str(path))
    return 0


@class_.command()
@click.argument("folder", metavar="FOLDER", type=PATH)
def renew(folder: Path) -> int:
    """Take over own sheets or questions that were corrected in FOLDER/own, and write new start files to hand out.

    A corrected sheet must be checked by a second person again first. Answers given before to questions about that car get
    no mark.

    \b
    Example:
      bitepoint class renew vans
    """
    from bitepoint.classroom.renewing import renew_class

    for path in renew_class(folder):
        click.echo(str(path))
    return 0


@click.command()
@click.argument("folder", metavar="[FOLDER]", type=PATH, required=False)
@click.option(
    "--vehicle", metavar="CAR", default="", help="Letter of a vehicle, such as A, or the file of an own sheet."
)
@click.option("--out", metavar="FOLDER", type=PATH, required=True, help="Where the sheets go.")
@click.option("--class-file", metavar="FILE", type=PATH, help="class.toml: title, cars, and criteria to observe.")
@click.option("--posters", is_flag=True, help="Pages for the wall, the label, and what to remember of each lesson.")
@click.option(
    "--review", is_flag=True, help="What to send a practising fitter: each claim of each lesson, to agree or not."
)
@click.option("--pdf", is_flag=True, help="Also print to PDF (needs Chromium).")
@_LETTER
def sheets(out: Path, pdf: bool, letter: bool, **asked: Any) -> int:
    """Write pages to print: bench sheets for a class or one training vehicle, posters, or what a fitter is to read.

    FOLDER is a class folder (class.toml, roster.csv). Its sheets come as one file: who has which car, the sheets of each
    car, and for each learner, with id and car filled in, a leaf to measure and inspect and a leaf to be observed.

    Of a class with a sitting word it is the supervisor's sheet.

    With --vehicle, one file each: risk sheet, order of work, inspection, measuring, tightening card, final check and
    road test, observation.

    With --posters, one page each: fault tree, inspection, bleeding card, label true to size, and for each lesson what to
    remember. With --review, for each lesson its claims with their source, a box to agree or not, initials and date.

    \b
    Examples:
      bitepoint sheets autumn --out sheets-autumn --pdf
      bitepoint sheets --posters --out posters --pdf
      bitepoint sheets --vehicle B --out sheets-b --class-file autumn/class.toml
    """
    from bitepoint.marking.pages.pdf import find_browser, print_pdf

    browser = find_browser() if pdf else ""
    for path in _sheets(out=out, paper="letter" if letter else "A4", **asked):
        click.echo(str(path))
        if browser:
            click.echo(str(print_pdf(path, browser)))
    return 0


def _sheets(
    *, folder: Path | None, vehicle: str, posters: bool, review: bool, class_file: Path | None, out: Path, paper: Any
) -> list[Path]:
    from bitepoint.classroom.bench_sheets.class_sheets import write_class_sheets
    from bitepoint.classroom.bench_sheets.sheets import class_of, write_own_sheets, write_sheets
    from bitepoint.classroom.class_folder import read_class_folder
    from bitepoint.classroom.posters.pages import write_posters
    from bitepoint.classroom.review import write_review
    from bitepoint.errors import BadInput

    if sum(map(bool, (folder, vehicle, posters, review))) != 1 or (class_file and not vehicle):
        raise BadInput(
            "Whose sheets? Name a class folder, as in “bitepoint sheets autumn --out sheets”, or one of --vehicle A, "
            "--posters and --review; --class-file goes with --vehicle."
        )
    if folder:
        return write_class_sheets(read_class_folder(folder), out, paper=paper)
    if not vehicle:
        return (write_posters if posters else write_review)(out, paper=paper)
    title, criteria, cars = class_of(class_file) if class_file else ("", (), ())
    if vehicle.casefold().endswith(".toml"):
        return write_own_sheets(Path(vehicle).expanduser(), out, paper=paper, criteria=criteria, class_title=title)
    return write_sheets(vehicle, out, paper=paper, criteria=criteria, class_title=title, cars=cars)


@click.command()
@click.option(
    "--class-file", metavar="FILE", type=PATH, help="Start file of the learner: names learner, car and sitting."
)
@click.option("--class-word", metavar="WORD", default="", help="Without a start file: the class word.")
@click.option("--learner", metavar="ID", default="", help="Without a start file: whose figures, such as L07-E.")
@click.option("--lesson", metavar="N", default="", help="Number or key of one lesson; all when left out.")
@click.option(
    "--sitting", metavar="WORD", default="", help="Of that sitting; of practice, or the start file's, when left out."
)
@click.option("--turn", metavar="N", type=click.IntRange(1, 999), help="Only this turn; turns 1 and 2 when left out.")
@click.option("--out", metavar="FOLDER", type=PATH, required=True, help="Where the pages go; not a learner's folder.")
def solutions(
    class_file: Path | None, class_word: str, learner: str, lesson: str, sitting: str, turn: int | None, out: Path
) -> int:
    """Write worked solutions for an instructor, with the reason and the known mistakes of each exercise.

    \b
    Examples:
      bitepoint solutions --class-file autumn/start/L07-E.toml --lesson 8 --out solved
      bitepoint solutions --class-word oak-2026 --learner L07-E --lesson 8 --out solved
      bitepoint solutions --class-word oak-2026 --learner L07-E --sitting red-kite --turn 3 --out solved
    """
    from bitepoint.errors import BadInput
    from bitepoint.marking.pages.solutions import write_solutions
    from bitepoint.workbook.owner import identity_in

    if not class_file and not (class_word and learner):
        raise BadInput("Whose figures? Give --class-file start/L07-K.toml, or --class-word and --learner.")
    who = identity_in(out, learner=learner or None, class_word=class_word or None, class_file=class_file)
    made = write_solutions(
        out,
        class_word=who.class_word,
        learner=who.learner,
        lesson=lesson,
        turns=(turn,) if turn else (1, 2),
        sitting=sitting or who.sitting,
        vehicle=who.vehicle,
        cars=who.vehicles,
    )
    for path in made:
        click.echo(str(path))
    return 0


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    for command in (class_, sheets, solutions):
        group.add_command(command)
