"""One line of a logbook: what it holds, how it is written, how it is checked.

The hash covers the line's bytes as written up to `,"hash":`. There is no canonical form to disagree about: a line is
kept and carried as text, and read only when its meaning is needed.
"""

import json
from base64 import b32encode
from codecs import BOM_UTF8
from collections.abc import Iterable
from hashlib import sha256
from typing import Any, Protocol, TypeVar

import msgspec
from msgspec import Struct

from bitepoint.questions.draw import STANDARD

MAX_LINE = 1_000_000
MAX_ANSWER = 4_000
_HASH = b',"hash":"'
_HASH_LENGTH = 32
RECALL = "recall."
"""Word that recall draws with, where a sitting has its own: with its dot at the end no class can choose it."""
RECALL_BOOK = "keep-it"
"""First part of the name of the logbook file for recall: its answers lie in no lesson's chain."""
RECALLED, OWN_WORDS = "recall", "own words"
"""How a recall line was given: the decision, or the reason for it in the learner's own words, which no machine marks."""
_TOO_DEEP, _STANDS_TWICE = "nested too deeply", "a key stands twice"


class Record(Struct, frozen=True, kw_only=True, omit_defaults=True, gc=False):
    """What a line says. Unknown fields are kept in the line and ignored here.

    `at` is UTC; `facts` and `words` the digests of the question as asked, `vehicle` the learner's car, `cars` the class's
    cars where they are not the standard ones, `edition` that of the data sheets, `bank` the digest of the bank; `how` typed, form,
    drill, recall or own words; `opened` when the question was first
    shown in this kernel; `solution_shown` whether its solution had been shown before this answer;
    `clock_ahead_s` how far the laptop was ahead of the room's clock when a sitting was opened, as typed;
    `score` and `mistake` are missing in a class whose feedback comes after the hand-in.
    """

    n: int
    at: str
    learner: str
    class_word: str = msgspec.field(name="class")
    device: str
    exercise: str
    revision: int
    turn: int
    facts: str
    how: str
    answer: str | list[Any]
    prev: str
    hash: str
    words: str = ""
    vehicle: str = ""
    edition: int = 0
    cars: str = ""
    bank: str = ""
    sitting: str = ""
    clock_ahead_s: int | None = None
    score: float | None = None
    mistake: str | None = None
    opened: str = ""
    solution_shown: bool = False
    tool: str = ""

    @property
    def class_cars(self) -> tuple[str, ...]:
        """Letters of the cars that the question was drawn among."""
        return (tuple(self.cars.split()) if self.cars else ()) or STANDARD

    @property
    def lesson(self) -> str:
        """The lesson: first part of the exercise id."""
        return self.exercise.partition(".")[0]

    @property
    def is_recall(self) -> bool:
        """Whether it was asked again weeks later: drawn with the word of recall, and part of no lesson's mark."""
        return self.sitting == RECALL

    @property
    def in_own_words(self) -> bool:
        """Whether it holds a reason in the learner's own words and no answer to mark."""
        return self.is_recall and self.how == OWN_WORDS

    @property
    def book(self) -> str:
        """First part of the name of the file whose chain it belongs to: the lesson, or recall's own."""
        # Asked of each line again and again: without a call to the properties above.
        return RECALL_BOOK if self.sitting == RECALL else self.exercise.partition(".")[0]


class Line(Struct, frozen=True, gc=False):
    """A line as found: its text, what it says (None when unreadable) and what is wrong with it ("" when nothing)."""

    text: str
    record: Record | None
    problem: str = ""


class Link(Protocol):
    """What chains a line to the one before it, whatever else the line says."""

    @property
    def n(self) -> int: ...
    @property
    def prev(self) -> str: ...
    @property
    def hash(self) -> str: ...


class ChainedLine(Protocol):
    """A line of any chain as found: a logbook's `Line`, or that of another record."""

    @property
    def record(self) -> Link | None: ...
    @property
    def problem(self) -> str: ...


R = TypeVar("R", bound=Link)


class _Twice(ValueError):
    """A key stands twice in an object."""


def _no_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise _Twice
    return found


_STRICT = json.JSONDecoder(object_pairs_hook=_no_twice)
_as_found, _anew = msgspec.json.Decoder().decode, msgspec.json.Encoder().encode
_IN_FULL = json.JSONEncoder(ensure_ascii=False)
_WRITER = json.JSONEncoder(ensure_ascii=True, separators=(",", ":"), allow_nan=False)


def _written(fields: dict[str, Any]) -> bytes:
    return _WRITER.encode(fields).encode("ascii")


def write_line(fields: dict[str, Any], *, n: int, prev: str) -> str:
    """Return one line (without line end) for these fields, numbered and chained.

    Text is escaped to ASCII, so that a line separator in an answer cannot break the file; half a surrogate pair
    becomes a question mark.
    """
    whole = {"n": n, **_whole_text(fields), "prev": prev}
    body = _written(whole)[:-1]
    return f'{body.decode("ascii")},"hash":"{_digest(body)}"}}'


