"""What a mark that a person gives may follow: an override that stands is taken back, what was agreed on stays."""

from collections.abc import Sequence

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import key_of
from bitepoint.marking.registry.entries import Entry, about, overriding

_GIVING = ("override", "withdraw override")


def check_standing(entry: Entry, there: Sequence[Entry]) -> None:
    """Let an entry pass, unless it changes a mark that was agreed on or takes back what does not stand.

    Raises
    ------
    BadInput
        Says which mark stands, and what to enter instead.
    """
    if entry.kind not in _GIVING:
        return
    stands = standing_mark(entry, there)
    if stands and stands.kind == "resolution":
        raise BadInput(
            f"The mark of {entry.exercise} for {entry.learner} {_where(entry.word)} was agreed on by {stands.by[:60]}. "
            "Enter another resolution instead."
        )
    if entry.kind == "withdraw override" and not stands:
        raise BadInput(
            f"{entry.learner} has no override of {entry.exercise} {_where(entry.word)} that stands, so nothing is to be "
            f"taken back.{_elsewhere(entry, there)}"
        )


def standing_mark(entry: Entry, there: Sequence[Entry]) -> Entry | None:
    """Return the entry whose mark stands for learner, exercise and word of another, None where the computed one does."""
    own = [e for e in about(there, entry.learner) if key_of(e.word) == key_of(entry.word)]
    return overriding(own).get(entry.exercise)


def changed_by(entry: Entry, there: Sequence[Entry]) -> str:
    """Return the kind of entry that changes the mark another one is about: a resolution where one stands."""
    stands = standing_mark(entry, there)
    return stands.kind if stands else "override"


def _where(word: str) -> str:
    return f"in the sitting {word}" if word else "in practice"


def _elsewhere(entry: Entry, there: Sequence[Entry]) -> str:
    """Say where an override of the exercise does stand, "" where none does."""
    words = {key_of(e.word): e.word for e in about(there, entry.learner) if e.kind == "override"}
    for word in words.values():
        found = standing_mark(Entry(kind="override", learner=entry.learner, exercise=entry.exercise, word=word), there)
        if found and found.kind == "override":
            return f" There is one {_where(word)}: {f'add --word {word}' if word else 'leave --word out'}."
    return ""
