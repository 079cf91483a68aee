"""Quantities as people type them, and their units: a closed table of spellings with exact factors."""

from bitepoint.units.table import (
    FOOT_M,
    INCH_M,
    MILE_M,
    POUND_FORCE_N,
    POUND_KG,
    STANDARD_GRAVITY,
    convert,
    dimension_of,
    unit_named,
    units_of,
)
from bitepoint.units.typed import MAX_LENGTH, Quantity, quantity, unambiguous

__all__ = [
    "FOOT_M",
    "INCH_M",
    "MAX_LENGTH",
    "MILE_M",
    "POUND_FORCE_N",
    "POUND_KG",
    "STANDARD_GRAVITY",
    "Quantity",
    "convert",
    "dimension_of",
    "quantity",
    "unambiguous",
    "unit_named",
    "units_of",
]
