"""Pages as PDF, printed by the Chromium of this computer where there is one."""

import contextlib
import os
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

from bitepoint.errors import BadInput

_NAMES = ("chromium", "chromium-browser")
_SECONDS = 120
ABSENT = (
    "No Chromium was found on this computer, so no PDF was made. Open {} in any browser and print to PDF, "
    "or set BITEPOINT_CHROMIUM to the program's path."
)


def find_browser(instead: str = "report.html") -> str:
    """Return the browser that prints; `instead` is what a person opens and prints where there is none.

    Raises
    ------
    BadInput
        There is none.
    """
    chosen = os.environ.get("BITEPOINT_CHROMIUM")
    found = chosen if chosen is not None else next((p for n in _NAMES if (p := shutil.which(n))), "")
    if not found or not Path(found).is_file():
        raise BadInput(ABSENT.format(instead))
    return found


def print_pdf(page: Path, browser: str) -> Path:
    """Print one page beside itself and return the PDF; one that was there stays until the new one is whole.

    Raises
    ------
    BadInput
        The browser made none.
    """
    target = page.with_suffix(".pdf")
    part = target.with_name(f".{target.name}.part")
    with tempfile.TemporaryDirectory() as profile:
        command = [browser, "--headless", "--disable-gpu", f"--user-data-dir={profile}", "--no-pdf-header-footer"]
        if getattr(os, "geteuid", lambda: 1)() == 0:
            command.append("--no-sandbox")  # Chromium refuses to start otherwise; the page is ours and has no script
        command += [f"--print-to-pdf={part.resolve()}", page.resolve().as_uri()]
        part.unlink(missing_ok=True)
        with contextlib.suppress(OSError, subprocess.TimeoutExpired):
            subprocess.run(command, capture_output=True, timeout=_SECONDS, check=False)
    try:
        if not _is_pdf(part):
            raise BadInput(f"{page.name}: the browser made no PDF. Open the page in a browser and print it to PDF.")
        os.replace(part, target)
    except OSError as error:
        raise BadInput(f"{target.name}: cannot be replaced ({error.strerror}). Close it, then try again.") from None
    finally:
        part.unlink(missing_ok=True)
    return target


def print_all(pages: Sequence[Path], browser: str) -> tuple[list[Path], list[str]]:
    """Print pages that belong together and return the PDFs; when one cannot be printed, none and what went wrong."""
    made: list[Path] = []
    try:
        for page in pages:
            made.append(print_pdf(page, browser))
    except BadInput as error:
        for path in made:
            path.unlink()
        return [], [str(error)]
    return made, []


def _is_pdf(path: Path) -> bool:
    """Whether a PDF was written to its end."""
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return False
    return data.startswith(b"%PDF-") and b"%%EOF" in data[-1024:]
