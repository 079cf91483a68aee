"""One zip for the assessor: the logbook, the lessons, who it is from and which bank it was made with."""

import sys
import zipfile
from datetime import datetime
from pathlib import Path

from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadInput
from bitepoint.logbook.book import FOLDER, read_folder
from bitepoint.logbook.identity import FILE, read_identity

HAND_IN_FOLDER, MADE_WITH = "hand-in", "made-with.toml"
_VERSION: str = sys.modules["bitepoint"].__version__


def make_hand_in(workbook: Path, *, now: datetime | None = None) -> Path:
    """Pack a workbook into hand-in/<learner>-<date>-<time>.zip and return that file.

    Raises
    ------
    BadInput
        The folder is no workbook, nothing was answered yet, or the zip cannot be written.
    """
    if not (workbook / FILE).is_file():
        raise BadInput(
            f"{workbook.name}: is no course folder (no {FILE} in it). Name the folder that “bitepoint open” made."
        )
    identity = read_identity(workbook / FILE)
    if not any(read_folder(workbook).values()):
        raise BadInput("Nothing was answered yet, so there is nothing to hand in. Answer at least one exercise first.")
    folder = workbook / HAND_IN_FOLDER
    target = folder / f"{identity.learner}-{now or datetime.now():%Y%m%d-%H%M%S}.zip"
    part = target.with_suffix(".part")
    try:
        folder.mkdir(exist_ok=True)
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
            for path in _files(workbook):
                archive.write(path, path.relative_to(workbook).as_posix())
            archive.writestr(MADE_WITH, f'bitepoint = "{_VERSION}"\nbank = "{bank_digest()}"\n')
        part.replace(target)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise BadInput(
            f"The hand-in cannot be written ({error.strerror}). Make room on the disk and try again."
        ) from None
    return target


def _files(workbook: Path) -> list[Path]:
    logs = [p for p in sorted((workbook / FOLDER).iterdir()) if p.suffix == ".jsonl" or ".torn-" in p.name]
    lessons = sorted(workbook.glob("*.ipynb"))
    return [p for p in (workbook / FILE, *logs, *lessons) if p.is_file() and not p.is_symlink()]
