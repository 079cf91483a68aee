"""The page for the learner: each mark and how it came about, what was dangerous, how to appeal; nothing of anybody else."""

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, timedelta
from typing import TypeVar

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.bank.registry import Exercise
from bitepoint.marking.figures.teaching import next_practice, question_of
from bitepoint.marking.pages.asked import asked_of
from bitepoint.marking.pages.asked_again import asked_again
from bitepoint.marking.pages.assessor import observed
from bitepoint.marking.pages.coming_about import how_it_came
from bitepoint.marking.pages.render import day, moment, render
from bitepoint.marking.progress import Progress
from bitepoint.marking.result import Result, Row
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

T = TypeVar("T")

SHOWN_KINDS = ("declaration", "sitting", "decision", "adjustment", "resubmission", "appeal")
"""What the register may say to the learner; other kinds are between assessors, or may name another learner."""
_LONGEST, _MOST_LETTERS = 600, 6
_SENTENCE = re.compile(r"(?<=[.!?]) (?=[A-Z“])")


class ToldExercise(Struct, frozen=True, kw_only=True, gc=False):
    """One exercise as the learner reads it; `asked` and `why` are there where the page is also the feedback."""

    row: Row
    title: str
    answer: str = ""
    asked: str = ""
    why: str = ""

    @property
    def how(self) -> str:
        """How its mark came about."""
        return how_it_came(self.row)


class Part(Struct, frozen=True, kw_only=True):
    """Practice or a sitting: what to go through again, what came right later by how, and by lesson what was right at once."""

    name: str
    open: list[ToldExercise]
    later: list[tuple[str, list[ToldExercise]]]
    first: list[tuple[str, list[ToldExercise]]]
    feedback: bool = False


def learner_page(result: Result, marked: datetime, progress: Progress | None = None) -> str:
    """Return the learner's own page; `marked` is when it was marked, and the days to appeal count from it."""
    known, asked = exercises(), asked_of(result.rules)
    answered = {r.exercise for r in (*result.rows, *result.sitting_rows)}
    left, parts = [e for e in asked if e.id not in answered], _parts(result, known)
    return render(
        "learner.html.jinja",
        result=result,
        counted=result.sat.counted if result.sat else result.counted,
        marked=moment(marked),
        until=day((marked + timedelta(days=result.rules.appeal_days)).isoformat()),
        exercises=known,
        parts=parts,
        dangers=[told for part in parts for told in part.open if told.row.critical_open],
        left=_by_lesson((e.lesson, e) for e in left),
        asked_count=len(answered) + len(left),
        sat_count=_sat_count(result, asked) if result.sat else 0,
        practice=next_practice(result),
        again=asked_again(result),
        progress=progress,
        criteria=observed(result),
        entries=[e for e in result.entries if e.kind in SHOWN_KINDS],
        flag_kinds=list(dict.fromkeys(f.kind for f in result.flags)),
    )


def _sat_count(result: Result, asked: Sequence[Exercise]) -> int:
    """Return how many exercises the sittings that count asked for: those of their lessons."""
    missing = result.sat.missing if result.sat else ()
    rows = {r.exercise for r in result.sitting_rows}
    return len(rows | {e.id for e in asked if e.lesson not in missing})


def _parts(result: Result, known: Mapping[str, Exercise]) -> list[Part]:
    found = [_part("Practice", result, result.rows, known, feedback=result.rules.withheld)] if result.rows else []
    for word in dict.fromkeys(row.sitting for row in result.sitting_rows):
        rows = [row for row in result.sitting_rows if row.sitting == word]
        found.append(_part(f"Sitting {word[:32]}, {rows[0].standing}", result, rows, known, feedback=True))
    return found


def _part(name: str, result: Result, rows: Sequence[Row], known: Mapping[str, Exercise], *, feedback: bool) -> Part:
    still_open, later, first = [], [], []
    for row in rows:
        exercise = known[row.exercise]
        told = _told(result, row, exercise.title, feedback=feedback)
        if _is_plain(row):
            first.append((exercise.lesson, told))
        elif (row.mark or 0) < 1 or row.critical_open:
            still_open.append(told)
        else:
            later.append((told.how, told))
    return Part(name=name, open=still_open, later=_grouped(later), first=_by_lesson(first), feedback=feedback)


def _is_plain(row: Row) -> bool:
    """Whether there is nothing to say but that it was right at first try."""
    return row.outcome == "right at first try" and not (row.override or row.critical_open or row.withdrawn)


def _told(result: Result, row: Row, title: str, *, feedback: bool) -> ToldExercise:
    question = question_of(result, row) if feedback and row.last_score is not None else None
    if question is None:
        return ToldExercise(row=row, title=title, answer=row.answer)
    right = (row.last_score or 0) >= 1
    return ToldExercise(
        row=row,
        title=title,
        answer=_in_words(row.answer, question),
        asked=question.ask[:_LONGEST],
        why=_why(question, row) if right else row.says,
    )


def _why(question: Question, row: Row) -> str:
    """Return why the answer is right; in practice the first sentence, so that a whole course fits on the page."""
    if row.sitting:
        return question.why
    return _SENTENCE.split(question.why, maxsplit=1)[0]


def _in_words(answer: str, question: Question) -> str:
    """Return an answer of several letters with what stands behind them, which a page without the question must say."""
    texts = dict(kind_of(question).offered(question))
    letters = answer.split(", ")
    if len(letters) > _MOST_LETTERS or not all(letter in texts for letter in letters):
        return answer
    return "; ".join(f"{letter}: {texts[letter]}" for letter in letters)


def _grouped(found: Iterable[tuple[str, T]]) -> list[tuple[str, list[T]]]:
    """Return (key, all that have it), the key that comes first first."""
    groups: dict[str, list[T]] = {}
    for key, one in found:
        groups.setdefault(key, []).append(one)
    return list(groups.items())


def _by_lesson(found: Iterable[tuple[str, T]]) -> list[tuple[str, list[T]]]:
    """Return (title of the lesson, all of it) in the order of the course."""
    known = lessons_in_use()
    return [(known[key].title if key in known else key, own) for key, own in _grouped(found)]
