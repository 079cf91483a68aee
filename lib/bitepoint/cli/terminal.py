"""How every command speaks: its exit status, its help with examples, one line at a time, a bar where somebody watches."""

import contextlib
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import click

from bitepoint.errors import BadInput
from bitepoint.printable import printable

DONE, LOOK, WRONG, MACHINE, STOPPED = 0, 1, 2, 3, 130
PATH = click.Path(path_type=Path)


class Examples(click.Command):
    """A command whose help ends with examples."""

    def __init__(self, *arguments: Any, examples: str = "", **named: Any) -> None:
        self.examples = examples
        super().__init__(*arguments, **named)

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Examples"):
            formatter.write_text("\b\n" + self.examples)


def check_there(path: Path) -> None:
    """Refuse a path that is not there.

    Raises
    ------
    BadInput
        It is not there.
    """
    if not path.exists():
        raise BadInput(f"{path} is not there. Check the name; with spaces in it, put it in quotes.")


@contextlib.contextmanager
def progress_bar() -> Iterator[Callable[[int, int], None] | None]:
    """Give a function (done, of how many) that draws a bar on stderr; None where nobody watches."""
    if not sys.stderr.isatty():
        yield None
        return
    with click.progressbar(length=1, label="Marking", file=sys.stderr) as bar:

        def progress(done: int, total: int) -> None:
            bar.length = total
            bar.update(done - bar.pos)

        yield progress


def say(line: str) -> None:
    """Print one line at once."""
    click.echo(line)
    sys.stdout.flush()


def one_line(message: str) -> str:
    """Return a message as one line that a terminal can show."""
    return " ".join(printable(message).split())
