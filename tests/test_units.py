"""Quantities as people type them, and conversions with exact factors."""

import math
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint import units
from bitepoint.errors import Ambiguous, NotUnderstood
from bitepoint.units import convert, dimension_of, misspelt, quantity, unit_named, units_of

DIMENSIONS = (
    "torque", "length", "force", "mass", "pressure", "speed", "angle", "volume", "time", "rotational speed",
    "frequency", "energy", "temperature", "temperature difference", "share", "count",
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
        ("1,200", "1,200 can mean 1200 or 1.200. Write 1200, or 1.2."),
        ((1, 200), "1,200 can mean 1200 or 1.200. Write 1200, or 1.2."),
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


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("84 Nm ± 2", "'84 Nm ± 2' has a tolerance. Write the figure alone: 84 Nm."),
        ("84 +/- 2 Nm", "'84 +/- 2 Nm' has a tolerance. Write the figure alone: 84."),
        ("84–86", "'84–86' is a range. Write one number with its unit."),
        ("84-86 Nm", "'84-86 Nm' is a range. Write one number with its unit."),
        ("84 to 86 Nm", "'84 to 86 Nm' is a range. Write one number with its unit."),
        ("84 Nm 5", "'84 Nm 5' goes on after its unit. Write one number with its unit."),
        ("84 Nm - 86 Nm", "'84 Nm - 86 Nm' goes on after its unit. Write one number with its unit."),
        ("8.4e1 Nm", "'8.4e1 Nm' is written with a power of ten. Write it out: 84 Nm."),
        ("8.4e99", "'8.4e99' is written with a power of ten. Write it out in plain digits."),
        ("5×10^3 N", "'5×10^3 N' is written with a power of ten. Write it out: 5000 N."),
        ("0x54", "'0x54' is no decimal number. Write it in the digits 0 to 9."),
        ("1.200,5", "1.200,5 has both a point and a comma. Write 1200.5 without the mark of the thousands."),
        ("1,200.5 N", "1,200.5 has both a point and a comma. Write 1200.5 without the mark of the thousands."),
        ("1.200.000", "1.200.000 has two marks. Write 1200000 without the marks of the thousands."),
        ("1/2 in", "'1/2 in' is a fraction. Write it as a decimal: 0.5 in."),
        ("1 1/4 turns", "'1 1/4 turns' is a fraction. Write it as a decimal: 1.25 turns."),
        ("½ in", "'½ in' is a fraction. Write it as a decimal: 0.5 in."),
        ("3/0", "'3/0' is a fraction. Write it as a decimal."),
        ("1234567890123", "'1234567890123' has more than 12 digits in a row. Round it."),
        ("0.1234567890123 mm", "'0.1234567890123 mm' has more than 12 digits in a row. Round it."),
        ("2 mPa", "'mPa' with a small m is a thousandth of a pascal. Write MPa if megapascals are meant."),
        ("5 ms", "The unit 'ms' is not known here. Write it as on the data sheet."),
    ],
)
def test_what_is_wrong_is_said_and_what_to_write(typed, told):
    """A tolerance, a range, a fraction, a power of ten, a second figure: each is named for what it is."""
    with pytest.raises(NotUnderstood) as caught:
        quantity(typed)
    assert told == str(caught.value)


@pytest.mark.parametrize(
    ("typed", "told", "readings"),
    [
        ("1.200", "1.200 can mean 1200 or 1.200. Write 1200, or 1.2.", (1200, 1.2)),
        ("1,234 mm", "1,234 can mean 1234 or 1.234. Write 1234, or 1.2340 with one more decimal.", (1234, 1.234)),
        ("-12,500", "12,500 can mean 12500 or 12.500. Write 12500, or 12.5.", (-12500, -12.5)),
        ("3.000", "3.000 can mean 3000 or 3.000. Write 3000, or 3.0.", (3000, 3)),
    ],
)
def test_three_decimals_are_asked_back_with_both_readings(typed, told, readings):
    """One mark and three digits after it: thousands here, decimals there, so both readings are named."""
    with pytest.raises(Ambiguous) as caught:
        quantity(typed)
    assert told == str(caught.value)
    assert pytest.approx(readings) == caught.value.readings


