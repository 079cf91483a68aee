"""Which register a command works on when none is named."""

from collections.abc import Sequence
from pathlib import Path

import click

from bitepoint.errors import BadInput


def register_beside(*paths: Path) -> Path:
    """Return the register that goes with files, or with the folder you are in; one of a rehearsal is named."""
    from bitepoint.marking.rehearsal.place import REGISTER, register_for, rehearsal_of

    found = register_for(*(paths or (Path(),)))
    used = (found.is_dir() and any(found.iterdir())) or Path(REGISTER).is_dir()
    if paths and used and rehearsal_of(found):
        click.echo(f"A rehearsal: its own register is used, {found}", err=True)
    return found


def register_there(*paths: Path) -> Path | None:
    """Return the register that goes with files, None where there is none yet."""
    found = register_beside(*paths)
    return found if found.is_dir() else None


def gone_beside(results: Path) -> set[str]:
    """Return the public names, case-folded, of who was deleted on request by the register that goes with results."""
    from bitepoint.marking.erasure import gone_names
    from bitepoint.marking.registry.register import Register

    book = register_there(results)
    return gone_names(Register(book).entries()) if book else set()


def register_of_class(class_file: Path | None, paths: Sequence[Path]) -> Path | None:
    """Return the register that goes with files or lies in the class folder, where observations and late joiners are kept.

    Raises
    ------
    BadInput
        There are two.
    """
    from bitepoint.marking.rehearsal.place import REGISTER

    beside = class_file.parent / REGISTER if class_file else None
    places = [place for place in (register_there(*paths), beside) if place and place.is_dir()]
    if len({place.resolve() for place in places}) > 1:
        raise BadInput(
            f"There are two registers, {places[0]} and {places[1]}. Say which one counts: --register {places[1]}"
        )
    return places[0] if places else None


def chosen(context: click.Context, _: click.Parameter, folder: Path | None) -> Path:
    """Return the register named with --register, else the one that goes with the files a command was given."""
    arguments = (context.params.get(p.name or "") for p in context.command.params if isinstance(p, click.Argument))
    return folder or register_beside(*(given for given in arguments if isinstance(given, Path)))
