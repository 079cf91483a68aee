"""Marks as OneRoster 1.1 tables: a line item for each exercise in practice, and one of its own for each sitting."""

import csv
import io
import uuid
from collections.abc import Iterator, Sequence

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.marking.exporting import xapi
from bitepoint.marking.marks import cell
from bitepoint.marking.outputs.read_back import Results
from bitepoint.marking.passing import TO_CONFIRM, UNSUPERVISED
from bitepoint.marking.registry.windows import utc_time
from bitepoint.marking.zones import day_in

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
PRACTICE, SITTINGS, PERIOD = "knowledge-exercises", "knowledge-sittings", "course"
_CATEGORIES = {PRACTICE: "Knowledge exercises, practice", SITTINGS: "Knowledge exercises, sittings"}


class _Mark(Struct, frozen=True, kw_only=True):
    """One mark that goes out: `sitting` is its word, "" for practice."""

    learner: str
    class_word: str
    exercise: str
    sitting: str
    score: str
    status: str
    comment: str


def tables(found: Results) -> dict[str, str]:
    """Return the tables by file name.

    dueDate of practice is that of the class file; a class without one, and a sitting, has the day of the last answer.
    Sittings that nobody is recorded to have supervised are left out; one whose time waits is “partially graded”.
    """
    days = _Days(found)
    items: dict[str, list[str]] = {}
    rows = []
    for mark in _marks(found):
        item = _item_id(mark)
        items.setdefault(item, _line_item(item, mark, days))
        id = _id("result", mark.learner, item)
        day = days.of(mark.learner, mark.exercise, mark.sitting)
        rows.append([id, "", "", item, mark.learner, mark.status, mark.score, day, cell(mark.comment)])
    return {
        "lineItems.csv": table(LINE_ITEMS, [items[key] for key in sorted(items)]),
        "results.csv": table(RESULTS, rows),
        "categories.csv": table(
            ("sourcedId", "status", "dateLastModified", "title"), [[k, "", "", t] for k, t in _CATEGORIES.items()]
        ),
        "manifest.csv": table(("propertyName", "value"), _manifest()),
    }


def table(columns: Sequence[str], rows: list[list[str]]) -> str:
    """Return a table as CSV."""
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([columns, *rows])
    return text.getvalue()


def _marks(found: Results) -> Iterator[_Mark]:
    words = {row["learner"]: row["class_word"] for row in found.learners}
    for row in found.marks:
        said = {"learner": row["learner"], "class_word": words.get(row["learner"], ""), "exercise": row["exercise"]}
        if row["mark"]:
            comment = _comment(row["override_by"], row["last_score"], row["reason"])
            yield _Mark(**said, sitting="", score=row["mark"], status="fully graded", comment=comment)
        standing = row["sitting_standing"]
        if row["sitting_mark"] and standing != UNSUPERVISED:
            comment = _comment(row["sitting_override_by"], row["sitting_last_score"], row["sitting_reason"])
            yield _Mark(
                **said,
                sitting=row["sitting"],
                score=row["sitting_mark"],
                status="partially graded" if standing == TO_CONFIRM else "fully graded",
                comment=f"{standing}. {comment}",
            )


def _comment(by: str, computed: str, reason: str) -> str:
    return f"override by {by}; computed {computed}" if by else reason


class _Days:
    """On which days was answered: in all, in each sitting, and by a learner in an exercise."""

    def __init__(self, found: Results) -> None:
        self._due = found.manifest.due[:10]
        self._by: dict[tuple[str, str, str], list[str]] = {}
        self._in: dict[str, list[str]] = {}
        for line in found.trail:
            at = utc_time(line["at"]) if "line" in line else None
            if at:
                day = day_in(at, found.manifest.zone).isoformat()
                sitting = line.get("sitting", "")
                self._by.setdefault((line["learner"], line["exercise"], sitting), []).append(day)
                self._in.setdefault(sitting, []).append(day)

    def first(self, sitting: str) -> str:
        return min(self._in.get(sitting, ()), default="1970-01-01")

    def last(self, sitting: str) -> str:
        return max(self._in.get(sitting, ()), default="1970-01-01")

    def due(self, sitting: str) -> str:
        return self._due if self._due and not sitting else self.last(sitting)

    def of(self, learner: str, exercise: str, sitting: str) -> str:
        return max(self._by.get((learner, exercise, sitting), ()), default=self.last(sitting))


def _item_id(mark: _Mark) -> str:
    own = (mark.sitting,) if mark.sitting else ()
    return _id("lineItem", mark.class_word, mark.exercise, *own)


def _line_item(item: str, mark: _Mark, days: _Days) -> list[str]:
    # A question of a college's own may be unknown where its file is not in use; its mark is exported all the same.
    known, sitting = exercises().get(mark.exercise), mark.sitting
    name, outcome = (known.title, known.outcome) if known else (mark.exercise, "")
    title = f"{name} (sitting {sitting})" if sitting else name
    said = [item, "", "", cell(title), cell(outcome), days.first(sitting), days.due(sitting), cell(mark.class_word)]
    return [*said, SITTINGS if sitting else PRACTICE, PERIOD, "0", "1"]


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
