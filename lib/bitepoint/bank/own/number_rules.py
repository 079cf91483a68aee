"""The rules of a number question: a calculator that there is, its fields, how each gets its figure, the known mistakes."""

from collections.abc import Iterator
from difflib import get_close_matches
from math import isfinite
from string import Formatter

from bitepoint import units
from bitepoint.bank.own.calculators import OwnCalculator, own_calculator
from bitepoint.bank.own.figuring import printed_unit
from bitepoint.bank.own.rows import OwnFigure, OwnMistake, OwnQuestion
from bitepoint.errors import BadData, NotUnderstood
from bitepoint.workshop.figure_names import is_convertible
from bitepoint.workshop.sheet_figures import check_sheet_path

Fault = tuple[str, str]
_LARGEST, _MOST_STEPS, _MOST_LISTED, _MOST_MISTAKES, _MOST_DECIMALS = 1e9, 10_000, 50, 8, 6


def figure_faults(row: OwnQuestion) -> Iterator[Fault]:
    """Yield what is wrong with calculator, fields, unit and tolerance of a number question."""
    if not row.of_kind.worked_out:
        return
    if not row.calculator:
        yield "calculator", "is missing; name one of those that “bitepoint exercise calculators” lists"
        return
    try:
        calculator = own_calculator(row.calculator)
    except BadData as error:
        yield "calculator", f"{error} “bitepoint exercise calculators” lists all"
        return
    yield from _field_faults(row, calculator)
    yield from _answer_faults(row, calculator)


def mistake_faults(row: OwnQuestion) -> Iterator[Fault]:
    """Yield what is wrong with the known mistakes of a number question whose figures are in order."""
    if not row.of_kind.worked_out:
        return
    calculator = own_calculator(row.calculator)
    found = [*_printed_faults(row), *(fault for m in row.mistake for fault in _mistake_faults(row, m, calculator))]
    yield from found or _mistakes_together(row)


def _field_faults(row: OwnQuestion, calculator: OwnCalculator) -> Iterator[Fault]:
    for name in row.fields:
        if name not in calculator.fields:
            near = get_close_matches(name, calculator.fields, n=1, cutoff=0.0)
            yield f"fields.{name[:40]}", f"{calculator.name} has no such field; did you mean {near[0]}?"
            return
    for name, field in calculator.fields.items():
        if name not in row.fields and not field.optional:
            yield "fields", f"{name} is missing; {calculator.name} needs it"
            return
    for name, figure in row.figures().items():
        if rule := _figure_rule(name, figure, calculator):
            yield f"fields.{name}", rule
    if all(figure.fixed is not None for figure in row.figures().values()) and len(row.form) < 2:
        yield (
            "fields",
            "nothing is drawn, so each turn asks the same; give a range, a list, a sheet figure or a second form",
        )


def _figure_rule(name: str, figure: OwnFigure, calculator: OwnCalculator) -> str:
    given = _given(figure)
    if len(given) != 1:
        told = " and ".join(given) or "nothing"
        return f"give one of fixed, from with to and step, list or sheet, but there is {told}"
    plain = _plain_figures(figure)
    if any(not isfinite(value) or abs(value) > _LARGEST for value in plain):
        return f"a figure must be a plain number of at most {_LARGEST:.0e}"
    if calculator.fields[name].whole and any(value != int(value) for value in plain):
        return "must be whole numbers"
    return _way_rule(figure) or _unit_rule(name, figure, calculator)


def _given(figure: OwnFigure) -> list[str]:
    spans = [v for v in (figure.low, figure.high, figure.step) if v is not None]
    ways = {"fixed": figure.fixed is not None, "a range": bool(spans), "list": bool(figure.list)}
    return [name for name, there in {**ways, "sheet": bool(figure.sheet)}.items() if there]


def _plain_figures(figure: OwnFigure) -> list[float]:
    return [v for v in (figure.fixed, figure.low, figure.high, figure.step, *figure.list) if v is not None]


def _way_rule(figure: OwnFigure) -> str:
    if figure.sheet:
        try:
            check_sheet_path(figure.sheet)
        except BadData as error:
            return f"sheet: {error}"
        return ""
    if figure.list:
        if not 2 <= len(figure.list) <= _MOST_LISTED or len(set(figure.list)) < len(figure.list):
            return f"list must hold 2 to {_MOST_LISTED} different figures"
        return ""
    return "" if figure.fixed is not None else _range_rule(figure.low, figure.high, figure.step)


def _range_rule(low: float | None, high: float | None, step: float | None) -> str:
    if low is None or high is None or step is None:
        return "a range needs from, to and step"
    if not low < high:
        return f"from must be less than to, but {low:g} is not less than {high:g}"
    if step <= 0 or (high - low) / step > _MOST_STEPS:
        return f"step must be above 0 and make at most {_MOST_STEPS:,} steps"
    steps = (high - low) / step
    return "" if abs(steps - round(steps)) < 1e-6 else f"steps of {step:g} from {low:g} do not reach {high:g}"


