"""An invented apprentice: decides right, named mistake or partial, writes logbook lines, keeps the truth.

The truth is kept from what was decided, never worked out by marking: marking can be checked against it.
"""

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

from msgspec import Struct

from bitepoint.bank import Exercise
from bitepoint.logbook.asked import REHEARSED, asked_fields
from bitepoint.logbook.record import OWN_WORDS, RECALL, RECALL_BOOK, RECALLED
from bitepoint.marking.line_marking import reading_seconds
from bitepoint.marking.rehearsal.deciding import wrong_answer
from bitepoint.marking.version import VERSION
from bitepoint.questions.draw import STANDARD
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.partly_wrong import Decided
from bitepoint.questions.question import Question

FIRST_DAY = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)
_TURNS = 3
_WRITING = timedelta(seconds=40)


class Truth(Struct, frozen=True):
    """What an apprentice really did in one exercise."""

    exercise: str
    first_score: float
    last_score: float


class Habit(Struct, frozen=True, kw_only=True):
    """How an apprentice works. `copies` is the learner whose figures are copied, "" for nobody."""

    ability: float
    two_devices: bool = False
    hasty: bool = False
    stops_early: bool = False
    typed_ahead: bool = False
    copies: str = ""


class Apprentice:
    """One learner of the invented class; `written` holds (lesson or recall's book, device, fields) in the order of time, `scores` that of each."""

    def __init__(
        self, class_word: str, learner: str, habit: Habit, rng: Random, *, vehicle: str, cars: Sequence[str] = STANDARD
    ) -> None:
        self.class_word, self.learner, self.habit, self._rng = class_word, learner, habit, rng
        self.vehicle, self.cars = vehicle, tuple(cars)
        self.copied_vehicle: str | None = None
        self.written: list[tuple[str, str, dict[str, Any]]] = []
        self.scores: list[float] = []
        self.truths: list[Truth] = []
        self.devices = [f"{rng.getrandbits(32):08x}" for _ in range(2)]
        self._now = FIRST_DAY

    def work(self, lessons: Sequence[Sequence[Exercise]], hardness: dict[str, float]) -> None:
        """Work through the lessons, one a week."""
        for week, exercises in enumerate(lessons):
            self._now = FIRST_DAY + timedelta(days=7 * week, seconds=self._rng.randrange(3600))
            device = self.devices[self.habit.two_devices and self._rng.random() < 0.5]
            for place, exercise in enumerate(exercises):
                if self._leaves_out(place, len(exercises)):
                    continue
                if self.habit.two_devices and self._rng.random() < 0.15:
                    device = self.devices[device == self.devices[0]]
                self._answer(exercise, device, hardness[exercise.id])

    def sit(
        self, exercises: Sequence[Exercise], hardness: dict[str, float], *, word: str, begin: datetime, device: str
    ) -> None:
        """Answer exercises in a sitting: once each, now and then changing one's mind."""
        self._now = begin
        for exercise in exercises:
            question = exercise.draw(
                class_word=self.class_word, learner=self.learner, sitting=word, vehicle=self.vehicle, cars=self.cars
            )
            opened = self._now
            copied = self._copied(exercise, question, 1, word)
            for _ in range(1 + (copied is None and self._rng.random() < 0.1)):
                decided = copied or self._decide(question, self.habit.ability - hardness[exercise.id])
                self._pass_time(question)
                self._write(exercise, question, 1, device, opened, decided, word)

    def recall(
        self, exercise: Exercise, question: Question, turn: int, *, right: bool, at: datetime, device: str, words: str
    ) -> float:
        """Answer one question in recall, with a reason in own words behind it where there is one; return the score."""
        self._now = at
        decided = Decided(question.right_answer(), 1.0) if right else wrong_answer(question, self._rng)
        self._pass_time(question)
        self._write(exercise, question, turn, device, at, decided, RECALL)
        if words and decided.score == 1:
            self._now += _WRITING
            fields = {**self.written[-1][2], "how": OWN_WORDS, "answer": words, "at": stamp(self._now)}
            self.written.append(
                (RECALL_BOOK, device, {k: v for k, v in fields.items() if k not in ("score", "mistake")})
            )
            self.scores.append(decided.score)
        return decided.score

    @property
    def now(self) -> datetime:
        """When the last answer was given."""
        return self._now

    def _leaves_out(self, place: int, count: int) -> bool:
        return self._rng.random() < 0.04 or (self.habit.stops_early and place > count / 2)

    def _answer(self, exercise: Exercise, device: str, hardness: float) -> None:
        """Answer one exercise: up to three turns, each until it is right or its solution is shown."""
        scores: list[float] = []
        for turn in range(1, _TURNS + 1):
            question = exercise.draw(
                class_word=self.class_word, learner=self.learner, turn=turn, vehicle=self.vehicle, cars=self.cars
            )
            opened = self._now
            for trial in range(question.tries_allowed):
                chance = self.habit.ability - hardness + 0.2 * trial + 0.15 * (turn - 1)
                copied = self._copied(exercise, question, turn) if trial == 0 else None
                decided = copied or self._decide(question, chance)
                self._pass_time(question)
                self._write(exercise, question, turn, device, opened, decided)
                scores.append(decided.score)
                if decided.score == 1:
                    break
            if scores[-1] == 1 or self._rng.random() < 0.3:
                break
        last = 1.0 if 1.0 in scores else scores[-1]
        self.truths.append(Truth(exercise.id, scores[0], last))

    def _decide(self, question: Question, chance: float) -> Decided:
        if self._rng.random() < max(0.05, min(0.97, chance)):
            return Decided(question.right_answer(), 1.0)
        return wrong_answer(question, self._rng)

    def _copied(self, exercise: Exercise, question: Question, turn: int, sitting: str = "") -> Decided | None:
        """Return the right figure of the learner copied from, where it is plainly wrong and no known mistake."""
        mine = kind_of(question).figure(question)
        if not self.habit.copies or mine is None:
            return None
        drawn = exercise.draw(
            class_word=self.class_word,
            learner=self.habit.copies,
            turn=turn,
            sitting=sitting,
            vehicle=self.copied_vehicle,
            cars=self.cars,
        )
        other = kind_of(drawn).figure(drawn)
        if other is None or other.unit != mine.unit:
            return None
        figures = [mine.answer, *(m.value for m in mine.mistakes)]
        if any(abs(other.answer - figure) < 4 * mine.within.width(figure) for figure in figures):
            return None
        return Decided(other.right_answer(), 0.0)

    def _pass_time(self, question: Question) -> None:
        if self.habit.typed_ahead:
            self._now += timedelta(milliseconds=200)
            return
        reading = reading_seconds(question)
        share = 0.1 if self.habit.hasty else 0.9 + 2 * self._rng.random()
        self._now += timedelta(seconds=round(reading * share + (0 if self.habit.hasty else 6), 3))

    def _write(
        self,
        exercise: Exercise,
        question: Question,
        turn: int,
        device: str,
        opened: datetime,
        decided: Decided,
        sitting: str = "",
    ) -> None:
        if sitting == RECALL:
            how = RECALLED
        else:
            how = "typed" if self._rng.random() < 0.15 or self.habit.typed_ahead else kind_of(question).how
        fields = {
            "at": stamp(self._now),
            "learner": self.learner,
            "class": self.class_word,
            "device": device,
            **asked_fields(question, turn, self.cars),
            **REHEARSED,
            "how": how,
            "answer": decided.answer,
            "opened": stamp(opened),
            "solution_shown": False,
            "tool": f"bitepoint {VERSION} (rehearsed)",
        }
        fields |= {"sitting": sitting} if sitting else {}
        # In a sitting nobody is told right or wrong, and the line does not say it either.
        if sitting in ("", RECALL):
            fields |= {"score": decided.score, "mistake": decided.mistake}
        self.scores.append(decided.score)
        self.written.append((RECALL_BOOK if sitting == RECALL else exercise.lesson, device, fields))

    def files(self) -> Iterator[tuple[str, list[dict[str, Any]]]]:
        """Yield (`<book>.<device>`, its fields line by line)."""
        found: dict[str, list[dict[str, Any]]] = {}
        for lesson, device, fields in self.written:
            found.setdefault(f"{lesson}.{device}", []).append(fields)
        yield from found.items()


def stamp(when: datetime) -> str:
    """Return a time as a line holds it."""
    return when.isoformat(timespec="milliseconds").replace("+00:00", "Z")
