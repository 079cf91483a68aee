"""The command `bitepoint`.

Exit status: 0 done, 1 done but a person should look, 2 wrong use or input, 3 the machine could not run it.
Everything heavy is imported inside the command that needs it, so that --help and --version answer at once.
"""

import contextlib
import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from bitepoint import __version__
from bitepoint.cli import board as cli_board
from bitepoint.cli import classes as cli_class
from bitepoint.cli import marking as cli_marking
from bitepoint.cli import moderation as cli_moderation
from bitepoint.cli import printing as cli_printing
from bitepoint.cli import register as cli_register
from bitepoint.cli import register_lists as cli_lists
from bitepoint.cli.register_place import register_of_class
from bitepoint.errors import BadInput, BitepointError, CannotRun, NotRecorded
from bitepoint.printable import printable

if TYPE_CHECKING:
    from bitepoint.marking import Outcome

DONE, LOOK, WRONG, MACHINE, STOPPED = 0, 1, 2, 3, 130
COURSE_FOLDER = Path("~/clutch-course")
PROJECTOR_FOLDER, STAFF_FOLDER = Path("~/clutch-course-projector"), Path("~/clutch-course-staff")
_MOST_NAMED = 8
_PATH = click.Path(path_type=Path)


class _Examples(click.Command):
    """A command whose help ends with examples."""

    def __init__(self, *arguments: Any, examples: str = "", **named: Any) -> None:
        self.examples = examples
        super().__init__(*arguments, **named)

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Examples"):
            formatter.write_text("\b\n" + self.examples)


def _version(context: click.Context, _: click.Parameter, asked: bool) -> None:
    """Print the version and the digest of the bank: two computers with the same bank ask and mark the same."""
    if not asked or context.resilient_parsing:
        return
    from bitepoint.bank.version import bank_digest

    click.echo(f"bitepoint {__version__}, bank {bank_digest()}")
    context.exit()


@click.group(context_settings={"help_option_names": ["-h", "--help"]}, no_args_is_help=True)
@click.option(
    "--version", is_flag=True, is_eager=True, expose_value=False, callback=_version, help="Show version and bank."
)
def cli() -> None:
    """A training course with self-checking exercises for replacing a passenger car's dry clutch.

    \b
    Learner:    bitepoint open                  opens the course in your browser
                bitepoint hand-in               packs your work for the assessor
    Assessor:   bitepoint mark HANDINS          marks hand-ins; runs nobody's code
                bitepoint register add …        decisions, sittings, overrides; import, show, verify
                bitepoint note-codes CODES.csv  check codes noted in class
                bitepoint observe FILE.csv      what was seen at the vehicle
                bitepoint moderation plan …     second marking: plan, blind sheet; import
                bitepoint print RESULTS         pages for learners, records to sign, as PDF
                bitepoint export RESULTS        for other systems
    Instructor: bitepoint rehearse              makes an invented class to practise on
                bitepoint class new FOLDER      sets up a class: ids, slips, class file
                bitepoint class add FOLDER …    a late joiner, or one from another class
                bitepoint sheets FOLDER         bench sheets to print
                bitepoint board FOLDER          where the class stands, live
                bitepoint solutions …           worked solutions for one learner's figures
    Anyone:     bitepoint check-machine         tells what this computer lacks

    \b
    Exit status: 0 done, 1 done but a person should look,
    2 wrong use or input, 3 this machine could not run it.
    """


