"""Calculators by name: labelled fields over a function of mechanics, with working, warnings and a picture."""

from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Calculator, WrongField, calculator_named, names

__all__ = ["Calculator", "Field", "Calculation", "WrongField", "calculator_named", "names"]
