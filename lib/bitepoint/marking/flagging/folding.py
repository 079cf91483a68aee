"""The flags about one learner as they are shown: many of one kind folded, and beside the rows that they are about."""

from collections.abc import Sequence

import msgspec

from bitepoint.marking.result import Flag, Row

SHOWN = 5
_NAMED = 10


def folded(found: Sequence[Flag]) -> list[Flag]:
    """Return the first five flags of each kind, and for more than six one that counts the rest and names exercises."""
    by_kind: dict[str, list[Flag]] = {}
    for flag in found:
        by_kind.setdefault(flag.kind, []).append(flag)
    return [kept for flags in by_kind.values() for kept in _few(flags)]


def _few(flags: list[Flag]) -> list[Flag]:
    if len(flags) <= SHOWN + 1:
        return flags
    rest = flags[SHOWN:]
    names = list(dict.fromkeys(f.exercise for f in rest if f.exercise))
    where = f" In {', '.join(names[:_NAMED])}{' and others' if len(names) > _NAMED else ''}." if names else ""
    said = f"And {len(rest):,} more of this kind.{where} Each line stands in marks.jsonl."
    return [*flags[:SHOWN], msgspec.structs.replace(flags[0], exercise="", evidence=said, beside=())]


def with_flags(rows: Sequence[Row], found: Sequence[Flag]) -> tuple[Row, ...]:
    """Return rows with the kinds of flags that are about all or about their exercise."""
    if not found:
        return tuple(rows)
    kept = []
    for row in rows:
        kinds = dict.fromkeys([f.kind for f in found if f.exercise in ("", row.exercise)])
        kept.append(msgspec.structs.replace(row, flags=tuple(kinds)) if kinds else row)
    return tuple(kept)
