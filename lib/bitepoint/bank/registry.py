"""How an exercise is written down and drawn: one function, one decorator."""

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property, partial
from typing import TypeVar

import msgspec
from msgspec import Struct, structs

from bitepoint.errors import BadData, BadInput, NotCovered, OutOfRange
from bitepoint.missing import MissingFigure, look_up
from bitepoint.questions.draw import STANDARD, Draw
from bitepoint.questions.question import Question
from bitepoint.workshop.datafiles import DataFiles, data_files, using
from bitepoint.workshop.roadtests import road_test
from bitepoint.workshop.sheet_figures import has_figures
from bitepoint.workshop.traits import has_all, trait
from bitepoint.workshop.vehicles import SHEETS, sheets_edition, sheets_edition_of
from bitepoint.workshop.vehicles import vehicle as sheet

Q = TypeVar("Q", bound=Question)
Make = Callable[[Draw], Question]
_TRIED = 60


class Maker(Struct, frozen=True, kw_only=True):
    """The function of one revision, and the retired editions of data files that it rests on."""

    make: Make
    rests_on: Mapping[str, int] = {}


class Exercise(Struct, frozen=True, kw_only=True, dict=True):
    """One thing to answer: its id `lesson.topic`, what it shows (outcome), minutes, and the function that draws it.

    `beyond` marks a "Go deeper" exercise outside the pass rule. `needs` are the traits that the car of the question
    has (the learner's own, else the class's next car with them), `others` sets of traits of other cars of the class
    that its forms speak of, `figures` paths of figures that one car's sheet must have. `makers` holds the function of every revision, so that an old hand-in can be marked.
    """

    id: str
    lesson: str
    title: str
    outcome: str
    minutes: float
    revision: int
    beyond: bool
    makers: Mapping[int, Maker]
    needs: tuple[str, ...] = ()
    others: tuple[tuple[str, ...], ...] = ()
    figures: tuple[str, ...] = ()

    @cached_property
    def module(self) -> str:
        """Name of the module that holds the newest revision."""
        return self.makers[self.revision].make.__module__

    def left_out(self, cars: Sequence[str] = STANDARD) -> str:
        """Return why a class with these cars does not get this exercise; "" when it does."""
        sheets = [sheet(letter) for letter in cars]
        for wanted in (self.needs, *self.others):
            if wanted and not any(has_all(car, wanted) for car in sheets):
                return f"No car of this class has what it is about: {', '.join(wanted)}."
        if self.figures and not any(has_figures(car, self.figures) for car in sheets):
            return f"No car of this class has the figures that it is about: {', '.join(self.figures)}."
        if not any(car.entered_by for car in sheets):
            return ""
        key = ("not on a sheet", self.id, self.revision, tuple(cars))
        return data_files().once(key, partial(self._not_on_a_sheet, tuple(cars)))

    def _not_on_a_sheet(self, cars: Sequence[str]) -> str:
        """Return what no sheet of the class has and a question needs, found by drawing for some learners and turns.

        A training vehicle beside an own sheet does not settle it: it may lack what only the own sheet's car has.
        """
        for number in range(_TRIED):
            own = cars[number % len(cars)]
            try:
                self.draw(
                    class_word="left-out", learner=f"learner-{number}", turn=1 + number % 4, vehicle=own, cars=cars
                )
            except NotCovered as error:
                return str(error)
        return ""

    def draw(
        self,
        *,
        class_word: str,
        learner: str,
        turn: int = 1,
        sitting: str = "",
        revision: int = 0,
        vehicle: str | None = None,
        edition: int = 0,
        cars: Sequence[str] = STANDARD,
        data: DataFiles | None = None,
    ) -> Question:
        """Return the question of this learner and turn; the same call gives the same question everywhere.

        Parameters
        ----------
        revision, edition
            Of the question and of the set of data sheets; 0, or an edition that is not there yet: the newest.
        vehicle
            Letter of the learner's car as the class recorded it; None: by the rule over the standard cars.
        cars
            Letters of the class's cars, in the class's order.
        data
            The data files to draw from; None: those in use, as a rule the shipped ones.

        Raises
        ------
        KeyError
            There is no such revision.
        BadData
            There is no such car or edition.
        NotCovered
            No car of the class has what the exercise is about.
        """
        number = revision or self.revision
        maker = self.makers[number]
        in_use = data_files()
        files = _as_of(data or in_use, maker, edition)
        asked = Draw(
            class_word=class_word,
            learner=learner,
            exercise=self.id,
            turn=turn,
            sitting=sitting,
            revision=number,
            vehicle=vehicle,
            cars=cars,
            needs=self.needs,
        )
        if files is in_use:
            return self._drawn(maker.make, asked)
        with using(files):
            return self._drawn(maker.make, asked)

    def _drawn(self, make: Make, asked: Draw) -> Question:
        """Return the question; where a college's own sheet cannot serve it, about the class's next car."""
        without: dict[str, NotCovered] = {}
        while True:
            try:
                return self._made(make, asked)
            except MissingFigure as error:
                if error.letter in without:
                    raise
                without[error.letter] = error
            except NotCovered as error:
                # What was missing first says more than that no other car is left.
                raise next(iter(without.values()), error) from None
            except (OutOfRange, RuntimeError, ArithmeticError, LookupError, ValueError, StopIteration) as error:
                own = next((v for v in asked.own_sheets if v not in without), "")
                if not own:
                    raise
                without[own] = NotCovered(
                    f"The figures of {own} give no such question ({str(error) or type(error).__name__})."
                )
            asked = asked.again(without)

    def _made(self, make: Make, draw: Draw) -> Question:
        question = make(draw)
        about = sheet(question.vehicle) if question.vehicle else None
        if about and about.missing:
            # One may lie in what is only written out later, such as a picture's parameters.
            msgspec.to_builtins(question, enc_hook=look_up)
            _read_log_of(question)
        return structs.replace(
            question,
            exercise=self.id,
            revision=draw.revision,
            beyond=self.beyond,
            edition=about.edition if about else 0,
            own_vehicle=draw.own_letter,
            sheets=sheets_edition(),
            sheet_figures=about.figures if about else "",
        )


