"""A college's own questions: one file, `questions.toml`, in the folder that a class adds to the data files.

rows            what stands in the file
texts, rules    what every question keeps; number_rules: a number's calculator, fields and known mistakes
reading         the file read within limits, each fault one line
calculators     the functions of mechanics that a number may name, and no others
figuring        figures drawn, the calculator asked, mistakes by the same calculator
making          exercises of the questions
template.toml   what `bitepoint exercise new` writes
"""

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from bitepoint.bank.own.making import KEY, exercises_made
from bitepoint.bank.own.reading import Examined, examined, read_questions
from bitepoint.bank.own.rows import OwnQuestions
from bitepoint.bank.registry import Exercise
from bitepoint.workshop.datafiles import data_files, once_a_set

__all__ = [
    "FILE",
    "KEY",
    "Examined",
    "OwnQuestions",
    "examined",
    "exercises_made",
    "own_exercises",
    "own_questions",
    "read_questions",
    "template",
]

FILE = "questions.toml"
"""Its name in the folder that a class adds."""


@once_a_set
def own_questions() -> OwnQuestions | None:
    """Return the own questions of the set of data files in use; None where it has none.

    Raises
    ------
    BadData
        The file is there and cannot be used.
    """
    path = data_files().path(FILE)
    return read_questions(path) if path.exists() else None


@once_a_set
def own_exercises() -> Mapping[str, Exercise]:
    """Return the exercises of the own questions in use by id, in the order of the file; none where there are none."""
    found = own_questions()
    return MappingProxyType(exercises_made(found) if found else {})


def template() -> str:
    """Return the file that a college starts from: one good question of each kind, with comments."""
    return Path(__file__).with_name("template.toml").read_text(encoding="utf-8")
