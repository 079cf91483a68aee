"""The commands of whoever works in the course: open it, hand in, see whether this computer can run it."""

from datetime import datetime
from pathlib import Path

import click

from bitepoint.cli.terminal import DONE, PATH, Examples, say

COURSE_FOLDER = Path("~/clutch-course")
PROJECTOR_FOLDER, STAFF_FOLDER = Path("~/clutch-course-projector"), Path("~/clutch-course-staff")


@click.command(
    "open",
    cls=Examples,
    examples="bitepoint open\n"
    "bitepoint open my-course --learner L07-K --class-word autumn\n"
    "bitepoint open --class-file L07-K.toml\n"
    "bitepoint open --keep\n"
    "bitepoint open --projector",
)
@click.argument("folder", type=PATH, required=False)
@click.option("--learner", metavar="ID", help="Who you are, as on your card, such as L07-K.")
@click.option("--class-word", metavar="WORD", help="The word your instructor gave you.")
@click.option("--class-file", metavar="FILE", type=PATH, help="The start file or class file you were given.")
@click.option("--room-clock", metavar="TIME", help="Sitting: what the room's clock shows now, such as 09:03.")
@click.option("--keep", is_flag=True, help="Ten minutes: what is due to be asked again.")
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
    keep: bool,
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
            say(f"{asked} is another learner's. The folder of {identity.learner} is {place}")
    open_workbook(
        place,
        identity,
        port=port,
        browser=not no_browser,
        projector=projector,
        staff=staff,
        shortcut=shortcut,
        keep=keep,
        say=say,
    )
    return DONE


@click.command("hand-in", cls=Examples, examples="bitepoint hand-in\nbitepoint hand-in my-course --into .")
@click.argument("folder", type=PATH, required=False)
@click.option("--into", metavar="FOLDER", type=PATH, help="Where to put the zip: a stick that is full takes none.")
def hand_in(folder: Path | None, into: Path | None) -> int:
    """Pack your work into one zip for the assessor and print where it is.

    FOLDER is your course folder; without one it is clutch-course in your home folder. The zip lies in its folder hand-in.
    """
    from bitepoint.logbook.handin import make_hand_in

    say(str(make_hand_in(_course_folder(folder), into=into.expanduser() if into else None)))
    say("Give that one file to your instructor as you agreed.")
    return DONE


@click.command("check-machine", cls=Examples, examples="bitepoint check-machine\nbitepoint check-machine my-course")
@click.argument("folder", type=PATH, required=False)
def check_machine(folder: Path | None) -> int:
    """Tell in plain sentences whether this computer can run the course.

    Looks at Python, the packages, the place of FOLDER, a kernel, a port and a browser. The last line is for
    copying when you ask for help; it has no user name and no path in it.
    """
    from bitepoint.workbook.check_machine import check_machine as check

    return check(_course_folder(folder), say=say)


def _course_folder(folder: Path | None) -> Path:
    return (folder or COURSE_FOLDER).expanduser().resolve()


def add_to(group: click.Group) -> None:
    """Add these commands to the command line."""
    for command in (open_, hand_in, check_machine):
        group.add_command(command)
