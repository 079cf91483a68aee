"""A folder for practising, gone when the notebook's kernel ends."""

import atexit
import shutil
import tempfile
from pathlib import Path


def practice_folder() -> Path:
    """Make an empty folder and have it removed at the end of the program."""
    folder = Path(tempfile.mkdtemp(prefix="bitepoint-practice-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder
