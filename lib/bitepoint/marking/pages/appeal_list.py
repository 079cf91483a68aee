"""The appeals of a class, each with what came of it so far."""

from collections.abc import Sequence

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.pages.render import numbered
from bitepoint.marking.registry.entries import Entry, deleted
from bitepoint.marking.roster import public_name


class Appealed(Struct, frozen=True):
    """One learner's appeal about one exercise in practice or in a sitting, or about everything: when it came in, and its newest entry."""

    name: str
    about: str
    received: str
    last: Entry

    @property
    def open(self) -> bool:
        """Whether nothing was decided since the newest entry without an outcome."""
        return not self.last.outcome


def appeal_list(entries: Sequence[Entry]) -> list[Appealed]:
    """Return the appeals in the register, open ones first, then by learner; not those of who was deleted on request."""
    gone = deleted(entries)
    found: dict[tuple[str, str, str], list[Entry]] = {}
    for entry in entries:
        if entry.kind == "appeal" and key_of(entry.learner) not in gone:
            found.setdefault((key_of(entry.learner), entry.exercise, key_of(entry.word)), []).append(entry)
    listed = [Appealed(public_name(own[0].learner), _about(own[0]), own[0].date, own[-1]) for own in found.values()]
    return sorted(listed, key=lambda a: (not a.open, numbered(a.name), a.about))


def _about(entry: Entry) -> str:
    if entry.word:
        return f"{entry.exercise or 'everything'}, sitting {entry.word[:32]}"
    return f"{entry.exercise}, practice" if entry.exercise else "everything"
