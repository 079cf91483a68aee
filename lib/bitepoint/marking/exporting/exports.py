"""Results in forms that other systems read: xAPI statements, OneRoster 1.1 tables, plain CSV."""

import csv
import io
import uuid
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_together
from bitepoint.marking.exporting import xapi
from bitepoint.marking.marks import COLUMNS, cell
from bitepoint.marking.outputs.moving import Tell
from bitepoint.marking.outputs.read_back import Rows, read_results

LINE_ITEMS = (
    "sourcedId",
    "status",
    "dateLastModified",
    "title",
    "description",
    "assignDate",
    "dueDate",
    "classSourcedId",
    "categorySourcedId",
    "gradingPeriodSourcedId",
    "resultValueMin",
    "resultValueMax",
)
RESULTS = (
    "sourcedId",
    "status",
    "dateLastModified",
    "lineItemSourcedId",
    "studentSourcedId",
    "scoreStatus",
    "score",
    "scoreDate",
    "comment",
)
CATEGORY, PERIOD = "knowledge-exercises", "course"


def export(results: Path, out: Path, *, form: str, home: str = xapi.HOME, tell: Tell = lambda _: None) -> list[Path]:
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

    Raises
    ------
    BadInput
        There is no such form, the folder holds no whole results, or the files cannot be written.
    """
    if form not in FORMS:
        raise BadInput(f"There is no format {form[:40]!r}. Choose one of {', '.join(FORMS)}.")
    if not xapi_home(home):
        raise BadInput(f"--home must be an address such as https://college.example, but you gave {home[:60]!r}.")
    marks, learners, trail = read_results(results, tell)
    files = {
        out / name: text.encode("utf-8") for name, text in FORMS[form](marks, learners, trail, home.rstrip("/")).items()
    }
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


def _xapi(marks: Rows, learners: Rows, trail: list[dict[str, Any]], home: str) -> Files:
    found = xapi.statements(trail, home=home)
    return {"statements.jsonl": "".join(f"{line}\n" for line in xapi.lines_of(found))}


def _oneroster(marks: Rows, learners: Rows, trail: list[dict[str, Any]], home: str) -> Files:
    times: dict[tuple[str, str], list[str]] = {}
    for line in trail:
        if "line" in line and _day(line["at"]):
            times.setdefault((line["learner"], line["exercise"]), []).append(_day(line["at"]))
    words = {row["learner"]: row["class_word"] for row in learners}
    days = sorted(day for found in times.values() for day in found) or ["1970-01-01"]
    items: dict[str, list[str]] = {}
    rows = []
    for mark in marks:
        if not mark["mark"]:
            continue
        word = words.get(mark["learner"], "")
        item = _id("lineItem", word, mark["exercise"])
        items.setdefault(item, _line_item(item, mark["exercise"], word, days[0], days[-1]))
        found = times.get((mark["learner"], mark["exercise"]), [days[-1]])
        rows.append(_result_row(mark, item, max(found)))
    titles = ("sourcedId", "status", "dateLastModified", "title")
    return {
        "lineItems.csv": _table(LINE_ITEMS, [items[key] for key in sorted(items)]),
        "results.csv": _table(RESULTS, rows),
        "categories.csv": _table(titles, [[CATEGORY, "", "", "Knowledge exercises"]]),
        "manifest.csv": _table(("propertyName", "value"), _manifest()),
    }


def _line_item(item: str, exercise: str, word: str, first: str, last: str) -> list[str]:
    known = exercises()[exercise]
    return [item, "", "", known.title, known.outcome, first, last, cell(word), CATEGORY, PERIOD, "0", "1"]


def _result_row(mark: dict[str, str], item: str, day: str) -> list[str]:
    id = _id("result", mark["learner"], item)
    comment = (
        mark["reason"] if not mark["override"] else f"override by {mark['override_by']}; computed {mark['last_score']}"
    )
    return [id, "", "", item, mark["learner"], "fully graded", mark["mark"], day, cell(comment)]


def _manifest() -> list[list[str]]:
    files = {"categories": "bulk", "lineItems": "bulk", "results": "bulk"}
    names: tuple[str, ...] = (
        "academicSessions",
        "categories",
        "classes",
        "classResources",
        "courses",
        "courseResources",
    )
    names += ("demographics", "enrollments", "lineItems", "orgs", "resources", "results", "users")
    rows = [["manifest.version", "1.0"], ["oneroster.version", "1.1"]]
    rows += [[f"file.{name}", files.get(name, "absent")] for name in names]
    return [*rows, ["source.systemName", "bitepoint"], ["source.systemCode", "bitepoint"]]


def _id(*parts: str) -> str:
    return str(uuid.uuid5(uuid.NAMESPACE_URL, "/".join((xapi.HOME, *parts)).casefold()))


def _day(at: str) -> str:
    try:
        return date.fromisoformat(at[:10]).isoformat()
    except ValueError:
        return ""


def _csv(marks: Rows, learners: Rows, trail: list[dict[str, Any]], home: str) -> Files:
    columns = list(learners[0]) if learners else ["learner"]
    return {
        "marks.csv": _table(COLUMNS, [[row[c] for c in COLUMNS] for row in marks]),
        "learners.csv": _table(columns, [[row[c] for c in columns] for row in learners]),
    }


def _table(columns: Sequence[str], rows: list[list[str]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([columns, *rows])
    return text.getvalue()


Writer = Callable[[Rows, Rows, list[dict[str, Any]], str], Files]
FORMS: dict[str, Writer] = {"xapi": _xapi, "oneroster": _oneroster, "csv": _csv}
