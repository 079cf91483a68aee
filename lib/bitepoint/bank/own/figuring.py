"""A number question of a college's own: figures drawn, the calculator asked, known mistakes by the same calculator."""

from collections.abc import Mapping
from itertools import combinations

from msgspec import Struct

from bitepoint import units
from bitepoint.bank.own.calculators import OwnCalculator, own_calculator
from bitepoint.bank.own.rows import OwnFigure, OwnMistake, OwnQuestion, OwnWithin
from bitepoint.errors import BadData, NotCovered, OutOfRange
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Tolerance
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figure_names import unit_in, with_unit
from bitepoint.workshop.sheet_figures import has_figures, sheet_figure
from bitepoint.workshop.vehicles import Vehicle


class NoFigures(BadData, RuntimeError):
    """The figures of a question, or of a car's sheet, give no such question; about a college's own car the class's next is tried."""


class Figured(Struct, frozen=True, kw_only=True):
    """What was drawn for one learner and turn: the figures as printed, the right figure, the known mistakes, the car."""

    printed: dict[str, str]
    answer: float
    unit: str
    within: Tolerance
    mistakes: tuple[Mistake, ...]
    car: Vehicle | None


def figured(row: OwnQuestion, draw: Draw) -> Figured:
    """Return the figures of this learner and turn, drawn again where a mistake would lie too near to another figure.

    Raises
    ------
    NoFigures
        The calculator refuses the figures, or none of a hundred draws keeps the mistakes apart.
    NotCovered
        No car of the class has the figures that are asked about.
    """
    car = _car(row, draw)
    last: list[Figured] = []

    def drawn() -> Figured:
        last[:] = [_drawn(row, draw, car)]
        return last[0]

    try:
        return draw.until(lambda found: not too_near(found), drawn)
    except RuntimeError:
        raise NoFigures(f"{too_near(last[0])}, whatever is drawn") from None


def too_near(found: Figured) -> str:
    """Say which two figures an answer could not tell apart; "" when all lie apart, tolerances counted."""
    named = [("the right answer", found.answer), *((f"the mistake {m.key!r}", m.value) for m in found.mistakes)]
    for (first, a), (second, b) in combinations(named, 2):
        if abs(a - b) <= found.within.width(a) + found.within.width(b):
            shown = [with_unit(round(x, 4), found.unit) for x in (b, a)]
            return f"{second} ({shown[0]}) lies within the tolerance of {first} ({shown[1]})"
    return ""


def answer_unit(row: OwnQuestion) -> str:
    """Return the unit of the answer: the one that is named, else the calculator's."""
    return own_calculator(row.calculator).unit if row.unit is None else units.unit_named(row.unit)


def printed_unit(name: str, figure: OwnFigure, calculator: OwnCalculator) -> str:
    """Return the unit that a field is printed in: the one that is named, that of the sheet, else the calculator's."""
    if figure.unit:
        return units.unit_named(figure.unit)
    return unit_in(figure.sheet) if figure.sheet and unit_in(figure.sheet) else calculator.fields[name].unit


def _car(row: OwnQuestion, draw: Draw) -> Vehicle | None:
    paths = row.sheet_paths
    if not paths:
        return None
    car = draw.car_that(lambda sheet: has_figures(sheet, paths))
    if car is None:
        raise NotCovered(f"no car of this class has: {', '.join(paths)}")
    return car


def _drawn(row: OwnQuestion, draw: Draw, car: Vehicle | None) -> Figured:
    calculator, given = own_calculator(row.calculator), row.figures()
    # In the calculator's order: in which order a file lists its fields must not change what is drawn.
    names = [name for name in calculator.fields if name in given]
    bare = {name: _figure(given[name], draw, car) for name in names}
    printed = {name: printed_unit(name, given[name], calculator) for name in names}
    taken = {name: _in_field(bare[name], printed[name], calculator, name) for name in names}
    unit = answer_unit(row)
    mistakes = [
        Mistake(
            _result(calculator, _mistaken(m, bare, taken, calculator), unit, f"mistake {m.key!r}"),
            m.name,
            _says(m, row),
            m.hurts,
            m.key,
        )
        for m in row.mistake
    ]
    return Figured(
        printed={name: with_unit(bare[name], printed[name]) for name in names},
        answer=_result(calculator, taken, unit, "the right answer"),
        unit=unit,
        within=_tolerance(row.within or OwnWithin()),
        mistakes=tuple(mistakes),
        car=car,
    )


def _says(mistake: OwnMistake, row: OwnQuestion) -> str:
    return f"{mistake.says} {row.danger}" if mistake.hurts else mistake.says


def _figure(figure: OwnFigure, draw: Draw, car: Vehicle | None) -> float:
    if figure.sheet and car:
        return float(sheet_figure(car, figure.sheet) or 0.0)
    if figure.list:
        return draw.pick(*figure.list)
    if figure.low is not None and figure.high is not None and figure.step is not None:
        return draw.value(figure.low, figure.high, figure.step)
    return float(figure.fixed or 0.0)


def _in_field(bare: float, unit: str, calculator: OwnCalculator, name: str) -> float:
    wanted = calculator.fields[name].unit
    return bare if unit == wanted else units.convert(bare, unit, wanted)


def _mistaken(
    mistake: OwnMistake, bare: Mapping[str, float], taken: Mapping[str, float], calculator: OwnCalculator
) -> dict[str, float]:
    """Return the figures that whoever makes this mistake gives to the calculator."""
    found = dict(taken)
    for name, value in mistake.with_.items():
        found[name] = taken[value] if isinstance(value, str) else value
    if mistake.swap:
        first, second = mistake.swap
        found[first], found[second] = taken[second], taken[first]
    for name, unit in mistake.taken_as.items():
        found[name] = _in_field(bare[name], units.unit_named(unit), calculator, name)
    return {name: value for name, value in found.items() if name not in mistake.leave_out}


def _result(calculator: OwnCalculator, figures: dict[str, float], unit: str, of: str) -> float:
    try:
        value = calculator.result(figures)
    except OutOfRange as error:
        raise NoFigures(f"{of}: the calculator refuses the figures: {error}") from None
    except ArithmeticError:
        shown = ", ".join(f"{name} = {value:g}" for name, value in figures.items())
        raise NoFigures(f"{of}: the calculator gives no figure for {shown}") from None
    return value if unit == calculator.unit else units.convert(value, calculator.unit, unit)


def _tolerance(within: OwnWithin) -> Tolerance:
    return Tolerance(relative=(within.percent or 0.0) / 100, absolute=within.absolute or 0.0)
