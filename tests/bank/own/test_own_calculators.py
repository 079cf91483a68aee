"""The calculators that a college may name: plain functions of mechanics, each with units that can be answered in."""

import inspect

import pytest

from bitepoint.bank.own.calculators import own_calculator, own_calculators
from bitepoint.errors import BadData, OutOfRange
from bitepoint.workshop.figure_names import is_convertible

CALCULATORS = list(own_calculators().values())


@pytest.mark.parametrize("calculator", CALCULATORS, ids=[c.name for c in CALCULATORS])
def test_a_calculator_takes_figures_and_gives_one(calculator) -> None:
    """Of mechanics, annotated to return a figure; whatever it must be given is a field; its unit can be typed."""
    signature = inspect.signature(calculator.compute)
    assert calculator.compute.__module__.startswith("bitepoint.mechanics.")
    assert signature.return_annotation is float
    for name, parameter in signature.parameters.items():
        assert name in calculator.fields or parameter.default is not parameter.empty
    assert is_convertible(calculator.unit)
    assert calculator.about


def test_no_name_stands_for_anything_else() -> None:
    """Names of modules, of Python's own functions and of attributes are not known."""
    for name in ("__import__", "eval", "wrench", "wrench.wrench_setting_nm", "within", ""):
        with pytest.raises(BadData, match="there is no calculator"):
            own_calculator(name)


def test_a_whole_number_stays_whole_and_out_of_range_raises() -> None:
    """Faces are counted; what the calculator is not valid for is refused by it."""
    figures = {"clamp_load_n": 4000.0, "outer_diameter_mm": 200.0, "inner_diameter_mm": 130.0, "friction": 0.3}
    capacity = own_calculator("torque_capacity_nm")
    assert capacity.result({**figures, "faces": 2.0}) == pytest.approx(2 * capacity.result({**figures, "faces": 1.0}))
    with pytest.raises(OutOfRange):
        capacity.result({**figures, "friction": 30.0})