@cli.command(
    "open",
    cls=_Examples,
    examples="bitepoint open\n"
    "bitepoint open my-course --learner L07-K --class-word autumn\n"
    "bitepoint open --class-file L07-K.toml\n"
    "bitepoint open --projector",
)
@click.argument("folder", type=_PATH, required=False)
@click.option("--learner", metavar="ID", help="Who you are, as on your card, such as L07-K.")
@click.option("--class-word", metavar="WORD", help="The word your instructor gave you.")
@click.option("--class-file", metavar="FILE", type=_PATH, help="The start file or class file you were given.")
@click.option("--room-clock", metavar="TIME", help="Sitting: what the room's clock shows now, such as 09:03.")
@click.option("--projector", is_flag=True, help="For the wall: the practice learner, large type, one lesson a page.")
@click.option("--staff", is_flag=True, help="With the notebooks for instructors and assessors: marking, observations.")
@click.option("--shortcut", is_flag=True, help="Put “Open my course” on your desktop too.")
@click.option("--no-browser", is_flag=True, help="Print the address and open no browser.")
@click.option("--port", metavar="N", type=click.IntRange(1024, 65535), default=8888, show_default=True)
def open_(
    folder: Path | None,
    learner: str | None,
    class_word: str | None,
    class_file: Path | None,
    room_clock: str | None,
    projector: bool,
    staff: bool,
    shortcut: bool,
    no_browser: bool,
    port: int,
) -> int:
    """Open the course in the browser, from FOLDER.

    FOLDER is made if it is not there; without one it is clutch-course in your home folder. Your answers are
    kept in it; “Open my course” in it opens them by a double click. Lessons that are missing are put in; nothing you wrote is written over. Leave the window open
    while you work. With --projector or --staff it is another folder,
    clutch-course-projector or clutch-course-staff, and the practice learner's.

    In a sitting the supervisor adds --room-clock: how far the laptop's clock is off stands in every answer from then on.

    A folder stays its learner's. On a computer that several learners use, whoever comes second gets a folder
    beside the first, with their id in its name.
    """
    from bitepoint.workbook.opening import open_workbook
    from bitepoint.workbook.own_folder import own_folder
    from bitepoint.workbook.owner import practice_in
    from bitepoint.workbook.room_clock import with_room_clock

    place = _course_folder(folder or (STAFF_FOLDER if staff else PROJECTOR_FOLDER if projector else None))
    if projector or staff:
        identity = practice_in(place, somebody=bool(learner or class_word or class_file))
    else:
        asked = place
        place, identity = own_folder(
            asked, named=folder is not None, learner=learner, class_word=class_word, class_file=class_file
        )
        identity = with_room_clock(identity, room_clock, datetime.now())
        if place != asked:
            _say(f"{asked} is another learner's. The folder of {identity.learner} is {place}")
    open_workbook(
        place,
        identity,
        port=port,
        browser=not no_browser,
        projector=projector,
        staff=staff,
        shortcut=shortcut,
        say=_say,
    )
    return DONE


@cli.command("hand-in", cls=_Examples, examples="bitepoint hand-in\nbitepoint hand-in my-course --into .")
@click.argument("folder", type=_PATH, required=False)
@click.option("--into", metavar="FOLDER", type=_PATH, help="Where to put the zip: a stick that is full takes none.")
def hand_in(folder: Path | None, into: Path | None) -> int:
    """Pack your work into one zip for the assessor and print where it is.

    FOLDER is your course folder; without one it is clutch-course in your home folder. The zip lies in its folder hand-in.
    """
    from bitepoint.logbook.handin import make_hand_in

    _say(str(make_hand_in(_course_folder(folder), into=into.expanduser() if into else None)))
    _say("Give that one file to your instructor as you agreed.")
    return DONE


