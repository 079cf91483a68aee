"""Quantities as people type them, and conversions with exact factors."""

import math
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint import units
from bitepoint.errors import NotUnderstood
from bitepoint.units import convert, dimension_of, quantity, unit_named, units_of

DIMENSIONS = (
    "torque", "length", "force", "mass", "pressure", "speed", "angle", "volume", "time", "rotational speed",
    "frequency", "energy", "temperature difference", "share", "count",
)  # fmt: skip
PAIRS = [pair for d in DIMENSIONS for pair in permutations(units_of(d), 2)]

# Exact by definition: pound, standard gravity, inch.
POUND_FORCE = Fraction("0.45359237") * Fraction("9.80665")
INCH = Fraction("0.0254")
EXACT = [
    ("lbf", "N", POUND_FORCE),
    ("lbf·ft", "N·m", POUND_FORCE * 12 * INCH),
    ("lbf·in", "N·m", POUND_FORCE * INCH),
    ("kgf·m", "N·m", Fraction("9.80665")),
    ("ozf·in", "N·m", POUND_FORCE / 16 * INCH),
    ("psi", "bar", POUND_FORCE / INCH**2 / 100_000),
    ("bar", "psi", 100_000 * INCH**2 / POUND_FORCE),
    ("N·m", "lbf·ft", 1 / (POUND_FORCE * 12 * INCH)),
    ("mph", "km/h", Fraction("1.609344")),
    ("lbf·ft", "lbf·in", Fraction(12)),
]


@pytest.mark.parametrize(("unit", "to", "factor"), EXACT)
def test_factor_is_the_exact_one(unit, to, factor):
    """A factor agrees with exact fractions to 13 digits."""
    assert pytest.approx(float(factor), rel=1e-13) == convert(1, unit, to)


@pytest.mark.parametrize(("unit", "to"), PAIRS)
@settings(max_examples=20, deadline=None)
@given(value=st.floats(min_value=1e-6, max_value=1e6))
def test_there_and_back_gives_the_same(unit, to, value):
    """Every conversion has its inverse, keeps the sign and is linear."""
    there = convert(value, unit, to)
    assert there > 0
    assert pytest.approx(value, rel=1e-12) == convert(there, to, unit)
    assert pytest.approx(2 * there, rel=1e-12) == convert(2 * value, unit, to)


def test_dimension_of_a_unit():
    """A unit knows what it measures, and a torque is no energy."""
    told = [dimension_of(unit) for unit in ("N·m", "J", "mm", "%")]
    expected = ["torque", "energy", "length", "share"]
    assert expected == told


@pytest.mark.parametrize(("unit", "to"), [("N·m", "J"), ("kg", "N"), ("bar", "N·m"), ("Hz", "rpm")])
def test_other_dimension_is_refused(unit, to):
    """A torque never becomes joules, nor a mass a force."""
    with pytest.raises(NotUnderstood, match=rf"{unit} measures .*, but {to} measures "):
        convert(1, unit, to)


@pytest.mark.parametrize("spelling", ["kg·m", "kg m", "kgm", "m·kg", "g m"])
def test_mass_times_length_is_no_torque(spelling):
    """A mass times a length is refused, and the message says what to write."""
    with pytest.raises(NotUnderstood, match=r"mass times a length.*Write kgf·m if a force is meant, or N·m"):
        unit_named(spelling)


SPELLINGS = [
    ("N·m", "N·m Nm N.m N*m N⋅m nm N-m"),
    ("lbf·ft", "lbf·ft ft-lb lb-ft ft·lbf ft.lb lbft FT-LBS"),
    ("lbf·in", "in-lb lbf·in in·lbf"),
    ("kgf·m", "kgf·m kpm mkp"),
    ("µm", "µm um μm"),
    ("°", "° deg degrees"),
    ("bar", "bar Bar"),
    ("km/h", "km/h kmh kph"),
]


@pytest.mark.parametrize(("unit", "spelling"), [(unit, s) for unit, all_ in SPELLINGS for s in all_.split()])
def test_spellings_of_a_unit(unit, spelling):
    """A unit is understood as people write it."""
    assert unit == unit_named(spelling)


