"""Flags about one learner's lines: what a person should look at, each with its evidence."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from math import exp, factorial

from bitepoint import units
from bitepoint.bank.corrections import correction_since
from bitepoint.errors import BadInput, NotUnderstood
from bitepoint.logbook.identity import checked_name
from bitepoint.logbook.record import Record
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.line_marking import MarkedLine, digest_for, drawn_for
from bitepoint.marking.result import Flag, seconds_open
from bitepoint.marking.roster import Enrolled, Roster, key_of, public_name
from bitepoint.printable import printable
from bitepoint.questions.draw import own_letter
from bitepoint.questions.kinds import interaction, kind_of

CHAIN = "chain broken"
UNKNOWN = "unknown learner"
CLASS_WORD = "wrong class word"
CHANGED = "question changed"
DANGEROUS = "answered a question since corrected as dangerous"
OTHER_CAR = "another car than the learner's"
OTHER_FIGURES = "fits another learner's figures"
FAST = "form answers faster than reading"
TWICE = "same hand-in twice"

FAST_SHARE = 1 / 3
FAST_COUNT = 5
COPIED = 3
CHANCE = 0.01
_MAX_CLASS = 500
MAX_COMPARED = 6_000
"""Questions drawn for others to find whose an answer was; counted, so that a learner's flags are the same everywhere."""
_SHOWN = 5

Classes = Mapping[str, Sequence[str]]
"""Learner ids by case-folded class word."""
SOMEBODY_DELETED = "a learner who was deleted on request"


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
    for line in lines:
        # The rule goes by the class word, and who changed class has lines under two.
        by_rule = own_letter(line.record.class_word, line.record.learner)
        counts[line.record.vehicle or by_rule, recorded or by_rule] += 1
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
    counts = Counter(line.record.class_cars for line in lines)
    for letters, count in sorted(counts.items()):
        if letters != cars.letters[: len(letters)]:
            many = "1 line" if count == 1 else f"{count} lines"
            shown = quoted(" ".join(letters))
            evidence = f"{many} drawn among the cars {shown}; the class has {', '.join(cars.letters)}."
            yield Flag(kind=OTHER_CAR, learner=name, evidence=evidence)


