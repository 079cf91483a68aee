"""Sources read and marked: a plain function from paths to bytes, so that it can run on any core."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256

import msgspec
from msgspec import Struct

from bitepoint.logbook.record import RECALL
from bitepoint.marking.audit import audit_lines
from bitepoint.marking.by_exercise import Marks, marked_by_exercise
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.collecting import seldom_collected
from bitepoint.marking.flagging.handins import HandInNote
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.line_store import MarkedLines
from bitepoint.marking.made_once import MadeOnce
from bitepoint.marking.reading.gather import HandIn
from bitepoint.marking.reading.guard import first_of, unforeseen
from bitepoint.marking.reading.handins import HandInSource, read_source
from bitepoint.marking.reading.notebooks import card_words
from bitepoint.marking.right_figures import Figures, figures_of
from bitepoint.marking.roster import key_of


class Batch(Struct, frozen=True, kw_only=True):
    """One hand-in after reading and marking.

    `figures` are the right figures of its questions, `lines` holds the marked lines by case-folded learner id, `ids` each id as written, `pairs` who has
    lines under which class word, `cards` the words of the learner's own card where the question has changed since.
    """

    note: HandInNote
    audit: bytes
    problems: tuple[str, ...]
    lines: dict[str, MarkedLines]
    ids: dict[str, str]
    pairs: tuple[tuple[str, str], ...]
    cards: dict[tuple[str, str], str] = {}
    figures: Figures = {}


def packed(batch: Batch) -> Batch:
    """Return a batch that holds its lines encoded."""
    lines = {learner: MarkedLines(encoded=found.encoded) for learner, found in batch.lines.items()}
    return msgspec.structs.replace(batch, lines=lines)


_LINES_TOGETHER, _BYTES_TOGETHER = 6_000, 4_000_000
"""Lines of hand-ins that are marked together, and bytes read of them: no more questions than are kept, and memory stays small."""


@seldom_collected()
def read_and_mark(source: HandInSource, cars: ClassCars = ORDINARY) -> list[Batch]:
    """Read one source and mark every line in it, as `read_and_mark_all` does."""
    return next(read_and_mark_all([source], cars))


def read_and_mark_all(sources: Sequence[HandInSource], cars: ClassCars = ORDINARY) -> Iterator[list[Batch]]:
    """Read sources and mark every line in them for a class with these cars; yield what each came to, in their order.

    Some are marked together, and given away before more are read. What goes wrong in a hand-in is one line about it. Of
    what is wrong in a source the first five are told, the rest is counted; marks.jsonl has them all.

    Raises
    ------
    OSError
        This computer's own disk is full.
    """
    found: dict[int, list[Batch]] = {}
    for together, ready in _together(sources):
        for number, batch in _batches(together, cars):
            found.setdefault(number, []).append(batch)
        # Gone before more is read.
        together.clear()
        for number in ready:
            yield _told(found.pop(number, []), sources[number])


def _batches(together: Sequence[tuple[int, HandIn]], cars: ClassCars) -> list[tuple[int, Batch]]:
    marks = marked_by_exercise([hand_in for _, hand_in in together], cars)
    return [(number, _guarded(hand_in, marks.popleft(), cars)) for number, hand_in in together]


def _together(sources: Sequence[HandInSource]) -> Iterator[tuple[list[tuple[int, HandIn]], range]]:
    """Yield the hand-ins to be marked together, each with the number of its source, and the numbers of those read to their end."""
    some: list[tuple[int, HandIn]] = []
    lines = size = given = 0
    for number, source in enumerate(sources):
        for hand_in in read_source(source):
            if lines >= _LINES_TOGETHER or size >= _BYTES_TOGETHER:
                yield some, range(given, number)
                some, lines, size, given = [], 0, 0, number
            some.append((number, hand_in))
            lines, size = lines + len(hand_in.lines), size + hand_in.size
        if lines >= _LINES_TOGETHER or size >= _BYTES_TOGETHER:
            yield some, range(given, number + 1)
            some, lines, size, given = [], 0, 0, number + 1
    yield some, range(given, len(sources))


def _told(batches: Sequence[Batch], source: HandInSource) -> list[Batch]:
    told = first_of([p for batch in batches for p in batch.problems], source.name)
    return [
        msgspec.structs.replace(batch, problems=() if number else tuple(told)) for number, batch in enumerate(batches)
    ]


def _guarded(hand_in: HandIn, marks: Marks, cars: ClassCars) -> Batch:
    """Return the batch; where an error that nobody foresaw gets in the way, it has no mark and a line that says so."""
    try:
        return _batch(hand_in, marks, cars)
    except Exception as error:
        said = f"{hand_in.name}: {unforeseen('cannot be marked', error)}"
        without = HandIn(name=hand_in.name, sha256=hand_in.sha256, problems=(*hand_in.problems, said))
        return _batch(without, Marks(), cars)


def _batch(hand_in: HandIn, marks: Marks, cars: ClassCars) -> Batch:
    marked = marks.lines
    hand_in = msgspec.structs.replace(hand_in, problems=(*hand_in.problems, *marks.problems))
    keys = MadeOnce(key_of)
    by_learner: dict[str, list[MarkedLine]] = {}
    for line in marked:
        by_learner.setdefault(keys[line.record.learner], []).append(line)
    ids = {key: lines[0].record.learner for key, lines in by_learner.items()}
    pairs = {(line.record.class_word, line.record.learner) for line in marked}
    return Batch(
        note=HandInNote(
            name=hand_in.name,
            sha256=hand_in.sha256,
            line_set=_line_set(marked),
            hint=hand_in.hint,
            learners=tuple(ids.values()),
            breaks=hand_in.breaks,
            counts=_counts(marked, keys),
        ),
        audit=audit_lines(hand_in, marked),
        problems=hand_in.problems,
        lines={key: MarkedLines(lines) for key, lines in by_learner.items()},
        ids=ids,
        pairs=tuple(sorted({(keys[word], keys[learner]) for word, learner in pairs})),
        cards=_changed_cards(hand_in, marked),
        figures=figures_of(marked, cars),
    )


def _changed_cards(hand_in: HandIn, marked: Sequence[MarkedLine]) -> dict[tuple[str, str], str]:
    changed = {(key_of(x.record.learner), x.record.exercise) for x in marked if x.status == "question changed"}
    return {key: card_words(hand_in.cards[key[1]]) for key in sorted(changed) if key[1] in hand_in.cards}


def _line_set(marked: Sequence[MarkedLine]) -> str:
    hashes = "\n".join(sorted(line.record.hash for line in marked))
    return sha256(hashes.encode("utf-8")).hexdigest() if marked else ""


def _chain_of(device: str, sitting: str) -> str:
    """Return the device as it is named in a flag; a sitting has a folder and so lines of its own."""
    if sitting == RECALL:
        return f"{device[:32]}, recall"
    return f"{device[:32]}, sitting {sitting[:32]}" if sitting else device[:32]


def _counts(marked: Sequence[MarkedLine], keys: Mapping[str, str]) -> tuple[tuple[str, str, int], ...]:
    found: Counter[tuple[str, str]] = Counter()
    for (learner, device, sitting), n in Counter(
        (x.record.learner, x.record.device, x.record.sitting) for x in marked
    ).items():
        found[keys[learner], _chain_of(device, sitting)] += n
    return tuple((learner, device, n) for (learner, device), n in sorted(found.items()))
