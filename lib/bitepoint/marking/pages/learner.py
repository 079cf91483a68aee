"""The page for the learner: each mark and how it came about, what was dangerous, how to appeal; nothing of anybody else."""

import re
from collections.abc import Sequence
from datetime import datetime, timedelta

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.corrections import withdrawn_now
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.marking.figures.teaching import next_practice, question_of
from bitepoint.marking.pages.asked_again import asked_again
from bitepoint.marking.pages.assessor import observed
from bitepoint.marking.pages.coming_about import how_it_came
from bitepoint.marking.pages.render import day, moment, render
from bitepoint.marking.progress import Progress
from bitepoint.marking.result import Result, Row
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

SHOWN_KINDS = ("declaration", "sitting", "decision", "adjustment", "resubmission", "appeal")
"""What the register may say to the learner; other kinds are between assessors, or may name another learner."""
_LONGEST, _MOST_LETTERS = 600, 6
_SENTENCE = re.compile(r"(?<=[.!?]) (?=[A-Z“])")


class ToldExercise(Struct, frozen=True, kw_only=True):
    """One exercise as the learner reads it; `asked` and `why` are there where the page is also the feedback."""

    row: Row
    title: str
    how: str
    answer: str = ""
    asked: str = ""
    why: str = ""

    @property
    def plain(self) -> bool:
        """Whether there is nothing to say but that it was right at first try."""
        row = self.row
        return row.outcome == "right at first try" and not (row.override or row.critical_open or row.withdrawn)


class Part(Struct, frozen=True, kw_only=True):
    """Practice or a sitting: what to go through again, what came right later by how, and by lesson what was right at once."""

    name: str
    open: tuple[ToldExercise, ...]
    later: tuple[tuple[str, tuple[ToldExercise, ...]], ...]
    first: tuple[tuple[str, tuple[ToldExercise, ...]], ...]
    feedback: bool = False


def learner_page(result: Result, marked: datetime, progress: Progress | None = None) -> str:
    """Return the learner's own page; `marked` is when it was marked, and the days to appeal count from it."""
    known = exercises()
    answered = {r.exercise for r in (*result.rows, *result.sitting_rows)}
    asked = [e for e in result.rules.assessed() if e.id not in withdrawn_now()]
    return render(
        "learner.html.jinja",
        result=result,
        counted=result.sat.counted if result.sat else result.counted,
        marked=moment(marked),
        until=day((marked + timedelta(days=result.rules.appeal_days)).isoformat()),
        titles={id: exercise.title for id, exercise in known.items()},
        parts=_parts(result),
        left=_by_lesson([e.id for e in asked if e.id not in answered]),
        asked_count=len(answered | {e.id for e in asked}),
        sat_count=_sat_count(result, [e.id for e in asked]),
        practice=next_practice(result),
        again=asked_again(result),
        progress=progress,
        criteria=observed(result),
        entries=[e for e in result.entries if e.kind in SHOWN_KINDS],
        flag_kinds=list(dict.fromkeys(f.kind for f in result.flags)),
    )


def _sat_count(result: Result, asked: Sequence[str]) -> int:
    """Return how many exercises the sittings that count asked for: those of their lessons."""
    missing = result.sat.missing if result.sat else ()
    rows = {r.exercise for r in result.sitting_rows}
    return len(rows | {id for id in asked if id.partition(".")[0] not in missing})


def _parts(result: Result) -> list[Part]:
    found = [_part("Practice", result, result.rows, feedback=result.rules.withheld)] if result.rows else []
    for word in dict.fromkeys(row.sitting for row in result.sitting_rows):
        rows = [row for row in result.sitting_rows if row.sitting == word]
        found.append(_part(f"Sitting {word[:32]}, {rows[0].standing}", result, rows, feedback=True))
    return found


def _part(name: str, result: Result, rows: Sequence[Row], *, feedback: bool) -> Part:
    told = [_told(result, row, feedback=feedback) for row in rows]
    first = [t for t in told if t.plain]
    return Part(
        name=name,
        open=tuple(t for t in told if not t.plain and ((t.row.mark or 0) < 1 or t.row.critical_open)),
        later=_by_how([t for t in told if not t.plain and (t.row.mark or 0) >= 1 and not t.row.critical_open]),
        first=tuple(
            (title, tuple(t for t in first if t.row.exercise in ids))
            for title, ids in _by_lesson([t.row.exercise for t in first])
        ),
        feedback=feedback,
    )


def _told(result: Result, row: Row, *, feedback: bool) -> ToldExercise:
    title = exercises()[row.exercise].title
    question = question_of(result, row) if feedback and row.last_score is not None else None
    if question is None:
        return ToldExercise(row=row, title=title, how=how_it_came(row), answer=row.answer)
    right = (row.last_score or 0) >= 1
    return ToldExercise(
        row=row,
        title=title,
        how=how_it_came(row),
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


def _by_how(told: Sequence[ToldExercise]) -> tuple[tuple[str, tuple[ToldExercise, ...]], ...]:
    """Return (how it came, exercises), so that one sentence stands once."""
    found: dict[str, list[ToldExercise]] = {}
    for one in told:
        found.setdefault(one.how, []).append(one)
    return tuple((how, tuple(own)) for how, own in found.items())


def _by_lesson(ids: Sequence[str]) -> list[tuple[str, list[str]]]:
    """Return (title of the lesson, exercises) in the order of the course."""
    found: dict[str, list[str]] = {}
    for id in ids:
        found.setdefault(id.partition(".")[0], []).append(id)
    known = lessons_in_use()
    return [(known[key].title if key in known else key, own) for key, own in found.items()]
