"""`bitepoint check-machine`: whether this computer can run the course, in plain sentences."""

import platform
import tempfile
import webbrowser
from collections.abc import Callable
from importlib import metadata
from pathlib import Path
from typing import Literal

from msgspec import Struct

from bitepoint import __version__
from bitepoint.errors import BitepointError
from bitepoint.workbook.notebooks import Notebook, joined

Level = Literal["well", "look", "stop"]
_SHOWN: dict[Level, str] = {"well": "ok    ", "look": "look  ", "stop": "STOP  "}
_SUMMED_UP: dict[Level, str] = {
    "well": "All well.",
    "look": "The course will run; see “look” above.",
    "stop": "See “STOP” above.",
}
_EXIT: dict[Level, int] = {"well": 0, "look": 1, "stop": 3}
_TOLD = ("jupyterlab", "ipywidgets", "jupyterlab_widgets", "anywidget", "ipykernel")
_EXTENSIONS = {"jupyterlab_widgets": "@jupyter-widgets/jupyterlab-manager", "anywidget": "anywidget"}


class MachineCheck(Struct, frozen=True):
    """One thing looked at: a sentence for the user, a word for the line to copy (no user name, no path)."""

    level: Level
    sentence: str
    word: str


def check_machine(folder: Path, *, say: Callable[[str], None] = print) -> int:
    """Say what was found, and one line to copy; return 0 all well, 1 something to look at, 3 cannot run."""
    findings = []
    for check in (python, versions, lessons, lambda: writable(folder), kernel, port, browser):
        finding = check()
        say(_SHOWN[finding.level] + finding.sentence)
        findings.append(finding)
    worst = max((finding.level for finding in findings), key=lambda level: _EXIT[level])
    say("")
    say(_SUMMED_UP[worst])
    say("When you ask for help, copy this line:")
    say(" | ".join([f"bitepoint {__version__}", _system(), *(finding.word for finding in findings)]))
    return _EXIT[worst]


def python() -> MachineCheck:
    """Look at the Python that runs this."""
    version = platform.python_version()
    return MachineCheck("well", f"Python is {version}, {platform.python_implementation()}.", f"Python {version}")


def versions() -> MachineCheck:
    """Look at whether the installed packages fit each other, their parts in JupyterLab included."""
    problems = [*unmet("bitepoint"), *unmet("ipywidgets"), *_missing_extensions()]
    word = ", ".join(f"{name} {_version(name) or 'missing'}" for name in _TOLD)
    if problems:
        sentence = f"{'; '.join(problems)}. Install bitepoint again."
        return MachineCheck("stop", sentence, f"{word} ({len(problems)} wrong)")
    return MachineCheck("well", f"The packages fit each other: {word}.", word)


def unmet(package: str) -> list[str]:
    """Return what a package asks for and does not find, one phrase each."""
    from packaging.requirements import Requirement

    problems = []
    for line in metadata.requires(package) or []:
        wanted = Requirement(line)
        if wanted.marker and not wanted.marker.evaluate({"extra": ""}):
            continue
        found = _version(wanted.name)
        if found is None:
            problems.append(f"{wanted.name} is missing")
        elif not wanted.specifier.contains(found, prereleases=True):
            problems.append(f"{wanted.name} is {found}, but {package} needs {wanted.specifier}")
    return problems


def lessons() -> MachineCheck:
    """Look at whether the lessons came with the installation."""
    from bitepoint.workbook.create import shipped_lessons

    try:
        number = len(shipped_lessons())
    except BitepointError as error:
        return MachineCheck("stop", str(error), "no lessons")
    return MachineCheck("well", f"The lessons are there: {number} notebooks.", f"{number} lessons")


def writable(folder: Path) -> MachineCheck:
    """Look at whether files can be kept, by writing one into the folder and one into the state folder."""
    from bitepoint.logbook.device import state_folder

    for place, what in ((folder, "the course folder's place"), (state_folder(), "the program's own folder")):
        try:
            if place == state_folder():
                place.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryFile(dir=nearest(place)) as stream:
                stream.write(b"1 + 1")
        except OSError as error:
            sentence = f"Nothing can be written into {place} ({error.strerror}). Name a folder of your own."
            return MachineCheck("stop", sentence, f"{what} not writable")
    return MachineCheck("well", f"Files can be written into {nearest(folder)}.", "folder ok")


def kernel() -> MachineCheck:
    """Look at whether a kernel starts and computes 1 + 1."""
    from bitepoint.workbook.execute import executed

    cell: Notebook = {"cell_type": "code", "id": "one", "metadata": {}, "source": "1 + 1"}
    cell |= {"execution_count": None, "outputs": []}
    notebook: Notebook = {"cells": [cell], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}
    try:
        with tempfile.TemporaryDirectory() as place:
            outputs = executed(notebook, Path(place))["cells"][0]["outputs"]
        answer = joined(outputs[0]["data"]["text/plain"]) if outputs else ""
    # Whatever stands in the way of a kernel is what this check is there to tell.
    except Exception as error:
        kind = type(error).__name__
        return MachineCheck("stop", f"No kernel starts: {kind}: {error}", f"no kernel ({kind})")
    if answer != "2":
        return MachineCheck("stop", f"A kernel starts, but says that 1 + 1 is {answer!r}.", "kernel wrong")
    return MachineCheck("well", "A kernel starts and computes 1 + 1.", "kernel ok")


def port() -> MachineCheck:
    """Look at whether a port of this computer is free."""
    from bitepoint.workbook.serve import free_port

    try:
        number = free_port()
    except BitepointError as error:
        return MachineCheck("stop", str(error), "no port")
    return MachineCheck("well", f"Port {number} is free.", f"port {number}")


def browser() -> MachineCheck:
    """Look at whether a browser can be opened."""
    try:
        webbrowser.get()
    except webbrowser.Error:
        sentence = "No browser was found. Copy the address that “bitepoint open” prints into one yourself."
        return MachineCheck("look", sentence, "no browser")
    return MachineCheck("well", "A browser is there.", "browser ok")


def nearest(folder: Path) -> Path:
    """Return the folder itself, or the nearest one above it that exists."""
    return next((place for place in (folder, *folder.parents) if place.is_dir()), folder)


def _missing_extensions() -> list[str]:
    from jupyter_core.paths import jupyter_path

    places = [Path(place) for place in jupyter_path("labextensions")]
    return [
        f"JupyterLab does not have {package}'s page part"
        for package, name in _EXTENSIONS.items()
        if not any((place / name / "package.json").is_file() for place in places)
    ]


def _version(package: str) -> str | None:
    try:
        return metadata.version(package)
    except metadata.PackageNotFoundError:
        return None


def _system() -> str:
    return f"{platform.system()} {platform.release()} {platform.machine()}"
