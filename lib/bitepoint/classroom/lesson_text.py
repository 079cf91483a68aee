"""What a lesson says in its own notebook: its cells of text, its recap and its pictures, read where they stand."""

import ast
import json
import re
from functools import cache
from typing import Any

from markupsafe import Markup, escape
from msgspec import Struct

from bitepoint.bank.lessons import lesson
from bitepoint.places import course

_BOLD, _ITALIC, _CODE = re.compile(r"\*\*(.+?)\*\*"), re.compile(r"\*(.+?)\*"), re.compile(r"`(.+?)`")
_BULLET = re.compile(r"^\s*(?:[-*+]|\d+\.)\s+")


class TextCell(Struct, frozen=True):
    """One cell of a lesson: its id, whether it is text, and what it says."""

    id: str
    text: bool
    source: str


@cache
def cells_of(key: str) -> tuple[TextCell, ...]:
    """Return the cells of a lesson, in their order."""
    path = course() / lesson(key).notebook
    found: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return tuple(TextCell(c["id"], c["cell_type"] == "markdown", "".join(c["source"])) for c in found)


def cell(key: str, id: str) -> str:
    """Return what the cell with this id says; nothing where the lesson has none."""
    return next((one.source for one in cells_of(key) if one.id == id), "")


def recap(key: str) -> tuple[str, ...]:
    """Return the lines of a lesson's recap, without their bullets."""
    return tuple(_BULLET.sub("", line) for line in cell(key, "recap").splitlines() if _BULLET.match(line))


def heading(source: str) -> str:
    """Return the heading of a cell, without its signs."""
    first = source.lstrip().split("\n", 1)[0]
    return first.lstrip("# ").strip() if first.startswith("#") else ""


def statements(source: str) -> tuple[str, ...]:
    """Return what a cell states: each paragraph, each line of a list and each row of a table; headings left out."""
    found: list[str] = []
    for block in re.split(r"\n\s*\n", source.strip()):
        lines = [line for line in block.splitlines() if not line.lstrip().startswith("#")]
        apart: list[str] = []
        for line in lines:
            if not apart or _BULLET.match(line) or line.lstrip().startswith("|"):
                apart.append(_BULLET.sub("", line).strip())
            else:
                apart[-1] = f"{apart[-1]} {line.strip()}"
        found += [one for one in apart if one.strip("|-: ")]
    return tuple(found)


def inline(text: str) -> Markup:
    """Return a line of a lesson for a page: bold, italic and code as such, everything else escaped."""
    made = str(escape(text))
    for pattern, tag in ((_BOLD, "strong"), (_ITALIC, "em"), (_CODE, "code")):
        made = pattern.sub(rf"<{tag}>\1</{tag}>", made)
    return Markup(made)


def pictures_shown(key: str) -> tuple[tuple[str, dict[str, Any]], ...]:
    """Return the pictures that a lesson shows, with their parameters, in their order."""
    found = []
    for one in cells_of(key):
        if one.text:
            continue
        for node in ast.walk(ast.parse(one.source)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "show":
                given = {word.arg: ast.literal_eval(word.value) for word in node.keywords if word.arg}
                found.append((str(ast.literal_eval(node.args[0])), given))
    return tuple(found)
