"""A proposal of a column map from the head of a file: every guess with its reason, none taken where two fit."""

import csv
import re
from collections.abc import Iterator, Sequence
from os import PathLike
from typing import Any

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.workshop.own_logs.cells import number_reader, read_clock
from bitepoint.workshop.own_logs.headings import channels_of, name_and_unit, unit_of
from bitepoint.workshop.own_logs.log_map import CHANNELS, CLOCK, NAMES, NEEDED, SEPARATORS
from bitepoint.workshop.own_logs.map_file import written
from bitepoint.workshop.own_logs.table import content_of

_HEAD_BYTES, _HEAD_LINES, _SHORTEST_TABLE = 65_536, 60, 3


class Guess(Struct, frozen=True):
    """What a column is taken for; `why` is what in the file says so."""

    channel: str
    column: str | int
    unit: str
    why: str


class Proposal(Struct, frozen=True):
    """The map as far as the file says it, to be compared by a person; `questions` are what it does not say.

    `text` is the map as a file, not confirmed; what is asked is empty in it and stands above as a comment.
    """

    guesses: tuple[Guess, ...]
    questions: tuple[str, ...]
    text: str

    def told(self) -> tuple[str, ...]:
        """Return every guess and question, a line each."""
        guesses = (
            f"{NAMES[g.channel]}: column {g.column!r} in {g.unit or 'whole numbers'}, {g.why}" for g in self.guesses
        )
        return *guesses, *(f"To decide: {q}" for q in self.questions)


def propose_map(source: str | PathLike[str] | bytes, *, name: str = "") -> Proposal:
    """Propose a column map from the first lines of a file.

    Raises
    ------
    BadInput
        The file cannot be read, or its first lines are no table.
    """
    name, content = content_of(source, name)
    text, encoding, doubts = _text(content)
    lines = text.splitlines()[:_HEAD_LINES]
    separator = _separator(lines, name)
    table = list(csv.reader(lines, delimiter=SEPARATORS[separator]))
    first = _first_row(table, name)
    decimal, doubt = _decimal(table[first:], separator)
    header = next((i for i in range(first - 1, -1, -1) if _names(table[i], table[first])), -1)
    keys: dict[str, Any] = {
        "separator": separator, "decimal": decimal, "header": header + 1, "first": first + 1, "encoding": encoding
    }  # fmt: skip
    if header < 0:
        questions = ["No line of names was found: give the number of each column."]
        return Proposal((), (*doubts, *doubt, *questions), written({}, keys, questions=(*doubts, *doubt, *questions)))
    guesses, questions = _guesses(table, header, first)
    asked = (*doubts, *doubt, *questions)
    columns = {g.channel: (g.column, g.unit) for g in guesses}
    return Proposal(tuple(guesses), asked, written(columns, keys, questions=asked))


def _text(content: bytes) -> tuple[str, str, tuple[str, ...]]:
    head = content[:_HEAD_BYTES]
    if len(content) > _HEAD_BYTES:
        head = head[: head.rfind(b"\n") + 1] or head
    try:
        return head.decode("utf-8-sig"), "utf-8", ()
    except UnicodeDecodeError:
        doubt = 'The file is no UTF-8. If its letters read right, keep encoding = "latin-1".'
        return head.decode("latin-1"), "latin-1", (doubt,)


def _separator(lines: Sequence[str], name: str) -> str:
    """Return the separator that cuts most lines into the same number of fields, two or more."""
    counts = {}
    for key, sign in SEPARATORS.items():
        widths = [line.count(sign) for line in lines if line.strip()]
        usual = max(set(widths), key=widths.count, default=0)
        counts[key] = (widths.count(usual) if usual else 0, usual)
    # A semicolon or a tab wins over commas, which may be decimal signs.
    best = next((key for key in (";", "tab", ",") if counts[key][0] >= _SHORTEST_TABLE), None)
    if best is None:
        raise BadInput(f"{name}: its first lines are no table with ; or , or tabs between the fields. Save it as CSV.")
    return best


def _is_figure(cell: str) -> bool:
    for read in (number_reader("."), number_reader(","), read_clock):
        try:
            if read(cell) is not None:
                return True
        except ValueError:
            continue
    return False


def _first_row(table: Sequence[Sequence[str]], name: str) -> int:
    for i, fields in enumerate(table):
        if len(fields) > 1 and sum(map(_is_figure, fields)) >= max(2, len(fields) / 2):
            return i
    raise BadInput(f"{name}: none of its first {len(table)} lines holds figures. Write the column map by hand.")


def _decimal(table: Sequence[Sequence[str]], separator: str) -> tuple[str, tuple[str, ...]]:
    cells = [cell for fields in table for cell in fields]
    comma = sum(bool(re.fullmatch(r"\s*[+-]?\d*,\d+\s*", c)) for c in cells) if separator != "," else 0
    point = sum(bool(re.fullmatch(r"\s*[+-]?\d*\.\d+\s*", c)) for c in cells)
    if comma and point:
        return ".", (f"{point} figures have a point, {comma} a comma: which one is the decimal sign?",)
    return ("," if comma else "."), ()


def _names(fields: Sequence[str], row: Sequence[str]) -> bool:
    """Whether a line holds the names: as wide as the figures, with a word in it that is no unit alone."""
    wide = len(fields) > 1 and abs(len(fields) - len(row)) <= 1
    return wide and any(channels_of(cell) for cell in fields) and not any(map(_is_figure, filter(str.strip, fields)))


def _guesses(table: Sequence[Sequence[str]], header: int, first: int) -> tuple[list[Guess], list[str]]:
    guesses, questions = [], []
    for channel in CHANNELS:
        fit = list(_fitting(channel, table, header, first))
        if len(fit) == 1:
            guesses.append(fit[0])
            if not fit[0].unit and channel != "gear":
                questions.append(f"In which unit is {NAMES[channel]} (column {fit[0].column!r})?")
        elif fit:
            seen = " or ".join(repr(g.column) for g in fit)
            questions.append(f"Which column is {NAMES[channel]}: {seen}? Nothing was taken.")
        elif channel in NEEDED:
            questions.append(f"Which column is {NAMES[channel]}? No name says so.")
    return guesses, questions


def _fitting(channel: str, table: Sequence[Sequence[str]], header: int, first: int) -> Iterator[Guess]:
    names = [cell.strip() for cell in table[header]]
    for i, cell in enumerate(names):
        below = table[header + 1][i] if first - header > 1 and i < len(table[header + 1]) else ""
        unit = unit_of(channel, name_and_unit(cell)[1], below, cell)
        if channel == "time" and not unit and i < len(table[first]) and ":" in table[first][i]:
            unit = CLOCK
        if channel in channels_of(cell):
            column: str | int = cell if names.count(cell) == 1 else i + 1
            why = f"by the name over it{f' and the unit {unit}' if unit else ''}"
            yield Guess(channel, column, unit, why)
