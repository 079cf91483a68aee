"""Everything known of a class while its hand-ins come in, and then each learner's result."""

from collections import Counter
from collections.abc import Iterator, Sequence

import msgspec

from bitepoint.bank import exercises
from bitepoint.marking.batch import Batch
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.flagging import answers as flags
from bitepoint.marking.flagging import history
from bitepoint.marking.flagging.answers import quoted
from bitepoint.marking.flagging.folding import folded
from bitepoint.marking.flagging.handins import HandInNote, broken_chains, handed_in_twice
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.line_store import LineStore
from bitepoint.marking.reading.guard import unforeseen
from bitepoint.marking.registry.register import Entry, about, deleted
from bitepoint.marking.result import Flag, Result, rows_of, with_register
from bitepoint.marking.roster import Enrolled, Roster, key_of, public_name
from bitepoint.marking.rules import ClassRules
from bitepoint.printable import printable

MAX_CHANGED = 250
"""Answers to changed questions on a learner's page: more than the bank has exercises."""


class ClassWork:
    """Takes batches, keeps the lines in a store, and gives the results in the order of the names."""

    def __init__(
        self,
        roster: Roster | None,
        store: LineStore,
        *,
        rules: ClassRules | None = None,
        entries: Sequence[Entry] = (),
    ) -> None:
        self._deleted = deleted(entries)
        roster = {k: e for k, e in roster.items() if k not in self._deleted} if roster is not None else None
        self._roster, self._store = roster, store
        self.gone = {public_name(e.learner).casefold() for e in self._deleted.values()}
        self.rules, self.entries = rules or ClassRules(), entries
        self.cars = ClassCars(
            letters=self.rules.vehicles,
            by_learner={key: e.vehicle for key, e in (roster or {}).items() if e.vehicle},
        )
        self._notes: list[HandInNote] = []
        self._cards: dict[tuple[str, str], str] = {}
        self._ids: dict[str, str] = {key: e.learner for key, e in (roster or {}).items()}
        self._classes: dict[str, dict[str, str]] = {}
        self._roster_words = {key_of(e.class_word) for e in (roster or {}).values() if e.class_word}
        self.problems: list[str] = []
        self.loose_flags: list[Flag] = []
        for key, enrolled in (roster or {}).items():
            if enrolled.class_word:
                self._classes.setdefault(key_of(enrolled.class_word), {})[key] = enrolled.learner

    def take(self, batch: Batch) -> None:
        """Keep one hand-in, but nothing of a learner who was deleted on request."""
        self._notes.append(batch.note)
        self._cards |= {key: words for key, words in batch.cards.items() if key[0] not in self._deleted}
        self.problems += batch.problems
        for key, encoded in batch.lines.items():
            if key in self._deleted:
                self.problems.append(
                    f"{batch.note.name}: holds lines of {batch.ids[key]}, who was deleted on request on "
                    f"{self._deleted[key].date}. They were left out; remove that file."
                )
                continue
            self._store.put(key, encoded)
            self._ids.setdefault(key, batch.ids[key])
        for word, learner in batch.pairs:
            if learner in self._deleted:
                continue
            self._classes.setdefault(word, {}).setdefault(learner, self._ids[learner])

    def results(self) -> Iterator[Result]:
        """Yield each learner of roster and hand-ins; `loose_flags` is complete once this is used up."""
        names = {key: public_name(learner) for key, learner in self._ids.items()}
        by_name = self._flags_by_name(names)
        classes = {word: sorted(ids.values()) for word, ids in self._classes.items()}
        for key in sorted(names, key=lambda k: (key_of(names[k]), k)):
            yield self._result(key, names[key], by_name.pop(names[key], []), classes)
        self.loose_flags = [f for left in by_name.values() for f in left]

    def _flags_by_name(self, names: dict[str, str]) -> dict[str, list[Flag]]:
        found: dict[str, list[Flag]] = {}
        for flag in (*broken_chains(self._notes), *handed_in_twice(self._notes, names)):
            if flag.learner.casefold() in self.gone:
                continue
            found.setdefault(flag.learner, []).append(flag)
        return found

    def _result(self, key: str, name: str, given: list[Flag], classes: flags.Classes) -> Result:
        lines = self._store.get(key)
        enrolled = (self._roster or {}).get(key)
        class_word = _class_word(lines, enrolled)
        entries = tuple(about(self.entries, self._ids[key]))
        rules, cars = self._rules_and_cars(enrolled)
        self._note_unknown_exercises(name, lines)
        self._note_lost_overrides(entries)
        found = self._checked(
            name,
            flags.unknown_learner(name, [self._ids[key]], enrolled, self._roster),
            flags.wrong_class_word(name, lines, class_word, self._roster_words),
            iter(given),
            flags.other_car(name, lines, cars.of(self._ids[key]), cars),
            flags.dangerous_question(name, lines),
            flags.question_changed(name, lines, classes, self.cars),
            flags.other_figures(name, lines, classes, self.cars),
            flags.fast_answers(name, lines),
            history.noted_codes(name, lines, entries),
            history.two_histories(name, lines),
            history.fewer_lines(key, name, self._notes),
            history.clock_backwards(name, lines),
            history.late(name, lines, self.rules.due),
        )
        rows = []
        for row in with_register(rows_of(name, lines, class_word), entries, name):
            kinds = dict.fromkeys(f.kind for f in found if f.exercise in ("", row.exercise))
            rows.append(msgspec.structs.replace(row, flags=tuple(kinds)))
        times = sorted(line.record.at[:40] for line in lines)
        return Result(
            name=name,
            class_word=class_word,
            rows=tuple(rows),
            flags=tuple(folded(found)),
            changed=self._shown_changed(name, lines),
            first_at=times[0] if times else "",
            last_at=times[-1] if times else "",
            entries=entries,
            rules=rules,
            cars=cars,
            cards={exercise: words for (who, exercise), words in self._cards.items() if who == key},
        )

    def _rules_and_cars(self, enrolled: Enrolled | None) -> tuple[ClassRules, ClassCars]:
        """Return the class's rules and cars as they were when this learner was written down."""
        if enrolled is None or not enrolled.cars:
            return self.rules, self.cars
        rules = msgspec.structs.replace(self.rules, vehicles=enrolled.cars)
        return rules, msgspec.structs.replace(self.cars, letters=enrolled.cars)

    def _checked(self, name: str, *checks: Iterator[Flag]) -> list[Flag]:
        """Return what the checks found; one that an error gets in the way of is told, and the others are made."""
        found: list[Flag] = []
        for check in checks:
            try:
                found += (msgspec.structs.replace(flag, evidence=printable(flag.evidence)) for flag in check)
            except Exception as error:
                self.problems.append(f"{name}: {unforeseen('one of the checks could not be made', error)}")
        return found

    def _shown_changed(self, name: str, lines: list[MarkedLine]) -> tuple[MarkedLine, ...]:
        """Return the lines to show of those whose question has changed: not more than a page can hold."""
        changed = [line for line in lines if line.status == flags.CHANGED]
        if len(changed) > MAX_CHANGED:
            self.problems.append(
                f"{name}: gave {len(changed):,} answers to questions that are not asked any more. "
                f"The page shows {MAX_CHANGED}; marks.jsonl has them all."
            )
        return tuple(changed[:MAX_CHANGED])

    def _note_lost_overrides(self, entries: Sequence[Entry]) -> None:
        for entry in entries:
            if entry.kind == "override" and entry.exercise not in exercises():
                self.problems.append(
                    f"Register: the mark that {quoted(entry.by)} gave {quoted(entry.learner)} is for exercise "
                    f"{quoted(entry.exercise)}, which this bank does not have, so it has no row. "
                    "Mark with the version that the class worked with."
                )

    def _note_unknown_exercises(self, name: str, lines: list[MarkedLine]) -> None:
        ids = sorted({line.record.exercise[:40] for line in lines if line.status == "unknown exercise"})
        if ids:
            few = ", ".join(repr(i) for i in ids[:5]) + (f" and {len(ids) - 5} more" if len(ids) > 5 else "")
            self.problems.append(
                f"{name}: answered {few}, which this bank does not have, so it has no mark. "
                "Mark with the version that the class worked with."
            )


def _class_word(lines: list[MarkedLine], enrolled: Enrolled | None) -> str:
    if enrolled and enrolled.class_word:
        return enrolled.class_word
    words = Counter(line.record.class_word for line in lines)
    return min(words.items(), key=lambda item: (-item[1], item[0]))[0] if words else ""
