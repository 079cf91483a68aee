"""The set of results written: tables, pages and, where a browser prints, PDFs."""

import csv
from datetime import datetime
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.marking import recall_table, term
from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.learner_set import learner_sets
from bitepoint.marking.marks import BOM, COLUMNS, LEARNER_COLUMNS
from bitepoint.marking.moved import MovedResult, earlier, moved
from bitepoint.marking.outputs.new_set import NewSet
from bitepoint.marking.pages.class_progress import FILE as PROGRESS
from bitepoint.marking.pages.class_progress import class_progress_page
from bitepoint.marking.pages.pdf import print_all
from bitepoint.marking.pages.report import report_page
from bitepoint.marking.processes import Pool
from bitepoint.marking.progress import Progress
from bitepoint.marking.roster import Roster
from bitepoint.marking.summary import ClassSummary


class Outcome(Struct, frozen=True, kw_only=True):
    """What marking came to: how many learners, rows and flags, what could not be read, and the class in figures.

    `problems` are lines to read at the terminal; `unread` of them are about what is held or could not be read, and
    `to_remove` counts files of learners deleted on request; `in_no_file` are the lines about those, for the terminal alone.
    """

    learners: int
    rows: int
    flags: int
    problems: list[str]
    unread: int = 0
    to_remove: int = 0
    in_no_file: list[str] = []
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
    before: Path | None,
    pool: Pool,
) -> Outcome:
    summary = ClassSummary()
    at = marked or datetime.now().astimezone()
    count = 0
    lines: list[list[str]] = []
    pages: list[Path] = []
    progress: list[Progress] = []
    with new.text("marks.csv") as file, new.text(recall_table.FILE) as recalled, new.binary(term.FILE) as terms:
        csv.writer(file, lineterminator="\n").writerow(COLUMNS)
        csv.writer(recalled, lineterminator="\n").writerow(recall_table.COLUMNS)
        for one in learner_sets(work, at, pool, term.read_term(before)):
            summary.count(one.counts)
            pages += [new.write(name, page) for name, page in one.pages.items()]
            count += one.rows
            lines.append(one.cells)
            file.write(one.marks)
            recalled.write(one.recall)
            terms.write(msgspec.json.encode(one.term) + b"\n")
            progress.append(one.progress)
    with new.text("learners.csv") as file:
        file.write(BOM)
        csv.writer(file, lineterminator="\n").writerows([LEARNER_COLUMNS, *lines])
    summary.flags += work.loose_flags
    changed = moved(earlier(before), LEARNER_COLUMNS, lines)
    page = report_page(
        summary, work.problems, sources=sources, with_roster=enrolled is not None, work=work, marked=at, moved=changed
    )
    pages.insert(0, new.write("report.html", page.encode("utf-8")))
    pages.insert(1, new.write(PROGRESS, class_progress_page(progress, work.rules, at).encode("utf-8")))
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
        in_no_file=work.erased.said,
        summary=summary,
        moved=changed,
    )
