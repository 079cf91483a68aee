"""What one learner adds to a set of results: rows of the tables, three pages; made here or in several processes."""

import pickle
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from functools import lru_cache, partial
from io import BytesIO
from types import MappingProxyType

from msgspec import Struct

from bitepoint.marking.classwork import ClassWork, Learner, Noticed
from bitepoint.marking.collecting import seldom_collected
from bitepoint.marking.line_store import LineStore, MarkedLines
from bitepoint.marking.marks import assessor_file, both, evidence_file, learner_cells, mark_lines, page_file
from bitepoint.marking.pages.assessor import assessor_page
from bitepoint.marking.pages.evidence import evidence_page
from bitepoint.marking.pages.learner import learner_page
from bitepoint.marking.processes import Pool, ever_fewer
from bitepoint.marking.progress import Progress, progress_of
from bitepoint.marking.recall_table import recall_lines
from bitepoint.marking.result import Result
from bitepoint.marking.right_figures import figures_known, keep_figures
from bitepoint.marking.summary import Counts, counts_of
from bitepoint.marking.term import TermLine, term_line

_MOST_AT_ONCE = 16


class LearnerSet(Struct, frozen=True, kw_only=True):
    """One learner's part: what the class is counted from, lines of marks.csv and recall.csv, cells of learners.csv, pages by file.

    Pages are in UTF-8, so that the process that writes them all does not encode them.
    """

    counts: Counts
    marks: str
    recall: str
    rows: int
    cells: list[str]
    term: TermLine
    progress: Progress
    pages: dict[str, bytes]


def learner_sets(
    work: ClassWork, at: datetime, pool: Pool, earlier: Mapping[str, bytes] = MappingProxyType({})
) -> Iterator[LearnerSet]:
    """Yield each learner's part in the order of the names, the same whichever process made it.

    `earlier` are the lines of term.jsonl in the set before, by public name.
    """
    make = _made_here if pool.count < 2 else partial(_shared_out, pool=pool)
    yield from work.each(partial(make, at=at, earlier=earlier))


def _made_here(
    work: ClassWork, learners: Sequence[Learner], *, at: datetime, earlier: Mapping[str, bytes]
) -> Iterator[LearnerSet]:
    for some in ever_fewer(learners, 1, _MOST_AT_ONCE):
        yield from _made(work, some, at, earlier)


@seldom_collected()
def _made(work: ClassWork, learners: Sequence[Learner], at: datetime, earlier: Mapping[str, bytes]) -> list[LearnerSet]:
    """Make the parts of some learners, each page of all of them before the next: what one page takes is at hand for the others."""
    results = [work.result_of(learner) for learner in learners]
    terms = [term_line(result, at, earlier) for result in results]
    progress = [progress_of(term, result.rules) for term, result in zip(terms, results, strict=True)]
    own = [learner_page(result, at, so_far) for result, so_far in zip(results, progress, strict=True)]
    assessors = [assessor_page(result, at, so_far) for result, so_far in zip(results, progress, strict=True)]
    evidence = [evidence_page(result, at) for result in results]
    return [_put_together(*parts) for parts in zip(results, terms, progress, own, assessors, evidence, strict=True)]


def _put_together(
    result: Result, term: TermLine, progress: Progress, own: str, assessor: str, evidence: str
) -> LearnerSet:
    rows = both(result)
    pages = {page_file(result.name): own, assessor_file(result.name): assessor, evidence_file(result.name): evidence}
    return LearnerSet(
        counts=counts_of(result),
        marks=mark_lines(rows),
        recall=recall_lines(result),
        rows=len(rows),
        cells=learner_cells(result),
        term=term,
        progress=progress,
        pages={file: page.encode("utf-8") for file, page in pages.items()},
    )


class _Piece(Struct, frozen=True):
    """Learners for another process, their lines, the class that they are judged in with its right figures, and where they stood before."""

    work: bytes
    learners: list[Learner]
    lines: dict[str, list[bytes]]
    earlier: dict[str, bytes]


def _shared_out(
    work: ClassWork, learners: Sequence[Learner], *, at: datetime, pool: Pool, earlier: Mapping[str, bytes]
) -> Iterator[LearnerSet]:
    known = pickle.dumps((work, figures_known(work.class_words)))

    def pieces() -> Iterator[_Piece]:
        for some in ever_fewer(learners, pool.count, _MOST_AT_ONCE):
            before = {x.name: earlier[x.name] for x in some if x.name in earlier}
            yield _Piece(known, some, work.lines_kept(some), before)

    for sets, found in pool.map(partial(_made_beside, at=at), pieces(), at_once=1):
        work.keep(found)
        yield from sets


@lru_cache(maxsize=1)
def _class(known: bytes) -> ClassWork:
    """Return the class out of a piece; the right figures beside it are known here from then on."""
    found: ClassWork
    found, figures = pickle.loads(known)
    keep_figures(figures)
    return found


def _made_beside(piece: _Piece, at: datetime) -> tuple[list[LearnerSet], Noticed]:
    store = LineStore(BytesIO())
    for key, hand_ins in piece.lines.items():
        for encoded in hand_ins:
            store.put(key, MarkedLines(encoded=encoded))
    work = _class(piece.work).with_lines(store)
    return _made(work, piece.learners, at, piece.earlier), work.found
