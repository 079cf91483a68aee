"""Logbook lines: written once, read back whole, every change noticed."""

import json
from codecs import BOM_UTF8
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.logbook import record
from bitepoint.logbook.record import MAX_ANSWER, Line, chain_problems, check_code, read_line, write_line


class Anything(msgspec.Struct, kw_only=True):
    """A line of which nothing but the chain is read."""

    n: int = 0
    prev: str = ""
    hash: str = ""


FIELDS: dict[str, Any] = {
    "at": "2026-04-14T08:00:00.000Z",
    "learner": "L01-X",
    "class": "oak-2026",
    "device": "0a1b2c3d",
    "exercise": "start.number",
    "revision": 1,
    "turn": 1,
    "facts": "5c2dbcd5910b59bf",
    "how": "typed",
    "answer": "84,2 Nm",
    "score": 1.0,
    "mistake": None,
    "opened": "2026-04-14T07:59:00.000Z",
    "solution_shown": False,
    "tool": "bitepoint 0.1.0",
}


def chain(count: int, **changes: Any) -> list[str]:
    """Return `count` chained lines."""
    lines: list[str] = []
    prev = ""
    for n in range(1, count + 1):
        lines.append(write_line({**FIELDS, "turn": n, **changes}, n=n, prev=prev))
        prev = json.loads(lines[-1])["hash"]
    return lines


def as_file(lines: list[str]) -> bytes:
    """Return lines as the bytes of a file."""
    return "".join(f"{line}\n" for line in lines).encode("ascii")


def noticed(content: bytes, written: list[str]) -> bool:
    """Whether reading a file tells that it is not the one that was written."""
    *whole, rest = content.split(b"\n")
    lines = [read_line(raw.rstrip(b"\r")) for raw in whole if raw.strip()]
    return bool(rest) or bool(chain_problems(lines)) or len(lines) != len(written)


def test_a_line_is_read_back_as_written() -> None:
    """Every field comes back, and nothing is wrong with the line."""
    line = read_line(chain(1)[0].encode("ascii"))

    assert line.record is not None
    assert (
        line.problem,
        line.record.answer,
        line.record.n,
        line.record.prev,
        line.record.lesson,
    ) == ("", "84,2 Nm", 1, "", "start")


