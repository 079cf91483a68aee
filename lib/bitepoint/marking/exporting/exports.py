"""Results in forms that other systems read: xAPI statements, OneRoster 1.1 tables, plain CSV."""

from collections.abc import Callable, Collection
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_together
from bitepoint.marking.exporting import gradebook, xapi
from bitepoint.marking.marks import BOM, COLUMNS
from bitepoint.marking.outputs.manifest import refuse_deleted_since
from bitepoint.marking.outputs.moving import Tell
from bitepoint.marking.outputs.read_back import Results, read_results


def export(
    results: Path,
    out: Path,
    *,
    form: str,
    home: str = xapi.HOME,
    tell: Tell = lambda _: None,
    gone: Collection[str] = (),
) -> list[Path]:
    """Write the results of a marking in another form and return the files; earlier ones stay until all are written.

    Parameters
    ----------
    results
        Folder that marking wrote.
    out
        Folder for the files; made when it is not there.
    form
        "xapi", "oneroster" or "csv".
    home
        Address under which accounts and activities are at home.
    tell
        Called with each line about the results folder that a person should read.
    gone
        Public names, case-folded, of learners deleted on request.

    Raises
    ------
    BadInput
        There is no such form, the folder holds no whole results or a learner deleted since, or the files cannot be written.
    """
    if form not in FORMS:
        raise BadInput(f"There is no format {form[:40]!r}. Choose one of {', '.join(FORMS)}.")
    if not xapi_home(home):
        raise BadInput(f"--home must be an address such as https://college.example, but you gave {home[:60]!r}.")
    found = read_results(results, tell)
    refuse_deleted_since(results, found.manifest, gone)
    files = {out / name: text.encode("utf-8") for name, text in FORMS[form](found, home.rstrip("/")).items()}
    try:
        out.mkdir(parents=True, exist_ok=True)
        write_together(files)
        return list(files)
    except OSError as error:
        raise BadInput(f"{out}: cannot be written ({error.strerror}). Name a folder where you may write.") from None


def xapi_home(home: str) -> bool:
    """Whether an address can be the home of accounts."""
    return home.startswith(("https://", "http://")) and not any(c.isspace() or c in '<>"{}|\\^`' for c in home)


Files = dict[str, str]
"""Texts by file name."""


def _xapi(found: Results, home: str) -> Files:
    return {"statements.jsonl": "".join(f"{line}\n" for line in xapi.lines_of(xapi.statements(found.trail, home=home)))}


def _gradebook(found: Results, home: str) -> Files:
    return gradebook.tables(found)


def _csv(found: Results, home: str) -> Files:
    columns = list(found.learners[0]) if found.learners else ["learner"]
    return {
        "marks.csv": BOM + gradebook.table(COLUMNS, [[row[c] for c in COLUMNS] for row in found.marks]),
        "learners.csv": BOM + gradebook.table(columns, [[row[c] for c in columns] for row in found.learners]),
    }


Writer = Callable[[Results, str], Files]
FORMS: dict[str, Writer] = {"xapi": _xapi, "oneroster": _gradebook, "csv": _csv}
