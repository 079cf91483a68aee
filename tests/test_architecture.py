"""How the package is laid out: what the import contract cannot say."""

import ast
from collections import defaultdict
from pathlib import Path

import bitepoint

ROOT = Path(bitepoint.__file__).parent


def test_no_two_public_classes_share_a_name():
    """A name found in one module is the only class of that name, so that nobody reads or imports the wrong one."""
    homes: dict[str, list[str]] = defaultdict(list)
    for path in sorted(ROOT.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                homes[node.name].append(f"{path.relative_to(ROOT)}:{node.lineno}")
    shared = [f"{name}: {', '.join(places)}" for name, places in sorted(homes.items()) if len(places) > 1]
    assert not shared, "Name each of these classes by what it holds:\n" + "\n".join(shared)
