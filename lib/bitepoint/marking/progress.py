"""What moved for a learner since the last marking of an earlier day, and for the class."""

from collections.abc import Sequence

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.marking.rules import ClassRules
from bitepoint.marking.term import DANGEROUS, RIGHT, Step, TermLine, TermStanding

_FELL = 0.05
"""Recall that moved by less than this is called the same (our choice)."""


class Progress(Struct, frozen=True, kw_only=True):
    """One learner: what moved since `since` ("" where nothing earlier is known), and each marking of the term.

    `recall_since` are (right, answers) given since then, `recall_before` those before. `lessons` are titles of lessons in which by now
    every exercise of the pass rule is right, and was not then.
    """

    learner: str
    since: str
    newly_right: tuple[str, ...] = ()
    newly_dangerous: tuple[str, ...] = ()
    put_right: tuple[str, ...] = ()
    no_longer_right: tuple[str, ...] = ()
    lessons: tuple[str, ...] = ()
    recall_before: tuple[int, int] = (0, 0)
    recall_since: tuple[int, int] = (0, 0)
    steps: tuple[Step, ...] = ()

    @property
    def moved(self) -> bool:
        """Whether anything did."""
        changed = (self.newly_right, self.newly_dangerous, self.put_right, self.no_longer_right, self.lessons)
        return any(changed) or bool(self.recall_since[1])

    @property
    def recall(self) -> str:
        """Say how recall moved, "" where nothing was asked again since."""
        (right, of), (right_before, of_before) = self.recall_since, self.recall_before
        if not of:
            return ""
        if not of_before:
            return f"{right} of {of} right"
        change = right / of - right_before / of_before
        word = "the same as before" if abs(change) < _FELL else "more than before" if change > 0 else "less than before"
        return f"{right} of {of} right, {word} ({right_before} of {of_before})"


def progress_of(line: TermLine, rules: ClassRules) -> Progress:
    """Return what moved between the two standings of a line, in the order of the bank."""
    now, before = line.now, line.before
    if before is None:
        return Progress(learner=line.learner, since="", steps=line.steps)
    right, dangerous = now.having(RIGHT), now.having(DANGEROUS)
    return Progress(
        learner=line.learner,
        since=before.day,
        newly_right=_titles(right - before.having(RIGHT) - before.having(DANGEROUS)),
        newly_dangerous=_titles(dangerous - before.having(DANGEROUS)),
        put_right=_titles(before.having(DANGEROUS) & right),
        no_longer_right=_titles(before.having(RIGHT) - right - dangerous),
        lessons=tuple(_finished(now, rules, but=_finished(before, rules))),
        recall_before=(before.recalled_right, before.recalled),
        recall_since=(
            max(0, now.recalled_right - before.recalled_right),
            max(0, now.recalled - before.recalled),
        ),
        steps=line.steps,
    )


def _titles(ids: set[str]) -> tuple[str, ...]:
    return tuple(exercise.title for id, exercise in exercises().items() if id in ids)


def _finished(standing: TermStanding, rules: ClassRules, but: Sequence[str] = ()) -> list[str]:
    """Return the titles of the lessons in which every exercise that counts is right."""
    wanted: dict[str, list[str]] = {}
    for exercise in rules.wanted():
        wanted.setdefault(exercise.lesson, []).append(exercise.id)
    right, known = standing.having(RIGHT), lessons_in_use()
    titles = [known[key].title if key in known else key for key, ids in wanted.items() if right.issuperset(ids)]
    return [title for title in titles if title not in but]
