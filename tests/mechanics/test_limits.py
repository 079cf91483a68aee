"""Range checks: in range comes back unchanged, out of range is told in one sentence."""

import math
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of, whole, within

ADVICE = "Measure again."


@settings(deadline=None)
@given(st.floats(min_value=0, max_value=400))
def test_within_returns_what_it_was_given(value):
    """A figure in range comes back unchanged, limits included."""
    assert value == within("offset_mm", value, 0, 400, "mm", ADVICE)


@settings(deadline=None)
@given(st.one_of(st.floats(max_value=-1e-9), st.floats(min_value=400.0001), st.just(math.nan)))
def test_within_refuses_everything_else(value):
    """Below, above, infinite and not a number: all refused, none clamped."""
    with pytest.raises(OutOfRange, match=r"^offset_mm must be between 0 and 400 mm, but you gave .* mm\. Measure"):
        within("offset_mm", value, 0, 400, "mm", ADVICE)


@pytest.mark.parametrize("value", [True, False, "12", None, 3 + 0j, [1.0]])
def test_within_refuses_what_is_no_number(value):
    """A truth value, text, nothing, a complex number or a list is no figure."""
    with pytest.raises(OutOfRange) as caught:
        within("offset_mm", value, 0, 400, "mm", ADVICE)
    assert f"offset_mm must be between 0 and 400 mm, but you gave {value!r}. Measure again." == str(caught.value)


def test_within_without_unit_leaves_no_gap():
    """A figure without unit is told without a trailing blank."""
    with pytest.raises(OutOfRange) as caught:
        within("mu", 1.5, 0, 1, "", ADVICE)
    told = "mu must be between 0 and 1, but you gave 1.5. Measure again."
    assert told == str(caught.value)


@settings(deadline=None)
@given(st.integers(1, 24))
def test_whole_returns_what_it_was_given(value):
    """A whole number in range comes back unchanged."""
    assert value == whole("bolts", value, 1, 24, ADVICE)


@pytest.mark.parametrize("value", [0, 25, 6.0, True, "6", None, 10**400, math.nan, math.inf], ids=str)
def test_whole_refuses_everything_else(value):
    """Out of range, a float even when whole, a truth value, text: refused."""
    with pytest.raises(OutOfRange) as caught:
        whole("bolts", value, 1, 24, ADVICE)
    told = str(caught.value)
    assert told.startswith("bolts must be a whole number from 1 to 24, but you gave ")
    assert told.endswith(". Measure again.")
    assert len(told) < 200


def test_one_of_lists_what_is_allowed():
    """What is not on the list is refused, and the list shown."""
    allowed = ("8.8", "10.9")
    assert allowed[0] == one_of("prop_class", allowed[0], allowed, ADVICE)
    with pytest.raises(OutOfRange) as caught:
        one_of("prop_class", "9", allowed, ADVICE)
    told = "prop_class must be one of 8.8, 10.9, but you gave '9'. Measure again."
    assert told == str(caught.value)


@pytest.mark.parametrize("value", [10**400, -(10**400), 10**5000], ids=["400", "-400", "5000"])
def test_a_number_with_hundreds_of_digits_is_told_by_its_length(value):
    """Neither check falls over a number that no float holds and no message could print."""
    told = f"but you gave a number of {401 if abs(value) == 10**400 else 5001} digits. Measure again."
    for check in (lambda: within("mu", value, 0, 1, "", ADVICE), lambda: whole("bolts", value, 1, 24, ADVICE)):
        with pytest.raises(OutOfRange) as caught:
            check()
        assert str(caught.value).endswith(told)


@pytest.mark.parametrize(
    "value", [np.int64(4), np.int32(4), np.uint8(4), np.float32(4), Decimal(4), Fraction(4)], ids=lambda v: repr(v)
)
def test_a_number_of_another_library_is_refused_for_what_it_is(value):
    """4 of another kind is in range: the message says that the kind is wrong, not the figure, and what to write."""
    for check in (lambda: within("bolts", value, 0, 9, "", ADVICE), lambda: whole("bolts", value, 1, 9, ADVICE)):
        with pytest.raises(OutOfRange) as caught:
            check()
        assert str(caught.value).startswith(f"bolts must be a plain number of Python, but you gave {value!r}. Write ")


def test_a_float_of_numpy_is_a_float():
    """numpy's usual float is one of Python's, and is taken."""
    assert within("mu", np.float64(0.5), 0, 1, "", ADVICE) == 0.5
