"""Figures that vary by learner and turn, the same on every machine and in every version of Python."""

import json
from collections.abc import Callable, Collection, Sequence
from functools import lru_cache
from hashlib import blake2b
from json.encoder import encode_basestring_ascii
from struct import Struct
from typing import TypeVar

from bitepoint.errors import NotCovered
from bitepoint.workshop.traits import has_all, lacking
from bitepoint.workshop.vehicles import Vehicle, vehicle

T = TypeVar("T")
_TRIES = 100
_ALL = 1 << 64
_NUMBER = Struct(">Q")
_MOST_COUNTED = 64
_COUNTED = tuple(map(_NUMBER.pack, range(_MOST_COUNTED)))
STANDARD = ("A", "B", "C", "D")
"""Letters of the training vehicles of a class that names none; the rule below shares them out among its learners."""


def _as_json(part: object) -> str:
    """Return what `json.dumps` of the whole list would write for one part; nearly all are texts and whole numbers."""
    if type(part) is str:
        return encode_basestring_ascii(part)
    return repr(part) if type(part) is int else json.dumps(part)


def _hashed(class_word: str, learner: str, first: object, *parts: object) -> bytes:
    return _hash_of(_as_json(class_word), _as_json(learner), first, *parts)


def _hash_of(class_word: str, learner: str, first: object, *parts: object) -> bytes:
    """Return the hash of who asks, given as JSON already, and what is asked."""
    text = ", ".join((class_word, _as_json(first), learner, *map(_as_json, parts)))
    return blake2b(f"[{text}]".encode("ascii"), digest_size=32).digest()


@lru_cache(maxsize=4096)
def _steps(low: float, high: float, step: float) -> tuple[int, int]:
    """Return how many steps lie between two figures, and the decimals that the first and the step have.

    An exercise asks for the same few again and again; what it works out for a car is another figure a car.
    """
    decimals = max(len(f"{figure:.10g}".partition(".")[2]) for figure in (low, step))
    return round((high - low) / step), decimals


@lru_cache(maxsize=4096)
def own_letter(class_word: str, learner: str) -> str:
    """Return the letter of a learner's car by the rule over the standard cars: where no class recorded one."""
    key = _hashed(class_word.casefold(), learner.casefold(), "", "vehicle")
    return STANDARD[int.from_bytes(key[:8], "big") % len(STANDARD)]


