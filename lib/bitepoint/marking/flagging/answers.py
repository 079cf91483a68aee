"""Flags about one learner's lines: what a person should look at, each with its evidence."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence

from bitepoint.bank.corrections import correction_since, dangerously_corrected
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.result import Flag
from bitepoint.marking.roster import Enrolled, Roster, key_of
from bitepoint.marking.rows import seconds_open
from bitepoint.printable import printable
from bitepoint.questions.draw import own_letter

CHAIN = "chain broken"
UNKNOWN = "unknown learner"
CLASS_WORD = "wrong class word"
CHANGED = "question changed"
DANGEROUS = "answered a question since corrected as dangerous"
OTHER_CAR = "another car than the learner's"
FAST = "form answers faster than reading"
TWICE = "same hand-in twice"

FAST_SHARE = 1 / 3
FAST_COUNT = 5
_SHOWN = 5


def quoted(text: object) -> str:
    """Return the first 40 characters of a learner's text in quotation marks, what cannot be printed written out."""
    return f"“{printable(str(text)[:40])}”"


def unknown_learner(name: str, ids: Iterable[str], enrolled: Enrolled | None, roster: Roster | None) -> Iterator[Flag]:
    """Flag someone who is not in the roster."""
    if roster is not None and enrolled is None:
        shown = ", ".join(sorted({quoted(i) for i in ids}))
        yield Flag(kind=UNKNOWN, learner=name, evidence=f"The lines are of {shown}, who is not in the roster.")


def wrong_class_word(
    name: str, lines: Sequence[MarkedLine], class_word: str, roster_words: Collection[str]
) -> Iterator[Flag]:
    """Flag lines under another class word than the learner's, or under one that the roster does not have.

    `roster_words` holds the case-folded class words of the roster, none when it has no such column.
    """
    counts = Counter(line.record.class_word for line in lines)
    for word, count in sorted(counts.items()):
        many = "1 line" if count == 1 else f"{count} lines"
        if key_of(word) != key_of(class_word):
            evidence = (
                f"{many} under class word {quoted(word)}; the class word of this learner is {quoted(class_word)}."
            )
        elif roster_words and key_of(word) not in roster_words:
            evidence = f"{many} under class word {quoted(word)}, which is not in the roster."
        elif not _usable(word):
            evidence = f"{many} under {quoted(word)}, which cannot be a class word."
        else:
            continue
        yield Flag(kind=CLASS_WORD, learner=name, evidence=evidence)


def _usable(word: str) -> bool:
    try:
        return bool(checked_name(word, "The class word"))
    except BadInput:
        return False


def other_car(name: str, lines: Sequence[MarkedLine], recorded: str, cars: ClassCars) -> Iterator[Flag]:
    """Flag lines drawn for another car than the one recorded for this learner, or than the rule gives."""
    counts: Counter[tuple[str, str]] = Counter()
    asked = Counter([(line.record.class_word, line.record.learner, line.record.vehicle) for line in lines])
    for (word, learner, letter), count in asked.items():
        # The rule goes by the class word, and who changed class has lines under two.
        by_rule = own_letter(word, learner)
        counts[letter or by_rule, recorded or by_rule] += count
    for (letter, own), count in sorted(counts.items()):
        if letter == own:
            continue
        many = "1 line" if count == 1 else f"{count} lines"
        evidence = f"{many} with car {quoted(letter)}; the car of this learner is {own}."
        if letter not in cars.letters:
            evidence += f" The class has {', '.join(cars.letters)}."
        yield Flag(kind=OTHER_CAR, learner=name, evidence=evidence)
    yield from _other_list(name, lines, cars)


def _other_list(name: str, lines: Sequence[MarkedLine], cars: ClassCars) -> Iterator[Flag]:
    """Flag questions drawn among other cars than the class's; a list that has become longer since moves nobody."""
    counts: Counter[tuple[str, ...]] = Counter()
    named = {line.record.cars: line.record for line in lines}
    for cars_named, count in Counter([line.record.cars for line in lines]).items():
        counts[named[cars_named].class_cars] += count
    for letters, count in sorted(counts.items()):
        if letters != cars.letters[: len(letters)]:
            many = "1 line" if count == 1 else f"{count} lines"
            shown = quoted(" ".join(letters))
            evidence = f"{many} drawn among the cars {shown}; the class has {', '.join(cars.letters)}."
            yield Flag(kind=OTHER_CAR, learner=name, evidence=evidence)


def dangerous_question(name: str, lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag answers to a question that was corrected since because doing as it said could hurt someone."""
    seen: set[str] = set()
    suspects = dangerously_corrected()
    asked = [line.record for line in lines if line.record.exercise in suspects] if suspects else []
    for exercise, revision in dict.fromkeys([(record.exercise, record.revision) for record in asked]):
        found = correction_since(exercise, revision)
        if found is None or not found.dangerous or exercise in seen:
            continue
        seen.add(exercise)
        corrected = any(x.record.exercise == exercise and x.record.revision >= found.revision for x in lines)
        evidence = (
            f"Answered revision {revision}, corrected on {found.date.isoformat()} because doing as it said could "
            f"hurt someone: {found.what} The corrected question was {'' if corrected else 'not '}answered since."
        )
        yield Flag(kind=DANGEROUS, learner=name, exercise=exercise, evidence=evidence)


def fast_answers(name: str, lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag five or more form answers that came faster than a third of the time that reading takes."""
    fast = []
    for line in lines:
        taken = seconds_open(line.record) if line.record.how == "form" else None
        if taken is not None and taken < line.reading_s * FAST_SHARE:
            fast.append((line.record.exercise, taken, line.reading_s))
    if len(fast) >= FAST_COUNT:
        few = "; ".join(f"{x}: {taken:.0f} s, reading takes {reading:.0f} s" for x, taken, reading in fast[:_SHOWN])
        evidence = f"{len(fast)} form answers came faster than a third of the reading time, such as {few}."
        yield Flag(kind=FAST, learner=name, evidence=evidence)
