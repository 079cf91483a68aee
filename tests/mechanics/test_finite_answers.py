"""Whatever is typed, a calculator answers with finite numbers or with one line that says what to do."""

import importlib
import inspect
import re
from collections.abc import Sequence
from math import isfinite
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import bitepoint.mechanics
from bitepoint.errors import BitepointError, OutOfRange

MODULES = [
    "clutch",
    "facings",
    "spring",
    "wear",
    "heat",
    "takeup",
    "release",
    "hydraulics",
    "tyres",
    "driveline",
    "roadlog",
    "vibration",
    "spectrum",
    "metrology",
    "uncertainty",
    "decisions",
    "risks",
    "samples",
    "noise",
    "scales",
    "lifting",
    "loads",
]
WORDS = (
    "uniform wear",
    "uniform pressure",
    "textbook",
    "DIN",
    "radial",
    "bias",
    "rectangular",
    "triangular",
    "arcsine",
    "good",
    "fair",
    "poor",
    "each",
    "one-sided",
    "two-sided",
    "pair",
    "205/55 R16",
    "",
)
BETWEEN = re.compile(r"(\w+) must be between (\S+) and ([^\s,]+)")
WHOLE = re.compile(r"(\w+) must be a whole number from (\d+) to (\d+)")
ONE_OF = re.compile(r"(\w+) must be one of (.*), but you gave")
ANY_FLOAT = st.floats() | st.floats(0, 5000) | st.floats(0, 2) | st.sampled_from([0.02, 0.05, 1e308, 5e-324, -0.0])
FLOATS = st.lists(ANY_FLOAT, max_size=20) | st.lists(st.floats(300, 400), min_size=16, max_size=20)


def _calculators():
    for name in MODULES:
        module = importlib.import_module(f"bitepoint.mechanics.{name}")
        for function_name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not function_name.startswith("_"):
                yield pytest.param(function, id=f"{name}.{function_name}")


def _strategy(annotation):
    text = str(annotation)
    if annotation is str:
        return st.sampled_from(WORDS) | st.text(max_size=20)
    if annotation is bool:
        return st.booleans()
    if annotation is int:
        return st.integers() | st.integers(0, 60)
    if "ArrayLike" in text or "Sequence" in text or annotation == Sequence[float]:
        return FLOATS
    return st.none() | ANY_FLOAT if "None" in text else ANY_FLOAT


def _numbers(answer):
    if isinstance(answer, np.ndarray):
        return answer.tolist()
    if isinstance(answer, tuple):
        return list(answer)
    return [] if isinstance(answer, str) or answer is None else [answer]


def _mended(error, chosen, data):
    """Put a figure into the range that the message states; None when it states none for one argument."""
    text = str(error)
    if (between := BETWEEN.match(text)) and between[1] in chosen:
        low, high = float(between[2]), float(between[3])
        share = data.draw(st.sampled_from([0.0, 1.0]) | st.floats(0, 1))
        # The message rounds to ten digits, so the ends themselves are met from inside.
        value = min(max(low + share * (high - low), low * (1 + 1e-9)), high * (1 - 1e-9)) if low >= 0 else low
        return {**chosen, between[1]: value}
    if (whole := WHOLE.match(text)) and whole[1] in chosen:
        return {**chosen, whole[1]: data.draw(st.integers(int(whole[2]), int(whole[3])))}
    if (one := ONE_OF.match(text)) and one[1] in chosen:
        return {**chosen, one[1]: data.draw(st.sampled_from(one[2].split(", ")))}
    return None


