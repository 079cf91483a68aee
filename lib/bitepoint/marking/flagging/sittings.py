"""Flags about sittings: claims that no answer bears out, times to confirm, scores that should not be there, retakes."""

from collections import Counter
from collections.abc import Iterator, Sequence

from bitepoint.logbook.identity import key_of
from bitepoint.marking.declarations import is_signed_later, misses
from bitepoint.marking.flagging.answers import quoted
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.passing import TO_CONFIRM
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.registry.windows import utc_time
from bitepoint.marking.result import Flag, SittingWork
from bitepoint.marking.retakes import too_many
from bitepoint.marking.rules import ClassRules

CLAIM = "claim with no matching line"
SCORED = "score in a sitting's answer"
OUTSIDE = "outside the sitting"
RETAKE = "more retakes than the class allows"
_ABOUT_ANSWERS = ("sitting", "override", "second mark", "resolution", "confirmation")


def claims(
    name: str, entries: Sequence[Entry], works: Sequence[SittingWork], practice: Sequence[MarkedLine] = ()
) -> Iterator[Flag]:
    """Flag entries in the register, about this learner, that no answer bears out; `practice` are lines of no sitting."""
    if not entries:
        return
    words = {key_of(w.word) for w in works}
    entered = {key_of(w.word) for w in works if w.begins}
    answered = {"": {line.record.exercise for line in practice}} | {
        key_of(w.word): {row.exercise for row in w.rows} for w in works
    }
    for entry in entries:
        why = ""
        if entry.kind == "sitting" and not entry.word:
            why = "it names no sitting word, so it supervises no answer"
        elif entry.kind == "adjustment" and entry.begins and key_of(entry.word) in words - entered:
            why = "the register has no sitting with that word, so it moves no time"
        elif _about_answers(entry) and entry.word and key_of(entry.word) not in words:
            why = f"no answer of this learner was drawn with the sitting word {quoted(entry.word)}"
        elif entry.kind == "declaration" and not (entry.signed == "no" and is_signed_later(entry, entries, works)):
            why = misses(entry, works)
        elif entry.kind in ("second mark", "resolution") and entry.exercise not in answered.get(key_of(entry.word), ()):
            why = f"this learner has no answer of {quoted(entry.exercise)} there, so it is compared with nothing"
        if why:
            evidence = f"Register, {entry.kind} of {entry.date} by {quoted(entry.by)}: {why}."
            yield Flag(kind=CLAIM, learner=name, evidence=evidence)


def appeals(name: str, entries: Sequence[Entry], lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag appeals about an exercise that the learner never answered, in the sitting that they name if they name one."""
    appealed = [entry for entry in entries if entry.kind == "appeal" and entry.exercise]
    answered = {(key_of(line.record.sitting), line.record.exercise) for line in lines} if appealed else set()
    for entry in appealed:
        words = {key_of(entry.word)} if entry.word else {word for word, _ in answered}
        if not any((w, entry.exercise) in answered for w in words):
            where = f"in sitting {quoted(entry.word)}" if entry.word else "in what was marked"
            evidence = (
                f"Register, appeal of {entry.date} entered by {quoted(entry.by)}: this learner has no answer of "
                f"{quoted(entry.exercise)} {where}, so no mark stands behind it."
            )
            yield Flag(kind=CLAIM, learner=name, evidence=evidence, exercise=entry.exercise)


def _about_answers(entry: Entry) -> bool:
    return entry.kind in _ABOUT_ANSWERS or entry.kind == "adjustment" and bool(entry.begins)


def empty_rooms(entries: Sequence[Entry], words: set[str]) -> Iterator[Flag]:
    """Flag sittings of a whole room, and confirmations, with not one answer; `words` are the sitting words of all answers.

    A confirmation of a word, or of a room, with which no sitting is recorded reaches nobody either.
    """
    rooms: dict[str, set[str]] = {}
    for entry in entries:
        if entry.kind == "sitting":
            rooms.setdefault(key_of(entry.word), set()).add(entry.room.casefold())
    for entry in entries:
        if entry.learner or entry.kind not in ("sitting", "confirmation"):
            continue
        why = ""
        if key_of(entry.word) not in words:
            why = "no hand-in has an answer of it"
        elif entry.kind == "confirmation" and key_of(entry.word) not in rooms:
            why = "no sitting with this word is recorded"
        elif entry.room and entry.room.casefold() not in rooms[key_of(entry.word)]:
            why = f"no sitting with this word is recorded in room {quoted(entry.room)}"
        if why:
            evidence = f"Register, {entry.kind} {quoted(entry.word)} of {entry.date} by {quoted(entry.by)}: {why}."
            yield Flag(kind=CLAIM, learner="", evidence=evidence)


def times(name: str, learner: str, works: Sequence[SittingWork]) -> Iterator[Flag]:
    """Flag answers whose time a person must confirm, and those that lie outside a sitting and were left out."""
    for work in works:
        command = (
            f"bitepoint register add confirmation --word {work.word[:32]} --learner {learner[:32]} --by … --text …"
        )
        if work.to_confirm:
            when = " to ".join(dict.fromkeys(map(_told, work.waiting)))
            room = (
                "the learner or (without --learner) the whole room"
                if work.room_says
                else "this learner (a room will not do)"
            )
            evidence = (
                f"Sitting {quoted(work.word)}: {_many(work.to_confirm)} outside its time by this laptop's clock ({when}). "
                f"If the clock was wrong, confirm {room}: {command}. If not, add --result “not in the sitting”."
            )
            yield Flag(kind=TO_CONFIRM, learner=name, evidence=evidence)
        if work.outside:
            evidence = (
                f"Sitting {quoted(work.word)}: {_many(work.outside)} outside its time or its lessons: left out. "
                f"If the time was right after all: {command}."
            )
            yield Flag(kind=OUTSIDE, learner=name, evidence=evidence)


def _told(at: str) -> str:
    """Return the time of a line to the minute, in UTC; as it stands there when it is no time."""
    found = utc_time(at)
    return f"{found:%Y-%m-%d %H:%M} UTC" if found else quoted(at)


def _many(count: int) -> str:
    return "1 answer lies" if count == 1 else f"{count} answers lie"


def scores(name: str, lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag answers of a sitting that hold a score: then the course told right and wrong before the hand-in."""
    words = Counter(x.record.sitting for x in lines if x.record.sitting and x.record.score is not None)
    for word, count in sorted(words.items()):
        many = "1 answer holds" if count == 1 else f"{count} answers hold"
        evidence = f"Sitting {quoted(word)}: {many} a score, so right and wrong was shown before the hand-in."
        yield Flag(kind=SCORED, learner=name, evidence=evidence)


def retakes(name: str, works: Sequence[SittingWork], rules: ClassRules) -> Iterator[Flag]:
    """Flag sittings beyond those that the class allows; they do not count."""
    for work in too_many(works, rules):
        evidence = f"Sitting {quoted(work.word)} does not count: class.toml has retakes = {rules.retakes}."
        yield Flag(kind=RETAKE, learner=name, evidence=evidence)
