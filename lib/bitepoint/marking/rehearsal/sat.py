"""The supervised sitting of a rehearsed class: what each learner answered in it, and the cases planted there."""

from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from random import Random
from typing import Any

from bitepoint.bank import Exercise
from bitepoint.marking.flagging import history
from bitepoint.marking.flagging import sittings as sitting_flags
from bitepoint.marking.flagging.answers import CHAIN
from bitepoint.marking.passing import TO_CONFIRM
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal import planted as cases
from bitepoint.marking.rehearsal.apprentice import Apprentice, Habit, stamp
from bitepoint.marking.rehearsal.forms import as_notebooks, chained, zip_file
from bitepoint.marking.rehearsal.planted import PlantedCase
from bitepoint.marking.senders import FOREIGN

WORD, SECOND = "red-kite", "grey-heron"
ROOM, BY = "12", "A. Assessor"
FEWEST = 24
"""Learners that a class with a planted sitting needs."""
_SAT, _SAT_AGAIN = "20260801-120000", "20260808-120000"
_LENGTH = timedelta(hours=2)
_WEEK = timedelta(days=7)
_TEN_YEARS = timedelta(days=3653)

CASES = (
    PlantedCase(1, "clock set back by ten minutes within the sitting", history.CLOCK),
    PlantedCase(3, "extra time, entered as a window of their own", ""),
    PlantedCase(4, "all of the sitting answered at home in the evening", TO_CONFIRM),
    PlantedCase(5, "sat once more than the class allows", sitting_flags.RETAKE),
    PlantedCase(11, "answers in the name of L16 in the hand-in of the sitting", FOREIGN),
    PlantedCase(12, "handed in a notebook alone, wrong answers cut out", CHAIN),
    PlantedCase(13, "declared for a sitting without an answer in it", sitting_flags.CLAIM),
    PlantedCase(16, "answers in this name in a hand-in of L11", FOREIGN),
    PlantedCase(19, "went on at home with the sitting's word", sitting_flags.OUTSIDE),
    PlantedCase(20, "right and wrong was shown in the sitting", sitting_flags.SCORED),
    PlantedCase(21, "lines cut out of the logbook of the sitting", CHAIN),
    PlantedCase(22, "clock slow by an hour in the sitting", TO_CONFIRM),
    PlantedCase(23, "clock slow by a day in the sitting", TO_CONFIRM),
    PlantedCase(24, "clock slow by ten years in the sitting", TO_CONFIRM),
)
ABSENT = (cases.NOTHING_OWN, cases.NOT_ENROLLED)
CLOCKS = {22: timedelta(hours=1), 23: timedelta(days=1), 24: _TEN_YEARS}
_LATER, _EVENING, _EXTRA, _NOTEBOOK, _CUT = 19, 4, 3, 12, 21
_RETAKES, _NEIGHBOUR, _VICTIM, _SCORED, _SET_BACK = 5, 11, 16, 20, 1

Answer = tuple[dict[str, Any], float]
"""Fields of a line, and the score that the answer is worth."""


