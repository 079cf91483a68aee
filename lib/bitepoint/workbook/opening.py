"""`bitepoint open`: a workbook made or found, brought up to date, served, stopped on Ctrl+C."""

import signal
import time
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import NoReturn

from filelock import Timeout
from msgspec import Struct

from bitepoint.bank.lessons import KEEP_NOTEBOOK, OWN_NOTEBOOK, lessons_in_use
from bitepoint.errors import BadInput, CannotRun
from bitepoint.logbook import Identity
from bitepoint.logbook.bookmark import lesson_stopped_in
from bitepoint.logbook.identity import FILE, SELF_STUDY, practice_learner, same_learner, same_name
from bitepoint.logbook.locking import locked
from bitepoint.workbook.create import (
    FIRST_FOR_STAFF,
    STAFF,
    ClaimedFolder,
    check_owner,
    claim_folder,
    owner,
    put_missing_lessons,
    put_staff_notebooks,
    shipped_lessons,
)
from bitepoint.workbook.own_lesson import put_own_lesson
from bitepoint.workbook.owner import check_bank
from bitepoint.workbook.running import Running, running
from bitepoint.workbook.runtime_folder import runtime_folder_of
from bitepoint.workbook.serve import FIRST_PORT, START_SECONDS, Server, is_root
from bitepoint.workbook.start_file import write_shortcut, write_start_file
from bitepoint.workbook.update import update_lessons
from bitepoint.workshop.datafiles import data_files

Say = Callable[[str], None]


class _Screen(Struct, frozen=True):
    """Where the course is shown: in a browser or by its address alone, said how, one lesson filling a projector.

    For `staff` the first page is one of the notebooks for staff, with `keep` it is the page of recall. `stopped_in` is the key of the lesson in which the learner
    stopped, "" at the first time and where nobody's place is kept. With `shortcut` one is put where this system shows them.
    """

    say: Say
    browser: bool
    projector: bool
    staff: bool
    stopped_in: str
    shortcut: bool
    keep: bool


def open_workbook(
    folder: Path,
    identity: Identity,
    *,
    port: int = FIRST_PORT,
    browser: bool = True,
    projector: bool = False,
    staff: bool = False,
    shortcut: bool = False,
    keep: bool = False,
    say: Say = print,
) -> None:
    """Open a workbook in the browser and stay until Ctrl+C, a signal to end, or the page's own Shut Down.

    Where one of our servers is open on the folder already, say its address and return: nothing is written.
    For a projector the type is large and one lesson fills the page. For staff their notebooks are put in too. With `keep` it opens on the page of recall. A shortcut to
    the workbook is put on the desktop where it is asked for.

    Raises
    ------
    BadInput
        The folder is another learner's, or cannot be a workbook.
    CannotRun
        The server does not start.
    """
    folder = folder.expanduser().resolve()
    # Before anything is shown: an address that is open already would show another's work.
    check_owner(folder, identity)
    runtime = runtime_folder_of(folder)
    runtime.mkdir(parents=True, exist_ok=True)
    stopped_in = "" if projector or staff or keep else lesson_stopped_in(folder)
    screen = _Screen(say, browser, projector, staff, stopped_in, shortcut, keep)
    try:
        with locked(runtime / "open.lock", timeout=0):
            if found := running(runtime):
                _check_said(folder, identity)
                screen.say(_whose(folder, identity))
                _stay_with(found, folder, screen)
            else:
                _open(folder, runtime, identity, port, screen)
    except Timeout:
        _check_said(folder, identity)
        _already_open(runtime, screen, identity)


def _check_said(folder: Path, identity: Identity) -> None:
    """Refuse to name a learner for a folder that is open and in which nobody has said who they are."""
    now = owner(folder)
    if now and not same_learner(now, identity):
        raise BadInput(
            f"{folder} is open, and nobody has said yet who works in it. Say it in the first lesson, or close the course "
            "(Ctrl+C in its window) and type this line again."
        )


def _open(folder: Path, runtime: Path, identity: Identity, port: int, screen: _Screen) -> None:
    check_bank(identity)
    # Whose workbook it is says which data files are in use: those of a class with its own ones, too.
    claim = claim_folder(folder, identity)
    with (
        _ends_on_signals(),
        Server(folder, runtime, port=port, projector=screen.projector, files=data_files()) as server,
    ):
        # The server takes longest to come up, and until its address is shown nobody has a lesson open.
        _prepare(folder, identity, claim, screen)
        _show(server.wait_ready(), screen)
        while server.alive:
            time.sleep(0.5)
    screen.say(_closed(folder))


def _prepare(folder: Path, identity: Identity, claim: ClaimedFolder, screen: _Screen) -> None:
    """Put into a claimed folder what it lacks, and say what was done and whose course it is."""
    say = screen.say
    for sentence in (*claim.said, *_completed(folder, claim)):
        say(sentence)
    if screen.staff:
        put_staff_notebooks(folder)
    elif not screen.projector:
        write_start_file(folder)
        _put_shortcut(folder, screen)
    if is_root():
        say("Caution: you work as root. Usual in a container; on your own computer, use your own account.")
    say(_whose(folder, identity))


