"""The commands for a job on a car under supervision: begin it, see what is due, print it, close it, erase what is personal."""

from pathlib import Path

import click

from bitepoint.cli.terminal import DONE, LOOK, PATH, Examples, say
from bitepoint.errors import BadInput


@click.group("job", no_args_is_help=True)
def job() -> None:
    """Keep the record of a job on a car, under supervision, on a checked sheet of your own.

    A training record: the vehicle's repair data and local rules come first, and a supervisor answers for the work.

    \b
    Examples:
      bitepoint job new job-1 --sheet our-van.toml --by "T. Prentice" --complaint "slips uphill"
      bitepoint job open job-1
      bitepoint job step job-1 D1 D2
      bitepoint job measure job-1 flywheel-runout "0,05 mm" --instrument "dial gauge"
      bitepoint job print job-1 --pdf
      bitepoint job close job-1 --by "A. Head"
    """


FOLDER = click.argument("folder", metavar="FOLDER", type=PATH)


@job.command(
    cls=Examples,
    examples='bitepoint job new job-1 --sheet our-van.toml --by "T. Prentice" --complaint "slips uphill in fourth"\n'
    "bitepoint job new try --training A",
)
@FOLDER
@click.option("--sheet", metavar="FILE", type=PATH, help="The car's own sheet, checked by a second person.")
@click.option("--training", metavar="LETTER", help="A training vehicle instead, to try the record out.")
@click.option("--by", metavar="NAME", default="", help="Who does the work: name or initials.")
@click.option("--complaint", metavar="TEXT", default="", help="In the driver's own words, without names.")
@click.option("--mileage", metavar="KM", type=int, help="What the car has driven.")
@click.option("--customer", metavar="NAME", help="Kept apart; can be erased.")
@click.option("--telephone", metavar="NUMBER", help="Kept apart; can be erased.")
@click.option("--registration", metavar="PLATE", help="Kept apart; can be erased.")
@click.option("--vin", metavar="NUMBER", help="Identification number. Kept apart; can be erased.")
def new(
    folder: Path,
    sheet: Path | None,
    training: str | None,
    by: str,
    complaint: str,
    mileage: int | None,
    **personal: str | None,
) -> int:
    """Begin a job in FOLDER, which is made.

    The sheet's text is copied into it and must stay as it is. A sheet that nobody has checked is refused.
    """
    from bitepoint.job.opening import NewJob, open_for_training, open_on_sheet

    said = NewJob(by=by.strip(), complaint=complaint.strip(), mileage_km=mileage)
    apart = {key: value for key, value in personal.items() if value}
    if (sheet is None) == (training is None):
        raise BadInput("A job needs one sheet: --sheet FILE, or --training LETTER to try the record out.")
    if sheet is not None:
        open_on_sheet(folder, sheet, said, apart)
    elif training is not None:
        open_for_training(folder, training, said, apart)
    say(f"The job is begun in {folder}.")
    say(f"Next: bitepoint job open {folder}")
    return DONE


@job.command("open", cls=Examples, examples="bitepoint job open job-1\nbitepoint job open job-1 --notebook")
@FOLDER
@click.option("--notebook", is_flag=True, help="Say how the same record is filled in by forms in the browser.")
def open_(folder: Path, notebook: bool) -> int:
    """Show where a job stands: what is due, its cautions, what may be done now, what is missing, the last entries.

    Exit status 1: the record does not hold.
    """
    from bitepoint.job.reading import read_job
    from bitepoint.job.telling import status

    now = read_job(folder)
    for line in status(now):
        say(line)
    if notebook:
        say(
            "By forms in the browser: bitepoint open, then the notebook 13-workshop-job. In its field “Job's folder” write:"
        )
        say(f"  {folder.expanduser().resolve()}")
    return LOOK if now.problems else DONE


@job.command(cls=Examples, examples="bitepoint job verify job-1")
@FOLDER
def verify(folder: Path) -> int:
    """See whether record, sheet, photos and personal data are as they were recorded.

    Exit status 1: something is not.
    """
    from bitepoint.job.events import Photo
    from bitepoint.job.photos import unrecorded
    from bitepoint.job.reading import read_job

    now = read_job(folder)
    for problem in now.problems:
        say(problem)
    for name in unrecorded(folder, {photo.file for photo in now.all_of(Photo)}):
        say(f"photos/{name} lies in no entry: the computer stopped while it was added. Add the photo again.")
    for torn in sorted(folder.glob("job.torn-*")):
        say(f"{torn.name}: a line that was cut off when a computer stopped, kept aside. It was never confirmed.")
    if now.problems:
        return LOOK
    say(f"{len(now.entries)} entries, the chain holds. Check code {now.check_code}.")
    if now.erased:
        say("The personal data were erased; the record stands without them.")
    return DONE


@job.command("print", cls=Examples, examples="bitepoint job print job-1\nbitepoint job print job-1 --pdf")
@FOLDER
@click.option("--pdf", is_flag=True, help="As PDF too, by the Chromium of this computer.")
def print_(folder: Path, pdf: bool) -> int:
    """Make the pages of a job in its folder “print”, with a page that holds them together by their digests.

    The printed record is what is signed. Pages made before are replaced.
    """
    from bitepoint.job.pages import write_pages
    from bitepoint.job.reading import read_job
    from bitepoint.marking.pages.pdf import find_browser, print_all

    now = read_job(folder)
    pages = write_pages(now)
    for path in pages:
        say(str(path))
    if pdf:
        made, problems = print_all(pages, find_browser(f"{folder / 'print'} and the pages in it"))
        for problem in problems:
            raise BadInput(problem)
        for path in made:
            say(str(path))
    return LOOK if now.problems else DONE


@job.command(
    cls=Examples,
    examples='bitepoint job close job-1 --by "A. Head"\n'
    'bitepoint job close job-1 --by "A. Head" --reason "stopped: cracked housing"',
)
@FOLDER
@click.option("--by", "supervisor", metavar="NAME", required=True, help="The supervisor: name or initials.")
@click.option("--reason", metavar="TEXT", default="", help="Why something is left open.")
def close(folder: Path, supervisor: str, reason: str) -> int:
    """Close a job, by a supervisor. Afterwards it takes notes only.

    What is typed is a note; the printed page is what is signed. What is not recorded yet is named and asks for a reason.
    """
    from bitepoint.cli.job_entries import with_reason
    from bitepoint.job.closing import close as close_job
    from bitepoint.job.state import NOT_SIGNED

    with_reason(lambda why: close_job(folder, supervisor=supervisor, reason=why), reason)
    say(f"Closed by {supervisor.strip()}. {NOT_SIGNED}")
    say(f"Next: bitepoint job print {folder}")
    return DONE


@job.command(cls=Examples, examples='bitepoint job erase job-1 --by "A. Head"')
@FOLDER
@click.option("--by", metavar="NAME", default="", help="Who erases.")
def erase(folder: Path, by: str) -> int:
    """Erase customer, telephone, registration, identification number and photos, and the pages that were made.

    The record says that it was done, still holds, and prints without them. It cannot be undone.
    """
    from bitepoint.job.erasing import WHAT_STAYS
    from bitepoint.job.erasing import erase as erase_personal

    done = erase_personal(folder, by=by.strip())
    say("Erased." if done else "Nothing was left to erase.")
    say(WHAT_STAYS)
    return DONE


def add_to(group: click.Group) -> None:
    """Add the commands to the command line."""
    from bitepoint.cli import job_entries

    job_entries.add_to(job)
    group.add_command(job)