def _read_log_of(question: Question) -> None:
    """Make the log that a question shows: where the sheet does not have a figure for it, that is known before it is asked."""
    name = question.picture.parameters.get("name") if question.picture else None
    if (
        question.picture
        and question.picture.key in ("road-test", "slip-plot", "order-spectrum")
        and isinstance(name, str)
    ):
        road_test(name)


def _as_of(files: DataFiles, maker: Maker, edition: int) -> DataFiles:
    """Return the files with the editions pinned that a revision rests on, and an edition of the set of sheets.

    An edition that is not there yet is the newest: a line of a later release is drawn from what is here, and its facts say
    whether that is the same question.
    """
    if edition < 0:
        raise BadData(f"There is no edition {edition} of the data sheets. They are counted from 1.")
    if edition and edition < sheets_edition_of(files):
        return files.pinned({**maker.rests_on, SHEETS: edition})
    return files.pinned(maker.rests_on) if maker.rests_on else files


_EXERCISES: dict[str, Exercise] = {}
_RETIRED: dict[str, dict[int, Maker]] = {}


def exercise(
    id: str,
    *,
    lesson: str,
    outcome: str,
    minutes: float,
    revision: int = 1,
    beyond: bool = False,
    title: str = "",
    needs: Sequence[str] = (),
    others: Sequence[Sequence[str]] = (),
) -> Callable[[Callable[[Draw], Q]], Callable[[Draw], Q]]:
    """Register the function below as an exercise in its newest revision, the one that is asked.

    The title is made from the id's topic when none is given.

    Raises
    ------
    BadInput
        It needs a trait that nobody knows, or a function of another module has this id.
    """
    for key in (*needs, *(key for wanted in others for key in wanted)):
        trait(key)

    def register(make: Callable[[Draw], Q]) -> Callable[[Draw], Q]:
        known = _EXERCISES.get(id)
        if known and known.module != make.__module__:
            raise BadInput(f"The exercise {id!r} stands in {known.module} and in {make.__module__}. Rename one.")
        _EXERCISES[id] = Exercise(
            id=id,
            lesson=lesson,
            title=title or id.partition(".")[2].replace("-", " ").capitalize(),
            outcome=outcome,
            minutes=minutes,
            revision=revision,
            beyond=beyond,
            makers={**_RETIRED.get(id, {}), revision: Maker(make=make)},
            needs=tuple(needs),
            others=tuple(map(tuple, others)),
        )
        return make

    return register


def retired(
    id: str, revision: int, *, rests_on: Mapping[str, int] | None = None
) -> Callable[[Callable[[Draw], Q]], Callable[[Draw], Q]]:
    """Register the function below as an older revision of an exercise: asked no more, but drawn and marked for ever.

    `rests_on` names the retired editions of data files that it is drawn from, such as {"criteria.toml": 1}.
    """

    def register(make: Callable[[Draw], Q]) -> Callable[[Draw], Q]:
        older = _RETIRED.setdefault(id, {})
        older[revision] = Maker(make=make, rests_on=dict(rests_on or {}))
        known = _EXERCISES.get(id)
        if known:
            _EXERCISES[id] = structs.replace(known, makers={**older, **known.makers})
        return make

    return register


def registered() -> dict[str, Exercise]:
    """Return every exercise registered so far, in the order of writing."""
    return dict(_EXERCISES)


__all__ = ["Exercise", "Maker", "NotCovered", "exercise", "registered", "retired"]
