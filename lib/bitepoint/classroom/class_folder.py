"""A class folder as it stands: what class.toml says, who is in roster.csv, and which car each learner has."""

from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.marking.roster import Enrolled, read_roster
from bitepoint.marking.rules import ClassRules, read_rules
from bitepoint.questions.draw import STANDARD, own_letter

CLASS, ROSTER = "class.toml", "roster.csv"


class ClassFolder(Struct, frozen=True, kw_only=True):
    """A class: title, class word, sitting word ("" when there is none), rules and learners in the order of the list."""

    folder: Path
    title: str
    class_word: str
    sitting: str
    rules: ClassRules
    learners: tuple[Enrolled, ...]

    def letter_of(self, enrolled: Enrolled) -> str:
        """Return the letter of a learner's car: as listed, else by the rule over the standard cars.

        Raises
        ------
        BadInput
            The list has none, and the class works on other cars, so that no rule gives one.
        """
        if enrolled.vehicle:
            return enrolled.vehicle
        if self.rules.vehicles == STANDARD:
            return own_letter(enrolled.class_word or self.class_word, enrolled.learner)
        raise BadInput(
            f"{ROSTER}: {enrolled.learner} has no car, and this class works on {', '.join(self.rules.vehicles)}. "
            "Write a letter into the column “vehicle”; it is the one in the learner's start file."
        )


def read_class_folder(folder: Path) -> ClassFolder:
    """Read class.toml and roster.csv of a class folder.

    Raises
    ------
    BadInput
        One is missing or cannot be used, or the list is empty; names the file and what is wrong.
    """
    for name in (CLASS, ROSTER):
        if not (folder / name).is_file():
            raise BadInput(f"{folder} has no {name}. Name the folder that “bitepoint class new” made, such as autumn.")
    rules, found = read_rules(folder / CLASS), read_toml_file(folder / CLASS, dict)
    learners = tuple(read_roster(folder / ROSTER).values())
    return ClassFolder(
        folder=folder,
        title=_text(found, "title"),
        class_word=_word(found, "class_word", "The class word"),
        sitting=_word(found, "sitting", "The sitting word") if found.get("sitting") else "",
        rules=rules,
        learners=learners,
    )


def _text(found: dict[str, object], key: str) -> str:
    value = found.get(key, "")
    if not isinstance(value, str):
        raise BadInput(f"{CLASS}: {key} must be a text in quotes.")
    return value[:120]


def _word(found: dict[str, object], key: str, what: str) -> str:
    try:
        return checked_name(found.get(key, ""), what)
    except BadInput as error:
        raise BadInput(f"{CLASS}: {error}") from None
