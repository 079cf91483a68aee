"""Every calculator of mechanics has a published check, or its docstring says why none exists."""

import ast
import re
from pathlib import Path

import pytest

import bitepoint.mechanics
from bitepoint.sources import SOURCES

CHECKS = "\n".join(p.read_text(encoding="utf-8") for p in Path(__file__).parent.glob("test_*_published.py"))
MODULES = sorted(Path(bitepoint.mechanics.__file__).parent.glob("*.py"))


def calculators(path: Path) -> list[ast.FunctionDef]:
    """Return the public functions of a module, its range checks left out."""
    body = ast.parse(path.read_text(encoding="utf-8")).body
    public = [n for n in body if isinstance(n, ast.FunctionDef) and not n.name.startswith("_")]
    return [n for n in public if not n.name.startswith(("check_", "checked_"))]


@pytest.mark.parametrize("path", [p for p in MODULES if p.stem not in ("__init__", "limits")], ids=lambda p: p.stem)
def test_each_is_checked_against_the_outside_or_says_why_not(path: Path) -> None:
    """A function named in no published check says "No published figure: …" under its source."""
    silent = [
        f.name
        for f in calculators(path)
        if not re.search(rf"\b{f.name}\b", CHECKS)
        and not re.search(r"No (published|outside) figure", ast.get_docstring(f) or "")
    ]
    assert silent == []


def test_at_least_thirty_sources_stand_behind_the_checks() -> None:
    """The checks lean on many documents, not on one."""
    named = [key for key in SOURCES if re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", CHECKS)]
    assert len(named) >= 30


_SEEN = ("print", "quoted", "memory")
_KEY = "|".join(re.escape(key) for key in sorted(SOURCES, key=len, reverse=True))


def statuses(path: Path) -> list[tuple[str, str]]:
    """Return (key, status) of each row and each sentence of a file that names both."""
    text = path.read_text(encoding="utf-8")
    found = re.findall(rf"(?<![\w-])({_KEY})(?![\w-])[^()\"]*\(({'|'.join(_SEEN)})\b", text)
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Tuple):
            words = [e.value for e in node.elts if isinstance(e, ast.Constant) and isinstance(e.value, str)]
            found += [(key, seen) for key in words if key in SOURCES for seen in words if seen in _SEEN]
    return found


@pytest.mark.parametrize("path", sorted(Path(__file__).parent.glob("test_*_published.py")), ids=lambda p: p.stem)
def test_a_check_claims_no_more_of_its_source_than_the_list_of_sources(path: Path) -> None:
    """Row and list say alike how far a source was seen, or the list's note says which part was seen otherwise."""
    otherwise = {"memory": "memory", "quoted": "seen"}
    unlike = [
        (key, seen)
        for key, seen in statuses(path)
        if seen != SOURCES[key].seen and otherwise.get(seen, "never") not in SOURCES[key].note
    ]
    assert unlike == []


def test_no_textbook_counts_as_quoted_without_its_edition() -> None:
    """Whoever wants to look it up needs the edition, a year or an ISBN; where none is known the note says so."""
    named = r"edition|\(\d{4}\)|ISBN"
    loose = [key for key, s in SOURCES.items() if "extbook" in s.title and not re.search(named, f"{s.title} {s.note}")]
    unsure = [key for key, s in SOURCES.items() if "edition not known" in s.note and s.seen != "memory"]
    assert (loose, unsure) == ([], [])