@pytest.mark.parametrize(
    ("typed", "value", "unit"),
    [
        ("84,2 Nm", 84.2, "N·m"),
        ("84.2Nm", 84.2, "N·m"),
        ("62 lbf·ft", 62, "lbf·ft"),
        ("  7 ", 7, None),
        (".5 mm", 0.5, "mm"),
        ("−3 °", -3, "°"),
        ("+3", 3, None),
        ("1 200 N", 1200, "N"),
        ("1'200 N", 1200, "N"),
        ("0,125 mm", 0.125, "mm"),
        ("1.20", 1.2, None),
        ("0.200", 0.2, None),
        ("12.125 mm", 12.125, "mm"),
        ("6.500 mm", 6.5, "mm"),
        ("6.510", 6.51, None),
        ("-0 N·m", 0.0, "N·m"),
        ("62 foot-lbs", 62, "lbf·ft"),
        ("62 pounds-feet", 62, "lbf·ft"),
        ("1″", 1, "in"),
        ("50 cN·m", 50, "cN·m"),
        ("3 thou", 3, "thou"),
        ("2 MPa", 2, "MPa"),
        ("6 bolts", 6, ""),
        (12, 12, None),
        (12.5, 12.5, None),
        ((12, 5), 12.5, None),
        ((-12, 5), -12.5, None),
        ([12, 5], 12.5, None),
    ],
)
def test_quantity_as_typed(typed, value, unit):
    """A number with or without unit is understood as a person means it."""
    assert (pytest.approx(value, rel=1e-12), unit) == tuple(quantity(typed))


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("1,200", "1,200 can mean 1200 or 1.2. Write 1200, or 1.2."),
        ((1, 200), "1,200 can mean 1200 or 1.2. Write 1200, or 1.2."),
        ("1.200", "1.200 can mean 1200 or 1.2. Write 1200, or 1.2."),
        ("1,234", "1,234 can mean 1234 or 1.234 with a point. Write 1234, or 1.234 with a point."),
        ("84 Nm ± 2", "'84 Nm ± 2': Give one figure, without a tolerance."),
        ("84–86", "'84–86': That is a range. Give one figure."),
        ("84 Nm 5", "'84 Nm 5': That is more than one number. Give one figure with its unit."),
        ("8.4e1 Nm", "'8.4e1 Nm': Write the figure out, without a power of ten. Write, for example, 12.5 N·m."),
        ("0x54", "'0x54': Write the figure in the digits 0 to 9. Write, for example, 12.5 N·m."),
        ("1.200,5", "'1.200,5': Leave the thousands unmarked, such as 1200.5. Write, for example, 12.5 N·m."),
        ("1/2 in", "'1/2 in': Write the fraction as a decimal, such as 0.5. Write, for example, 12.5 N·m."),
        ("1234567890123", "'1234567890123': That number is too large to be meant. Write, for example, 12.5 N·m."),
        ("2 mPa", "mPa is a thousandth of a pascal. Write MPa, kPa or bar."),
        ("12 °C", "°C is a temperature, and a difference of temperatures is given in K. Write K."),
        ("six", "'six' does not start with a number. Write, for example, 12.5 N·m."),
        ("", "'' does not start with a number. Write, for example, 12.5 N·m."),
        ("1.2.3", "'1.2.3' is more than one number with a unit. Write, for example, 12.5 N·m."),
        ("12 foo", "The unit 'foo' is not known here. Write it as on the data sheet."),
        (True, "True is no number. Write a number and its unit, such as 12.5 N·m."),
        (None, "That is no number. Write a number and its unit, such as 12.5 N·m."),
        ((1, 2, 3), "That is no number. Write a number and its unit, such as 12.5 N·m."),
        (math.nan, "That number is too large to be meant. Write a number and its unit, such as 12.5 N·m."),
        (-math.inf, "That number is too large to be meant. Write a number and its unit, such as 12.5 N·m."),
        (1e13, "That number is too large to be meant. Write a number and its unit, such as 12.5 N·m."),
    ],
)
def test_what_is_not_understood_is_told(typed, told):
    """What cannot be read is refused with one sentence that says how to write it."""
    with pytest.raises(NotUnderstood) as caught:
        quantity(typed)
    assert told == str(caught.value)


def test_long_text_is_refused_before_it_is_read():
    """More than 80 characters are no quantity."""
    with pytest.raises(NotUnderstood, match="is too long for a number with a unit"):
        quantity("1" * 5000)


NUMBERS = st.from_regex(r"[+\-−]?[0-9]{0,6}[.,]?[0-9]{0,4}", fullmatch=True)
TAILS = st.sampled_from(["", " Nm", "lbf·ft", " %", " 5", "e5", " kg m", "**9", ' "', "__import__"])


@settings(deadline=None)
@given(st.one_of(st.text(max_size=90), st.builds(str.__add__, NUMBERS, TAILS)))
def test_any_text_gives_a_finite_number_or_a_sentence(typed):
    """Whatever is typed, the outcome is a finite number or a message of one line."""
    told = ""
    try:
        value, unit = quantity(typed)
    except NotUnderstood as error:
        value, unit, told = 0.0, None, str(error)
    assert math.isfinite(value)
    assert unit is None or unit == unit_named(unit)
    assert len(told) < 250


@settings(deadline=None)
@given(st.floats(min_value=-99_999, max_value=99_999), st.sampled_from(["N·m", "lbf·ft", "mm", "kN", "°"]))
def test_shown_value_is_read_back(value, unit):
    """A value shown with two decimals and its unit is read back the same, with a point or a comma."""
    shown = f"{value:.2f}"
    assert (float(shown), unit) == tuple(quantity(f"{shown} {unit}"))
    assert (float(shown), unit) == tuple(quantity(f"{shown} {unit}".replace(".", ",", 1)))


@pytest.mark.parametrize(
    "typed", [10**400, -(10**400), 1e300, float("inf"), float("nan")], ids=["big", "low", "e300", "inf", "nan"]
)
def test_a_number_too_large_to_be_meant_is_refused(typed: float) -> None:
    """Beyond a million million nobody means a figure of a workshop."""
    with pytest.raises(NotUnderstood, match="too large to be meant"):
        units.quantity(typed)


@pytest.mark.parametrize("space", [" ", "\u00a0", "\u202f", "\u2009", "'"])
def test_thousands_may_be_parted_by_any_space(space: str) -> None:
    """A space, a no-break space, a thin space or an apostrophe parts thousands."""
    assert units.Quantity(1200.0, "N") == units.quantity(f"1{space}200 N")


def test_a_unit_may_start_with_a_figure() -> None:
    """1/s and 1/min are units, not a second number."""
    assert units.Quantity(5.0, "Hz") == units.quantity("5 1/s")
    assert units.Quantity(850.0, "rpm") == units.quantity("850 1/min")


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 1e308])
def test_no_conversion_gives_what_is_no_number(value: float) -> None:
    """What is not finite is refused before and after."""
    with pytest.raises(NotUnderstood, match="too large to be meant"):
        units.convert(value, "h", "s")
