"""Lesson 1, how a clutch carries torque: outcomes and words that its exercises share."""

TRACES = "Names the parts and traces the torque to the gearbox"
CARRIES = "Works out what a clutch carries and its reserve"
LIFTS = "Works out the travel and lift that free the plate"
SPRINGS = "Reads how the clamp load changes as the facing wears"
DAMPS = "Tells what damper and flywheel do and which parts go together"


def table_of(*rows: tuple[str, str]) -> tuple[tuple[str, ...], ...]:
    """Return a table of figures with its headings."""
    return (("Figure", "Value"), *rows)


_WORDS: dict[float, str] = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 8: "eight"}


def count_word(count: float) -> str:
    """Return a count of cylinders or of their strokes as a word, where there is one."""
    return _WORDS.get(count, f"{count:g}")
