"""What a learner's knowledge evidence amounts to under the rules of the class; never a word about the person."""

from collections.abc import Collection, Sequence
from typing import Protocol
from unicodedata import normalize

from msgspec import Struct, structs

from bitepoint.bank.corrections import withdrawn_now
from bitepoint.bank.coverage import is_of_safety, not_covered
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.rules import ClassRules

MORE_WORK = "more work needed"
COMPLETE = "knowledge evidence complete"
ALL_MET = "all knowledge exercises met; no supervised sitting and declaration recorded"
ALL_COVERED = "all met that this class's cars can serve; of safety not covered"
NO_DECLARATION = "no declaration recorded that counts"
OBSERVATION = "practical observation still required"
UNSUPERVISED = "unsupervised"
TO_CONFIRM = "sitting, time to confirm"
OBSERVED = "practical observation recorded as done right"


class RowLike(Protocol):
    """What a row must offer here (see result.Row)."""

    @property
    def exercise(self) -> str: ...
    @property
    def critical_made(self) -> bool: ...
    @property
    def critical_open(self) -> bool: ...
    @property
    def mark(self) -> float | None: ...
    @property
    def withdrawn(self) -> str: ...
    @property
    def critical_dropped(self) -> str: ...


class Counted(Struct, frozen=True, kw_only=True):
    """What the pass rule counts: right among the rest, how many must be, and the exercises with something critical open.

    `withdrawn` are the exercises whose question was withdrawn, `other` how the rule comes out the other way (with them
    where this is without, without them where this is with), `not_covered` the outcomes that no car of the class serves.
    """

    right: int
    rest: int
    needed: int
    critical_open: tuple[str, ...]
    withdrawn: tuple[str, ...] = ()
    left_out: bool = False
    other: "Counted | None" = None
    not_covered: tuple[str, ...] = ()

    @property
    def met(self) -> bool:
        """Whether every critical mistake is put right and enough of the rest is right."""
        return not self.critical_open and self.right >= self.needed

    @property
    def margin(self) -> int:
        """How many right exercises more (or, below 0, fewer) than needed."""
        return self.right - self.needed

    @property
    def reason(self) -> str:
        """Say in one sentence how the rule came out."""
        share = f"{self.right} of {self.rest} exercises right, {self.needed} needed"
        if not self.critical_open:
            return f"{share}; no critical mistake open.{self._both_ways()}"
        return f"{share}; critical mistake still open in {', '.join(self.critical_open)}.{self._both_ways()}"

    def _both_ways(self) -> str:
        """Say how the rule comes out with and without withdrawn questions; the better of the two stands."""
        if self.other is None:
            return ""
        if _rank(self) == _rank(self.other):
            return f" The same with and without the withdrawn {', '.join(self.withdrawn)}."
        here, there = ("without", "with") if self.left_out else ("with", "without")
        return (
            f" Counted {here} the withdrawn {', '.join(self.withdrawn)}, which is the better; "
            f"{there}: {self.other.right} of {self.other.rest} right, {self.other.needed} needed."
        )


def count(rows: Sequence[RowLike], rules: ClassRules) -> Counted:
    """Return what the rule counts. An exercise in which something critical was answered must itself be right.

    The rest are the wanted exercises without a critical mistake; one that was not answered is not right. Where a
    question was withdrawn, the rule is worked out with it and without it, and the better of the two stands.
    """
    answered = {row.exercise for row in rows if row.mark is not None}
    gone = tuple(row.exercise for row in rows if row.withdrawn)
    if asked_no_more := withdrawn_now() - answered:
        gone += tuple(e.id for e in rules.wanted() if e.id in asked_no_more)
    whole = _count(rows, rules)
    uncovered = not_covered(rules.vehicles, rules.lessons)
    if not gone:
        return structs.replace(whole, not_covered=uncovered)
    without = structs.replace(_count(rows, rules, set(gone)), withdrawn=gone, left_out=True)
    whole = structs.replace(whole, withdrawn=gone)
    better, other = (without, whole) if _rank(without) > _rank(whole) else (whole, without)
    return structs.replace(better, other=other, not_covered=uncovered)


def _rank(counted: Counted) -> tuple[bool, float, int]:
    return (counted.met, counted.right / max(1, counted.rest), counted.margin)


