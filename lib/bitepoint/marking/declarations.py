"""Which declaration counts for a sitting: the newest about it, if that one was signed."""

from collections.abc import Sequence

from bitepoint.logbook.identity import key_of
from bitepoint.marking.passing import UNSUPERVISED
from bitepoint.marking.registry.days import last_day
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.registry.windows import utc_time
from bitepoint.marking.result import Declared, Row, SittingWork


def declarations_of(
    entries: Sequence[Entry], works: Sequence[SittingWork], counting: Sequence[Row]
) -> tuple[Declared, ...]:
    """Return for each sitting that counts the declaration that counts for it; `counting` are its rows.

    Where none counts, any declaration that fits what was answered will do.
    """
    words = {row.sitting for row in counting if row.standing != UNSUPERVISED}
    sat = [w for w in works if w.word in words]
    if sat:
        return tuple(Declared(word=w.word, entry=_newest(entries, w, works)) for w in sat)
    if works:
        fitting = [e for w in works if (e := _newest(entries, w, works))]
        return (Declared(entry=fitting[-1] if fitting else None),)
    said = [e for e in entries if e.kind == "declaration" and not e.word and not _is_to_come(e)]
    return (Declared(entry=said[-1] if said and said[-1].signed != "no" else None),)


def _newest(entries: Sequence[Entry], work: SittingWork, works: Sequence[SittingWork]) -> Entry | None:
    """Return the newest declaration about a sitting, None where that one was not signed."""
    said = [e for e in entries if e.kind == "declaration" and work in _about(e, works)]
    return said[-1] if said and said[-1].signed != "no" else None


def _about(entry: Entry, works: Sequence[SittingWork]) -> list[SittingWork]:
    """Return the sittings that a declaration is about: of its word, or all, that began by its day.

    Without a word “not signed” is about the last of them alone, so that it takes back nothing that was signed before.
    """
    if _is_to_come(entry):
        return []
    own = [w for w in works if not entry.word or key_of(w.word) == key_of(entry.word)]
    own = [w for w in own if not _begun_after(w, entry.date)]
    if entry.signed != "no" or entry.word:
        return own
    last = max((w.begins for w in own if w.begins), default=None)
    return [w for w in own if w.begins == last]


def _begun_after(work: SittingWork, day: str) -> bool:
    return work.begins is not None and work.begins.date().isoformat() > day


def _is_to_come(entry: Entry) -> bool:
    """Whether an entry is dated after the day on which it was written; such a one is refused today, and older ones may be there."""
    written = utc_time(entry.at)
    return written is not None and entry.date > last_day(written.date())


def is_signed_later(entry: Entry, entries: Sequence[Entry], works: Sequence[SittingWork]) -> bool:
    """Whether a declaration that was not signed was entered as signed afterwards, for every sitting that it is about."""
    later = [e for e in entries[entries.index(entry) + 1 :] if e.kind == "declaration" and not misses(e, works)]
    return bool(later) and all(any(w in _about(e, works) for e in later) for w in _about(entry, works))


def misses(entry: Entry, works: Sequence[SittingWork]) -> str:
    """Return why a declaration fits no sitting of the learner, "" when it fits one or there is none to fit."""
    if entry.signed == "no":
        return "it is recorded as not signed on paper, so it does not count until an entry says that it is"
    own = [w for w in works if not entry.word or key_of(w.word) == key_of(entry.word)]
    if entry.word and not own:
        return f"no answer of this learner was drawn with the sitting word “{entry.word}”"
    if _is_to_come(entry):
        return f"it is dated {entry.date}, a day to come when it was entered on {entry.at[:10]}"
    days = [w.begins.date().isoformat() for w in own if w.begins]
    if days and entry.date < min(days):
        return f"it is dated {entry.date}, before the sitting of {min(days)}"
    return ""