def made_ready(folder: Path, identity: Identity) -> list[str]:
    """Make a workbook, or complete it and bring it up to date; return what happened, in sentences.

    Only while no server is open on the folder.

    Raises
    ------
    BadInput
        The folder is another learner's or cannot be written, or the identity's sitting is bound to another bank.
    CannotRun
        The installation has no lessons.
    """
    check_bank(identity)
    claim = claim_folder(folder, identity)
    return [*claim.said, *_completed(folder, claim)]


def _completed(folder: Path, claim: ClaimedFolder) -> list[str]:
    """Put in the lessons that are missing and bring the others up to date; return what happened, in sentences."""
    return [*put_missing_lessons(folder, claim), *update_lessons(folder), *put_own_lesson(folder, data_files())]


def _put_shortcut(folder: Path, screen: _Screen) -> None:
    if not screen.shortcut:
        return
    written = write_shortcut(folder)
    if not written:
        screen.say("No shortcut could be written. “Open my course” lies in your course folder all the same.")
    for path in written:
        screen.say(f"A shortcut to your course was written: {path}")


def _whose(folder: Path, identity: Identity) -> str:
    """Say whose course is opened: on a computer that several use, one look tells that it is the right one."""
    if not _named(identity):
        return f"Opening the course in {folder} …"
    return f"Opening the course of {identity.learner} in {folder} … Not you? Press Ctrl+C and type the whole line of your slip."


def _named(identity: Identity) -> bool:
    return not same_name(identity.learner, SELF_STUDY) and not same_learner(identity, practice_learner())


def _stay_with(found: Running, folder: Path, screen: _Screen) -> None:
    """Take over a server whose window was closed hard: it runs on, and may have unsaved work in it."""
    try:
        with _ends_on_signals():
            _show(found, screen)
            while found.answers():
                time.sleep(2)
    finally:
        found.stop()
    screen.say(_closed(folder))


def _closed(folder: Path) -> str:
    if (folder / FILE).is_file():
        return "The course is closed. Your answers are kept."
    return (
        f"The course is closed. {folder} was moved, renamed or deleted meanwhile; what was answered before is in it. "
        "Next time open it where it is then: bitepoint open FOLDER"
    )


def _already_open(runtime: Path, screen: _Screen, identity: Identity) -> None:
    until = time.monotonic() + START_SECONDS
    while time.monotonic() < until:
        if found := running(runtime):
            whose = f"The course folder of {identity.learner}" if _named(identity) else "This course folder"
            screen.say(f"{whose} is open already, in another window. Its address:")
            screen.say(_address(found, screen))
            _browse(found, screen)
            return
        time.sleep(0.5)
    raise CannotRun("Another window is opening this course folder and does not get on. Close it, try again.")


def _show(found: Running, screen: _Screen) -> None:
    if screen.stopped_in:
        screen.say(
            f"Welcome back. You stopped in “{lessons_in_use()[screen.stopped_in].title}”: it opens where you left it."
        )
    screen.say("")
    screen.say(f"    {_address(found, screen)}")
    screen.say("")
    if screen.projector:
        screen.say(
            "For another lesson click the folder at the left edge, double-click the lesson, click the folder again."
        )
    screen.say("If no page opens, click that address or copy it into your browser.")
    screen.say("Leave this window open. To stop, press Ctrl+C here.")
    _browse(found, screen)


def _address(found: Running, screen: _Screen) -> str:
    return found.page(_first_page(screen), single=screen.projector)


def _first_page(screen: _Screen) -> str:
    if screen.keep:
        return f"{KEEP_NOTEBOOK}.ipynb"
    return f"{STAFF}/{FIRST_FOR_STAFF}" if screen.staff else first_notebook(screen.stopped_in)


def first_notebook(stopped_in: str) -> str:
    """Return the notebook to open: the lesson with this key, in which the learner stopped, else the first."""
    lessons = [*(lesson.name for lesson in shipped_lessons()), OWN_NOTEBOOK]
    stopped = lessons_in_use()[stopped_in].notebook if stopped_in else ""
    return stopped if stopped in lessons else lessons[0]


def _browse(found: Running, screen: _Screen) -> None:
    if screen.browser:
        webbrowser.open(_address(found, screen))


@contextmanager
def _ends_on_signals() -> Iterator[None]:
    """Turn Ctrl+C, a request to end and a closed window into a quiet end of the block."""

    names = [name for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK") if hasattr(signal, name)]

    def end(number: int, frame: FrameType | None) -> NoReturn:
        # A second Ctrl+C must not cut short the stopping of the server.
        for name in names:
            signal.signal(getattr(signal, name), signal.SIG_IGN)
        raise _Ended

    before = {name: signal.signal(getattr(signal, name), end) for name in names}
    try:
        yield
    except _Ended:
        pass
    finally:
        for name, handler in before.items():
            signal.signal(getattr(signal, name), handler)


class _Ended(Exception):
    """Somebody asked us to stop."""
