"""Rows of a log that cannot be used: counted by reason, said in a line each, and too many of them refused."""

from collections.abc import Sequence

from msgspec import Struct

from bitepoint.errors import BadInput

FEWEST_ROWS, MOST_LEFT_OUT, MOST_REPEATED = 20, 0.10, 0.50
_SHOWN_ROWS = 3
_REASONS = {
    "empty": "with an empty cell",
    "text": "with text where a number belongs",
    "range": "with a figure no car shows",
    "fields": "with another number of fields",
    "back": "whose time goes back",
    "repeated": "whose time stands in the row before",
}
_ADVICE = {
    "empty": "Export all columns on one time base.",
    "text": "Check decimal sign, separator and column in the map.",
    "range": "Check the unit in the map.",
    "fields": "Check the separator in the map.",
    "back": "Cut the file where a second drive begins.",
    "repeated": "Export the time with fractions of a second.",
}


class LeftOut(Struct, frozen=True):
    """Rows that were left out for one reason: how many, and the numbers of the first lines in the file."""

    reason: str
    count: int
    lines: tuple[int, ...]
    first: str

    def told(self) -> str:
        """Return it in one line."""
        lines = ", ".join(map(str, self.lines)) + (" and others" if self.count > len(self.lines) else "")
        return f"{self.count} row{'s' if self.count != 1 else ''} left out {_REASONS[self.reason]} (line {lines})"


class Tally:
    """Counts what is left out: reason, line, and where and why in the first line of it."""

    def __init__(self) -> None:
        self.found: dict[str, tuple[int, list[int], str]] = {}

    def note(self, reason: str, line: int, told: str) -> None:
        count, lines, first = self.found.get(reason, (0, [], told))
        self.found[reason] = (count + 1, [*lines, line] if len(lines) < _SHOWN_ROWS else lines, first)

    def left_out(self) -> tuple[LeftOut, ...]:
        return tuple(
            LeftOut(reason, count, tuple(lines), first) for reason, (count, lines, first) in self.found.items()
        )


def check_left_out(name: str, read: int, kept: int, left_out: Sequence[LeftOut]) -> None:
    """Raise `BadInput` where too much was left out, or too little is there."""
    if not read:
        raise BadInput(f"{name}: has no row of figures. Check header and first in the column map.")
    worst = max(left_out, key=lambda one: one.count, default=None)
    if worst:
        repeated = sum(one.count for one in left_out if one.reason == "repeated")
        other = sum(one.count for one in left_out) - repeated
        if other > MOST_LEFT_OUT * read or repeated > MOST_REPEATED * read:
            worst = worst if other <= MOST_LEFT_OUT * read else max(
                (one for one in left_out if one.reason != "repeated"), key=lambda one: one.count
            )  # fmt: skip
            told = f"{name}: line {worst.lines[0]}: {worst.first}; the same in {worst.count} of {read} rows"
            raise BadInput(f"{told}. {_ADVICE[worst.reason]}")
    if kept < FEWEST_ROWS:
        raise BadInput(f"{name}: has {kept} rows that can be used, at least {FEWEST_ROWS} are needed. Record longer.")
