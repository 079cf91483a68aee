"""Critical mistakes still open over a class, grouped: by exercise, and in it by what was dangerous."""

from collections.abc import Sequence

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.marking.pages.render import numbered
from bitepoint.marking.result import Row


class Danger(Struct, frozen=True, kw_only=True):
    """One critical mistake: its name, what is dangerous about it in the words of one answer, and who made it."""

    name: str
    says: str
    learners: tuple[str, ...]


class DangerGroup(Struct, frozen=True, kw_only=True):
    """One exercise with its critical mistakes, the one that most made first."""

    exercise: str
    title: str
    dangers: tuple[Danger, ...]

    @property
    def learners(self) -> int:
        """How many learners have one open here."""
        return len({who for danger in self.dangers for who in danger.learners})


def grouped(rows: Sequence[Row]) -> list[DangerGroup]:
    """Return the groups, the exercise with the most learners first, equals in the order of the bank."""
    found: dict[str, dict[str, list[Row]]] = {}
    for row in rows:
        found.setdefault(row.exercise, {}).setdefault(row.critical_mistake, []).append(row)
    groups = [
        DangerGroup(exercise=id, title=exercise.title, dangers=_dangers(found[id]))
        for id, exercise in exercises().items()
        if id in found
    ]
    return sorted(groups, key=lambda group: -group.learners)


def _dangers(by_name: dict[str, list[Row]]) -> tuple[Danger, ...]:
    found = [
        Danger(
            name=name,
            says=rows[0].critical_says,
            learners=tuple(sorted({row.learner for row in rows}, key=numbered)),
        )
        for name, rows in by_name.items()
    ]
    return tuple(sorted(found, key=lambda danger: (-len(danger.learners), danger.name)))
