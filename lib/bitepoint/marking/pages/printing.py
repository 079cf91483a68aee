"""The pages of a marked class printed in one go: one PDF a learner, or all of them in one file."""

import os
import tempfile
from collections.abc import Callable, Collection, Sequence
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.marking.outputs.manifest import MANIFEST, PAGES, broken, read_manifest, refuse_deleted_since
from bitepoint.marking.pages.pdf import find_browser, print_pdf
from bitepoint.marking.pages.render import numbered

_BEGINS, _ENDS = "<main>", "</main>"


def print_class(
    results: Path,
    pages: str,
    out: Path,
    *,
    one_file: bool = False,
    say: Callable[[Path], None] = lambda _: None,
    gone: Collection[str] = (),
) -> list[Path]:
    """Print every learner's page of one kind from a set of results and return the PDFs.

    Parameters
    ----------
    results : Path
        The folder that marking wrote.
    pages : str
        Which pages: learners, assessor or evidence.
    out : Path
        Folder for the PDFs; those of the same names are replaced.
    one_file : bool
        All pages in one file, each learner beginning on a new page.
    say : callable
        Called with each PDF as it is made.
    gone : collection of str
        Public names, case-folded, of learners deleted on request.

    Raises
    ------
    BadInput
        There are no such pages, one was changed since, there is no Chromium, or the PDFs cannot be written.
    """
    found = _pages(results, pages, gone)
    browser = find_browser(f"{results / pages} and the pages in it")
    try:
        out.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=out, prefix=".printing-") as aside:
            sheets = [_joined(found, Path(aside) / f"{pages}.html")] if one_file else found
            return [_printed(sheet, Path(aside), out, browser, say) for sheet in sheets]
    except OSError as error:
        raise BadInput(f"{out}: the PDFs cannot be written there ({error.strerror}). Name another folder.") from None


def _pages(results: Path, pages: str, gone: Collection[str]) -> list[Path]:
    if pages not in PAGES:
        raise BadInput(f"Pages are {', '.join(PAGES)}, but you gave {pages[:40]!r}. Choose one of them.")
    manifest = read_manifest(results / MANIFEST)
    names = [n for n in manifest.names if n.startswith(f"{pages}/") and n.endswith(".html")] if manifest else []
    if manifest is None or not names:
        raise BadInput(f"{results}: holds no marked class with such pages. Run: bitepoint mark HANDINS --out {results}")
    refuse_deleted_since(results, manifest, gone)
    spoilt = sorted(set(broken(manifest, results)) & set(names))
    if spoilt:
        raise BadInput(f"{results}: {spoilt[0]} was changed since it was marked. Mark again, then print.")
    return [results / name for name in sorted(names, key=numbered)]


def _joined(pages: Sequence[Path], target: Path) -> Path:
    """Write the pages as one, in the style of the first; a learner's text has no tag in it, so main parts can be cut out."""
    texts = [page.read_text(encoding="utf-8") for page in pages]
    head, _, _ = texts[0].partition(_BEGINS)
    _, _, tail = texts[0].rpartition(_ENDS)
    parts = [text[text.index(_BEGINS) : text.rindex(_ENDS) + len(_ENDS)] for text in texts]
    write_in_one_step(target, (head + "\n".join(parts) + tail).encode("utf-8"))
    return target


def _printed(sheet: Path, aside: Path, out: Path, browser: str, say: Callable[[Path], None]) -> Path:
    copy = aside / sheet.name
    if copy != sheet:
        write_in_one_step(copy, sheet.read_bytes())
    target = out / f"{sheet.stem}.pdf"
    os.replace(print_pdf(copy, browser), target)
    say(target)
    return target
