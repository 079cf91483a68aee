"""Figures that vary by learner and turn, the same on every machine and in every version of Python."""

import json
from collections.abc import Callable, Collection, Iterable, Sequence
from copy import copy
from functools import lru_cache
from hashlib import blake2b
from itertools import repeat
from json.encoder import encode_basestring_ascii as _text
from struct import Struct
from typing import TypeVar

from bitepoint.errors import NotCovered
from bitepoint.workshop.datafiles import kept_a_set
from bitepoint.workshop.traits import has_all, lacking
from bitepoint.workshop.vehicles import Vehicle, vehicle

T = TypeVar("T")
_TRIES = 100
_ALL = 1 << 64
_USUAL = 1 << 32
_WHOLE_ROWS = _ALL - _USUAL
"""Every number below it lies in a whole row of any limit up to the usual one: only the last few of all could lie beyond."""
_NUMBER = Struct(">Q")
_MOST_COUNTED = 64
_MOST_CLASSES = 4096
"""Answers that are kept about the cars of classes: a few for each exercise that needs something of a car."""
_unpacked = _NUMBER.unpack
_COUNTED = tuple(map(_NUMBER.pack, range(_MOST_COUNTED)))
_NONE: frozenset[str] = frozenset()
STANDARD = ("A", "B", "C", "D")
"""Letters of the training vehicles of a class that names none; the rule below shares them out among its learners."""


def _hashed(asks: str, last: str) -> bytes:
    """Return the hash of who asks and what is asked: a list in JSON, all of it but its last entry, and that."""
    return blake2b(f"[{asks}, {last}]".encode("ascii"), digest_size=32).digest()


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
    key = _hashed(f'{_text(class_word.casefold())}, "", {_text(learner.casefold())}', '"vehicle"')
    return STANDARD[int.from_bytes(key[:8], "big") % len(STANDARD)]


@lru_cache(maxsize=_MOST_CLASSES)
def _beginning_with(own: str, letters: tuple[str, ...]) -> tuple[str, ...]:
    """Return the letters of a learner's own car and of the class's, beginning with the one after it."""
    at = letters.index(own) + 1 if own in letters else 0
    return (own, *letters[at:], *letters[:at])


def _serves(letter: str, without: Collection[str], needs: Sequence[str]) -> Vehicle | None:
    car = vehicle(letter)
    return car if car.id not in without and has_all(car, needs) else None


# These are asked in every draw and answered by the cars of the class alone, which are few.
@kept_a_set(_MOST_CLASSES)
def _first_car(letters: Sequence[str], without: Collection[str], needs: Sequence[str]) -> Vehicle | None:
    """Return the first car of these that has what is needed, None where none has; the sheets after it are not looked at."""
    return next((car for letter in letters if (car := _serves(letter, without, needs))), None)