class Draw:
    """Chooses from integers of blake2b in counter mode, keyed by who asks and what is asked.

    `without` are the letters of cars whose sheets do not have a figure that the exercise needs.

    Never the `random` module: its sequences are not promised to stay the same.
    """

    def __init__(
        self,
        *,
        class_word: str,
        learner: str,
        exercise: str,
        turn: int,
        sitting: str = "",
        revision: int = 1,
        vehicle: str | None = None,
        cars: Sequence[str] = STANDARD,
        needs: Sequence[str] = (),
        without: Collection[str] = (),
    ) -> None:
        self._without = frozenset(without)
        self.exercise, self.turn, self.revision = exercise, turn, revision
        self._class_word, self._learner, self._exercise = class_word.casefold(), learner.casefold(), exercise
        self._letter, self._letters, self._needs = vehicle, tuple(cars), tuple(needs)
        self._usual: Vehicle | None = None
        self._asks = _as_json(self._class_word), _as_json(self._learner)
        self._key = self._bytes(sitting, exercise, turn)
        # Every number begins with the key: copying the hash that has taken it in costs half of making one each time.
        self._keyed = blake2b(key=self._key, digest_size=8)
        self._steady = (sitting, exercise, "form")
        self._counter = 0

    def _bytes(self, *parts: object) -> bytes:
        return _hash_of(*self._asks, *parts)

    def _below(self, limit: int) -> int:
        """Return a whole number from 0 to limit - 1, each equally likely (rejection, no modulo bias)."""
        bound = _ALL - _ALL % limit
        while True:
            count = self._counter
            self._counter = count + 1
            # Of one there is nothing to choose: the number is counted and not worked out.
            if limit == 1:
                return 0
            block = self._keyed.copy()
            block.update(_COUNTED[count] if count < _MOST_COUNTED else _NUMBER.pack(count))
            number: int = _NUMBER.unpack(block.digest())[0]
            if number < bound:
                return number % limit

    @property
    def key(self) -> bytes:
        """What every figure of this draw follows from: class word, learner, sitting, exercise and turn, hashed."""
        return self._key

    @property
    def own_letter(self) -> str:
        """Letter of this learner's car: as recorded, else by the rule over the standard cars."""
        return self._letter if self._letter is not None else own_letter(self._class_word, self._learner)

    @property
    def own_sheets(self) -> tuple[str, ...]:
        """Letters of the cars that a college entered itself: the learner's own first, then the class's in order."""
        letters = dict.fromkeys((self.own_letter, *self._letters))
        return tuple(letter for letter in letters if vehicle(letter).entered_by)

    def vehicle(self, *needs: str) -> Vehicle:
        """Return this learner's training vehicle: one car for the whole course.

        Where it lacks what the exercise needs (or `needs`, in its place), the class's next car that has it.

        Raises
        ------
        NotCovered
            No car of the class has it.
        """
        if not needs and self._usual:
            return self._usual
        wanted = needs or self._needs
        found = self.car_that(lambda car: has_all(car, wanted))
        if not needs:
            self._usual = found
        if found is None:
            lacks = lacking(vehicle(self.own_letter), wanted) or "a figure is missing on its sheet"
            raise NotCovered(f"no car of this class has it: {lacks}")
        return found

    def car_that(self, fits: Callable[[Vehicle], bool]) -> Vehicle | None:
        """Return this learner's car if it fits, else the class's next car that does; None where none does."""
        own = vehicle(self.own_letter)
        if own.id not in self._without and fits(own):
            return own
        at = self._letters.index(own.id) if own.id in self._letters else -1
        following = map(vehicle, (*self._letters[at + 1 :], *self._letters[: at + 1]))
        return next((car for car in following if car.id not in self._without and fits(car)), None)

    def _serves(self, car: Vehicle, needs: Sequence[str]) -> bool:
        return car.id not in self._without and has_all(car, needs)

    def cars(self, *needs: str) -> tuple[Vehicle, ...]:
        """Return every car of the class that has these traits, in the class's order.

        Raises
        ------
        NotCovered
            There is none.
        """
        found = tuple(car for car in map(vehicle, self._letters) if self._serves(car, needs))
        if not found:
            raise NotCovered(f"no car of this class has: {', '.join(needs)}")
        return found

    def covers(self, *needs: str) -> bool:
        """Whether a car of the class has these traits."""
        if not needs and not self._without and self._letters:
            return bool(vehicle(self._letters[0]))
        return any(self._serves(vehicle(letter), needs) for letter in self._letters)

    def story(self) -> "Draw":
        """Return a draw that is the same in every exercise and turn of this learner (and sitting).

        Exercises that tell one story take its figures from here, in the same order each time.
        """
        return Draw(
            class_word=self._class_word,
            learner=self._learner,
            exercise="story",
            turn=1,
            sitting=self._steady[0],
            vehicle=self._letter,
            cars=self._letters,
            without=self._without,
        )

    def form(self, count: int) -> int:
        """Return which of `count` question forms to use, 0 to count - 1; each next turn takes the next one."""
        start = int.from_bytes(self._bytes(*self._steady)[:8], "big")
        return (start + self.turn - 1) % count

    def integer(self, low: int, high: int) -> int:
        """Return a whole number from `low` to `high`, both included."""
        return low + self._below(high - low + 1)

    def value(self, low: float, high: float, step: float) -> float:
        """Return one of low, low + step, …, high, rounded to the decimals that low and step have."""
        steps, decimals = _steps(low, high, step)
        return round(low + step * self.integer(0, steps), decimals)

    def pick(self, *options: T) -> T:
        """Return one of the options."""
        return options[self._below(len(options))]

    def shuffle(self, items: Sequence[T]) -> list[T]:
        """Return the items in a drawn order."""
        left, out = list(items), []
        while left:
            out.append(left.pop(self._below(len(left))))
        return out

    def sample(self, items: Sequence[T], count: int) -> list[T]:
        """Return `count` different items in a drawn order."""
        return self.shuffle(items)[:count]

    def until(self, test: Callable[[T], bool], make: Callable[[], T]) -> T:
        """Return the first made thing that passes the test, tried at most 100 times.

        Raises
        ------
        RuntimeError
            None of 100 passed: the exercise asks for the impossible.
        """
        for _ in range(_TRIES):
            made = make()
            if test(made):
                return made
        raise RuntimeError(f"{self._exercise}: none of {_TRIES} draws passed the exercise's own test.")