@pytest.mark.parametrize("calculator", [*_calculators()])
def test_answer_is_finite_or_refused_in_words(calculator):
    """No NaN, no infinity, no complex number, no foreign exception; and what a message asks for is accepted."""
    parameters = inspect.signature(calculator).parameters
    arguments = st.fixed_dictionaries({name: _strategy(p.annotation) for name, p in parameters.items()})
    keyword_only = {name for name, p in parameters.items() if p.kind is p.KEYWORD_ONLY}

    def answer_to(chosen):
        positional = [value for name, value in chosen.items() if name not in keyword_only]
        by_name = {name: value for name, value in chosen.items() if name in keyword_only}
        try:
            return calculator(*positional, **by_name), None
        except BitepointError as error:
            return None, error

    @settings(max_examples=40, deadline=None)
    @given(st.data())
    def check(data):
        chosen = data.draw(arguments)
        for _ in range(2 * len(parameters) + 2):
            answer, error = answer_to(chosen)
            if error is None:
                for number in _numbers(answer):
                    assert isinstance(number, (int, float)), answer
                    assert isfinite(number), answer
                return
            text = str(error)
            assert "\n" not in text
            assert text.endswith((".", "?")), text
            assert not isinstance(error, OutOfRange) or (" must be " in text and ", but you gave " in text)
            chosen = _mended(error, chosen, data)
            if chosen is None:
                return

    check()


@pytest.mark.parametrize("calculator", [*_calculators()])
def test_docstring_states_where_it_comes_from(calculator):
    """Every calculator's docstring has a source whose key is known; all but the checks show an example."""
    from bitepoint.sources import SOURCES

    text = inspect.getdoc(calculator)
    if calculator.__name__.startswith(("checked_", "facing_radii")):
        assert "checked" in text
        return
    if calculator.__name__ in ("tyre_size",):
        assert "Raises" in text
    section = text.split("Source\n------\n")[1].split("\n\n")[0]
    source = section.partition("\nNo published figure")[0]
    assert [key for key in source.replace("\n", " ").split(", ") if key.strip() not in SOURCES] == []
    assert calculator.__name__ == "kmh_per_rpm" or ">>> " in text


EVERY_MODULE = sorted(
    p.stem for p in Path(bitepoint.mechanics.__file__).parent.glob("*.py") if p.stem not in ("__init__", "limits")
)


def _every_calculator():
    for name in EVERY_MODULE:
        module = importlib.import_module(f"bitepoint.mechanics.{name}")
        for function_name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not function_name.startswith("_"):
                yield pytest.param(function, id=f"{name}.{function_name}")


@pytest.mark.parametrize("calculator", [*_every_calculator()])
def test_a_number_that_no_float_holds_is_refused_in_words(calculator):
    """10**400 in any place of any calculator gives one line of the project's own, never Python's overflow."""
    parameters = inspect.signature(calculator).parameters
    plain = {n: _plain_value(p) for n, p in parameters.items()}
    figures = [
        n
        for n, p in parameters.items()
        if "float" in str(p.annotation) or "int" in str(p.annotation) or "ArrayLike" in str(p.annotation)
    ]
    for name in figures:
        _answer_or_one_line(calculator, parameters, {**plain, name: _huge(plain[name])})


def _huge(value):
    """Return the like of a value with 10**400 in place of each number."""
    return type(value)(map(_huge, value)) if isinstance(value, (list, tuple)) else 10**400


def _plain_value(parameter):
    text = str(parameter.annotation)
    if "Sequence[tuple[" in text:
        return [(20.0, [20.0] * 5)]
    if isinstance(parameter.default, tuple):
        return list(parameter.default)
    if parameter.default is not parameter.empty:
        return parameter.default
    if "ArrayLike" in text or "Sequence" in text:
        return [1.0] * 20
    return "" if parameter.annotation is str else 2 if parameter.annotation is int else 1.0


def _answer_or_one_line(calculator, parameters, chosen):
    positional = [v for n, v in chosen.items() if parameters[n].kind is not parameters[n].KEYWORD_ONLY]
    by_name = {n: v for n, v in chosen.items() if parameters[n].kind is parameters[n].KEYWORD_ONLY}
    told = ""
    try:
        calculator(*positional, **by_name)
    except BitepointError as error:
        told = str(error)
    assert "\n" not in told
