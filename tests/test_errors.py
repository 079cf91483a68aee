"""The exception tree and the sentence a person reads."""

import pytest

from bitepoint import errors


@pytest.mark.parametrize("name", ["OutOfRange", "NotUnderstood", "BadData", "BadInput", "NotRecorded"])
def test_every_error_has_one_root(name):
    """Catching the root catches every error raised on purpose."""
    assert issubclass(getattr(errors, name), errors.BitepointError)


@pytest.mark.parametrize(
    ("name", "base"),
    [("OutOfRange", ValueError), ("NotUnderstood", ValueError), ("BadInput", ValueError), ("NotRecorded", OSError)],
)
def test_errors_are_also_the_usual_python_ones(name, base):
    """Code that knows only Python's own errors catches them too."""
    assert issubclass(getattr(errors, name), base)


def test_out_of_range_says_name_rule_value_and_advice():
    """The message names the thing, the rule, what was given and what to do."""
    error = errors.OutOfRange("offset_mm", "between 0 and 400 mm", "4000 mm", "Measure from the drive to the bolt.")
    expected = "offset_mm must be between 0 and 400 mm, but you gave 4000 mm. Measure from the drive to the bolt."
    assert expected == str(error)
    parts = {"name": "offset_mm", "rule": "between 0 and 400 mm", "given": "4000 mm"}
    assert parts | {"advice": "Measure from the drive to the bolt."} == vars(error)
