"""The developers' command `python -m bitepoint.releases`: samples, a stamp, a look, a retired edition.

sample               make the samples anew, as long as nothing is released
check                say what is no longer drawn as released
stamp VERSION        release: samples, the whole bank and the cells of the lessons are kept for good
looked ID --by --why a person found that changed words mean the same
retire FILE          keep a data file's edition before its figures are corrected
"""

import re
import shutil
import sys
from datetime import date
from itertools import count
from pathlib import Path

import click

from bitepoint import places
from bitepoint.bank import exercise_named
from bitepoint.errors import BadInput, BitepointError
from bitepoint.releases.frozen import freeze, releases_folder
from bitepoint.releases.looks import Look, add_look, newest, read_looks
from bitepoint.releases.samples import Change, changes_since, read_release, take_samples, words_now, write_release

UNRELEASED, LOOKS = "unreleased.json", "looks.toml"


def changes(folder: Path | None = None) -> list[Change]:
    """Return what is no longer drawn as in any release, each question once, the oldest release first."""
    place = folder or releases_folder()
    looked = newest(read_looks(place / LOOKS))
    found: dict[tuple[str, int], Change] = {}
    for path in sorted(place.glob("*.json")):
        for change in changes_since(read_release(path), looked):
            found.setdefault((change.exercise, change.revision), change)
    return list(found.values())


@click.group(help=__doc__.partition("\n")[0])
def main() -> None:
    """Keep what is released."""


@main.command()
def sample() -> None:
    """Make the samples anew; only as long as nothing is released."""
    place = releases_folder()
    released = sorted(path.stem for path in place.glob("*.json") if path.name != UNRELEASED)
    if released:
        raise BadInput(f"{released[-1]} is released: samples are not made anew. Run check, and do what its lines say.")
    write_release(place / UNRELEASED, take_samples())
    click.echo(f"{UNRELEASED}: samples of the bank as it is now.")


@main.command()
def check() -> None:
    """Say what is no longer drawn as released, one line a question."""
    found = changes()
    for change in found:
        click.echo(change.said)
    sys.exit(1 if found else 0)


@main.command()
@click.argument("version")
def stamp(version: str) -> None:
    """Keep samples, bank and the lessons' cells of this release for good."""
    place = releases_folder()
    if not re.fullmatch(r"\d+\.\d+\.\d+", version) or (place / f"{version}.json").exists():
        raise click.UsageError(f"{version[:20]!r} is no new version such as 0.2.0.")
    write_release(place / f"{version}.json", take_samples(version))
    freeze(place / f"{version}.zip")
    (place / UNRELEASED).unlink(missing_ok=True)
    click.echo(
        f"{version}: samples, bank and the lessons' cells are kept in {place.name}. Write docs/changelog.md, then commit both."
    )


@main.command()
@click.argument("exercise")
@click.option("--by", required=True, help="Who looked.")
@click.option("--why", required=True, help="Why the meaning is the same.")
def looked(exercise: str, by: str, why: str) -> None:
    """Record that a person found changed words to mean the same."""
    place = releases_folder()
    known = exercise_named(exercise)
    for change in changes():
        if change.exercise == known.id and change.kind == "words":
            sheets = max(
                read_release(p).sheets for p in place.glob("*.json") if read_release(p).version == change.release
            )
            words = words_now(known.id, change.revision, sheets)
            add_look(
                place / LOOKS,
                Look(exercise=known.id, revision=change.revision, words=words, by=by, why=why, date=date.today()),
            )
            click.echo(f"{known.id}, revision {change.revision}: recorded in {LOOKS}.")
            return
    raise BadInput(f"{known.id}: its words have not changed since it was released, or its facts have. Run: check")


@main.command()
@click.argument("file")
def retire(file: str) -> None:
    """Keep the edition of a data file, such as criteria.toml or vehicles/a.toml, before it is corrected."""
    from bitepoint.workshop.datafiles import shipped
    from bitepoint.workshop.vehicles import sheets_edition

    files = shipped()
    path = files.path(file)
    text = path.read_text(encoding="utf-8") if path.is_file() else ""
    found = re.search(r"^edition = (\d+)$", text, re.MULTILINE)
    if found is None and not (text and path.suffix == ".csv"):
        raise BadInput(f"{file}: is no data file with an edition. Name one such as criteria.toml.")
    # A table has no place for its edition: it is the next after those that are kept.
    now = int(found[1]) if found else next(n for n in count(1) if not files.path_of(file, n).exists())
    kept = files.path_of(file, now)
    if kept.exists():
        raise BadInput(f"{file}: edition {now} is kept already. Correct the file as it is.")
    kept.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(path, kept)
    number = (sheets_edition() if found and file.startswith("vehicles/") else now) + 1
    if found:
        path.write_text(text.replace(found[0], f"edition = {number}", 1), encoding="utf-8", newline="\n")
    click.echo(f"{kept.relative_to(places.assets())} keeps edition {now}; {file} is now edition {number}: correct it.")


def run() -> int:
    """Run the command; what a person did wrong is one line."""
    try:
        main(standalone_mode=False)
    except click.ClickException as error:
        error.show()
        return 2
    except BitepointError as error:
        click.echo(str(error), err=True)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(run())