@cli.command(
    cls=_Examples,
    examples="bitepoint mark hand-ins/\n"
    "bitepoint mark hand-ins/ --roster roster.csv --out marks-june\n"
    "bitepoint mark L07-K-20260414-101500.zip L08-M.ipynb",
)
@click.argument("inputs", metavar="HANDINS...", type=_PATH, nargs=-1, required=True)
@click.option("--roster", metavar="FILE", type=_PATH, help="The class list (CSV): who should have handed in.")
@click.option("--out", metavar="FOLDER", type=_PATH, default=Path("marks"), show_default=True)
@click.option("--workers", metavar="N", type=click.IntRange(1, 64), default=1, show_default=True)
@click.option("--class-file", metavar="FILE", type=_PATH, help="class.toml: pass_share, due, criteria, lessons.")
@click.option("--pass-share", metavar="SHARE", type=float, help="Share that must be right, such as 0.8 (the default).")
@click.option(
    "--register",
    metavar="FOLDER",
    type=_PATH,
    help="The register; “register” beside you or in the class folder, when it is there; a rehearsal's own.",
)
@click.option("--pdf", is_flag=True, help="Also print report and pages to PDF (needs Chromium; about a second a page).")
@click.option("--marked", metavar="TIME", default="", help="What the pages say as time of marking; now when left out.")
def mark(
    inputs: tuple[Path, ...],
    roster: Path | None,
    out: Path,
    workers: int,
    class_file: Path | None,
    pass_share: float | None,
    register: Path | None,
    pdf: bool,
    marked: str,
) -> int:
    """Mark hand-ins: zips, folders, single notebooks or logbooks.

    Nothing a learner sent is run. FOLDER gets marks.csv, learners.csv, marks.jsonl, report.html, three pages for
    each learner and manifest.json. Marking into the same folder again replaces them all together and keeps the set
    before in FOLDER/former; files of your own stay. Exit status 1: something is flagged for you to look at.
    """
    for path in (*inputs, *(p for p in (roster, class_file, register) if p)):
        _check_there(path)
    from bitepoint.marking import mark_hand_ins
    from bitepoint.marking.pages.pdf import find_browser
    from bitepoint.marking.rehearsal.place import without_register
    from bitepoint.marking.rules import rules_of

    browser = find_browser() if pdf else ""
    rules = rules_of(class_file, pass_share)
    register = register or register_of_class(class_file, inputs)
    with _progress() as progress:
        outcome = mark_hand_ins(
            [without_register(path) for path in inputs],
            roster=roster,
            out=out,
            workers=workers,
            progress=progress,
            register=register,
            rules=rules,
            class_file=class_file,
            browser=browser,
            marked=_moment(marked) if marked else None,
            tell=lambda line: click.echo(f"bitepoint: {_one_line(line)}", err=True),
        )
    for problem in outcome.problems:
        click.echo(f"bitepoint: {_one_line(problem)}", err=True)
    if outcome.moved:
        who = ", ".join(m.learner for m in outcome.moved[:_MOST_NAMED])
        more = f" and {len(outcome.moved) - _MOST_NAMED} more" if len(outcome.moved) > _MOST_NAMED else ""
        click.echo(f"Moved since the marking before: {who}{more}. The report says from what to what.", err=True)
    click.echo(_came_to(outcome), err=True)
    _say(str(out / "report.html"))
    return LOOK if outcome.look else DONE


def _moment(text: str) -> datetime:
    """Return a time that says its zone."""
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.tzinfo is None:
        raise BadInput(
            f"--marked must be a time with its zone, such as 2026-06-30T15:00+02:00, but it is {text[:40]!r}."
        )
    return found


def _came_to(outcome: "Outcome") -> str:
    """Say in one line what marking came to."""
    counted = f"Learners: {outcome.learners}. Marks: {outcome.rows}."
    if not outcome.look:
        return f"{counted} Nothing to look at."
    return f"{counted} For a person to look at: flags {outcome.flags}, held or not readable {len(outcome.problems)}."


