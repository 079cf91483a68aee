"""Calculators by name: labelled fields over a function of mechanics, with working, warnings and a picture."""

from bitepoint.page.calculators.registry import Calculation, Calculator, Field, calculator_named, names

__all__ = ["Calculator", "Field", "Calculation", "calculator_named", "names"]
