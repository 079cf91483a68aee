"""docs/sources.md is current, and nothing in mechanics stands without its source."""

import ast
import re
from pathlib import Path

import pytest

import bitepoint.mechanics
from bitepoint.sources import SOURCES
from bitepoint.workbook.documents import source_keys, sources_page

MODULES = sorted(Path(bitepoint.mechanics.__file__).parent.glob("*.py"))
DOCS = Path(__file__).parents[2] / "docs"


def test_the_page_is_current() -> None:
    """Run `python -m bitepoint.workbook.documents` after a change of sources, exercises or calculators."""
    assert sources_page(Path(__file__).parents[1] / "published") == (DOCS / "sources.md").read_text(encoding="utf-8")


def test_sources_stand_in_order_of_their_keys() -> None:
    """A newcomer finds an entry by its key."""
    assert sorted(SOURCES) == list(SOURCES)


def _public_functions(path: Path) -> list[ast.FunctionDef]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [n for n in tree.body if isinstance(n, ast.FunctionDef) and not n.name.startswith("_")]


@pytest.mark.parametrize("path", [p for p in MODULES if p.stem not in ("__init__", "limits")], ids=lambda p: p.stem)
def test_every_calculator_names_a_source_that_exists(path: Path) -> None:
    """A public calculator has a Source section with a key of sources.py ("derived" is one too); range checks have none."""
    calculators = [f for f in _public_functions(path) if not f.name.startswith(("check_", "checked_"))]
    missing = [f.name for f in calculators if not source_keys(ast.get_docstring(f) or "")]
    assert missing == []


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.stem)
def test_every_constant_is_tied_to_a_source_or_a_derivation(path: Path) -> None:
    """A constant with figures names a source key, or says where it comes from, in the lines around it or in its module."""
    text = path.read_text(encoding="utf-8")
    lines = text.splitlines()
    loose = []
    for node in ast.parse(text).body:
        target = node.targets[0] if isinstance(node, ast.Assign) else getattr(node, "target", None)
        if not isinstance(target, ast.Name) or not re.fullmatch(r"_?[A-Z][A-Z0-9_]*", target.id):
            continue
        has_figures = any(isinstance(n, ast.Constant) and type(n.value) in (int, float) for n in ast.walk(node))
        around = "\n".join(lines[max(0, node.lineno - 4) : (node.end_lineno or node.lineno) + 4])
        if has_figures and not _tied(around):
            loose.append(target.id)
    assert loose == []


def _tied(text: str) -> bool:
    named = any(key in text for key in SOURCES)
    said = re.search(
        r"derived|by definition|our rule|our limit|our own|no outside|range check|largest|exact", text, re.I
    )
    return named or bool(said)
