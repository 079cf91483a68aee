"""Record lines out of a notebook, without loading its pictures or running anything."""

import json
import re
from html.parser import HTMLParser

import msgspec
from msgspec import Raw, Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.record import Line, read_line

MIME = "application/vnd.bitepoint.record+json"
FORMAT = 4
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


def notebook_lines(content: bytes) -> tuple[list[Line], list[str]]:
    """Return the record lines in a notebook's outputs, and what is wrong, each as one sentence.

    A damaged notebook still gives the lines that can be found in its text.

    Raises
    ------
    BadInput
        The notebook is of another format.
    """
    try:
        found = msgspec.json.decode(content, type=_Notebook)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError):
        return _salvaged(content)
    if found.nbformat != FORMAT:
        raise BadInput(
            f"is a notebook of format {found.nbformat}, and only format {FORMAT} is read. "
            "Ask the learner to open and save it in the course's JupyterLab."
        )
    texts: list[str] = []
    problems: list[str] = []
    for cell in found.cells:
        for output in cell.outputs:
            if output.data:
                texts += _texts(bytes(output.data.record), problems)
    return [read_line(_bytes(text)) for text in texts], problems


def notebook_cards(content: bytes) -> dict[str, bytes]:
    """Return the card (HTML as it stands in the file) of each exercise that has record lines beside it."""
    try:
        found = msgspec.json.decode(content, type=_Notebook)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError):
        return {}
    cards: dict[str, bytes] = {}
    for data in (output.data for cell in found.cells for output in cell.outputs if output.data):
        lines = [read_line(_bytes(text)).record for text in _texts(bytes(data.record), [])]
        exercises = {record.exercise for record in lines if record}
        if len(exercises) == 1:
            cards[exercises.pop()] = bytes(data.html)
    return cards


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
    except (msgspec.MsgspecError, RecursionError):
        return ""
    reader = _Words()
    reader.feed(found if isinstance(found, str) else "".join(found or ()))
    return " ".join(word for word in reader.words if word)[:most]


def _texts(record: bytes, problems: list[str]) -> list[str]:
    try:
        carried = msgspec.json.decode(record, type=_Carried | None)
    except (msgspec.MsgspecError, RecursionError):
        problems.append("one output with a record cannot be read and was left out.")
        return []
    found = carried.lines if carried else []
    texts = [_text(bytes(item)) for item in found]
    if None in texts:
        problems.append(f"{texts.count(None)} record lines in an output are no text and were left out.")
    return [text for text in texts if text is not None]


def _text(item: bytes) -> str | None:
    try:
        return msgspec.json.decode(item, type=str)
    except (msgspec.MsgspecError, RecursionError):
        return None


def _salvaged(content: bytes) -> tuple[list[Line], list[str]]:
    texts: list[str] = []
    for match in _LINE_STRING.finditer(content):
        try:
            texts.append(json.loads(match[0]))
        except (ValueError, RecursionError):
            continue
    what = f"{len(texts)} record lines were found in it and read" if texts else "no record line was found in it"
    return [read_line(_bytes(text)) for text in texts], [f"is damaged as a notebook; {what}. Ask for the hand-in zip."]


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "replace")
