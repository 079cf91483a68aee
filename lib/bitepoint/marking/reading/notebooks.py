"""Record lines out of a notebook, without loading its pictures or running anything."""

import json
import re
from codecs import BOM_UTF8
from html.parser import HTMLParser

import msgspec
from msgspec import Raw, Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.record import Line, read_without_text
from bitepoint.marking.reading.limits import Counter

MIME = "application/vnd.bitepoint.record+json"
FORMAT = 4
MAX_PARTS = 100_000
MAX_RECORD = 1_000_000
_LINE_STRING = re.compile(rb'"\{\\"n\\":(?:[^"\\\n]|\\.)*+"')


class _Data(Struct):
    record: Raw = msgspec.field(name=MIME, default=Raw(b"null"))
    html: Raw = msgspec.field(name="text/html", default=Raw(b"null"))


class _Carried(Struct):
    lines: list[Raw] = []


class _Output(Struct):
    data: _Data | None = None


class _Cell(Struct):
    outputs: list[_Output] = []


class _Notebook(Struct):
    nbformat: int
    cells: list[_Cell] = []


class FromNotebook(Struct, frozen=True):
    """What a notebook holds: record lines, what is wrong as sentences, and the card of each exercise as it stands."""

    lines: list[Line]
    problems: list[str]
    cards: dict[str, bytes] = {}


def read_notebook(content: bytes, allowed: Counter) -> FromNotebook:
    """Return the record lines in a notebook's outputs, each counted, and the cards beside them.

    A damaged notebook still gives the lines that can be found in its text.

    Raises
    ------
    BadInput
        The notebook is of another format, or has more parts than any that the course makes; too many lines.
    """
    content = content.removeprefix(BOM_UTF8)
    # Counted before it is taken apart: an empty cell of two bytes becomes an object of two hundred.
    if content.count(b"{") > MAX_PARTS:
        raise BadInput(f"has more than {MAX_PARTS:,} parts and was not read. Ask for the hand-in zip.")
    try:
        found = msgspec.json.decode(content, type=_Notebook)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError):
        return _salvaged(content, allowed)
    if found.nbformat != FORMAT:
        raise BadInput(
            f"is a notebook of format {found.nbformat}, and only format {FORMAT} is read. "
            "Ask the learner to open and save it in the course's JupyterLab."
        )
    all_lines: list[Line] = []
    problems: list[str] = []
    cards: dict[str, bytes] = {}
    for data in (output.data for cell in found.cells for output in cell.outputs if output.data):
        lines = [read_without_text(_bytes(text)) for text in _texts(bytes(data.record), problems, allowed)]
        exercises = {line.record.exercise for line in lines if line.record}
        if len(exercises) == 1 and len(bytes(data.html)) <= MAX_RECORD:
            cards[exercises.pop()] = bytes(data.html)
        all_lines += lines
    return FromNotebook(all_lines, problems, cards)


class _Words(HTMLParser):
    """Collects what a person reads of a card."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []

    def handle_data(self, data: str) -> None:
        self.words.append(data.strip())


def card_words(html: bytes, most: int = 1200) -> str:
    """Return the words of a card out of a notebook, "" when there are none."""
    try:
        found = msgspec.json.decode(html, type=str | list[str] | None)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError):
        return ""
    reader = _Words()
    reader.feed(found if isinstance(found, str) else "".join(found or ()))
    return " ".join(word for word in reader.words if word)[:most]


def _texts(record: bytes, problems: list[str], allowed: Counter) -> list[str]:
    if len(record) > MAX_RECORD:
        problems.append("one output holds a record of more than 1 MB, which was left out.")
        return []
    try:
        carried = msgspec.json.decode(record, type=_Carried | None)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError):
        problems.append("one output with a record cannot be read and was left out.")
        return []
    found = carried.lines if carried else []
    allowed.take(len(found))
    texts = [_text(bytes(item)) for item in found]
    if None in texts:
        problems.append(f"{texts.count(None)} record lines in an output are no text and were left out.")
    return [text for text in texts if text is not None]


def _text(item: bytes) -> str | None:
    try:
        return msgspec.json.decode(item, type=str)
    # A part that is kept raw is not looked at before this: one flipped byte in it shows here.
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError):
        return None


def _salvaged(content: bytes, allowed: Counter) -> FromNotebook:
    lines: list[Line] = []
    for match in _LINE_STRING.finditer(content):
        allowed.take()
        try:
            lines.append(read_without_text(_bytes(json.loads(match[0]))))
        except (ValueError, RecursionError):
            continue
    what = f"{len(lines)} record lines were found in it and read" if lines else "no record line was found in it"
    return FromNotebook(lines, [f"is damaged as a notebook; {what}. Ask for the hand-in zip."])


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "replace")