def _unit_rule(name: str, figure: OwnFigure, calculator: OwnCalculator) -> str:
    wanted = calculator.fields[name].unit
    try:
        unit = printed_unit(name, figure, calculator)
        if unit != wanted:
            units.convert(1.0, unit, wanted)
    except NotUnderstood as error:
        return f"{calculator.name} takes {wanted or 'a plain figure'} here: {error}"
    return ""


def _answer_faults(row: OwnQuestion, calculator: OwnCalculator) -> Iterator[Fault]:
    if row.unit is not None:
        try:
            units.convert(1.0, row.unit, calculator.unit)
        except NotUnderstood as error:
            yield "unit", f"{calculator.name} gives {calculator.unit or 'a plain figure'}: {error}"
    elif not is_convertible(calculator.unit):
        yield "unit", "is missing; name the unit of the answer"
    within = row.within
    if within is None:
        yield "within", "is missing; write within = { percent = 1 } or within = { absolute = 0.5 }"
    elif (within.percent is None) == (within.absolute is None):
        yield "within", "give percent or absolute, one of them"
    elif not (0 < (within.percent or 0) <= 20 or 0 < (within.absolute or 0) <= _LARGEST):
        yield "within", "must be above 0 (percent: at most 20)"
    if row.decimals is not None and not 0 <= row.decimals <= _MOST_DECIMALS:
        yield "decimals", f"must be 0 to {_MOST_DECIMALS}"


def _printed_faults(row: OwnQuestion) -> Iterator[Fault]:
    """Yield what a learner could not work out because a figure that is drawn is printed nowhere."""
    drawn = [name for name, figure in row.figures().items() if figure.fixed is None]
    for form in row.form:
        words = " ".join([form.ask, *(cell for line in form.table for cell in line)])
        printed = {name for _, name, _, _ in Formatter().parse(words) if name}
        if missing := [name for name in drawn if name not in printed]:
            yield (
                f"form {form.key!r}, ask",
                f"nobody can work it out: {{{missing[0]}}} stands neither there nor in the table",
            )


def _mistake_faults(row: OwnQuestion, mistake: OwnMistake, calculator: OwnCalculator) -> Iterator[Fault]:
    where = f"mistake {mistake.key!r}"
    if not (mistake.with_ or mistake.swap or mistake.taken_as or mistake.leave_out):
        yield where, "says nothing of how it comes about; give with, swap, taken_as or leave_out"
        return
    named = [*mistake.with_, *mistake.swap, *mistake.taken_as, *mistake.leave_out]
    named += [value for value in mistake.with_.values() if isinstance(value, str)]
    for name in named:
        if name not in calculator.fields:
            near = get_close_matches(name, calculator.fields, n=1, cutoff=0.0)
            yield where, f"{calculator.name} has no field {name[:40]!r}; did you mean {near[0]}?"
            return
    if rule := _ways_rule(row, mistake, calculator):
        yield where, rule


def _ways_rule(row: OwnQuestion, mistake: OwnMistake, calculator: OwnCalculator) -> str:
    taken = [*mistake.swap, *mistake.taken_as, *(v for v in mistake.with_.values() if isinstance(v, str))]
    if missing := [name for name in taken if name not in row.fields]:
        return f"{missing[0]} has no figure in this question; give it one under fields"
    if mistake.swap and len(set(mistake.swap)) != 2:
        return "swap names two different fields"
    for name, value in mistake.with_.items():
        plain = isinstance(value, str) or (isfinite(value) and abs(value) <= _LARGEST)
        if not plain or (calculator.fields[name].whole and not isinstance(value, str) and value != int(value)):
            return f"with.{name} must be a plain {'whole ' * calculator.fields[name].whole}number"
    for name in mistake.leave_out:
        if not calculator.fields[name].optional:
            return f"{calculator.name} cannot do without {name}; give it another figure by with"
        if name not in row.fields:
            return f"{name} is left out already; give it a figure under fields"
    for name, unit in mistake.taken_as.items():
        try:
            units.convert(1.0, unit, calculator.fields[name].unit)
        except NotUnderstood as error:
            return f"taken_as.{name}: {error}"
    return ""


def _mistakes_together(row: OwnQuestion) -> Iterator[Fault]:
    keys, names = [m.key for m in row.mistake], [m.name for m in row.mistake]
    if not 1 <= len(keys) <= _MOST_MISTAKES:
        yield "mistake", f"there must be 1 to {_MOST_MISTAKES} known mistakes, but there are {len(keys)}"
    elif len(set(keys)) < len(keys) or len(set(names)) < len(names):
        yield "mistake", "two have the same key or name; give each its own"
