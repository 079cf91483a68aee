"""Everything known of a class while its hand-ins come in, and then each learner's result."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence, Set
from typing import NamedTuple, TypeVar

import msgspec

from bitepoint.marking.arrived import Arrived
from bitepoint.marking.batch import Batch
from bitepoint.marking.checks import AboutClass, AboutLearner, flags_of
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.class_changes import ClassChanges
from bitepoint.marking.declarations import declarations_of
from bitepoint.marking.erasure import Erased, gone_names, is_of
from bitepoint.marking.flagging import clocks, history
from bitepoint.marking.flagging import sittings as sitting_flags
from bitepoint.marking.flagging.classmates import Classmates, by_word, keep_deleted
from bitepoint.marking.flagging.folding import folded, with_flags
from bitepoint.marking.flagging.handins import HandInNote, broken_chains, handed_in_twice
from bitepoint.marking.left_over import hidden_changed, lost_overrides, shown_changed, unknown_exercises
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.line_store import LineStore
from bitepoint.marking.recalled import recalled_of
from bitepoint.marking.registry.register import Entry, deleted
from bitepoint.marking.result import Flag, Result
from bitepoint.marking.retakes import counting_rows
from bitepoint.marking.roster import Enrolled, Roster, key_of, public_name
from bitepoint.marking.rows import rows_of, with_register
from bitepoint.marking.rules import ClassRules
from bitepoint.marking.senders import Sender, astray, foreign, sender_of
from bitepoint.marking.sittings import practice_of, works_of
from bitepoint.printable import printable

T = TypeVar("T")


class Learner(NamedTuple):
    """One learner to work out: case-folded id, public name, the flags that hand-ins gave."""

    key: str
    name: str
    given: tuple[Flag, ...]


class Noticed(NamedTuple):
    """What working out results brings up beside them: lines to read, words of sittings that had answers."""

    problems: tuple[str, ...]
    sitting_words: frozenset[str]


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
        everyone = roster or {}
        roster = {k: e for k, e in roster.items() if k not in self._deleted} if roster is not None else None
        self._roster, self._store = roster, store
        self.gone = gone_names(entries)
        self.rules, self.entries = rules or ClassRules(), entries
        self.cars = ClassCars(
            letters=self.rules.vehicles,
            by_learner={key: e.vehicle for key, e in everyone.items() if e.vehicle},
        )
        self._changes = ClassChanges(entries)
        self._notes: list[HandInNote] = []
        self._arrived = Arrived()
        self._assigned: set[str] = set()
        self._cards: dict[tuple[str, str], str] = {}
        self._ids: dict[str, str] = {key: e.learner for key, e in (roster or {}).items()}
        self._enrolled = {**self._ids, **{key: e.learner for key, e in self._deleted.items()}}
        self._classes: dict[str, dict[str, str]] = {}
        self._not_counting: dict[str, dict[str, str]] = {}
        self._roster_words = {key_of(e.class_word) for e in (roster or {}).values() if e.class_word}
        self.problems: list[str] = []
        self.erased = Erased(self._deleted)
        self.loose_flags: list[Flag] = []
        self._sitting_words: set[str] = set()
        self._foreign: list[Flag] = []
        self._elsewhere: set[str] = set()
        self._classmates = Classmates({})
        self._stamped: dict[str, dict[str, list[history.StampedCount]]] = {}
        # Who was deleted on request stays one of those whom others may have copied from; see neighbours.named.
        for key, enrolled in everyone.items():
            if enrolled.class_word:
                self._classes.setdefault(key_of(enrolled.class_word), {})[key] = enrolled.learner

    def take(self, batch: Batch) -> None:
        """Keep one hand-in, but nothing of a learner who was deleted on request."""
        batch = self._changes.carried(batch)
        sender = sender_of(batch.note, self._enrolled, self.entries)
        self._keep_note(batch.note, sender)
        self._tell(batch.note, *batch.problems)
        self._keep_foreign(batch, sender)
        kept = {key: lines for key, lines in batch.lines.items() if key in sender.counting}
        self._cards |= {c: words for c, words in batch.cards.items() if c[0] in kept and c[0] not in self._deleted}
        for key, lines in kept.items():
            if key in self._deleted:
                self.erased.remove(
                    batch.note,
                    f"{batch.note.name}: holds lines of {batch.ids[key]}, who was deleted on request on "
                    f"{self._deleted[key].date}. They were left out; remove that file.",
                )
                continue
            self._store.put(key, lines)
            self._ids.setdefault(key, batch.ids[key])
        for word, learner in batch.pairs:
            known = self._classes if learner in kept else self._not_counting
            known.setdefault(word, {}).setdefault(learner, batch.ids[learner])

    def is_erased(self, note: HandInNote) -> bool:
        """Whether somebody deleted on request has a part in a hand-in, so that no file may name it."""
        return is_of(note, self._deleted)

    @property
    def learners(self) -> Set[str]:
        """Case-folded ids of roster and hand-ins."""
        return self._ids.keys()

    @property
    def class_words(self) -> Set[str]:
        """Case-folded words of the classes whose learners are compared."""
        return self._classes.keys()

    def leave_out_register(self, why: str) -> None:
        """Use nothing more of the register but its deletions, and say why."""
        self.entries = list(self._deleted.values())
        self.problems.append(why)

    def _keep_note(self, note: HandInNote, sender: Sender) -> None:
        """Keep what is known of a hand-in; of its lines only those that count."""
        counts = tuple(c for c in note.counts if c[0] in sender.counting)
        self._notes.append(msgspec.structs.replace(note, counts=counts, sender=sender.learner))
        self._arrived.keep(note, self._enrolled, held=bool(sender.held))
        if sender.assigned:
            self._assigned.add(note.name)
        if sender.held:
            self._tell(note, printable(sender.held))

    def _tell(self, note: HandInNote, *lines: str) -> None:
        """Keep what is wrong with a hand-in, for files too unless somebody deleted on request has a part in it."""
        if self.is_erased(note):
            self.erased.tell(note, *lines)
        else:
            self.problems += lines

    @property
    def unread(self) -> int:
        """How many lines there are about what is held or could not be read; what is to be removed is not one of them."""
        return len(self.problems) + self.erased.beside

    def _keep_foreign(self, batch: Batch, sender: Sender) -> None:
        """Flag lines of others, and remember that they were handed in, so that nobody's chain looks cut by them."""
        others = [key for key in batch.lines if key not in sender.counting]
        if others or len(batch.lines) > 1:
            self._elsewhere.update(*(lines.hashes() for lines in batch.lines.values()))
        if sender.learner:
            counts = {batch.ids[k]: len(batch.lines[k].hashes()) for k in others}
            self._foreign += foreign(batch.note, sender.learner, counts, self._deleted)

    def results(self) -> Iterator[Result]:
        """Yield each learner of roster and hand-ins; `loose_flags` is complete once this is used up."""
        yield from self.each(lambda work, learners: (work.result_of(learner) for learner in learners))

    def each(self, make: "Callable[[ClassWork, Sequence[Learner]], Iterator[T]]") -> Iterator[T]:
        """Yield what `make` makes of each learner, in the order of the names; `loose_flags` is complete after the last."""
        names = {key: public_name(learner) for key, learner in self._ids.items()}
        by_name = self._flags_by_name(names)
        keep_deleted(self._classes, self._deleted)
        compared = by_word(self._roster or {}, self._classes, self._not_counting)
        self._classmates = Classmates(compared, self.cars, self._deleted)
        self._stamped = history.stamped_counts(self._notes)
        order = sorted(names, key=lambda k: (key_of(names[k]), k))
        yield from make(self, [Learner(k, names[k], tuple(by_name.pop(names[k], ()))) for k in order])
        self.loose_flags = [f for left in by_name.values() for f in left]
        named = self.named_notes()
        entries = [e for e in self.entries if key_of(e.learner) not in self._deleted]
        self.problems += map(printable, astray(named, self._assigned, entries))
        self.loose_flags += sitting_flags.empty_rooms(self.entries, self._sitting_words)

    def named_notes(self) -> list[HandInNote]:
        """Return what is known of each hand-in in which nobody deleted on request has a part."""
        return [note for note in self._notes if not self.is_erased(note)]

    def __getstate__(self) -> dict[str, object]:
        """Go to another process without the lines: those of its learners are sent with them."""
        return {**self.__dict__, "_store": None, "problems": [], "_sitting_words": set()}

    def with_lines(self, store: LineStore) -> "ClassWork":
        """Return a copy that has found nothing yet and works with these lines."""
        copy = object.__new__(ClassWork)
        copy.__dict__.update(self.__getstate__(), _store=store)
        return copy

    @property
    def found(self) -> "Noticed":
        """What working out results brought up beside them."""
        return Noticed(tuple(self.problems), frozenset(self._sitting_words))

    def keep(self, found: "Noticed") -> None:
        """Keep what another process found while it worked out results."""
        self.problems += found.problems
        self._sitting_words |= found.sitting_words

    def lines_of(self, name: str) -> list[MarkedLine]:
        """Return the lines of the learner with this public name that count."""
        return [line for key, id in self._ids.items() if public_name(id) == name for line in self._store.get(key)]

    def lines_by_key(self, key: str) -> list[MarkedLine]:
        """Return the lines of the learner with this case-folded id that count."""
        return self._store.get(key)

    def _flags_by_name(self, names: dict[str, str]) -> dict[str, list[Flag]]:
        found: dict[str, list[Flag]] = {}
        for flag in (*broken_chains(self._notes), *handed_in_twice(self._notes, names, self._deleted), *self._foreign):
            if flag.learner.casefold() in self.gone:
                continue
            found.setdefault(flag.learner, []).append(flag)
        return found

    def lines_kept(self, learners: Sequence[Learner]) -> dict[str, list[bytes]]:
        """Return the encoded lines of these learners by case-folded id, to be worked with in another process."""
        return {learner.key: self._store.encoded(learner.key) for learner in learners}

    def result_of(self, learner: Learner) -> Result:
        """Return the result of one learner, and remember what was found on the way."""
        key, name, given = learner.key, learner.name, learner.given
        lines, own_class = self._changes.counting_and_own(key, self._store.get(key))
        enrolled = (self._roster or {}).get(key)
        class_word = _class_word(own_class or lines, enrolled)
        entries = tuple(self._changes.about(self._ids[key]))
        rules, cars = self._rules_and_cars(enrolled)
        practice, works = practice_of(lines), works_of(name, self._ids[key], lines, class_word, self.entries)
        times = clocks.read_times([line.record.at for line in lines])
        self._sitting_words |= {key_of(w.word) for w in works}
        self.problems += [*unknown_exercises(name, lines), *lost_overrides(entries), *hidden_changed(name, lines)]
        found = flags_of(
            AboutLearner(
                key=key,
                name=name,
                learner=self._ids[key],
                enrolled=enrolled,
                class_word=class_word,
                lines=lines,
                own_class=own_class,
                practice=practice,
                works=works,
                times=times,
                given=given,
                entries=entries,
                rules=rules,
                cars=cars,
            ),
            AboutClass(self._roster, self._roster_words, self._classmates, self._elsewhere, self._stamped),
            self.problems.append,
        )
        own = with_register(rows_of(name, practice, class_word), [e for e in entries if not e.word], name)
        counting = counting_rows(works, rules)
        first_at, last_at = clocks.first_and_last(times)
        declarations = declarations_of(entries, works, counting)
        return Result(
            name=name,
            class_word=class_word,
            rows=with_flags(own, found),
            sittings=tuple(works),
            sitting_rows=with_flags(counting, found),
            declared=all(said.entry for said in declarations),
            declarations=declarations,
            flags=tuple(folded(found)),
            changed=shown_changed(lines),
            recalled=recalled_of(lines),
            nothing="" if lines else self._arrived.words(key),
            first_at=first_at,
            last_at=last_at,
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


def _class_word(lines: list[MarkedLine], enrolled: Enrolled | None) -> str:
    if enrolled and enrolled.class_word:
        return enrolled.class_word
    words = Counter(line.record.class_word for line in lines)
    return min(words.items(), key=lambda item: (-item[1], item[0]))[0] if words else ""