class Sitting:
    """One sitting of an invented class; `truths` holds what counts, by learner and exercise, `codes` what was noted."""

    def __init__(self, people: Sequence[Apprentice], lesson: Sequence[Exercise], seed: int, *, after: date) -> None:
        self._people, self._lesson, self._seed = people, lesson, seed
        self.begins = datetime.combine(after + timedelta(days=1), time(7), UTC)
        self.ends = self.begins + _LENGTH
        self.truths: dict[tuple[str, str], float] = {}
        self.codes: list[list[str]] = []

    def hand_in(self, folder: Path, hardness: dict[str, float]) -> None:
        """Let everybody sit and hand in."""
        for number, person in enumerate(self._people, start=1):
            if number in ABSENT:
                continue
            given = self._changed(number, self._sits(number, person, hardness))
            kept, handed_in = self._handed_in(number, given)
            self._note(person.learner, kept)
            lines = chained([fields for fields, _ in handed_in])
            if number in (_NOTEBOOK, _CUT):
                lines = [lines[handed_in.index(answer)] for answer in kept]
            self._write(folder, number, person, lines, hardness)
            if number != _NOTEBOOK:
                noted = cases.noted_codes(person.learner, {self._file(person): lines[: len(kept)]})
                # An instructor writes down the day of the room, not that of a laptop.
                self.codes += [[*row[:3], stamp(self.ends)] for row in noted]

    def _sits(
        self, number: int, person: Apprentice, hardness: dict[str, float], word: str = WORD, *, who: str = ""
    ) -> list[Answer]:
        """Return what somebody answers with a sitting word, begun some minutes into the sitting."""
        rng = Random(f"bitepoint/{self._seed}/{number}/{word}/{who}")
        class_word = self._people[0].class_word
        habit = Habit(ability=person.habit.ability, copies=person.habit.copies)
        sitter = Apprentice(class_word, who or person.learner, habit, rng, vehicle=person.vehicle, cars=person.cars)
        sitter.copied_vehicle = person.copied_vehicle
        begin = self.begins + timedelta(seconds=rng.randrange(300, 900)) + self._begins_later(number)
        begin += _WEEK if word == SECOND else timedelta()
        sitter.sit(self._lesson, hardness, word=word, begin=begin, device=self._device(person, who))
        return [(fields, score) for (_, _, fields), score in zip(sitter.written, sitter.scores, strict=True)]

    def _device(self, person: Apprentice, who: str) -> str:
        return f"{int(person.devices[0], 16) ^ 0xFFFF:08x}" if who else person.devices[0]

    def _begins_later(self, number: int) -> timedelta:
        if number == _EXTRA:
            return _LENGTH - timedelta(minutes=17)
        return timedelta(minutes=20) if number == _SET_BACK else timedelta()

    def _changed(self, number: int, given: list[Answer]) -> list[Answer]:
        """Change the times or the form of what was answered, as clock, place or course would."""
        fields = [f for f, _ in given]
        if number in CLOCKS:
            cases.shift(fields, -CLOCKS[number])
        elif number == _EVENING:
            cases.shift(fields, timedelta(hours=10))
        elif number == _SET_BACK:
            cases.shift(fields[len(fields) // 2 :], -timedelta(minutes=10))
        elif number == _SCORED:
            return _told(given)
        return given

    def _handed_in(self, number: int, given: list[Answer]) -> tuple[list[Answer], list[Answer]]:
        """Return the answers that count and all that the chain has; cut out is never the last line, which shows nothing."""
        if number == _LATER:
            return given, [*given, *self._at_home(given)]
        middle = len(given) // 2
        if number == _CUT:
            return [*given[:middle], *given[middle + 2 :]], given
        if number == _NOTEBOOK:
            bad = [i for i, (_, score) in enumerate(given[:-1]) if score < 1] or [middle]
            return [answer for i, answer in enumerate(given) if i not in bad], given
        return given, given

    def _at_home(self, given: list[Answer]) -> Iterator[Answer]:
        """Yield right answers to what was wrong (or to the last one), given on the evening of the next day."""
        asked = {e.id: e for e in self._lesson}
        person = self._people[_LATER - 1]
        for fields, _ in [a for a in given if a[1] < 1] or given[-1:]:
            question = asked[fields["exercise"]].draw(
                class_word=person.class_word,
                learner=person.learner,
                sitting=WORD,
                vehicle=person.vehicle,
                cars=person.cars,
            )
            later = {**fields, "answer": question.right_answer()}
            cases.shift([later], timedelta(hours=34))
            yield later, 1.0

    def _note(self, learner: str, kept: Sequence[Answer]) -> None:
        self.truths |= {(learner, fields["exercise"]): score for fields, score in kept}

    def _file(self, person: Apprentice) -> str:
        return f"{self._lesson[0].lesson}.{person.devices[0]}"

    def _write(
        self, folder: Path, number: int, person: Apprentice, lines: list[str], hardness: dict[str, float]
    ) -> None:
        files = {self._file(person): lines}
        if number == _NOTEBOOK:
            as_notebooks(folder, person, files)
            return
        if number == _NEIGHBOUR:
            victim = self._people[_VICTIM - 1]
            theirs = self._sits(number, victim, hardness, who=victim.learner)
            files[f"{self._lesson[0].lesson}.{self._device(victim, victim.learner)}"] = chained([f for f, _ in theirs])
        zip_file(folder / f"{person.learner}-{_SAT}.zip", person, files)
        if number == _RETAKES:
            again = chained([f for f, _ in self._sits(number, person, hardness, SECOND)])
            zip_file(folder / f"{person.learner}-{_SAT_AGAIN}.zip", person, {self._file(person): again})

    def record(self, book: Register) -> None:
        """Enter the sitting, a window of one's own, the retake and the declarations."""
        for entry in self._entries():
            book.add(entry)

    def _entries(self) -> Iterator[Entry]:
        room = Entry(kind="sitting", word=WORD, by=BY, room=ROOM, lessons=(self._lesson[0].lesson,))
        yield self._window(room, self.begins, self.ends)
        extra, again = (self._people[n - 1].learner for n in (_EXTRA, _RETAKES))
        yield self._window(room, self.begins, self.ends + timedelta(hours=1), learner=extra)
        yield self._window(room, self.begins + _WEEK, self.ends + _WEEK, learner=again, word=SECOND)
        for number, person in enumerate(self._people, start=1):
            if number != cases.NOT_ENROLLED:
                who = person.learner
                yield Entry(kind="declaration", learner=who, by=who, word=WORD, date=self.begins.date().isoformat())

    def _window(self, room: Entry, begins: datetime, ends: datetime, *, learner: str = "", word: str = WORD) -> Entry:
        return Entry(
            kind=room.kind,
            word=word,
            by=room.by,
            room=room.room,
            lessons=room.lessons,
            learner=learner,
            begins=stamp(begins),
            ends=stamp(ends),
        )


def _told(given: Sequence[Answer]) -> list[Answer]:
    """Return the first answers with the score that was shown; who is told changes no mind."""
    first: dict[str, Answer] = {}
    for fields, score in given:
        first.setdefault(fields["exercise"], ({**fields, "score": score}, score))
    return list(first.values())