def _whole_text(value: Any) -> Any:
    if isinstance(value, str):
        return value.encode("utf-8", "replace").decode("utf-8")
    if isinstance(value, dict):
        return {key: _whole_text(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_whole_text(item) for item in value]
    return value


def answer_text(answer: str | list[Any]) -> str:
    """Return an answer as the text whose length is limited."""
    return answer if isinstance(answer, str) else _IN_FULL.encode(answer)


def answer_length(answer: str | list[Any]) -> int:
    """Return how many characters `answer_text` has; a list of plain words is counted without being written."""
    if isinstance(answer, str):
        return len(answer)
    try:
        words = "".join(answer)
    except TypeError:
        return len(answer_text(answer))
    if not words.isprintable() or '"' in words or "\\" in words:
        return len(answer_text(answer))
    # Quotes, commas and spaces beside the words, and the brackets.
    return len(words) + 4 * len(answer) if answer else 2


def _digest(body: bytes) -> str:
    return sha256(body).hexdigest()[:_HASH_LENGTH]


def read_line(raw: bytes) -> Line:
    """Read one line; whatever is wrong with it is said in `problem`, never raised."""
    line = read_without_text(raw)
    text = raw.removeprefix(BOM_UTF8).decode("utf-8", "backslashreplace")
    is_whole = line.record or line.problem == _STANDS_TWICE
    return Line(text if is_whole else text[:200], line.record, line.problem)


def read_without_text(raw: bytes) -> Line:
    """Read one line as `read_line` does, for whoever has no use for its text."""
    record, problem = read_chained(raw, Record)
    if record is None:
        return Line("", None, problem)
    try:
        if answer_length(record.answer) > MAX_ANSWER:
            return Line("", None, "the answer is longer than 4,000 characters")
    except RecursionError:
        return Line("", None, _TOO_DEEP)
    return Line("", record, problem)


def read_chained(raw: bytes, kind: type[R]) -> tuple[R | None, str]:
    """Return what a line of any chain says, None when it cannot be read, and what is wrong with it, "" when nothing.

    A byte order mark, as some editors write one before the first line, is no part of it.
    """
    raw = raw.removeprefix(BOM_UTF8)
    if len(raw) > MAX_LINE:
        return None, "longer than 1 MB"
    try:
        record = _plain(raw, kind)
        if record is None:
            _STRICT.decode(raw.decode(json.detect_encoding(raw), "surrogatepass"))
            record = msgspec.json.decode(raw, type=kind)
    except RecursionError:
        return None, _TOO_DEEP
    except _Twice:
        return None, _STANDS_TWICE
    except (ValueError, msgspec.MsgspecError):
        return None, "cannot be read"
    at = raw.rfind(_HASH)
    if at < 0 or raw[at:] != b'%b%b"}' % (_HASH, _digest(raw[:at]).encode("ascii")):
        return record, "was changed after it was written"
    return record, ""


def _plain(raw: bytes, kind: type[R]) -> R | None:
    """Return what a line says where it is one object as nearly every line is, so that it needs no strict reading in Python.

    What is read of it and written anew is the same to the byte: so nothing else stands in it, and no key twice.
    What is tried first writes fast; the other is how this program writes, also where a text is not plain ASCII.
    """
    try:
        found = _as_found(raw)
        is_plain = isinstance(found, dict) and (_anew(found) == raw or _written(found) == raw)
    except (ValueError, RecursionError):
        return None
    return msgspec.convert(found, kind) if is_plain else None


def chain_problems(lines: Iterable[ChainedLine]) -> list[str]:
    """Return what is wrong with the lines of one file, each as one sentence; empty when the chain holds."""
    found: list[str] = []
    prev, n = "", 0
    for number, line in enumerate(lines, start=1):
        if line.problem:
            found.append(f"Line {number}: {line.problem}.")
        if line.record is None:
            prev, n = "?", n + 1
            continue
        if prev != "?" and line.record.prev != prev:
            found.append(f"Line {number}: does not follow the line before it (a line is missing, added or moved).")
        elif prev != "?" and line.record.n != n + 1:
            found.append(f"Line {number}: is numbered {line.record.n}, expected {n + 1}.")
        prev, n = line.record.hash, line.record.n
    return found


def check_code(hash: str) -> str:
    """Return the short code of a line's hash that an instructor can note: six letters and digits.

    Examples
    --------
    >>> check_code("00ff00ff00ff")
    'AD7-QB7'
    """
    letters = b32encode(bytes.fromhex(hash[:8])).decode("ascii")
    return f"{letters[:3]}-{letters[3:6]}"
