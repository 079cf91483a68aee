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
