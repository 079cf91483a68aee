"""Learners who came from another class: what they answered there goes on counting, as the register says."""

from collections.abc import Sequence

import msgspec
from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.batch import Batch
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.registry.register import Entry, about


class ClassChange(Struct, frozen=True, kw_only=True):
    """One change: to which id, from which class word and id, and the last day on which answers there count."""

    learner: str
    word: str
    earlier: str
    last_day: str


class ClassChanges:
    """The changes of class in a register: adjustments that name an earlier class; the newest about a learner counts."""

    def __init__(self, entries: Sequence[Entry]) -> None:
        self._entries = entries
        self._by_learner = {key_of(e.learner): _change(e) for e in entries if e.earlier_class}
        self._by_earlier = {(key_of(c.word), key_of(c.earlier)): c for c in self._by_learner.values()}

    def carried(self, batch: Batch) -> Batch:
        """Return a hand-in of the earlier class as one of the id that its learner has now."""
        moved = {key: self._by_earlier[word, key] for word, key in batch.pairs if (word, key) in self._by_earlier}
        moved = {key: change for key, change in moved.items() if key_of(change.learner) not in (key, *batch.lines)}
        if not moved:
            return batch
        to = {key: change.learner for key, change in moved.items()}
        note = batch.note
        return msgspec.structs.replace(
            batch,
            note=msgspec.structs.replace(
                note,
                hint=to.get(key_of(note.hint), note.hint),
                learners=tuple(to.get(key_of(who), who) for who in note.learners),
                counts=tuple((key_of(to.get(key, key)), *rest) for key, *rest in note.counts),
            ),
            lines={key_of(to.get(key, key)): lines for key, lines in batch.lines.items()},
            ids={key_of(to.get(key, key)): to.get(key, id) for key, id in batch.ids.items()},
            # Under the earlier word the figures are those of the earlier id, not of the one that the learner has now.
            pairs=tuple(pair for pair in batch.pairs if pair[1] not in to),
            cards={(key_of(to.get(key, key)), exercise): words for (key, exercise), words in batch.cards.items()},
        )

    def about(self, learner: str) -> list[Entry]:
        """Return the entries about a learner, those of the earlier class until the day of the change among them."""
        found = list(about(self._entries, learner))
        change = self._by_learner.get(key_of(learner))
        if change and key_of(change.earlier) != key_of(learner):
            found += [e for e in about(self._entries, change.earlier) if e.date <= change.last_day]
        return sorted(found, key=lambda e: (e.at, e.device, e.n))

    def counting(self, learner: str, lines: Sequence[MarkedLine]) -> list[MarkedLine]:
        """Return the lines that may count: all but those of the earlier class after the change."""
        change = self._by_learner.get(key_of(learner))
        if change is None:
            return list(lines)
        return [line for line in lines if not _of_earlier(change, line) or _in_time(change, line)]

    def own(self, learner: str, lines: Sequence[MarkedLine]) -> list[MarkedLine]:
        """Return the lines that must have this class's word and car: all but those carried over."""
        change = self._by_learner.get(key_of(learner))
        if change is None:
            return list(lines)
        return [line for line in lines if not (_of_earlier(change, line) and _in_time(change, line))]


def _of_earlier(change: ClassChange, line: MarkedLine) -> bool:
    said = (key_of(line.record.class_word), key_of(line.record.learner))
    return said == (key_of(change.word), key_of(change.earlier))


def _in_time(change: ClassChange, line: MarkedLine) -> bool:
    return line.record.at[:10] <= change.last_day


def _change(entry: Entry) -> ClassChange:
    return ClassChange(
        learner=entry.learner, word=entry.earlier_class, earlier=entry.earlier or entry.learner, last_day=entry.date
    )
