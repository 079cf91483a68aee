"""Tyre size to circumference."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood, OutOfRange
from bitepoint.mechanics import tyres

SIZES = st.tuples(st.integers(135, 325), st.sampled_from(range(25, 85, 5)), st.integers(12, 22))


@given(SIZES)
def test_a_size_is_read_as_written(size):
    """Width, aspect and rim come back from the side wall's writing, with and without blanks and index."""
    width, aspect, rim = size
    for text in (f"{width}/{aspect} R{rim}", f"{width}/{aspect}R{rim}", f" {width} / {aspect} ZR {rim} 91V"):
        assert tuple(tyres.tyre_size(text)) == size


@pytest.mark.parametrize(
    ("size", "diameter", "free", "rolling"),
    [
        ("195/65 R15", 634.5, 1993.3, 1935.2),
        ("225/45 R17", 634.3, 1992.7, 1934.6),
        ("225/40 R18", 637.2, 2001.8, 1943.5),
        ("215/65 R17", 711.3, 2234.6, 2169.5),
        ("175/65 R14", 583.1, 1831.9, 1778.5),
        ("165/65 R14", 570.1, 1791.0, 1738.8),
    ],
)
def test_common_sizes(size, diameter, free, rolling):
    """Diameter, unloaded and rolling circumference of common sizes, to a tenth of a millimetre."""
    width, aspect, rim = tyres.tyre_size(size)
    found = tyres.tyre_diameter_mm(width, aspect_percent=aspect, rim_in=rim)
    assert pytest.approx(diameter, abs=0.051) == found
    assert pytest.approx(free, abs=0.06) == tyres.unloaded_circumference_mm(found)
    assert pytest.approx(rolling, abs=0.06) == tyres.rolling_circumference_mm(found)


@given(st.floats(300, 1200))
def test_a_rolling_tyre_goes_less_far_than_its_free_circumference(diameter):
    """Both printed rules give 2 to 5 % less than the unloaded circumference, and differ by 1 %."""
    free = tyres.unloaded_circumference_mm(diameter)
    first, second = tyres.rolling_circumference_mm(diameter), tyres.loaded_radius_circumference_mm(diameter)
    assert 0.95 * free < second < first < 0.98 * free


@given(st.floats(300, 1200), st.floats(0, 249), st.floats(0.1, 1))
def test_circumference_grows_with_speed(diameter, speed, more):
    """A faster tyre grows a little."""
    slow, fast = (tyres.rolling_circumference_mm(diameter, speed_kmh=v) for v in (speed, speed + more))
    assert slow < fast


def test_turns_per_km():
    """205/55 R16: 518.9 turns rolling, 503.7 by the unloaded circumference."""
    assert pytest.approx(518.9, abs=0.05) == tyres.turns_per_km(1927.295)
    assert pytest.approx(503.7, abs=0.05) == tyres.turns_per_km(1985.172)


@pytest.mark.parametrize(
    "text", ["", "205", "205-55-16", "20555R16", "205/55 R16" + "0" * 60, "２０５/55 R16", "abc/de R16"]
)
def test_what_is_no_size_is_said(text):
    """Anything else is answered with how to write it."""
    with pytest.raises(NotUnderstood, match=r"is no tyre size\. Write it as on the sidewall, such as 205/55 R16\.$"):
        tyres.tyre_size(text)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("205/55R16.5", (205, 55, 16.5)),
        ("8.5R17.5", None),
        ("215/75 R17.5", (215, 75, 17.5)),
        ("195/70R15C", (195, 70, 15)),
        ("225/65 R16C 112/110R", (225, 65, 16)),
        ("LT245/75R16", (245, 75, 16)),
        ("155 R13", (155, 80, 13)),
        ("155R13 78T", (155, 80, 13)),
        ("185 R14C 102/100Q", (185, 80, 14)),
        ("165/80 R13", (165, 80, 13)),
        ("205/55 R160", None),
        ("205/55 R16X", None),
        ("155 R13.2", None),
    ],
)
def test_half_inches_vans_and_sizes_without_a_ratio(text, size):
    """Nothing is cut off: half an inch of rim counts, the C of a van may stand, 80 % is meant where no ratio stands."""
    if size is None:
        with pytest.raises(NotUnderstood, match="is no tyre size"):
            tyres.tyre_size(text)
    else:
        assert tuple(tyres.tyre_size(text)) == size


def test_swapped_figures_are_refused():
    """Aspect and width changed about do not give a diameter."""
    with pytest.raises(OutOfRange, match="width_mm must be between 100 and 400 mm, but you gave 55 mm"):
        tyres.tyre_diameter_mm(55, aspect_percent=205, rim_in=16)
