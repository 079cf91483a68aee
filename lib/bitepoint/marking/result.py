"""What marking found out about one learner: a row for each exercise, flags, and what is left to do."""

from datetime import datetime
from functools import cached_property

from msgspec import Struct

from bitepoint.marking import passing
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.recalled import Recalled
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.rules import ClassRules
from bitepoint.questions.draw import STANDARD


class Flag(Struct, frozen=True, kw_only=True):
    """Something a person should look at, with evidence; not a verdict. `exercise` is "" when it is about all.

    `beside` holds what to compare, as (what it is, what it says), to be shown side by side; `matched` is the other
    learner whom the evidence points at, to be looked at too.
    """

    kind: str
    learner: str
    evidence: str
    exercise: str = ""
    beside: tuple[tuple[str, str], ...] = ()
    matched: str = ""


class Row(Struct, frozen=True, kw_only=True, gc=False):
    """One learner's marks in one exercise; scores are None when the question has changed since.

    `sitting` is the word of the sitting it was answered in, "" for practice, and `standing` who supervised that.
    `withdrawn` says why the question that counts was withdrawn, "" when it stands; `critical_dropped` names a critical
    mistake in a withdrawn question, which counts against nobody. `critical_mistake` names the newest one that counts and
    `critical_says` tells what is dangerous about it.
    """

    learner: str
    exercise: str
    first_score: float | None = None
    last_score: float | None = None
    tries: int = 0
    turns: int = 0
    solutions_seen: int = 0
    critical_open: bool = False
    mistake: str = ""
    reason: str = ""
    answer: str = ""
    says: str = ""
    mistakes_made: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()
    critical_made: bool = False
    critical_mistake: str = ""
    critical_says: str = ""
    seconds: float | None = None
    turn: int = 1
    revision: int = 0
    sitting: str = ""
    standing: str = ""
    vehicle: str = ""
    edition: int = 0
    class_cars: tuple[str, ...] = STANDARD
    withdrawn: str = ""
    critical_dropped: str = ""
    override: Entry | None = None

    @property
    def mark(self) -> float | None:
        """The score that counts under the pass rule: a person's override, else the computed one."""
        return self.override.score if self.override else self.last_score

    @property
    def outcome(self) -> str:
        """Where the learner stands, in words: one of OUTCOMES. A person's full mark makes no first try right."""
        mark = self.mark
        if mark is None:
            return "not marked"
        if mark >= 1:
            return RIGHT_AT_FIRST if (self.first_score or 0) >= 1 else "right later"
        return "partly right" if mark > 0 else "not right yet"


RIGHT_AT_FIRST = "right at first try"
OUTCOMES = (RIGHT_AT_FIRST, "right later", "partly right", "not right yet", "not marked")


class SittingWork(Struct, frozen=True, kw_only=True):
    """What one learner answered with one sitting word; never pooled with practice or with another sitting.

    `standing` says who supervised it, that its time waits to be confirmed, or that nobody did; `begins` and `lessons`
    (none means all) are those of the register. Of the answers `to_confirm` wait, and `outside` are left out.
    `waiting` are the first and the last time of those that wait; `room_says` whether confirming the room reaches them.
    """

    word: str
    standing: str
    begins: datetime | None = None
    lessons: tuple[str, ...] = ()
    rows: tuple[Row, ...] = ()
    to_confirm: int = 0
    outside: int = 0
    waiting: tuple[str, ...] = ()
    room_says: bool = True


class Declared(Struct, frozen=True, kw_only=True):
    """The declaration that counts for a sitting that counts (`word`; "" where none does), None where none is there."""

    word: str = ""
    entry: Entry | None = None


class Result(Struct, frozen=True, kw_only=True, dict=True):
    """One learner: `name` is the public id, `changed` the lines whose question has changed since.

    `nothing` says why there is no answer that counts, "" where there is one. `rows` is practice, `sittings` each sitting by
    itself, `sitting_rows` those of the sitting that counts in each lesson, `declarations` what was declared for them;
    `declared` when it was for each. `recalled` is what was asked again weeks later, which counts for no mark.
    `entries` is what the register says about the learner, `rules` what the class agreed on,
    `cards` the words of the learner's own cards where a question has changed since.
    """

    name: str
    class_word: str
    rows: tuple[Row, ...] = ()
    sittings: tuple[SittingWork, ...] = ()
    sitting_rows: tuple[Row, ...] = ()
    declared: bool = False
    declarations: tuple[Declared, ...] = ()
    recalled: tuple[Recalled, ...] = ()
    flags: tuple[Flag, ...] = ()
    changed: tuple[MarkedLine, ...] = ()
    nothing: str = ""
    first_at: str = ""
    last_at: str = ""

    entries: tuple[Entry, ...] = ()
    rules: ClassRules = ClassRules()
    cars: ClassCars = ORDINARY
    cards: dict[str, str] = {}

    @cached_property
    def counted(self) -> passing.Counted:
        """What the pass rule counts in practice."""
        return passing.count(self.rows, self.rules)

    @cached_property
    def sat(self) -> passing.Sat | None:
        """What the pass rule counts in the sittings, those that nobody is recorded to have supervised left out."""
        rows, words = self._sat_rows, self._sat_words
        if not rows:
            return None
        about = [work.lessons for work in self.sittings if work.word in words] or [()]
        waits = any(row.standing == passing.TO_CONFIRM for row in rows)
        return passing.sat_in(rows, about, self.rules, to_confirm=waits)

    @cached_property
    def _sat_rows(self) -> list[Row]:
        return [row for row in self.sitting_rows if row.standing != passing.UNSUPERVISED]

    @property
    def _sat_words(self) -> set[str]:
        return {row.sitting for row in self._sat_rows}

    @property
    def sat_said(self) -> str:
        """Name the sitting that counts, or how many there are: lessons may have been sat on several days."""
        count = len(self._sat_words)
        return "the sitting that counts" if count == 1 else f"the {count} sittings that count"

    @property
    def shown_rows(self) -> tuple[Row, ...]:
        """The rows for figures about the class: practice, or the sitting of who handed in nothing else."""
        return self.rows or self.sitting_rows

    @property
    def evidence(self) -> str:
        """Return what the knowledge evidence amounts to, or why there is none; never a word about the person."""
        return self.nothing or passing.evidence_words(self.counted, declared=self.declared, sat=self.sat)

    @property
    def observation(self) -> str:
        """Return whether practical observation is still required."""
        return passing.observation_words(self.entries, self.rules)

    @property
    def sitting(self) -> str:
        """Return “supervised by …”, that the time waits to be confirmed, or “unsupervised”."""
        return passing.sitting_words([row.standing for row in self.sitting_rows])
