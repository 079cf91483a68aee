"""What can be guessed, as a table to read: by lesson, and by exercise."""

from collections.abc import Iterable, Sequence

from bitepoint.bank.guessing.guesser import guessed_right
from bitepoint.bank.guessing.offers import Offer, by_exercise, offers, right_beside_wrong
from bitepoint.bank.guessing.rules import always_longest, asking_right, chance, longest_right, offering_to_ask
from bitepoint.bank.lessons import LESSONS

_WIDTH = 26
_COLUMNS = ("draws", "chance", "longest", "guesser", "ask in", "ask right", "its chance", "longer")
EXPLAINED = """\
draws       choices drawn, 12 learners and 3 turns an exercise
chance      blind guessing gets so many
longest     "always the longest option" gets so many
guesser     one who knows lengths, hedging words, place and "stop and ask", fitted on the other lessons
ask in      draws that offer to stop and ask
ask right   "always stop and ask" gets so many of those, and blind guessing its chance
longer      where several are asked for: right options longer than a wrong one beside them (50 is no sign)
!           the right option is the longest whenever this exercise is drawn
All but draws in per cent."""


def report(lesson: str = "") -> str:
    """Return the tables of the bank, or of one lesson."""
    keys = [lesson] if lesson else list(LESSONS)
    chosen = [offer for offer in offers() if offer.lesson in keys]
    lessons = [_row(key, [o for o in chosen if o.lesson == key], _longer(key)) for key in keys]
    whole = [] if lesson else [_row("the whole bank", chosen, _longer(""))]
    steady = set(always_longest(chosen))
    groups = by_exercise(chosen)
    each = [
        _row(id + " !" * (id in steady), groups.get(id, []), _longer(id))
        for key in keys
        for id in (*groups, *(other for other in right_beside_wrong() if other not in groups))
        if id.startswith(f"{key}.")
    ]
    return "\n".join([EXPLAINED, "", _head("lesson"), *lessons, *whole, "", _head("exercise"), *each])


def _longer(start: str) -> float | None:
    found = [share for id, share in right_beside_wrong().items() if id.startswith(start)]
    return sum(found) / len(found) if found else None


def _head(first: str) -> str:
    return first.ljust(_WIDTH) + "".join(name.rjust(11) for name in _COLUMNS)


def _row(name: str, among: Sequence[Offer], longer: float | None) -> str:
    asked = offering_to_ask(among)
    cells = (
        [str(len(among)), _pct(chance(among)), _pct(longest_right(among)), _pct(guessed_right(among))]
        if among
        else [""] * 4
    )
    cells += [str(len(asked)), _pct(asking_right(asked)), _pct(chance(asked))] if asked else [""] * 3
    return _line([name, *cells, "" if longer is None else _pct(longer)])


def _line(cells: Iterable[str]) -> str:
    name, *rest = cells
    return (name.ljust(_WIDTH) + "".join(cell.rjust(11) for cell in rest)).rstrip()


def _pct(share: float) -> str:
    return f"{100 * share:.0f}"
