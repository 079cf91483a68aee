"""Reading a college's questions.toml: within limits, typed, every rule kept; each fault one line with file, question and key."""

import re
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import msgspec
from msgspec import Struct

from bitepoint.bank.forms.form import Form
from bitepoint.bank.forms.rows import FormOption, FormRule, FormStep
from bitepoint.bank.own.rows import KINDS, RULE_KINDS, OwnFigure, OwnMistake, OwnQuestion, OwnQuestions, OwnWithin
from bitepoint.bank.own.rules import faults_of
from bitepoint.errors import BadData, BadInput
from bitepoint.printable import printable
from bitepoint.workshop.small_toml import TomlLimits, decode_toml, small_file

LIMITS = TomlLimits(brackets=8_000, dots=20_000)
"""Sixty questions with four forms of six options each come to 4,000 brackets."""
MOST_QUESTIONS = 60
_LINE = 120
_ROWS = (OwnQuestion, OwnQuestions, OwnFigure, OwnMistake, OwnWithin, Form, FormOption, FormRule, FormStep)
_UNKNOWN = re.compile(r"unknown field `([^`]*)`")
_NO_CHOICE = re.compile(r"Invalid enum value '(.*)'", re.S)
_STEP = re.compile(r"\.(\w+)|\[(\d+)\]|\[\.\.\.\]")


class Examined(Struct, frozen=True):
    """What reading a file came to: its questions when it can be used, else one line a fault."""

    questions: OwnQuestions | None
    faults: tuple[str, ...] = ()


def read_questions(path: Path) -> OwnQuestions:
    """Read a questions.toml.

    Raises
    ------
    BadData
        It cannot be used; the first fault, with file, question and key.
    """
    found = examined(path)
    if found.questions is None:
        raise BadData(found.faults[0])
    return found.questions


def examined(path: Path) -> Examined:
    """Read a questions.toml; return its questions, or a line for each question that cannot be used."""
    try:
        return examined_content(path.name, small_file(path, LIMITS.bytes))
    except BadInput as error:
        return _refused(path.name, f"{error}. Name the file of your questions.")
    except OSError as error:
        return _refused(path.name, f"cannot be read ({error.strerror or error}). Check its name and its folder.")


def examined_content(name: str, content: bytes) -> Examined:
    """Read what a file of this name holds; return as `examined`."""
    try:
        return examined_whole(name, decode_toml(content, dict[str, Any], LIMITS))
    except BadInput as error:
        return _refused(name, f"{error}. Correct it and save it as plain text in UTF-8.")


def examined_whole(name: str, whole: Mapping[str, Any]) -> Examined:
    """Take a file as plain values; return as `examined`."""
    listed = whole.get("question", [])
    head, faults = _head(name, {key: value for key, value in whole.items() if key != "question"})
    if not isinstance(listed, list) or not 1 <= len(listed) <= MOST_QUESTIONS:
        many = len(listed) if isinstance(listed, list) else 0
        rule = f"there must be 1 to {MOST_QUESTIONS} questions, but there are {many}. Write each under [[question]]."
        return _refused(name, rule)
    rows = [_question(name, number, each, faults) for number, each in enumerate(listed, start=1)]
    good = [row for row in rows if row]
    for topic in dict.fromkeys(row.topic for row in good):
        if [row.topic for row in good].count(topic) > 1:
            faults.append(_line(name, topic, "topic", "stands twice; give each question a topic of its own"))
    if faults or head is None:
        return Examined(None, tuple(faults))
    return Examined(msgspec.structs.replace(head, question=tuple(good)))


def _refused(name: str, told: str) -> Examined:
    return Examined(None, (printable(f"{name}: {told}"),))


def _line(name: str, topic: str, key: str, rule: str) -> str:
    return printable(f"{name}: question {topic[:40]!r}, {key}: {rule.rstrip('.?')}. Correct it in the file.")


def _head(name: str, whole: Mapping[str, Any]) -> tuple[OwnQuestions | None, list[str]]:
    """Return title, author and edition, or what is wrong with them."""
    try:
        head = msgspec.convert({**whole, "question": []}, OwnQuestions)
    except (msgspec.ValidationError, ValueError, OverflowError) as error:
        return None, [printable(f"{name}: {_said(error)}. Correct it at the top of the file.")]
    for key in ("title", "author"):
        text = getattr(head, key)
        if not text.strip() or len(text) > _LINE or printable(text) != text or re.search(r"[<>`*_\[\]{}$\\]", text):
            rule = f"{key} must be one line of plain words, {_LINE} characters at most"
            return None, [printable(f"{name}: {rule}. Correct it at the top of the file.")]
    return head, []


def _question(name: str, number: int, each: object, faults: list[str]) -> OwnQuestion | None:
    """Return one question; where it cannot be used, note why."""
    topic = each.get("topic") if isinstance(each, dict) else None
    said_as = topic if isinstance(topic, str) else f"number {number}"
    try:
        row = msgspec.convert(each, OwnQuestion)
    except (msgspec.ValidationError, ValueError, OverflowError, RecursionError) as error:
        faults.append(printable(f"{name}: question {said_as[:40]!r}: {_said(error)}. Correct it in the file."))
        return None
    for key, rule in faults_of(row)[:1]:
        faults.append(_line(name, said_as, key, rule))
        return None
    return row


def _said(error: Exception) -> str:
    """Return what a reader of types found wrong, in the words of the file: “form 2, option 1: …”."""
    if isinstance(error, RecursionError):
        return "it is nested too deeply"
    told, _, place = str(error).partition(" - at `$")
    told = told.removeprefix("Object ").replace("`", "“", 1).replace("`", "”", 1)
    if unknown := _UNKNOWN.search(str(error)):
        near = get_close_matches(unknown[1], _known_keys(), n=1, cutoff=0.6)
        told = f"{unknown[1][:40]!r} is no key here" + (f"; did you mean {near[0]}?" if near else "")
    where = _place(place)
    if other := _NO_CHOICE.match(told):
        *first, last = RULE_KINDS if "rule" in where else KINDS
        told = f"{other[1][:40]!r} cannot stand here; choose {', '.join(first)} or {last}"
    return f"{where}: {told}".rstrip(".?") if where else told.rstrip(".?")


def _place(place: str) -> str:
    parts: list[str] = []
    for name, number in _STEP.findall(place):
        if number and parts:
            parts[-1] = f"{parts[-1]} {int(number) + 1}"
        elif name:
            parts.append(name)
    return ", ".join(parts)


def _known_keys() -> Sequence[str]:
    return [f.encode_name for row in _ROWS for f in msgspec.structs.fields(row)]