def dangerous_question(name: str, lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag answers to a question that was corrected since because doing as it said could hurt someone."""
    seen: set[str] = set()
    for line in lines:
        record = line.record
        found = correction_since(record.exercise, record.revision)
        if found is None or not found.dangerous or record.exercise in seen:
            continue
        seen.add(record.exercise)
        corrected = any(x.record.exercise == record.exercise and x.record.revision >= found.revision for x in lines)
        evidence = (
            f"Answered revision {record.revision}, corrected on {found.date.isoformat()} because doing as it said could "
            f"hurt someone: {found.what} The corrected question was {'' if corrected else 'not '}answered since."
        )
        yield Flag(kind=DANGEROUS, learner=name, exercise=record.exercise, evidence=evidence)


def named(learner: str, gone: Collection[str] = ()) -> str:
    """Return a learner's public name; of one who was deleted on request (case-folded ids) only that."""
    return SOMEBODY_DELETED if key_of(learner) in gone else public_name(learner)


def question_changed(
    name: str, lines: Sequence[MarkedLine], classes: Classes, cars: ClassCars = ORDINARY, gone: Collection[str] = ()
) -> Iterator[Flag]:
    """Flag answers to a question that the bank does not draw for this learner (any more); those of another first.

    The other one is named, but not who was deleted on request (`gone`, case-folded ids).
    """
    yield from sorted(_changed(name, lines, classes, cars, gone), key=lambda flag: _OWNED not in flag.evidence)


_OWNED = "The question asked is the one drawn for"


def _changed(
    name: str, lines: Sequence[MarkedLine], classes: Classes, cars: ClassCars, gone: Collection[str]
) -> Iterator[Flag]:
    seen: set[tuple[str, int, str]] = set()
    left = MAX_COMPARED
    for line in lines:
        record = line.record
        key = (record.exercise, record.turn, record.facts)
        if line.status != CHANGED or key in seen:
            continue
        seen.add(key)
        others = list(_others(record, classes)) if left > 0 else []
        left -= len(others)
        owner = next((named(o, gone) for o in others if digest_for(record, cars, learner=o) == record.facts), "")
        evidence = (
            f"Turn {record.turn}: the question asked was {quoted(record.facts[:16])} (revision {record.revision}), "
            f"the bank now draws {quoted(line.now) if line.now else 'nothing'}."
        )
        if owner:
            evidence += f" {_OWNED} {owner}."
        yield Flag(kind=CHANGED, learner=name, exercise=record.exercise, evidence=evidence)


def _others(record: Record, classes: Classes) -> Iterator[str]:
    for other in classes.get(key_of(record.class_word), ())[:_MAX_CLASS]:
        if key_of(other) != key_of(record.learner):
            yield other


def other_figures(
    name: str, lines: Sequence[MarkedLine], classes: Classes, cars: ClassCars = ORDINARY, gone: Collection[str] = ()
) -> Iterator[Flag]:
    """Flag numbers that are wrong here, match no known mistake, and are right for one and the same other.

    In a class some wrong figures are right for somebody by chance. So at least three must fit the same learner, and
    so many that chance would bring it about in fewer than one class in a hundred: each figure's chance is the share
    of the other learners whom it fits, and the number of pairs in the class is allowed for. Who was deleted on request
    (`gone`, case-folded ids) stays one of them, unnamed: else a copy would become honest by it.
    """
    unexplained = _unexplained(lines)
    compared = unexplained[: max(COPIED, MAX_COMPARED // max(1, _most_others(unexplained, classes)))]
    owners: dict[str, list[MarkedLine]] = {}
    fits: list[set[str]] = []
    others: set[str] = set()
    for line in compared:
        value, everyone = _typed(line.record.answer), list(_others(line.record, classes))
        others.update(everyone)
        fits.append({o for o in everyone if value and _is_right(line.record, o, value, cars)})
        for other in fits[-1]:
            owners.setdefault(other, []).append(line)
    limit = CHANCE / max(1, len(others) * (len(others) + 1))
    for other, fitting in sorted(owners.items(), key=lambda item: (-len(item[1]), item[0])):
        expected = sum((len(found - {other}) + 0.5) / len(others) for found in fits)
        if len(fitting) >= COPIED and _at_least(len(fitting), expected) < limit:
            yield _copied_flag(name, other, fitting, len(compared), expected, cars, gone)


def _most_others(lines: Sequence[MarkedLine], classes: Classes) -> int:
    words = {key_of(line.record.class_word) for line in lines}
    return max((min(_MAX_CLASS, len(classes.get(word, ()))) for word in words), default=0)


def _at_least(count: int, expected: float) -> float:
    """Return the chance of `count` or more where so many are expected (Poisson), small tails without cancellation."""
    term = exp(-expected) * expected**count / factorial(count)
    total, k = term, count
    while term > total * 1e-12:
        k += 1
        term *= expected / k
        total += term
    return total


def _unexplained(lines: Sequence[MarkedLine]) -> list[MarkedLine]:
    seen: dict[tuple[str, int, str], MarkedLine] = {}
    for line in lines:
        if interaction(line.kind) == "numeric" and line.verdict and not line.verdict.right and not line.verdict.mistake:
            seen.setdefault((line.record.exercise, line.record.turn, str(line.record.answer)), line)
    return list(seen.values())


def _copied_flag(
    name: str,
    other: str,
    fitting: Sequence[MarkedLine],
    unexplained: int,
    expected: float,
    cars: ClassCars,
    gone: Collection[str],
) -> Flag:
    owner = named(other, gone)
    whom = name if key_of(other) in gone else "both"
    sides = []
    for line in fitting[:_SHOWN]:
        mine, theirs = drawn_for(line.record, cars), drawn_for(line.record, cars, learner=other)
        if mine and theirs:
            where = f"{line.record.exercise}, turn {line.record.turn}"
            sides.append((f"{where}: answered by {name}", f"{line.record.answer} (right here: {mine.right_answer()})"))
            sides.append((f"{where}: right for {owner}", str(theirs.right_answer())))
    evidence = (
        f"{len(fitting)} of {unexplained} wrong figures that no known mistake explains are right for {owner}; "
        f"by chance about {expected:.1f} would be. Ask {whom} to work one through."
    )
    matched = "" if key_of(other) in gone else owner
    return Flag(kind=OTHER_FIGURES, learner=name, evidence=evidence, beside=tuple(sides), matched=matched)


def _typed(answer: object) -> units.Quantity | None:
    try:
        return units.quantity(answer)
    except NotUnderstood:
        return None


def _is_right(record: Record, other: str, typed: units.Quantity, cars: ClassCars) -> bool:
    question = drawn_for(record, cars, learner=other)
    figure = kind_of(question).figure(question) if question else None
    if figure is None:
        return False
    unit = figure.unit if typed.unit is None else typed.unit
    if units.dimension_of(unit) != units.dimension_of(figure.unit):
        return False
    value = units.convert(typed.value, unit, figure.unit)
    return abs(value - figure.answer) <= figure.within.width(figure.answer)


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
