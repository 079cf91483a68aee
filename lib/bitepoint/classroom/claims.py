"""What the course claims, line by line, with the source of each: for a practising fitter to agree or not."""

from collections import defaultdict
from collections.abc import Iterable
from functools import cache

from markupsafe import Markup
from msgspec import Struct

from bitepoint.bank import exercises, exercises_of
from bitepoint.bank.taught import read_taught, taught_file
from bitepoint.classroom.lesson_text import cells_of, heading, inline, statements
from bitepoint.sources import SOURCES
from bitepoint.workshop.criteria import criteria
from bitepoint.workshop.damage import damage
from bitepoint.workshop.hazards import hazards
from bitepoint.workshop.operations import job, operation

NO_SOURCE = "Common practice, no source"
_SAYS_NOTHING_OF_THE_TRADE = frozenset({"what-you-do", "outcomes", "stop", "stop-one", "stop-two", "your-record"})
_SKIPPED = ("**Time:", "**You need:", "**TRAINING VEHICLE", "**The case")
_OWN = {"recap": "As in the lesson above", "sources": "Named in the row"}
_TURNS = (1, 2, 3)


class Claim(Struct, frozen=True):
    """One thing that the course says, and where it is from."""

    says: Markup
    source: str


class ClaimSection(Struct, frozen=True):
    """Claims that stand under one heading."""

    title: str
    claims: tuple[Claim, ...]


def lesson_sections(key: str) -> tuple[ClaimSection, ...]:
    """Return what a lesson says, cell by cell; the source is that of the exercises which ask what the cell teaches."""
    rests = _sources_by_cell()
    found = []
    for cell in cells_of(key):
        if not cell.text or cell.id in _SAYS_NOTHING_OF_THE_TRADE:
            continue
        source = _OWN.get(cell.id) or _told(rests.get((key, cell.id), ()))
        says = _with_working(line for line in statements(cell.source) if not line.startswith(_SKIPPED))
        if says:
            found.append(ClaimSection(heading(cell.source), tuple(Claim(inline(line), source) for line in says)))
    return tuple(found)


def _with_working(lines: Iterable[str]) -> list[str]:
    """Return the lines, a bare line of working joined to what it works out: alone nobody could judge it."""
    found: list[str] = []
    for line in lines:
        if found and " = " in line and not line.startswith("**") and not line.endswith("."):
            found[-1] += f"{' ' if found[-1][-1] in '.:' else '; '}{line}"
        else:
            found.append(line)
    return found


def rule_sections() -> tuple[ClaimSection, ...]:
    """Return what stands in the course's data: dangers, decisions, signs of damage, the order of work."""
    return (
        ClaimSection("Dangers and cautions", tuple(_claim(one.told, one.source) for one in hazards())),
        ClaimSection(
            "Decisions by eye and hand",
            tuple(
                _claim(f"{one.part}, {one.finding}: **{one.decision}**, because {one.because}.", one.source)
                for one in criteria().seen
            ),
        ),
        ClaimSection(
            "Decisions by figure (the limit stands on the data sheet)",
            tuple(
                _claim(
                    f"{one.part}, {one.what}: outside the limit **{one.outside}**, because {one.because}.", one.source
                )
                for one in criteria().measured
            ),
        ),
        ClaimSection(
            "Signs of damage",
            tuple(
                _claim(f"{one.name}, {one.damaged}: {one.does}. **{one.decision}**.", one.source)
                for one in damage().values()
            ),
        ),
        ClaimSection(
            "Order of work",
            tuple(
                _claim(
                    f"“{operation(rule.before).short}” before “{operation(rule.after).short}”: {rule.because}.",
                    rule.source,
                )
                for rule in job().rules
            ),
        ),
        ClaimSection(
            "Never",
            tuple(
                _claim(f"Never: {one.text[:1].lower()}{one.text[1:]}, because {one.because}.", one.source)
                for one in job().never
            ),
        ),
    )


def _claim(says: str, source: str) -> Claim:
    return Claim(inline(says[:1].upper() + says[1:]), _told((source,)))


def _told(keys: tuple[str, ...]) -> str:
    return "; ".join(dict.fromkeys(SOURCES[key].title for key in keys)) or NO_SOURCE


@cache
def _sources_by_cell() -> dict[tuple[str, str], tuple[str, ...]]:
    """Return the source keys of the exercises that each cell of text teaches, by lesson and cell."""
    found: dict[tuple[str, str], dict[str, None]] = defaultdict(dict)
    for key in dict.fromkeys(one.lesson for one in exercises().values()):
        table = read_taught(taught_file(key)) if taught_file(key).exists() else {}
        before = _cell_before(key)
        for exercise in exercises_of(key):
            named = [(taught.lesson, taught.cell) for taught in table.get(exercise.id, ())]
            for place in named or [(key, before.get(exercise.id, ""))]:
                for turn in _TURNS:
                    question = exercise.draw(class_word="practice", learner="practice", turn=turn)
                    found[place][question.source] = None
    return {place: tuple(keys) for place, keys in found.items()}


def _cell_before(key: str) -> dict[str, str]:
    """Return the id of the cell of text that stands before each exercise of a lesson."""
    found, last = {}, ""
    for cell in cells_of(key):
        last = cell.id if cell.text else last
        if not cell.text and cell.id.startswith("ask-"):
            found[cell.id.removeprefix("ask-").replace("-", ".", 1)] = last
    return found
