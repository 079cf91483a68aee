"""The instructor's board: where the class stands, live or once."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bitepoint.cli.terminal import PATH
from bitepoint.errors import BadInput

if TYPE_CHECKING:
    from bitepoint.classroom.boards.board import Board


@click.command()
@click.argument("folder", metavar="FOLDER", type=PATH)
@click.option(
    "--names", "with_names", is_flag=True, help="Also who is where, three misses, critical mistakes: your screen."
)
@click.option("--class-file", metavar="FILE", type=PATH, help="class.toml: title, class word, lessons.")
@click.option("--roster", metavar="FILE", type=PATH, help="roster.csv: how many there are, who has not begun.")
@click.option("--display-names", is_flag=True, help="With --names: names from the roster beside the ids.")
@click.option("--note-codes", "codes", metavar="CODES.csv", type=PATH, help="Note check codes here by itself.")
@click.option("--once", metavar="OUT.html", type=PATH, help="Write the page once and stop; hand-ins will do.")
@click.option("--host", metavar="ADDRESS", default="127.0.0.1", show_default=True, help="This computer's own address.")
@click.option("--port", metavar="N", type=click.IntRange(1024, 65535), default=8800, show_default=True)
def board(
    folder: Path,
    with_names: bool,
    class_file: Path | None,
    roster: Path | None,
    display_names: bool,
    codes: Path | None,
    once: Path | None,
    host: str,
    port: int,
) -> int:
    """Show where the class stands and where it is stuck.

    FOLDER is the share with the workbooks of the class, or the hub's home folders. The page refreshes by itself.
    It is for the wall: counts, no learner. Nothing in FOLDER is written, locked or changed. Without a share use
    --once: it reads a folder or stick with hand-ins.

    \b
    Examples:
      bitepoint board /srv/clutch
      bitepoint board /srv/clutch --names --roster roster.csv --note-codes codes.csv
      bitepoint board hand-ins --once board.html
    """
    from bitepoint.classroom.boards.board import Board
    from bitepoint.classroom.boards.group import group_of

    for path in (folder, class_file, roster):
        if path and not path.exists():
            raise BadInput(f"{path} is not there. Check the name; with spaces in it, put it in quotes.")
    for path in (codes, once):
        _check_outside(folder, path)
    group = group_of(class_file, roster, display_names=display_names)
    made = Board(folder, group, codes=codes)
    if once:
        return _once(made, once, with_names)
    from bitepoint.classroom.boards.server import serve

    if not folder.is_dir():
        raise BadInput(f"{folder.name} is no folder. Name the folder of the workbooks, or add --once board.html.")
    serve(made, host=host, port=port, with_names=with_names, say=_say)
    return 0


def _once(board: "Board", out: Path, with_names: bool) -> int:
    from bitepoint.classroom.boards.page import ALL, View
    from bitepoint.logbook.one_step import write_in_one_step

    with click.progressbar(length=1, label="Reading", file=sys.stderr, hidden=not sys.stderr.isatty()) as bar:

        def progress(done: int, total: int) -> None:
            bar.length = total
            bar.update(done - bar.pos)

        board.read_once(progress)
    write_in_one_step(out, board.page(View("both" if with_names else "wall", ALL)).encode("utf-8"))
    board.note_codes(at_once=True)
    _say(str(out))
    return 0


def _check_outside(folder: Path, path: Path | None) -> None:
    """Refuse to write among the learners' files."""
    if path and folder.is_dir() and path.resolve().is_relative_to(folder.resolve()):
        raise BadInput(f"{path} lies in {folder}, and nothing is written there. Name a file of your own elsewhere.")
    if path and (path.is_dir() or not path.resolve().parent.is_dir()):
        raise BadInput(f"{path} cannot be written. Name a file in a folder that is there.")


def _say(line: str) -> None:
    click.echo(line)
    sys.stdout.flush()


def add_to(group: click.Group) -> None:
    """Add the command to the command line."""
    group.add_command(board)
