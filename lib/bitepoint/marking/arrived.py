"""What is said of a learner of whom nothing counts: nothing was handed in, it is held, or nothing in it could be read."""

from collections.abc import Iterator, Mapping

from bitepoint.marking.flagging.handins import HandInNote, named_in
from bitepoint.marking.roster import key_of

NOTHING = "nothing that counts was handed in"
HELD = "handed in, held until it is known who sent it"
UNREAD = "handed in, no answer in it could be read"
_IN_ORDER = (UNREAD, HELD)


class Arrived:
    """Keeps of each hand-in that counts for nobody whose it seems to be."""

    def __init__(self) -> None:
        self._said: dict[str, str] = {}

    def keep(self, note: HandInNote, enrolled: Mapping[str, str], *, held: bool) -> None:
        """Keep one hand-in; `enrolled` are the ids of the roster by case-folded id."""
        if not held and note.learners:
            return
        says = HELD if held else UNREAD
        for key in _seems_of(note, enrolled):
            self._said[key] = max(self._said.get(key, says), says, key=_IN_ORDER.index)

    def words(self, key: str) -> str:
        """Return the words for a learner (case-folded id) without an answer that counts."""
        return self._said.get(key, NOTHING)


def _seems_of(note: HandInNote, enrolled: Mapping[str, str]) -> Iterator[str]:
    """Yield whom workbook.toml and file name name, and the learner of the answers where they are one learner's."""
    if note.hint:
        yield key_of(note.hint)
    yield from named_in(note.name, enrolled)
    if len(note.learners) == 1:
        yield key_of(note.learners[0])
