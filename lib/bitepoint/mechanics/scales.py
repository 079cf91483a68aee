"""Reading a scale: vernier caliper, micrometer, dial gauge with a counter of turns; and where the hands
stand.

Each instrument has two functions that undo each other: from what is seen to the figure, and from the figure
to what a picture must show. Construction of the scales: common practice.
"""

from math import floor

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within

VERNIER_LINES = {0.02: 50, 0.05: 20}
"""Least count [mm] and number of lines of the vernier: 50 lines on 49 mm, 20 lines on 19 (or 39) mm (source: derived)."""


def vernier_reading_mm(main_mm: int, *, line: int, least_count_mm: float) -> float:
    r"""Reading of a vernier caliper: whole millimetres left of the vernier's zero, plus the line that meets a line.

    .. math:: x = m + k \, c

    Parameters
    ----------
    main_mm : int
        Whole millimetres before the zero of the vernier, 0 to 1000.
    line : int
        Number of the vernier line that meets a line of the main scale, counted from its zero: 0 to 49 or 0 to
        19.
    least_count_mm : float
        0.02 or 0.05 mm, as printed on the slider.

    Source
    ------
    common-practice

    Examples
    --------
    >>> vernier_reading_mm(12, line=17, least_count_mm=0.02)
    12.34
    >>> vernier_reading_mm(7, line=13, least_count_mm=0.05)
    7.65
    """
    whole("main_mm", main_mm, 0, 1000, "Whole millimetres before the zero of the vernier.")
    lines = _lines(least_count_mm)
    whole("line", line, 0, lines - 1, "Count the vernier line that meets a line of the main scale.")
    return main_mm + line / lines


def vernier_setting(reading_mm: float, *, least_count_mm: float) -> tuple[int, int]:
    """Whole millimetres and vernier line of the nearest position that the scale can show.

    Source
    ------
    common-practice
    No published figure: the inverse of the reading, which is checked.

    Examples
    --------
    >>> vernier_setting(12.34, least_count_mm=0.02)
    (12, 17)
    """
    within("reading_mm", reading_mm, 0, 1000, "mm", "A caliper reads up to its length.")
    lines = _lines(least_count_mm)
    steps = round(reading_mm * lines)
    return steps // lines, steps % lines


def micrometer_reading_mm(sleeve_mm: int, *, half_line: bool, thimble: int) -> float:
    r"""Reading of a metric micrometer: millimetres and half millimetres of the sleeve, plus hundredths.

    Pitch 0.5 mm, 50 marks on the thimble.     The usual mistake is to miss the half-millimetre line.

    Parameters
    ----------
    sleeve_mm : int
        Whole millimetres that the thimble has uncovered, 0 to 500.
    half_line : bool
        Whether a half-millimetre line stands uncovered after it.
    thimble : int
        Mark of the thimble at the line of the sleeve, 0 to 49.

    Source
    ------
    common-practice

    Examples
    --------
    >>> micrometer_reading_mm(12, half_line=True, thimble=16)
    12.66
    """
    whole("sleeve_mm", sleeve_mm, 0, 500, "Count the uncovered whole millimetres.")
    whole("thimble", thimble, 0, 49, "The thimble has 50 marks, 0 to 49.")
    if not isinstance(half_line, bool):
        raise OutOfRange("half_line", "True or False", repr(half_line)[:60], "Say whether the half line is uncovered.")
    return (sleeve_mm * 100 + 50 * half_line + thimble) / 100


def micrometer_setting(reading_mm: float) -> tuple[int, bool, int]:
    """Whole millimetres, half line, thimble mark of the nearest position that the scale can show.

    Source
    ------
    common-practice
    No published figure: the inverse of the reading, which is checked.

    Examples
    --------
    >>> micrometer_setting(12.66)
    (12, True, 16)
    """
    within("reading_mm", reading_mm, 0, 500, "mm", "A micrometer reads up to its frame.")
    hundredths = round(reading_mm * 100)
    return hundredths // 100, hundredths % 100 >= 50, hundredths % 50


def dial_gauge_reading_mm(hand: float, *, turns: int, preload_mm: float = 1.0) -> float:
    r"""Movement of a dial gauge's plunger since it was set: plus when pushed in, minus when it came out.

    One turn of the large hand is 1 mm, one line 0.01 mm; the small hand counts whole turns. The gauge was set
    with the plunger pushed in by the preload, so that it can move both ways.

    .. math:: x = n + h/100 - x_0

    Parameters
    ----------
    hand : float
        Large hand on the outer scale, which runs clockwise, 0 to below 100 lines; tenths of a line may be
        estimated.
    turns : int
        Whole turns that the small hand has passed, 0 to 10.
    preload_mm : float
        Where it was set, 0 to 10 mm; whole millimetres when the dial was turned to zero.

    Source
    ------
    common-practice
    No published figure: counts turns and divisions, exact.

    Examples
    --------
    The small hand has not reached 1, the large hand stands at 85: fifteen hundredths out.

    >>> dial_gauge_reading_mm(85, turns=0), dial_gauge_reading_mm(7, turns=1)
    (-0.15, 0.07)
    """
    within("hand", hand, 0, 99.999_999, "lines", "The dial has 100 lines; 100 is 0 of the next turn.")
    whole("turns", turns, 0, 10, "Read the small hand first.")
    within("preload_mm", preload_mm, 0, 10, "mm", "Where the gauge was set, usually 1 mm.")
    return turns + hand / 100 - preload_mm


def dial_gauge_hands(reading_mm: float, *, preload_mm: float = 1.0) -> tuple[int, float]:
    """Whole turns of the small hand and lines of the large hand, to a hundredth of a line.

    Validity
    --------
    preload + reading 0 to 10.999 mm: the plunger neither hangs free nor touches its stop.

    Source
    ------
    common-practice
    No published figure: the inverse of the reading, exact.

    Examples
    --------
    >>> dial_gauge_hands(-0.15), dial_gauge_hands(0.07)
    ((0, 85.0), (1, 7.0))
    """
    within("preload_mm", preload_mm, 0, 10, "mm", "Where the gauge was set, usually 1 mm.")
    within(
        "reading_mm",
        reading_mm,
        -preload_mm,
        10.999 - preload_mm,
        "mm",
        "Set the gauge with more or less preload.",
    )
    lines = round((reading_mm + preload_mm) * 100, 2)
    turns = floor(lines / 100)
    return turns, round(lines - 100 * turns, 2)


def inner_scale_lines(hand: float) -> float:
    """The same large hand on the inner scale, which runs the other way: used when the plunger comes out.

    Source
    ------
    common-practice
    No published figure: counts lines, exact.

    Examples
    --------
    >>> inner_scale_lines(85)
    15.0
    """
    within("hand", hand, 0, 99.999_999, "lines", "The dial has 100 lines; 100 is 0 of the next turn.")
    return 100.0 - hand if hand else 0.0


def _lines(least_count_mm: float) -> int:
    lines = VERNIER_LINES.get(least_count_mm) if isinstance(least_count_mm, float) else None
    if lines is None:
        raise OutOfRange("least_count_mm", "0.02 or 0.05 mm", repr(least_count_mm)[:60], "It is printed on the slider.")
    return lines
