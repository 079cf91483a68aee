"""What takes two people: a second marker and whoever decides an appeal are not who marked or decided before."""

from collections.abc import Iterator, Sequence

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import key_of
from bitepoint.marking.registry.entries import Entry
from bitepoint.workshop.people import same_person

_MARKING = ("override", "second mark", "resolution")


def check_two_people(entry: Entry, there: Sequence[Entry]) -> None:
    """Let an entry pass, unless it takes another person than whoever wrote one of those that are `there`.

    Raises
    ------
    BadInput
        Says what this person did before, and who may do it instead.
    """
    if entry.kind == "resolution" and not any(e.kind == "second mark" and _same_mark(e, entry) for e in there):
        raise BadInput(
            f"{entry.learner} has no second mark of {entry.exercise}{f' in sitting {entry.word}' if entry.word else ''}, so "
            "nothing is to resolve. A mark of your own is an override."
        )
    for earlier in _against(entry, there):
        if same_person(earlier.by, entry.by):
            about = f" of {earlier.exercise}" if earlier.exercise else ""
            raise BadInput(f"{entry.by[:60]} entered the {earlier.kind}{about} for {entry.learner}. {_WHO[entry.kind]}")


_WHO = {
    "second mark": "A second mark is another person's. Give --by the second marker.",
    "override": "Whoever marked a second time does not change the first mark. Enter a resolution instead.",
    "resolution": "A difference is not resolved by the second marker alone. Give --by whoever decided, or both names.",
    "appeal": "Who decides an appeal is not who marked. Give --by somebody else.",
}


def _same_mark(one: Entry, other: Entry) -> bool:
    same = key_of(one.learner) == key_of(other.learner) and key_of(one.word) == key_of(other.word)
    return same and one.exercise == other.exercise


def _against(entry: Entry, there: Sequence[Entry]) -> Iterator[Entry]:
    """Yield what a person must not have done who writes this entry."""
    for earlier in there:
        if not entry.learner or key_of(earlier.learner) != key_of(entry.learner):
            continue
        same_mark = _same_mark(earlier, entry)
        if (
            entry.kind == "second mark"
            and (earlier.kind == "decision" or earlier.kind == "override" and same_mark)
            or entry.kind in ("override", "resolution")
            and earlier.kind == "second mark"
            and same_mark
            or entry.kind == "appeal"
            and entry.outcome
            and _was_marking(earlier, entry.exercise)
        ):
            yield earlier


def _was_marking(earlier: Entry, exercise: str) -> bool:
    if earlier.kind == "decision":
        return True
    return earlier.kind in _MARKING and exercise in ("", earlier.exercise)
