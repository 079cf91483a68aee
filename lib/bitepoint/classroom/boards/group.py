"""What the instructor says about the class on the board."""

from collections.abc import Mapping
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.marking.registry.tables import read_table
from bitepoint.marking.roster import key_of, read_roster
from bitepoint.marking.rules import read_rules
from bitepoint.questions.draw import STANDARD


class Group(Struct, frozen=True, kw_only=True):
    """What the instructor says about the class; all of it may be left out.

    `cars` are the letters of the class's cars. `roster` holds the learner ids, `called` display names by case-folded id (only when asked for).
    """

    title: str = ""
    class_word: str = ""
    lessons: tuple[str, ...] = ()
    cars: tuple[str, ...] = STANDARD
    roster: tuple[str, ...] = ()
    called: Mapping[str, str] = {}


def group_of(class_file: Path | None, roster: Path | None, *, display_names: bool = False) -> Group:
    """Read class file and roster.

    Raises
    ------
    BadInput
        One cannot be used; names the file and what is wrong.
    """
    title, word, lessons, cars = _class_of(class_file) if class_file else ("", "", (), STANDARD)
    if display_names and not roster:
        raise BadInput("The display names stand in the roster. Add it: --roster roster.csv")
    enrolled = tuple(e.learner for e in read_roster(roster).values()) if roster else ()
    called = {}
    if display_names and roster:
        rows = read_table(roster, ("learner", "name"))
        called = {key_of(row["learner"]): row.get("name", "")[:60] for _, row in rows if row.get("learner")}
    return Group(title=title, class_word=word, lessons=lessons, cars=cars, roster=enrolled, called=called)


def _class_of(path: Path) -> tuple[str, str, tuple[str, ...], tuple[str, ...]]:
    rules = read_rules(path)
    found = read_toml_file(path, dict)
    title, word = found.get("title", ""), found.get("class_word", "")
    if not isinstance(title, str):
        raise BadInput(f"{path.name}: title must be a text in quotes.")
    try:
        return title[:120], checked_name(word, "The class word") if word else "", rules.lessons, rules.vehicles
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None