@pytest.mark.parametrize(
    ("typed", "value"),
    [("0.200", 0.2), ("1.20", 1.2), ("0,200", 0.2), ("1,2", 1.2), ("1.2000", 1.2), ("1200.500", 1200.5),
     (".200", 0.2), ("1 200.500", 1200.5), ("1.2340 mm", 1.234), ("6.708", 6.708), ("6.500 mm", 6.5)],
)  # fmt: skip
def test_what_has_one_reading_is_never_asked_back(typed, value):
    """A nought before the mark, not three digits after it, a point before other than two noughts, or a unit: one reading."""
    assert pytest.approx(value, rel=1e-12) == quantity(typed).value


@pytest.mark.parametrize("value", [1.234, 12.5, 999.999, -3.545, 1200.5, 0.125, 1234567.125, 4.0])
def test_what_the_project_writes_is_read_back(value):
    """A figure written with three decimals by the project itself is not asked back."""
    text = units.unambiguous(f"{value:.3f}")
    assert pytest.approx(value, rel=1e-12) == quantity(text).value
    assert units.unambiguous("12.50") == "12.50"


@pytest.mark.parametrize(
    ("typed", "value", "unit"),
    [
        ("62 foot-lbs", 62, "lbf·ft"),
        ("62 pounds-feet", 62, "lbf·ft"),
        ("62 pounds feet", 62, "lbf·ft"),
        ("1″", 1, "in"),
        ('1"', 1, "in"),
        ("500 cN·m", 500, "cN·m"),
        ("500 cNm", 500, "cN·m"),
        ("3 thou", 3, "thou"),
        ("2 MPa", 2, "MPa"),
        ("2 mpa", 2, "MPa"),
        ("84,2 Nm", 84.2, "N·m"),
        ("62 ft.lbs", 62, "lbf·ft"),
        ("62 pound feet", 62, "lbf·ft"),
        ("84 N m", 84, "N·m"),
        ("٨٤ Nm", 84, "N·m"),
        ("850 min-1", 850, "rpm"),
    ],
)
def test_spellings_of_the_workshop(typed, value, unit):
    """Pounds, feet, inches, hundredths of a newton metre and thousandths of an inch as a workshop writes them."""
    assert (value, unit) == tuple(quantity(typed))


def test_small_units_have_their_exact_size():
    """100 cN·m are one newton metre; a thou is a thousandth of an inch, 0.0254 mm by definition."""
    assert pytest.approx(1, rel=1e-13) == convert(100, "cN·m", "N·m")
    assert pytest.approx(0.0254, rel=1e-13) == convert(1, "thou", "mm")


def test_a_temperature_is_no_rise_of_temperature():
    """12 °C never becomes 12 K."""
    assert ("temperature", "temperature difference") == (dimension_of("°C"), dimension_of("K"))
    with pytest.raises(NotUnderstood, match="°C measures temperature, but K measures temperature difference"):
        convert(12, "°C", "K")


@pytest.mark.parametrize("typed", ["-0 N·m", "−0.0", -0.0])
def test_nought_has_no_sign(typed):
    """Nought is shown without a minus."""
    assert str(quantity(typed).value) == "0.0"


def test_a_whole_number_beyond_floats_is_refused_by_a_conversion():
    """10**400 is refused in one line, not by Python's own overflow."""
    with pytest.raises(NotUnderstood, match="too large to be meant"):
        convert(10**400, "N·m", "lbf·ft")


_TYPED = st.text(st.sampled_from("0123456789.,·Nmkgxe/+-−–± '½¼…to^*ABCDEFabcdef⁄٣"), max_size=14)


@given(_TYPED)
def test_what_is_read_as_one_figure_at_once_is_none_of_the_wrong_forms(text: str) -> None:
    """A text that looks like one figure with its unit is none of the forms that are refused by name."""
    if misspelt._SINGLE(text):
        assert not any(pattern.match(text.strip()) for pattern, _ in misspelt._FORMS)


def test_what_was_typed_before_is_read_and_refused_again() -> None:
    """A text that many learners type is read once; its advice is of whoever asks, and no error is kept in its place."""
    assert quantity("84,2 Nm") == quantity("84,2 Nm", advice="Write it so.")
    for advice in ("Write it so.", "Write it otherwise.") * 2:
        with pytest.raises(NotUnderstood, match=advice):
            quantity("figures", advice=advice)
