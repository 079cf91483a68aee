"""`bitepoint bundle`: a folder that opens the course on a computer without a network, for this system and this Python."""

import platform
import shutil
import sys
from importlib.metadata import distribution
from pathlib import Path
from zipfile import ZIP_STORED, ZipFile

from msgspec import Struct

from bitepoint import __version__, places
from bitepoint.classroom.bundles.parts import COURSE, least_python, run_time_parts
from bitepoint.classroom.bundles.start_files import SYSTEMS, start_name, start_text
from bitepoint.classroom.bundles.wheels import built, packed
from bitepoint.classroom.class_folder import read_class_folder
from bitepoint.classroom.classes import START
from bitepoint.classroom.render import render
from bitepoint.errors import BadInput
from bitepoint.logbook.toml_file import read_toml_file

WHEELS, LEARNERS, PAGE = "wheels", "learners", "README.html"
NOT_RUN_BY_US = ("Windows", "Darwin")


class Machine(Struct, frozen=True):
    """For which Python, system and processor a bundle is, in Python's own words for them."""

    least: str
    system: str
    processor: str

    @property
    def version(self) -> str:
        """Python's version as far as it must be the same, such as 3.11."""
        return self.least.rpartition(".")[0]

    @property
    def named(self) -> str:
        """The system as people say it."""
        return "macOS" if self.system == "Darwin" else self.system


class Started(Struct, frozen=True):
    """A learner's start file of the class, and the word of the sitting it is for."""

    learner: str
    path: Path
    sitting: str


def this_machine() -> Machine:
    """Return what this computer is, with the oldest Python that the packages take."""
    return Machine(least_python(run_time_parts(), sys.version_info[:3]), platform.system(), platform.machine())


def make_bundle(out: Path, *, class_folder: Path | None = None) -> list[Path]:
    """Make the bundle in a new folder and return its wheels.

    Raises
    ------
    BadInput
        The folder is there already, or the class folder cannot be used; nothing is written then.
    CannotRun
        A package of this installation cannot be packed.
    """
    if out.exists() or out.is_symlink():
        raise BadInput(f"{out} is there already. Name a new folder; a bundle is never made over something else.")
    title, learners = _class(class_folder) if class_folder else ("", [])
    parts = run_time_parts()
    try:
        (out / WHEELS).mkdir(parents=True)
        wheels = [packed(part.installed, out / WHEELS) for part in parts]
        wheels.append(_course(out / WHEELS))
        _write(out, this_machine(), title, learners, wheels)
    except BaseException:
        shutil.rmtree(out, ignore_errors=True)
        raise
    return wheels


def zipped(out: Path) -> Path:
    """Pack a bundle into one zip beside it, its folder inside, and return the zip."""
    path = out.with_name(out.name + ".zip")
    files = [file for file in sorted(out.rglob("*")) if file.is_file()]
    # Wheels are packed already: packing again saves nothing. A computer with an empty battery has days that no zip has.
    with ZipFile(path, "x", ZIP_STORED, strict_timestamps=False) as pack:
        try:
            for file in files:
                pack.write(file, Path(out.name) / file.relative_to(out))
        except BaseException:
            path.unlink(missing_ok=True)
            raise
    return path


def _class(folder: Path) -> tuple[str, list[Started]]:
    """Return the title of a class and the start files of its learners."""
    found = read_class_folder(folder)
    started = []
    for enrolled in found.learners:
        path = folder / START / f"{enrolled.learner}.toml"
        if not path.is_file():
            raise BadInput(
                f"{folder} has no {START}/{path.name}. Make the class again, or add {enrolled.learner} to it."
            )
        sitting = read_toml_file(path, dict).get("sitting", "")
        started.append(Started(enrolled.learner, path, sitting if isinstance(sitting, str) else ""))
    return found.title, started


def _course(into: Path) -> Path:
    """Make the wheel of the course itself: of a checkout by pip, else of what is installed."""
    if checkout := places.checkout():
        built(checkout, into)
        return next(into.glob(f"{COURSE}-*.whl"))
    return packed(distribution(COURSE), into)


def _write(out: Path, machine: Machine, title: str, learners: list[Started], wheels: list[Path]) -> None:
    """Write what stands beside the wheels."""
    made_for = f"{machine.least} {machine.system} {machine.processor}\n"
    (out / WHEELS / "made-for.txt").write_text(made_for, encoding="ascii")
    (out / "lib").mkdir()
    shutil.copyfile(places.set_up(), out / "lib" / "set_up.py")
    for system in SYSTEMS:
        _put(out / start_name(system), start_text(system, machine.least))
    if learners:
        (out / LEARNERS).mkdir()
    for each in learners:
        shutil.copyfile(each.path, out / LEARNERS / each.path.name)
        text = start_text(machine.system, machine.least, learner=each.learner, sitting=each.sitting)
        _put(out / LEARNERS / start_name(machine.system, each.learner), text)
    page = render(
        "bundle.html.jinja",
        title="Plug in, double-click",
        machine=machine,
        start=start_name(machine.system),
        own=start_name(machine.system, learners[0].learner) if learners else "",
        learners=[each.learner for each in learners],
        class_title=title,
        mb=sum(wheel.stat().st_size for wheel in wheels) / 1e6,
        count=len(wheels),
        tried=machine.system not in NOT_RUN_BY_US,
        version=__version__,
    )
    (out / PAGE).write_text(page, encoding="utf-8", newline="\n")


def _put(path: Path, text: str) -> None:
    path.write_bytes(text.encode("utf-8"))
    path.chmod(0o755)
