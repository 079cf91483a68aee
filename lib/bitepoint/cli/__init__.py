"""The command `bitepoint`.

Exit status: 0 done, 1 done but a person should look, 2 wrong use or input, 3 the machine could not run it.
Everything heavy is imported inside the command that needs it, so that --help and --version answer at once.
"""

import contextlib
import errno
import sys
from collections.abc import Sequence

import click

from bitepoint import __version__
from bitepoint.cli import board as cli_board
from bitepoint.cli import bundle as cli_bundle
from bitepoint.cli import classes as cli_class
from bitepoint.cli import exercises as cli_exercises
from bitepoint.cli import hand_ins as cli_hand_ins
from bitepoint.cli import job as cli_job
from bitepoint.cli import learning as cli_learning
from bitepoint.cli import marking as cli_marking
from bitepoint.cli import moderation as cli_moderation
from bitepoint.cli import printing as cli_printing
from bitepoint.cli import register as cli_register
from bitepoint.cli import register_lists as cli_lists
from bitepoint.cli import vehicle as cli_vehicle
from bitepoint.cli.terminal import DONE, MACHINE, STOPPED, WRONG, one_line
from bitepoint.errors import BitepointError, CannotRun, NotRecorded

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_OTHER_NAME = {
    errno.ENOTDIR: "A file lies where a folder is wanted. Name another folder.",
    errno.EISDIR: "A folder lies where a file is wanted. Name another file.",
    errno.ENAMETOOLONG: "Choose a shorter name.",
}
"""What to do where the name is in the way, not the machine."""


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
                bitepoint job new FOLDER …      the record of a job on a car, under supervision
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
                bitepoint class renew FOLDER    own sheets or questions were corrected
                bitepoint sheets FOLDER         bench sheets to print
                bitepoint warm-up RESULTS       five questions on what fades, for the wall
                bitepoint bundle OUT            the course for a room without a network
                bitepoint board FOLDER          where the class stands, live
                bitepoint solutions …           worked solutions for one learner's figures
                bitepoint vehicle new FILE      a sheet for your own training car; check
                bitepoint exercise new FILE     questions of your own: check, calculators
    Anyone:     bitepoint check-machine         tells what this computer lacks

    \b
    Exit status: 0 done, 1 done but a person should look,
    2 wrong use or input, 3 this machine could not run it.
    """


cli_learning.add_to(cli)
cli_hand_ins.add_to(cli)
cli_marking.add_to(cli)
cli_printing.add_to(cli)
cli_register.add_to(cli)
cli_lists.add_to(cli)
cli_moderation.add_to(cli)
cli_class.add_to(cli)
cli_board.add_to(cli)
cli_job.add_to(cli)
cli.add_command(cli_bundle.bundle)
cli_vehicle.add_to(cli)
cli.add_command(cli_exercises.exercise)


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
        return _failed(f"{one_line(error.format_message())} See: {command} --help", WRONG)
    except (click.Abort, KeyboardInterrupt):
        return _failed("stopped.", STOPPED)
    except (CannotRun, NotRecorded) as error:
        return _failed(str(error), MACHINE)
    except BitepointError as error:
        return _failed(str(error), WRONG)
    except OSError as error:
        where = f": {error.filename}" if error.filename else ""
        if error.errno in _OTHER_NAME:
            return _failed(f"{error.strerror}{where}. {_OTHER_NAME[error.errno]}", WRONG)
        then = "Make room there, then do it again." if error.errno in _FULL else "Next: bitepoint check-machine"
        return _failed(f"{error.strerror or error}{where}. {then}", MACHINE)
    return status if isinstance(status, int) else DONE


def _failed(message: str, status: int) -> int:
    click.echo(f"bitepoint: {one_line(message)}", err=True)
    return status