@cli.command(cls=_Examples, examples="bitepoint rehearse --learners 20 --seed 7 --out rehearsal")
@click.option("--learners", metavar="N", type=click.IntRange(1, 5000), default=20, show_default=True)
@click.option(
    "--seed", metavar="N", type=click.IntRange(0), default=1, show_default=True, help="Same seed, same class."
)
@click.option("--out", metavar="FOLDER", type=_PATH, required=True, help="A new or empty folder.")
@click.option(
    "--planted",
    is_flag=True,
    help="With cases to find, in practice and a sitting; planted.csv says which. 24 learners or more.",
)
@click.option("--workbooks", is_flag=True, help="As workbooks on a share instead of zips, to try the board on.")
def rehearse(learners: int, seed: int, out: Path, planted: bool, workbooks: bool) -> int:
    """Make the hand-ins of an invented class, to practise marking on."""
    if out.exists() and (not out.is_dir() or any(out.iterdir())):
        raise BadInput(f"{out} is not empty. Name a new folder, or empty this one: --out rehearsal-2")
    from bitepoint.marking.rehearsal.place import next_steps
    from bitepoint.marking.rehearsal.rehearse import rehearse as rehearse_class

    if planted and workbooks:
        raise BadInput("Planted cases come as zips. Leave out --planted or --workbooks.")
    form = "folder" if workbooks else "zip"
    rehearse_class(out, learners=learners, seed=seed, planted=planted, sittings=planted, form=form)
    _say(str(out))
    for line in next_steps(out, planted=planted, workbooks=workbooks):
        _say(f"Next: {line}")
    return DONE


@cli.command("check-machine", cls=_Examples, examples="bitepoint check-machine\nbitepoint check-machine my-course")
@click.argument("folder", type=_PATH, required=False)
def check_machine(folder: Path | None) -> int:
    """Tell in plain sentences whether this computer can run the course.

    Looks at Python, the packages, the place of FOLDER, a kernel, a port and a browser. The last line is for
    copying when you ask for help; it has no user name and no path in it.
    """
    from bitepoint.workbook.check_machine import check_machine as check

    return check(_course_folder(folder), say=_say)


cli_marking.add_to(cli)
cli.add_command(cli_printing.print_)
cli_register.add_to(cli)
cli_lists.add_to(cli)
cli_moderation.add_to(cli)
cli_class.add_to(cli)
cli_board.add_to(cli)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line; return the exit status. A user never sees a traceback of a known error."""
    for stream in (sys.stdout, sys.stderr):
        # A console that knows few letters shows a question mark instead of failing.
        with contextlib.suppress(AttributeError, ValueError):
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]
    try:
        status = cli.main(None if arguments is None else list(arguments), "bitepoint", standalone_mode=False)
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.format_message(), err=True)
        return WRONG
    except click.ClickException as error:
        command = error.ctx.command_path if isinstance(error, click.UsageError) and error.ctx else "bitepoint"
        return _failed(f"{_one_line(error.format_message())} See: {command} --help", WRONG)
    except (click.Abort, KeyboardInterrupt):
        return _failed("stopped.", STOPPED)
    except (CannotRun, NotRecorded) as error:
        return _failed(str(error), MACHINE)
    except BitepointError as error:
        return _failed(str(error), WRONG)
    except OSError as error:
        where = f": {error.filename}" if error.filename else ""
        return _failed(f"{error.strerror or error}{where}. Next: bitepoint check-machine", MACHINE)
    return status if isinstance(status, int) else DONE


def _course_folder(folder: Path | None) -> Path:
    return (folder or COURSE_FOLDER).expanduser().resolve()


def _check_there(path: Path) -> None:
    if not path.exists():
        raise BadInput(f"{path} is not there. Check the name; with spaces in it, put it in quotes.")


@contextlib.contextmanager
def _progress() -> Iterator[Callable[[int, int], None] | None]:
    """Give a function (done, of how many) that draws a bar on stderr; None where nobody watches."""
    if not sys.stderr.isatty():
        yield None
        return
    with click.progressbar(length=1, label="Marking", file=sys.stderr) as bar:

        def progress(done: int, total: int) -> None:
            bar.length = total
            bar.update(done - bar.pos)

        yield progress


def _say(line: str) -> None:
    click.echo(line)
    sys.stdout.flush()


def _failed(message: str, status: int) -> int:
    click.echo(f"bitepoint: {_one_line(message)}", err=True)
    return status


def _one_line(message: str) -> str:
    return " ".join(printable(message).split())
