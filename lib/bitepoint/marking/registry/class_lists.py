"""What a class knows of itself: its learners and criteria, so that the register takes no misspelt one."""

from collections.abc import Sequence
from difflib import get_close_matches
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import key_of
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.roster import Roster, read_roster
from bitepoint.marking.rules import read_rules

ROSTER, CLASS_FILE = "roster.csv", "class.toml"
ALL_CRITERIA = "all"
"""The criterion of a decision about everything."""


class ClassList(Struct, frozen=True, kw_only=True):
    """The learners of a class (None: there is no list of them) and its criteria (none: they are not said).

    `where` and `criteria_in` name the files.
    """

    learners: Roster | None = None
    criteria: tuple[str, ...] = ()
    where: str = ROSTER
    criteria_in: str = CLASS_FILE

    def checked(self, entry: Entry) -> Entry:
        """Return an entry with learner and criterion as the class writes them.

        Raises
        ------
        BadInput
            The class has no such learner or criterion; names the nearest ones.
        """
        self._check_own(entry)
        return msgspec.structs.replace(
            entry, learner=self._learner(entry.learner), criterion=self._criterion(entry.kind, entry.criterion)
        )

    def _check_own(self, entry: Entry) -> None:
        """Refuse a declaration that another learner is said to have made."""
        other = (self.learners or {}).get(key_of(entry.by)) if entry.kind == "declaration" else None
        if other and key_of(entry.by) != key_of(entry.learner):
            raise BadInput(f"{other.learner} cannot declare for {entry.learner}. A declaration is the learner's own.")

    def _learner(self, learner: str) -> str:
        if not learner or self.learners is None:
            return learner
        enrolled = self.learners.get(key_of(learner))
        if enrolled is None:
            ids = [e.learner for e in self.learners.values()]
            raise BadInput(
                f"There is no learner {learner[:40]!r} in {self.where}.{_nearest(learner, ids)} "
                "Copy the id from the slip, with its check letter."
            )
        return enrolled.learner

    def _criterion(self, kind: str, criterion: str) -> str:
        if kind not in ("observation", "decision") or not criterion or not self.criteria:
            return criterion
        known: list[str] = [*self.criteria, *((ALL_CRITERIA,) if kind == "decision" else ())]
        for one in known:
            if _plain(one) == _plain(criterion):
                return one
        listed = _nearest(criterion, known) or f" Choose one of: {'; '.join(known)}."
        raise BadInput(f"There is no criterion {criterion[:60]!r} in {self.criteria_in}.{listed}")


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _nearest(given: str, known: Sequence[str]) -> str:
    folded = {_plain(one): one for one in known}
    found = get_close_matches(_plain(given), list(folded), n=2, cutoff=0.75)
    return f" Did you mean {' or '.join(folded[x] for x in found)}?" if found else ""


def find_class(register: Path, *, folder: Path | None = None, roster: Path | None = None) -> ClassList:
    """Return what is known of the class of a register: of `folder`, else of the files that lie beside the register.

    `roster` names a list of learners that lies elsewhere.

    Raises
    ------
    BadInput
        A folder or roster that was named is not there, or a file cannot be used.
    """
    place = folder or register.absolute().parent
    listed, agreed = roster or place / ROSTER, place / CLASS_FILE
    if folder and not (listed.is_file() or agreed.is_file()):
        raise BadInput(f"{folder}: holds no {ROSTER} and no {CLASS_FILE}. Name the folder that “class new” made.")
    return ClassList(
        learners=read_roster(listed) if roster or listed.is_file() else None,
        criteria=read_rules(agreed).criteria if agreed.is_file() else (),
        where=listed.name,
    )
