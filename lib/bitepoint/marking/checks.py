"""Every check on what one learner handed in, in the order in which its flags stand."""

from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from typing import NamedTuple

import msgspec

from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.flagging import answers, clocks, history, neighbours, sittings
from bitepoint.marking.flagging.classmates import Classmates
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.reading.guard import unforeseen
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.result import Flag, SittingWork
from bitepoint.marking.roster import Enrolled, Roster
from bitepoint.marking.rules import ClassRules
from bitepoint.marking.sittings import without_recall
from bitepoint.printable import printable


class AboutClass(NamedTuple):
    """What the checks go by for everyone: roster and its words, who may have been copied from, what was handed in elsewhere."""

    roster: Roster | None
    roster_words: Set[str]
    classmates: Classmates
    elsewhere: Set[str]
    stamped: Mapping[str, Mapping[str, Sequence[history.StampedCount]]]


class AboutLearner(NamedTuple):
    """What the checks on one learner look at.

    `own_class` are the lines that must have the class's word and car, `practice` those of no sitting, `times` those of all
    lines; `given` are the flags that the hand-ins gave; `rules` and `cars` are the class's as they hold for this learner.
    """

    key: str
    name: str
    learner: str
    enrolled: Enrolled | None
    class_word: str
    lines: Sequence[MarkedLine]
    own_class: Sequence[MarkedLine]
    practice: Sequence[MarkedLine]
    works: Sequence[SittingWork]
    times: Sequence[clocks.TimeRead]
    given: Sequence[Flag]
    entries: Sequence[Entry]
    rules: ClassRules
    cars: ClassCars


def flags_of(who: AboutLearner, known: AboutClass, tell: Callable[[str], None]) -> list[Flag]:
    """Return what the checks found; one that an error gets in the way of is told, and the others are made."""
    found: list[Flag] = []
    for check in _checks(who, known):
        try:
            found += [msgspec.structs.replace(flag, evidence=printable(flag.evidence)) for flag in check]
        except Exception as error:
            tell(f"{who.name}: {unforeseen('one of the checks could not be made', error)}")
    return found


def _checks(who: AboutLearner, known: AboutClass) -> tuple[Iterator[Flag], ...]:
    name, lines, entries, works = who.name, who.lines, who.entries, who.works
    answered = without_recall(lines)
    return (
        answers.unknown_learner(name, [who.learner], who.enrolled, known.roster),
        answers.wrong_class_word(name, who.own_class, who.class_word, known.roster_words),
        iter(who.given),
        answers.other_car(name, who.own_class, who.cars.of(who.learner), who.cars),
        answers.dangerous_question(name, lines),
        neighbours.question_changed(name, lines, known.classmates),
        neighbours.other_figures(name, answered, known.classmates),
        answers.fast_answers(name, lines),
        history.noted_codes(name, lines, entries),
        history.two_histories(name, lines),
        iter(()) if any(f.kind == answers.CHAIN for f in who.given) else history.gaps(name, lines, known.elsewhere),
        history.fewer_lines(name, known.stamped.get(who.key, {})),
        history.clock_backwards(name, lines),
        clocks.unreadable(name, who.times),
        history.late(name, who.practice, who.rules.due),
        sittings.claims(name, entries, works, who.practice),
        sittings.appeals(name, entries, answered),
        clocks.beside(sittings.times(name, who.learner, works), lines),
        sittings.scores(name, answered),
        sittings.retakes(name, works, who.rules),
    )
