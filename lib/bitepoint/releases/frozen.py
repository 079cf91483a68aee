"""The bank of each release, whole, in one zip: so that the words a learner saw can be printed years later.

What the cells of its lessons said lies beside it, in the same zip.

Marking draws old revisions with today's code; words are bettered without a new revision, and only the release that said
them can say them again. Its own code and data lie in `releases/VERSION.zip`, made by us and shipped with the program.
They run in a process of their own, away from anyone's folder.
"""

import json
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

import msgspec

from bitepoint import places
from bitepoint.bank.version import bank_files
from bitepoint.errors import BitepointError
from bitepoint.releases import lessons

_DRAW = """
import json, sys
sys.path.insert(0, sys.argv[1])
import msgspec
from bitepoint.bank import exercises
for line in sys.stdin:
    asked = json.loads(line)
    try:
        question = exercises()[asked.pop("exercise")].draw(**asked)
        said = {"type": type(question).__name__, "words": question.words_digest(), "facts": question.facts_digest(),
                "question": msgspec.to_builtins(question), "right": question.right_answer()}
    except Exception as error:
        said = {"problem": type(error).__name__}
    print(json.dumps(said), flush=True)
"""
_SECONDS = 120
_FIXED = (2020, 1, 1, 0, 0, 0)
_GLUE = ("__init__.py", "beside.py", "errors.py", "missing.py", "places.py", "printable.py")


def freeze(path: Path) -> None:
    """Write bank and cells of this program into a zip; the same gives the same bytes."""
    path.parent.mkdir(parents=True, exist_ok=True)
    package = Path(__file__).parent.parent
    files = [*bank_files(), *((name, package / name) for name in _GLUE)]
    content = {f"bitepoint/{name}": source.read_bytes() for name, source in sorted(files)}
    content[lessons.NAME] = json.dumps(lessons.cell_sources(), ensure_ascii=False, indent=0).encode("utf-8")
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in content.items():
            entry = zipfile.ZipInfo(name, _FIXED)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, data)


def releases_folder() -> Path:
    """Return the folder of what was released."""
    return places.assets() / "releases"


@cache
def _by_bank(folder: Path) -> dict[str, Path]:
    """Return the zip of each released bank by the bank's digest, as the samples beside it name it."""
    from bitepoint.releases.samples import read_release

    found = {}
    for path in sorted(folder.glob("*.json")):
        archive = path.with_suffix(".zip")
        if archive.exists():
            found[read_release(path).bank] = archive
    return found


def said_in_release(
    bank: str, asked: Sequence[dict[str, Any]], *, folder: Path | None = None
) -> list[dict[str, Any]] | None:
    """Return questions as the release with this bank's digest asked them.

    Parameters
    ----------
    bank
        The digest in the learner's line.
    asked
        Keyword arguments of `Exercise.draw` for each, and its `exercise`.
    folder
        Where the releases lie; None: those of this program.

    Returns
    -------
    list of dict or None
        For each: its type by name, digests of words and facts, the question's texts and figures, its right answer; or `problem`.
        None when that release is not kept, or could not be asked.
    """
    archive = _by_bank(folder or releases_folder()).get(bank)
    if archive is None:
        return None
    with tempfile.TemporaryDirectory(prefix="bitepoint-release-") as place:
        try:
            with zipfile.ZipFile(archive) as whole:
                whole.extractall(place)
            lines = b"".join(msgspec.json.encode(one) + b"\n" for one in asked)
            line = [sys.executable, "-I", "-B", "-c", _DRAW, place]
            done = subprocess.run(line, input=lines, capture_output=True, timeout=_SECONDS, cwd=place, check=True)
            return [msgspec.json.decode(row) for row in done.stdout.splitlines()]
        except (OSError, subprocess.SubprocessError, zipfile.BadZipFile, msgspec.MsgspecError, BitepointError):
            return None
