"""Results in forms that other systems read: xAPI statements, OneRoster 1.1 tables, plain CSV."""

import csv
import json
import uuid
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.marking.exporting import xapi
from bitepoint.marking.marks import COLUMNS, cell

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


def export(results: Path, out: Path, *, form: str, home: str = xapi.HOME) -> list[Path]:
    """Write the results of a marking in another form and return the files.

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

    Raises
    ------
    BadInput
        There is no such form, the folder holds no results, or the files cannot be written.
    """
    if form not in FORMS:
        raise BadInput(f"There is no format {form[:40]!r}. Choose one of {', '.join(FORMS)}.")
    if not xapi_home(home):
        raise BadInput(f"--home must be an address such as https://college.example, but you gave {home[:60]!r}.")
    marks, learners, trail = _read(results)
    try:
        out.mkdir(parents=True, exist_ok=True)
        return FORMS[form](out, marks, learners, trail, home.rstrip("/"))
    except OSError as error:
        raise BadInput(f"{out}: cannot be written ({error.strerror}). Name a folder where you may write.") from None


def xapi_home(home: str) -> bool:
    """Whether an address can be the home of accounts."""
    return home.startswith(("https://", "http://")) and not any(c.isspace() or c in '<>"{}|\\^`' for c in home)


Rows = list[dict[str, str]]


def _read(results: Path) -> tuple[Rows, Rows, list[dict[str, Any]]]:
    try:
        tables = []
        for name in ("marks.csv", "learners.csv"):
            with open(results / name, encoding="utf-8", newline="") as file:
                tables.append(list(csv.DictReader(file)))
        with open(results / "marks.jsonl", encoding="utf-8") as file:
            trail = [json.loads(line) for line in file]
    except (OSError, ValueError, csv.Error):
        raise BadInput(
            f"{results}: holds no results that can be read. Name the folder that “bitepoint mark” wrote."
        ) from None
    return tables[0], tables[1], trail


def _xapi(out: Path, marks: Rows, learners: Rows, trail: list[dict[str, Any]], home: str) -> list[Path]:
    path = out / "statements.jsonl"
    found = xapi.statements(trail, home=home)
    path.write_text("".join(f"{line}\n" for line in xapi.lines_of(found)), encoding="utf-8", newline="\n")
    return [path]


def _oneroster(out: Path, marks: Rows, learners: Rows, trail: list[dict[str, Any]], home: str) -> list[Path]:
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
    return [
        _write(out / "lineItems.csv", LINE_ITEMS, [items[key] for key in sorted(items)]),
        _write(out / "results.csv", RESULTS, rows),
        _write(
            out / "categories.csv",
            ("sourcedId", "status", "dateLastModified", "title"),
            [[CATEGORY, "", "", "Knowledge exercises"]],
        ),
        _write(out / "manifest.csv", ("propertyName", "value"), _manifest()),
    ]


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


def _csv(out: Path, marks: Rows, learners: Rows, trail: list[dict[str, Any]], home: str) -> list[Path]:
    columns = list(learners[0]) if learners else ["learner"]
    return [
        _write(out / "marks.csv", COLUMNS, [[row[c] for c in COLUMNS] for row in marks]),
        _write(out / "learners.csv", columns, [[row[c] for c in columns] for row in learners]),
    ]


def _write(path: Path, columns: Sequence[str], rows: list[list[str]]) -> Path:
    with open(path, "w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows([columns, *rows])
    return path


Writer = Callable[[Path, Rows, Rows, list[dict[str, Any]], str], list[Path]]
FORMS: dict[str, Writer] = {"xapi": _xapi, "oneroster": _oneroster, "csv": _csv}
