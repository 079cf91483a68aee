"""What the cells of the lessons said in each release: a lesson in a learner's folder may be older than the program.

Lies as one list in the zip of its release. By it the page knows an older cell for the course's own, and runs it on opening.
"""

import json
import zipfile
from pathlib import Path

from bitepoint import places
from bitepoint.errors import BadData

NAME = "lessons.json"


def cell_sources() -> list[str]:
    """Return the source of every code cell of the lessons as they are now, each once, in the order of the course."""
    found: dict[str, None] = {}
    for lesson in sorted(places.course().glob("*.ipynb")):
        cells = json.loads(lesson.read_text(encoding="utf-8"))["cells"]
        found |= {"".join(cell["source"]).strip(): None for cell in cells if cell["cell_type"] == "code"}
    return list(found)


def released_sources(folder: Path) -> list[str]:
    """Return the sources of all releases kept in a folder, each once, the oldest release first.

    Raises
    ------
    BadData
        Names the release that holds no such list.
    """
    found: dict[str, None] = {}
    for archive in sorted(folder.glob("*.zip"), key=_number):
        try:
            with zipfile.ZipFile(archive) as whole:
                found |= dict.fromkeys(json.loads(whole.read(NAME)))
        except (OSError, KeyError, ValueError, zipfile.BadZipFile) as error:
            raise BadData(
                f"{archive.name}: holds no {NAME} ({type(error).__name__}). Put it back as released."
            ) from None
    return list(found)


def _number(archive: Path) -> list[int]:
    return [int(part) for part in archive.stem.split(".")]
