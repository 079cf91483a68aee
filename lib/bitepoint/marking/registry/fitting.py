"""Whether a register is that of the class being marked: one of another class must not speak about this one unseen."""

from collections.abc import Collection, Sequence

from bitepoint.logbook.identity import key_of
from bitepoint.marking.registry.register import Entry, deleted


def of_another_class(entries: Sequence[Entry], learners: Collection[str], *, with_roster: bool) -> str:
    """Return one line that says why a register is not that of the class, "" when it may be.

    It fits when at least half of the learners it names are in the class, or half of the class is in it. Who was deleted
    on request is in no list any more and is not asked for.

    Parameters
    ----------
    entries
        The register.
    learners
        Case-folded ids of roster and hand-ins.
    with_roster
        Whether the roster says who is in the class. Without one, a few hand-ins of a class say nothing about its register.
    """
    gone = deleted(entries)
    named = {key_of(e.learner) for e in entries if e.learner} - gone.keys()
    if not named or not learners or (not with_roster and len(learners) < len(named)):
        return ""
    there = len(named & set(learners))
    if 2 * there >= min(len(named), len(learners)):
        return ""
    of = "its only learner is not" if len(named) == 1 else f"only {there} of its {len(named)} learners are"
    return (
        f"The register was left out: {of} in the class that was marked, so it is another class's or a learner id in it "
        "is mistyped. Name the register of this class with --register, or enter again what is mistyped."
    )