@kept_a_set(_MOST_CLASSES)
def _every_car(letters: Sequence[str], without: Collection[str], needs: Sequence[str]) -> tuple[Vehicle, ...]:
    return tuple(car for letter in letters if (car := _serves(letter, without, needs)))


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
        self._without = frozenset(without) if without else _NONE
        self.exercise, self.turn, self.revision = exercise, turn, revision
        self._class_word, self._learner, self._sitting = class_word.casefold(), learner.casefold(), sitting
        self._letter, self._letters, self._needs = vehicle, tuple(cars), tuple(needs)
        self._usual: Vehicle | None = None
        self._asks = f"{_text(self._class_word)}, {_text(sitting)}, {_text(self._learner)}, {_text(exercise)}"
        # By far the most are whole numbers, and these are their own JSON.
        self._key = _hashed(self._asks, f"{turn}" if type(turn) is int else json.dumps(turn))
        # Every number begins with the key: copying the hash that has taken it in costs half of making one each time.
        self._keyed = blake2b(key=self._key, digest_size=8)
        self._counter = 0

    def _each_below(self, limits: Iterable[int]) -> list[int]:
        """Return for each limit a whole number from 0 to limit - 1, each equally likely (rejection, no modulo bias)."""
        found, count, keyed = [], self._counter, self._keyed.copy
        for limit in limits:
            # Of one there is nothing to choose: the number is counted and not worked out.
            if limit == 1:
                count += 1
                found.append(0)
                continue
            while True:
                block = keyed()
                block.update(_COUNTED[count] if count < _MOST_COUNTED else _NUMBER.pack(count))
                (number,) = _unpacked(block.digest())
                count += 1
                if (number < _WHOLE_ROWS and limit <= _USUAL) or number < _ALL - _ALL % limit:
                    break
            found.append(number % limit)
        self._counter = count
        return found

    def _below(self, limit: int) -> int:
        """Return one whole number as `_each_below` does: most draws ask for one at a time."""
        number: int
        count = self._counter
        if limit == 1:
            self._counter = count + 1
            return 0
        while True:
            block = self._keyed.copy()
            block.update(_COUNTED[count] if count < _MOST_COUNTED else _NUMBER.pack(count))
            (number,) = _unpacked(block.digest())
            count += 1
            if (number < _WHOLE_ROWS and limit <= _USUAL) or number < _ALL - _ALL % limit:
                self._counter = count
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
        found = _first_car(self._from_own(), self._without, wanted)
        if not needs:
            self._usual = found
        if found is None:
            lacks = lacking(vehicle(self.own_letter), wanted) or "a figure is missing on its sheet"
            raise NotCovered(f"no car of this class has it: {lacks}")
        return found

    def car_that(self, fits: Callable[[Vehicle], bool]) -> Vehicle | None:
        """Return this learner's car if it fits, else the class's next car that does; None where none does."""
        cars = map(vehicle, self._from_own())
        return next((car for car in cars if car.id not in self._without and fits(car)), None)

    def _from_own(self) -> tuple[str, ...]:
        return _beginning_with(self.own_letter, self._letters)

    def cars(self, *needs: str) -> tuple[Vehicle, ...]:
        """Return every car of the class that has these traits, in the class's order.

        Raises
        ------
        NotCovered
            There is none.
        """
        found = _every_car(self._letters, self._without, needs)
        if not found:
            raise NotCovered(f"no car of this class has: {', '.join(needs)}")
        return found

    def covers(self, *needs: str) -> bool:
        """Whether a car of the class has these traits."""
        return _first_car(self._letters, self._without, needs) is not None

    def story(self) -> "Draw":
        """Return a draw that is the same in every exercise and turn of this learner (and sitting).

        Exercises that tell one story take its figures from here, in the same order each time.
        """
        return Draw(
            class_word=self._class_word,
            learner=self._learner,
            exercise="story",
            turn=1,
            sitting=self._sitting,
            vehicle=self._letter,
            cars=self._letters,
            without=self._without,
        )

    def again(self, without: Collection[str]) -> "Draw":
        """Return the same draw from its first number on, without the cars with these letters."""
        draw = copy(self)
        draw._without, draw._usual, draw._counter = frozenset(without), None, 0
        return draw

    def form(self, count: int) -> int:
        """Return which of `count` question forms to use, 0 to count - 1; each next turn takes the next one."""
        start = int.from_bytes(_hashed(self._asks, '"form"')[:8], "big")
        return (start + self.turn - 1) % count

    def integer(self, low: int, high: int) -> int:
        """Return a whole number from `low` to `high`, both included."""
        return low + self._below(high - low + 1)

    def integers(self, count: int, low: int, high: int) -> list[int]:
        """Return so many whole numbers from `low` to `high`, both included."""
        return [low + number for number in self._each_below(repeat(high - low + 1, count))]

    def value(self, low: float, high: float, step: float) -> float:
        """Return one of low, low + step, …, high, rounded to the decimals that low and step have."""
        steps, decimals = _steps(low, high, step)
        return round(low + step * self.integer(0, steps), decimals)

    def pick(self, *options: T) -> T:
        """Return one of the options."""
        return options[self._below(len(options))]

    def shuffle(self, items: Sequence[T]) -> list[T]:
        """Return the items in a drawn order."""
        left = list(items)
        return [left.pop(place) for place in self._each_below(range(len(left), 0, -1))]

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
        raise RuntimeError(f"{self.exercise}: none of {_TRIES} draws passed the exercise's own test.")
