"""The pages of a job in its folder: each a file, with the digests of pages, record and sheet beside them."""

from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.job.state import PRINTED, RECORD, SHEET, Job
from bitepoint.logbook.one_step import write_together
from bitepoint.marking.pages.pdf import find_browser, print_all

MANIFEST = "manifest.sha256"
"""In the form that the usual programs check: a digest, two spaces, a name."""


def write_pages(job: Job, pages: Mapping[str, str], *, pdf: bool = False) -> list[Path]:
    """Write pages into `print` of a job's folder, and as PDF too, and return the files.

    Raises
    ------
    BadInput
        The folder cannot be written, or there is no program that makes a PDF; the pages are there then.
    """
    folder = job.folder / PRINTED
    files = {folder / f"{name}.html": text.encode("utf-8") for name, text in pages.items()}
    try:
        folder.mkdir(exist_ok=True)
        write_together({**files, folder / MANIFEST: _manifest(job, files).encode("utf-8")})
        if not pdf:
            return [*files, folder / MANIFEST]
        made, problems = print_all(list(files), find_browser(f"{folder} and the pages in it"))
        if problems:
            raise BadInput(problems[0])
        whole = {**files, **{path: path.read_bytes() for path in made}}
        write_together({folder / MANIFEST: _manifest(job, whole).encode("utf-8")})
    except OSError as error:
        raise BadInput(
            f"{folder} cannot be written ({error.strerror}). Close what is open from it, then try again."
        ) from None
    return [*files, *made, folder / MANIFEST]


def _manifest(job: Job, files: Mapping[Path, bytes]) -> str:
    below = {f"../{name}": (job.folder / name).read_bytes() for name in (RECORD, SHEET)}
    listed = {**{path.name: content for path, content in files.items()}, **below}
    return "".join(f"{sha256(content).hexdigest()}  {name}\n" for name, content in listed.items())
