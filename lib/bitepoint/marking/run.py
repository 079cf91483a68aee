"""Marking a folder of hand-ins from end to end."""

import tempfile
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.marking.audit import without
from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.collecting import seldom_collected
from bitepoint.marking.erasure import UNNAMED, unnamed
from bitepoint.marking.line_store import LineStore
from bitepoint.marking.outputs.manifest import MANIFEST, HandedIn, describe
from bitepoint.marking.outputs.moving import Tell
from bitepoint.marking.outputs.new_set import NewSet
from bitepoint.marking.outputs.results import new_results, whole_set
from bitepoint.marking.processes import Pool, pool_or
from bitepoint.marking.reading.handins import HandInSource, find_sources
from bitepoint.marking.registry.fitting import of_another_class
from bitepoint.marking.registry.register import Register
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import ClassRules
from bitepoint.marking.shared_reading import marked_sources
from bitepoint.marking.writing import Outcome, write_all

Progress = Callable[[int, int], None]
_WORTH_WORKERS = 8


@seldom_collected()
def mark_hand_ins(
    inputs: Sequence[Path],
    *,
    roster: Path | None = None,
    out: Path,
    workers: int = 1,
    pool: Pool | None = None,
    progress: Progress | None = None,
    register: Path | None = None,
    rules: ClassRules | None = None,
    class_file: Path | None = None,
    browser: str = "",
    marked: datetime | None = None,
    tell: Tell = lambda _: None,
    look: Callable[[ClassWork], None] = lambda _: None,
) -> Outcome:
    """Mark hand-ins and write marks.csv, learners.csv, recall.csv, marks.jsonl, term.jsonl, report.html, progress.html, three pages a learner and the manifest.

    Nothing of what learners sent is run or unpacked; each answer is marked against the question drawn again.
    The whole set is written aside and then moved in; a run that fails leaves the set before as it was.

    Parameters
    ----------
    inputs
        Folders, zips, notebooks and logbooks, mixed.
    roster
        CSV with a column `learner`, and `class_word` if there is one; None: whoever handed in.
    out
        Folder for the marks; made when it is not there.
    workers
        Processes that read, mark, work out results and make pages.
    pool
        Processes that are there already, instead of new ones.
    progress
        Called with (sources done, sources in all).
    register
        Folder of the register; its entries are replayed at each marking.
    rules
        What the class agreed on; None: pass share 0.8, no due date, no criteria.
    class_file
        Where the rules stand, for the manifest.
    browser
        Program that also prints report and pages to PDF; none when empty.
    marked
        Day and time that the pages say, with its zone; None: now. Given again, the same hand-ins make the same files.
    tell
        Called with each line about the results folder that a person should read.
    look
        Called with the class once its results are written and its lines are still there.

    Raises
    ------
    BadInput
        There is nothing to read, the roster cannot be used, or the marks cannot be written.
    """
    try:
        with new_results(out, tell) as new:
            enrolled = read_roster(roster) if roster else None
            sources, problems = find_sources(inputs, leave_out=out)
            if not sources:
                raise BadInput(
                    problems[0] if problems else "There is nothing to mark. Name the folder with the hand-ins."
                )
            book = Register(register) if register else None
            with tempfile.TemporaryFile(dir=new.folder) as spool:
                work = ClassWork(enrolled, LineStore(spool), rules=rules, entries=book.entries() if book else [])
                work.problems += problems
                work.problems += [
                    f"Register, {p} Run: bitepoint register verify" for p in (book.problems() if book else [])
                ]
                with pool_or(pool, workers if len(sources) >= _WORTH_WORKERS else 1) as hands:
                    read = _read_all(work, sources, new, hands, progress)
                    if strange := of_another_class(work.entries, work.learners, with_roster=enrolled is not None):
                        work.leave_out_register(strange)
                    outcome = write_all(work, new, enrolled, len(sources), browser, marked, whole_set(out), hands)
                look(work)
            new.seal(
                describe(
                    new.files,
                    inputs=read,
                    pass_share=work.rules.pass_share,
                    class_file=class_file,
                    roster=roster,
                    register=book,
                    gone=work.gone,
                    due=work.rules.due,
                    zone=work.rules.zone,
                )
            )
        return outcome
    except OSError as error:
        untouched = " The results that were there are untouched." if (out / MANIFEST).is_file() else ""
        raise BadInput(
            f"{out.name}: the marks cannot be written ({error.strerror or type(error).__name__}). "
            f"Make room, or name another folder for them.{untouched}"
        ) from None


def _read_all(
    work: ClassWork, sources: list[HandInSource], new: NewSet, pool: Pool, progress: Progress | None
) -> list[HandedIn]:
    read = []
    with new.binary("marks.jsonl") as trail:
        for done, batches in enumerate(marked_sources(sources, work.cars, pool), start=1):
            for batch in batches:
                work.take(batch)
                erased = work.is_erased(batch.note)
                read.append(HandedIn(name=UNNAMED if erased else batch.note.name, sha256=batch.note.sha256))
                audit = unnamed(batch.audit) if erased else batch.audit
                trail.write(without(audit, work.gone) if work.gone else audit)
            if progress:
                progress(done, len(sources))
    return read
