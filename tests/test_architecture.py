"""How the package is laid out: what the import contract cannot say."""

import ast
import subprocess
import sys
import tomllib
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


def test_no_field_has_the_name_of_a_type_that_its_class_writes():
    """From Python 3.14 on types are read once the class is whole: `date: date` would then mean the field itself."""
    found = []
    for path in sorted(ROOT.rglob("*.py")):
        classes = [
            node for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.ClassDef)
        ]
        for node in classes:
            fields = [part for part in node.body if isinstance(part, ast.AnnAssign)]
            members = {part.target.id for part in fields if isinstance(part.target, ast.Name)}
            members |= {part.name for part in node.body if isinstance(part, ast.FunctionDef)}
            types = {part.id for field in fields for part in ast.walk(field.annotation) if isinstance(part, ast.Name)}
            found += [f"{path.relative_to(ROOT)}, {node.name}: {name}" for name in sorted(members & types)]
    assert not found, "Name the type by its module, as in datetime.date:\n" + "\n".join(found)


def test_the_core_rests_on_two_packages():
    """From logbook down, drawing and marking questions loads nothing but the standard library, msgspec and filelock."""
    program = (
        "import sys; before = set(sys.modules)\n"
        "from bitepoint import bank, logbook\n"
        "for exercise in bank.exercises().values():\n"
        "    question = exercise.draw(class_word='w', learner='L1')\n"
        "    question.mark(question.right_answer())\n"
        "print(*{name.partition('.')[0] for name in set(sys.modules) - before})"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded = {name for name in run.stdout.split() if name not in sys.stdlib_module_names}
    # msgspec looks for typing_extensions and does without it where it is not installed.
    assert {"bitepoint", "msgspec", "filelock"} == loaded - {"typing_extensions"}


def test_who_asks_one_exercise_waits_for_its_own_lesson_alone() -> None:
    """A question of one lesson is found without importing the exercises of the others; one that is not there is still named."""
    program = (
        "import sys; from bitepoint.bank import exercise_named\n"
        "assert exercise_named('star.flywheel-job').lesson == 'star'\n"
        "print(*(name for name in sys.modules if name.startswith('bitepoint.bank.')))\n"
        "from bitepoint.errors import BadInput\n"
        "try: exercise_named('star.flywheel-jobs')\n"
        "except BadInput as error: print(error)"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded, said = run.stdout.splitlines()
    assert "bitepoint.bank.star" in loaded.split()
    assert not {"bitepoint.bank.fault", "bitepoint.bank.job", "bitepoint.bank.torque"} & set(loaded.split())
    assert said == "There is no exercise 'star.flywheel-jobs'. Did you mean 'star.flywheel-job'?"


def test_the_page_for_developers_draws_every_floor_in_its_order():
    """Whoever looks for a place sees the floors that the import contract holds, top first."""
    root = Path(__file__).parents[1]
    settings = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    layers = settings["tool"]["importlinter"]["contracts"][0]["layers"]
    held = [name.strip() for layer in layers for name in layer.split("|") if name != "__main__"]
    block = (root / "DEVELOPERS.md").read_text(encoding="utf-8").partition("## The floors")[2].split("```")[1]
    drawn = [name for line in block.strip().splitlines() for name in line.split("  ")[0].split(" · ")]
    assert drawn == held


def test_every_lock_is_one_that_a_share_without_locks_has() -> None:
    """One module knows how to lock where a file system cannot; whoever locks by itself fails there."""
    package = Path(bitepoint.__file__).parent
    files = [path for path in package.rglob("*.py") if "FileLock" in path.read_text(encoding="utf-8")]
    assert ["logbook/locking.py"] == [path.relative_to(package).as_posix() for path in files]