def _count(rows: Sequence[RowLike], rules: ClassRules, leave_out: Collection[str] = ()) -> Counted:
    by_id = {row.exercise: row for row in rows}
    # What is open in a row was answered to a question that stands, also where the answer that counts is withdrawn.
    still_open = tuple(id for id, row in by_id.items() if row.critical_open)
    if still_open:
        assessed = {e.id for e in rules.assessed()}
        still_open = tuple(id for id in still_open if id in assessed)
    apart = {id for id, row in by_id.items() if _apart(row)}
    rest = rules.wanted_ids().difference(apart, leave_out)
    right = [id for id, row in by_id.items() if id in rest and (row.mark or 0) >= 1]
    return Counted(right=len(right), rest=len(rest), needed=rules.needed(len(rest)), critical_open=still_open)


def _apart(row: RowLike) -> bool:
    """Whether an exercise stands apart from the rest: something critical was answered in it, or was until it was dropped.

    A wrong answer that counted as critical must not come back as one of the wrong answers of the rest.
    """
    return row.critical_made or bool(row.critical_dropped and (row.mark or 0) < 1)


class Sat(Struct, frozen=True, kw_only=True):
    """What the pass rule counts in the sittings that count, in the lessons that they were about.

    `to_confirm` while a person must say when it was; `missing` are keys of the assessed lessons that no sitting was about.
    """

    counted: Counted
    to_confirm: bool = False
    missing: tuple[str, ...] = ()

    @property
    def missing_said(self) -> str:
        """Name the lessons that no sitting was about; "" when each had one."""
        titles = "; ".join(lessons_in_use()[key].title for key in self.missing)
        return f"No sitting yet about: {titles}." if titles else ""


def sat_in(
    rows: Sequence[RowLike], lessons: Sequence[Sequence[str]], rules: ClassRules, *, to_confirm: bool
) -> Sat | None:
    """Return what the pass rule counts in sittings; None where they were about no lesson that is assessed.

    `rows` are those of the sittings that count, `lessons` the keys each was about, none meaning all.
    """
    assessed = list(dict.fromkeys(e.lesson for e in rules.assessed()))
    about = assessed if any(not own for own in lessons) else [k for k in assessed if any(k in own for own in lessons)]
    if not about:
        return None
    missing = tuple(key for key in assessed if key not in about)
    counted = count(rows, structs.replace(rules, lessons=tuple(about)) if missing else rules)
    return Sat(counted=counted, to_confirm=to_confirm, missing=missing)


def evidence_words(practice: Counted, *, declared: bool = False, sat: Sat | None = None) -> str:
    """Return the words for the knowledge evidence; only supervised answers, with a declaration, make it complete.

    What was answered in a sitting stands, whatever practice came to; practice alone is never complete.
    """
    counted = sat.counted if sat else practice
    if not counted.met:
        return MORE_WORK
    uncovered = [outcome for outcome in counted.not_covered if is_of_safety(outcome)]
    if uncovered:
        return f"{ALL_COVERED}: {'; '.join(uncovered)}"
    if sat is None:
        return "all knowledge exercises met; no supervised sitting recorded" if declared else ALL_MET
    met = "all knowledge exercises met"
    if sat.missing:
        count = len(sat.missing)
        met = f"met in the lessons sat, no sitting yet about {count} other {'lesson' if count == 1 else 'lessons'}"
    if sat.to_confirm:
        return f"{met}; {TO_CONFIRM}"
    if not declared:
        return f"{met}; {NO_DECLARATION}"
    return met if sat.missing else COMPLETE


def sitting_words(standings: Sequence[str]) -> str:
    """Return who supervised the sittings that count, that a person must confirm their time, or “unsupervised”."""
    found = [s for s in dict.fromkeys(standings) if s != UNSUPERVISED]
    return "; ".join(sorted(found)) or UNSUPERVISED


def is_supervised(words: str) -> bool:
    """Whether such words name somebody who supervised, with nothing left to confirm."""
    return words not in ("", UNSUPERVISED) and TO_CONFIRM not in words


def latest_observations(entries: Sequence[Entry]) -> dict[str, Entry]:
    """Return the newest observation of each criterion, compared without regard to capitals, outer spaces and how a letter is made."""
    return {_compared(e.criterion): e for e in entries if e.kind == "observation"}


def _compared(criterion: str) -> str:
    return normalize("NFC", criterion).strip().casefold()


def observation_words(entries: Sequence[Entry], rules: ClassRules) -> str:
    """Return whether observation is still required: until every criterion of the class was last seen done right."""
    found = latest_observations(entries)
    keys = [_compared(c) for c in rules.criteria]
    done = bool(keys) and all(k in found and found[k].result == "done right" for k in keys)
    return OBSERVED if done else OBSERVATION
