"""One class of a college marked: the same files as when it is marked alone, and one line for the page above."""

from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from bitepoint.errors import BadInput
from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.college.folder import ClassPlace
from bitepoint.marking.college.traces import ClassTrace, trace_of
from bitepoint.marking.passing import COMPLETE, MORE_WORK
from bitepoint.marking.processes import Pool
from bitepoint.marking.reading.guard import unforeseen
from bitepoint.marking.rehearsal.place import CLASS, HAND_INS, ROSTER
from bitepoint.marking.rules import rules_of
from bitepoint.marking.run import mark_hand_ins
from bitepoint.marking.summary import LearnerLine
from bitepoint.marking.writing import Outcome


class SameForAll(Struct, frozen=True, kw_only=True):
    """What is the same for every class of a run: where results go, the time that pages say, pass share, browser.

    `across`: whether a trace of each class is kept, to look for copies in others.
    """

    out: Path
    marked: datetime
    pass_share: float | None = None
    browser: str = ""
    across: bool = False


class ClassLine(Struct, frozen=True, kw_only=True):
    """What a class came to; `refused` says why it was not marked, "" when it was.

    `complete`, `more_work` and `met` (all met, and something still to record) are of the learners who handed in. `told` are
    lines for the terminal alone: one may name a learner who was deleted on request.
    """

    name: str
    title: str = ""
    word: str = ""
    learners: int = 0
    handed_in: int = 0
    complete: int = 0
    met: int = 0
    more_work: int = 0
    critical: int = 0
    flags: int = 0
    unread: int = 0
    to_remove: int = 0
    moved: int = 0
    rows: int = 0
    told: tuple[str, ...] = ()
    refused: str = ""
    trace: ClassTrace | None = None

    @property
    def look(self) -> bool:
        """Whether a person should look at this class."""
        return bool(self.refused or self.flags or self.unread or self.to_remove or self.told)


def mark_class(place: ClassPlace, same: SameForAll, pool: Pool | None = None) -> ClassLine:
    """Mark one class with its own class file, roster, register and own files, here or with the processes of a pool.

    What goes wrong is about this class: one line, and nothing of it is marked.

    Raises
    ------
    OSError
        This computer's own disk is full.
    """
    said: list[str] = []
    traces: list[ClassTrace] = []

    def look(work: ClassWork) -> None:
        if same.across:
            traces.append(trace_of(work, place.word))

    try:
        # Reading the class file also says whose own sheets and questions are read from now on, or that there are none.
        rules = rules_of(place.folder / CLASS, same.pass_share)
        outcome = mark_hand_ins(
            [place.folder / HAND_INS],
            roster=place.folder / ROSTER,
            out=same.out / place.name,
            register=place.register,
            rules=rules,
            class_file=place.folder / CLASS,
            browser=same.browser,
            marked=same.marked,
            tell=said.append,
            pool=pool,
            look=look,
        )
    except BadInput as error:
        return ClassLine(name=place.name, word=place.word, refused=str(error), told=tuple(said))
    except Exception as error:
        return ClassLine(name=place.name, word=place.word, refused=unforeseen("cannot be marked", error))
    line = _line(place, rules.title, outcome, said)
    return replace(line, trace=traces[0]) if traces else line


def _line(place: ClassPlace, title: str, outcome: Outcome, said: Sequence[str]) -> ClassLine:
    learners = outcome.summary.learners
    handed_in = [line for line in learners if not line.nothing]

    def count(holds: Callable[[LearnerLine], bool]) -> int:
        return sum(map(holds, handed_in))

    complete, more_work = count(lambda x: x.evidence == COMPLETE), count(lambda x: x.evidence == MORE_WORK)
    return ClassLine(
        name=place.name,
        title=title,
        word=place.word,
        learners=outcome.learners,
        handed_in=len(handed_in),
        complete=complete,
        met=len(handed_in) - complete - more_work,
        more_work=more_work,
        critical=len(outcome.summary.critical),
        flags=outcome.flags,
        unread=outcome.unread,
        to_remove=outcome.to_remove,
        moved=len(outcome.moved),
        rows=outcome.rows,
        told=(*said, *outcome.in_no_file),
    )
