"""What stands behind a mark: every answer to one exercise by the question it answers, what counts, and what was decided."""

from collections import Counter
from collections.abc import Iterator, Sequence

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.as_asked import AsAsked, as_asked, same_facts
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.registry.entries import Entry, about
from bitepoint.marking.result import Row
from bitepoint.marking.rows import rows_of, shown_answer, with_register
from bitepoint.marking.sittings import practice_of, works_of


class Try(Struct, frozen=True):
    """One answer; `counts`: the mark rests on it, in practice or in its sitting."""

    line: MarkedLine
    counts: bool


class AnsweredQuestion(Struct, frozen=True):
    """A question as it was read, and the answers to it in their order."""

    one: AsAsked
    tries: tuple[Try, ...]


class Section(Struct, frozen=True, kw_only=True):
    """One exercise: what stands in practice and in each sitting, the questions (those that count first), the appeals."""

    exercise: str
    stands: tuple[Row, ...]
    questions: tuple[AnsweredQuestion, ...]
    appeals: tuple[Entry, ...]


def sections(
    learner: str, lines: Sequence[MarkedLine], cars: ClassCars, entries: Sequence[Entry] = ()
) -> list[Section]:
    """Return a learner's answers by exercise, in the order in which they were first answered.

    `entries` is the whole register; without it no sitting is known, and no override.
    """
    rows = list(_rows(learner, lines, entries))
    own = [e for e in about(entries, learner) if e.kind == "appeal"]
    counting = {hash_ for row in rows for hash_ in _line_of(row, lines)}
    groups: dict[str, dict[tuple[object, ...], list[AsAsked]]] = {}
    for one in as_asked(lines, cars):
        record = one.line.record
        question = (key_of(record.sitting), record.turn, record.revision, record.facts, record.words)
        groups.setdefault(record.exercise, {}).setdefault(question, []).append(one)
    return [
        Section(
            exercise=exercise,
            stands=tuple(row for row in rows if row.exercise == exercise),
            questions=_ordered([_asked(group, counting, cars) for group in questions.values()]),
            appeals=tuple(e for e in own if e.exercise in ("", exercise)),
        )
        for exercise, questions in groups.items()
    ]


def _asked(group: Sequence[AsAsked], counting: set[str], cars: ClassCars) -> AnsweredQuestion:
    return AnsweredQuestion(
        same_facts(group[0], cars), tuple(Try(one.line, one.line.record.hash in counting) for one in group)
    )


def _ordered(questions: Sequence[AnsweredQuestion]) -> tuple[AnsweredQuestion, ...]:
    return tuple(sorted(questions, key=lambda q: not any(t.counts for t in q.tries)))


def _rows(learner: str, lines: Sequence[MarkedLine], entries: Sequence[Entry]) -> Iterator[Row]:
    words = Counter(line.record.class_word for line in lines)
    word = min(words, key=lambda w: (-words[w], w)) if words else ""
    own = [e for e in about(entries, learner) if not e.word]
    yield from with_register(rows_of(learner, practice_of(lines), word), own, learner)
    for work in works_of(learner, learner, lines, word, entries):
        yield from work.rows


def _line_of(row: Row, lines: Sequence[MarkedLine]) -> Iterator[str]:
    """Yield the hash of the line that a row counts."""
    found = line_of(row, lines)
    if found:
        yield found.record.hash


def line_of(row: Row, lines: Sequence[MarkedLine]) -> MarkedLine | None:
    """Return the line that a row counts; None where there is none."""
    for line in reversed(lines):
        record, verdict = line.record, line.verdict
        same = (record.exercise, record.turn, key_of(record.sitting)) == (row.exercise, row.turn, key_of(row.sitting))
        if same and verdict and (verdict.understood or shown_answer(record.answer)) == row.answer:
            return line
    return None
