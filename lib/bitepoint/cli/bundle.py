"""The command for a room without a network."""

from pathlib import Path

import click

from bitepoint.cli.terminal import DONE, PATH, Examples, say


@click.command(
    cls=Examples, examples="bitepoint bundle clutch-stick\nbitepoint bundle clutch-stick --class autumn --zip"
)
@click.argument("out", metavar="OUT", type=PATH)
@click.option("--class", "class_folder", metavar="FOLDER", type=PATH, help="A class: a file to double-click each.")
@click.option("--zip", "as_zip", is_flag=True, help="The same as one zip beside the folder.")
def bundle(out: Path, class_folder: Path | None, as_zip: bool) -> int:
    """Make a folder that opens the course on a computer without a network.

    OUT holds the course, all it needs, a file to double-click and README.html to print. It is for computers with the
    system and the Python of this one, and says so before it does anything. It holds what is installed here: nothing
    is loaded for it, except where the course runs from a checkout and pip has to build it.
    """
    from bitepoint.classroom.bundles.bundle import PAGE, make_bundle, this_machine, zipped

    if as_zip and (there := out.with_name(out.name + ".zip")).exists():
        raise click.UsageError(f"{there} is there already. Name another folder.")
    wheels = make_bundle(out, class_folder=class_folder)
    machine, size = this_machine(), sum(wheel.stat().st_size for wheel in wheels) / 1e6
    say(
        f"{out}: {len(wheels)} packages, {size:.0f} MB, for Python {machine.version} ({machine.least} or later) on {machine.named} ({machine.processor})."
    )
    if as_zip:
        say(f"{zipped(out)}: the same as one file.")
    say(f"Print {out / PAGE}: plug in, double-click.")
    return DONE
