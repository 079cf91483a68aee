"""The set of results written: tables, pages and, where a browser prints, PDFs."""

import csv
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.marks import (
    BOM,
    LEARNER_COLUMNS,
    assessor_file,
    both,
    evidence_file,
    learner_cells,
    page_file,
    write_marks,
)
from bitepoint.marking.moved import MovedResult, moved
from bitepoint.marking.outputs.new_set import NewSet
from bitepoint.marking.pages.assessor import assessor_page
from bitepoint.marking.pages.evidence import evidence_page
from bitepoint.marking.pages.learner import learner_page
from bitepoint.marking.pages.pdf import print_all
from bitepoint.marking.pages.report import report_page
from bitepoint.marking.result import Row
from bitepoint.marking.roster import Roster
from bitepoint.marking.summary import ClassSummary


class Outcome(Struct, frozen=True, kw_only=True):
    """What marking came to: how many learners, rows and flags, what could not be read, and the class in figures.

    `problems` are lines to read at the terminal; `unread` of them are about what is held or could not be read, and
    `to_remove` counts files of learners deleted on request.
    """

    learners: int
    rows: int
    flags: int
    problems: list[str]
    unread: int = 0
    to_remove: int = 0
    moved: list[MovedResult] = []
    summary: ClassSummary = msgspec.field(default_factory=ClassSummary)

    @property
    def look(self) -> bool:
        """Whether a person should look: there are flags, or something could not be read."""
        return bool(self.flags or self.problems)


def write_all(
    work: ClassWork,
    new: NewSet,
    enrolled: Roster | None,
    sources: int,
    browser: str,
    marked: datetime | None,
    before: list[dict[str, str]],
) -> Outcome:
    summary = ClassSummary()
    at = marked or datetime.now().astimezone()
    count = 0
    lines: list[list[str]] = []
    pages: list[Path] = []

    def rows() -> Iterator[tuple[Row, Row | None]]:
        nonlocal count
        for result in work.results():
            summary.add(result)
            pages.append(new.write(page_file(result.name), learner_page(result, at)))
            pages.append(new.write(assessor_file(result.name), assessor_page(result, at)))
            pages.append(new.write(evidence_file(result.name), evidence_page(result, at)))
            found = both(result)
            count += len(found)
            lines.append(learner_cells(result))
            yield from found

    with new.text("marks.csv") as file:
        write_marks(file, rows())
    with new.text("learners.csv") as file:
        file.write(BOM)
        csv.writer(file, lineterminator="\n").writerows([LEARNER_COLUMNS, *lines])
    summary.flags += work.loose_flags
    changed = moved(before, LEARNER_COLUMNS, lines)
    page = report_page(
        summary, work.problems, sources=sources, with_roster=enrolled is not None, work=work, marked=at, moved=changed
    )
    pages.insert(0, new.write("report.html", page))
    unread = work.unread
    if browser:
        made, failed = print_all(pages, browser)
        work.problems += failed
        for path in made:
            new.adopt(path)
    return Outcome(
        learners=len(summary.learners),
        rows=count,
        flags=len(summary.flags),
        problems=[*work.problems, *work.erased.said],
        unread=unread,
        to_remove=len(work.erased.to_remove),
        summary=summary,
        moved=changed,
    )