@given(st.text(max_size=MAX_ANSWER // 2))
def test_any_text_as_an_answer_comes_back(answer: str) -> None:
    """Line separators, quotes, control characters, other scripts: the same text comes back; half a pair becomes ?."""
    line = read_line(write_line({**FIELDS, "answer": answer}, n=1, prev="").encode("ascii"))

    assert line.record is not None
    assert (answer.encode("utf-8", "replace").decode("utf-8"), "") == (line.record.answer, line.problem)


@given(st.binary(max_size=400))
def test_reading_never_raises(raw: bytes) -> None:
    """Whatever bytes stand in a line, reading says what is wrong and goes on."""
    assert isinstance(read_line(raw), Line)


@given(st.integers(0, 2), st.binary(max_size=60), st.integers(0, 500))
def test_reading_a_line_with_noise_in_it_never_raises(which: int, noise: bytes, at: int) -> None:
    """Noise in the middle of a good line is a problem of that line alone, or changes nothing."""
    raw = chain(3)[which].encode("ascii")
    noisy = raw[:at] + noise + raw[at:]

    assert bool(read_line(noisy).problem) == (noisy.removeprefix(BOM_UTF8) != raw)


@pytest.mark.parametrize("step", [1, 3, 32, 255])
def test_every_single_byte_edit_is_noticed(step: int) -> None:
    """Each byte of a file of three lines, changed to another, is told by the chain, the line or the missing end."""
    written = chain(3)
    content = as_file(written)
    missed = []
    for at in range(len(content)):
        edited = bytearray(content)
        edited[at] = (edited[at] + step) % 256
        if not noticed(bytes(edited), written):
            missed.append(at)

    assert missed == []
    assert not noticed(content, written)


@given(st.integers(0, 2000), st.integers(1, 255))
def test_any_single_byte_edit_is_noticed(at: int, change: int) -> None:
    """The same for any change of any byte."""
    written = chain(3)
    edited = bytearray(as_file(written))
    edited[at % len(edited)] ^= change

    assert noticed(bytes(edited), written)


def test_nothing_can_be_added_behind_the_hash() -> None:
    """A field behind the hash is outside what the hash covers, so such a line counts as changed."""
    text = chain(1, score=None)[0]
    line = read_line((text[:-1] + ',"sitting":"x"}').encode("ascii"))

    assert line.problem == "was changed after it was written"


@pytest.mark.parametrize(
    ("raw", "problem"),
    [
        (b"[" * 100_000 + b"]" * 100_000, "nested too deeply"),
        (b'{"n":1,"n":2}', "a key stands twice"),
        (b'{"n":NaN}', "cannot be read"),
        (b"\xef\xbb\xbf" + chain(1)[0].encode("ascii"), ""),
        (chain(1)[0].replace("84,2 Nm", "\\ud800").encode("ascii"), "cannot be read"),
        (b"\x00\xff\x13" * 20, "cannot be read"),
        (b'{"n":' + b"9" * 5000 + b"}", "cannot be read"),
        (b"x" * 1_000_001, "longer than 1 MB"),
        (chain(1, answer="x" * 4001)[0].encode("ascii"), "the answer is longer than 4,000 characters"),
        (chain(1, answer=["x" * 100] * 40)[0].encode("ascii"), "the answer is longer than 4,000 characters"),
        (chain(1)[0].replace("84,2", "48,2").encode("ascii"), "was changed after it was written"),
    ],
)
def test_what_is_wrong_with_a_line_is_said(raw: bytes, problem: str) -> None:
    """Each kind of damage has its own words."""
    assert problem == read_line(raw).problem


@pytest.mark.parametrize("depth", range(900, 1000, 7))
def test_deep_nesting_never_raises(depth: int) -> None:
    """An answer nested just below what the reader bears is as harmless as one above."""
    text = chain(1, answer=[])[0].replace("[]", "[" * depth + "]" * depth)

    assert read_line(text.encode("ascii")).problem


def test_a_whole_chain_has_no_problem() -> None:
    """Ten lines in a row hold."""
    assert chain_problems(read_line(text.encode("ascii")) for text in chain(10)) == []


def test_a_dropped_line_is_told() -> None:
    """The line after the gap does not follow."""
    lines = chain(4)
    del lines[1]

    assert chain_problems(read_line(text.encode("ascii")) for text in lines) == [
        "Line 2: does not follow the line before it (a line is missing, added or moved)."
    ]


def test_a_renumbered_line_is_told() -> None:
    """A line rewritten with a wrong number does not pass although its hash is right."""
    first = chain(1)[0]
    second = write_line(FIELDS, n=5, prev=json.loads(first)["hash"])

    assert chain_problems(read_line(t.encode("ascii")) for t in (first, second)) == [
        "Line 2: is numbered 5, expected 2."
    ]


def test_lines_that_change_places_are_told() -> None:
    """Order matters."""
    first, second, third = chain(3)

    found = chain_problems(read_line(text.encode("ascii")) for text in (first, third, second))

    assert [problem.partition(":")[0] for problem in found] == ["Line 2", "Line 3"]


def test_a_check_code_has_six_signs() -> None:
    """Short enough to note by hand, without the signs 0, 1, 8 and 9 that are mistaken for others."""
    assert check_code("00ff00ff00ff") == "AD7-QB7"


_PIECES = st.sampled_from(
    [
        b'{"',
        b'"',
        b'":',
        b'" :',
        b'"  :',
        b":",
        b",",
        b"}",
        b"[",
        b"]",
        b"{",
        b" ",
        b"\\",
        b'\\"',
        b"\\u0061",
        b"a",
        b"n",
    ]
    + [b"NaN", b"Infinity", b"-0", b"01", b"1.", b"1e999", b"9" * 400, b"null", b"true", b"\\ud800", b"\xed\xa0\x80"]
    + [
        b"\xef\xbb\xbf",
        b"\t",
        b"\x00",
        b"\x7f",
        "·".encode(),
        b'"a":1',
        b'"a" :1',
        b'"a":"b"',
        b'"\\u0061":2',
        b'"a":[1]',
    ]
)


@given(st.lists(_PIECES, max_size=12), st.booleans())
def test_what_is_taken_as_plain_is_read_strictly_too(pieces: list[bytes], closed: bool) -> None:
    """A line that needs no strict reading by its looks is one that strict reading takes."""
    raw = b'{"' + b"".join(pieces) + (b"}" if closed else b"")
    members = b",".join(piece for piece in pieces if piece.startswith(b'"') and b":" in piece)
    for line in (raw, b"".join(pieces), b"{" + members + b"}"):
        if record._plain(line, Anything):
            read = record._STRICT.decode(line.decode(json.detect_encoding(line), "surrogatepass"))
            assert set(msgspec.json.decode(line)) == set(read)


_FIGURES = st.one_of(
    st.sampled_from(
        [b"1", b"1.0", b"-0", b"-0.0", b"1e2", b"1e15", b"1e400", b"1e-400", b"9223372036854775808", b"9" * 400]
    ),
    st.sampled_from([b"null", b"true", b'"1"', b'""', b"[]", b'[1,1.0,"a",null,true]']),
)


@given(st.sampled_from(["n", "revision", "answer", "score", "mistake", "clock_ahead_s", "solution_shown"]), _FIGURES)
def test_a_plain_line_says_what_it_says_to_a_reader_of_json(field: str, figure: bytes) -> None:
    """A record out of an object read already is the one that would be read out of the line: the same values, or none."""
    fields = {**FIELDS, "n": 1, "prev": "", "hash": "", field: "FIGURE"}
    raw = json.dumps(fields, separators=(",", ":")).encode("ascii").replace(b'"FIGURE"', figure)
    try:
        wanted = repr(msgspec.json.decode(raw, type=record.Record))
    except msgspec.ValidationError:
        wanted = "None"

    assert repr(record.read_chained(raw, record.Record)[0]) == wanted


@pytest.mark.parametrize(
    "line",
    [
        b'{"a":1,"a":2}',
        b'{"a" :1,"a":2}',
        b'{"a" :1,"a":"\\":"}',
        b'{"a":1,"\\u0061":2}',
        b'{"a":{"b":1,"b":2}}',
        b'{"a":NaN}',
        b'\xef\xbb\xbf{"a":1}',
        b'{"a":"\\ud800"}',
        b'{"a":"\t"}',
        b'{"a":[{"b":1,"b":1}]}',
        b'{"a":1 }',
        b'{"a":1} ',
        b'{"a":1}{"a":1}',
        b'["a"]',
    ],
)
def test_what_costs_a_record_is_never_taken_as_plain(line: bytes) -> None:
    """Keys that stand twice, NaN, anything beside the object, half a surrogate pair go the strict way."""
    assert record._plain(line, Anything) is None


def test_a_written_line_is_plain() -> None:
    """What the program writes for an answer of text or of letters is not read twice in Python."""
    for answer in ("84,2 N·m", ["a", "c"]):
        line = record.write_line({"answer": answer, "at": "now"}, n=1, prev="").encode()
        assert record._plain(line, Anything)


@pytest.mark.parametrize(
    "answer",
    ["", "84,2 N·m", [], ["a"], ["a", "c"], ['say "so"'], ["back\\slash"], ["line\nend"], ["½ ä 日本"], [1, "a"], [["a"]], [1e15],
     ["\u2028"], [None], ["\ud800"], ["", ""]],
)  # fmt: skip
def test_an_answer_is_as_long_as_it_is_written(answer: Any) -> None:
    """Whatever stands in it, and whether it had to be written for that or not."""
    assert record.answer_length(answer) == len(record.answer_text(answer))


@given(st.lists(st.text(max_size=20) | st.integers() | st.floats(allow_nan=False), max_size=6))
def test_any_list_is_as_long_as_it_is_written(answer: list[Any]) -> None:
    assert record.answer_length(answer) == len(record.answer_text(answer))


@pytest.mark.parametrize(("length", "problem"), [(MAX_ANSWER, ""), (MAX_ANSWER + 1, "longer than 4,000 characters")])
@pytest.mark.parametrize("kind", ["text", "words", "with a quote"])
def test_an_answer_of_4000_characters_is_the_longest(length: int, problem: str, kind: str) -> None:
    """As text, or as a list as it is written: the brackets and quotes count."""
    answers = {"text": "x" * length, "words": ["x" * (length - 4)], "with a quote": ['"' + "x" * (length - 6)]}
    line = read_line(write_line({**FIELDS, "answer": answers[kind]}, n=1, prev="").encode("ascii"))

    assert record.answer_length(answers[kind]) == length
    assert problem in line.problem
    assert bool(line.record) != bool(problem)
