"""What in an own sheet is questioned: figures that a slip of unit, decimal or line would explain. Nothing is refused."""

from collections.abc import Callable, Collection, Iterator
from operator import attrgetter

from msgspec import Struct

from bitepoint.errors import BadData, OutOfRange
from bitepoint.missing import MissingFigure, is_missing
from bitepoint.workshop.questioning.bolts import of_bolts
from bitepoint.workshop.questioning.relations import RELATIONS
from bitepoint.workshop.questioning.usual_ranges import USUAL
from bitepoint.workshop.sheet_rules import FIGURES, broken_rules
from bitepoint.workshop.sheets import Vehicle


class Questioned(Struct, frozen=True):
    """One figure that a person should look at again: its key, and why."""

    key: str
    says: str


def questioned(v: Vehicle, answered: Collection[str] = ()) -> list[Questioned]:
    """Return what is questioned in the figures of a vehicle and not answered, each key once.

    A figure outside what is usual is asked about first and alone: what follows from it would ask the same once more.
    """
    found = {key: says for key, says in _unusual(v) if key not in answered}
    if not found:
        found = {rule.key: f"{rule.says}." for rule in broken_rules(v, FIGURES)}
        for ask in (of_bolts, *RELATIONS):
            for key, says in _asked(ask, v):
                if (
                    ask is of_bolts
                    and key not in answered
                    and any(_joint(key) == _joint(k) for k in found if k not in answered)
                ):
                    continue
                found.setdefault(key, says)
    return [Questioned(key, says) for key, says in found.items() if key not in answered]


def _joint(key: str) -> str:
    """Return what a key of a bolt belongs to: of one joint one thing is asked at a time."""
    return "flywheel" if key.startswith(("flywheel.bolt.", "flywheel.tightening")) else key.rpartition(".")[0]


def _unusual(v: Vehicle) -> Iterator[tuple[str, str]]:
    """Yield the figures outside what is usual."""
    for key, (least, most, unit) in USUAL.items():
        value = _value(v, key)
        if value is not None and not is_missing(value) and not least <= value <= most:
            yield (
                key,
                f"{value:g} {unit} is unusual: {least:g} to {most:g} {unit}. Is unit or decimal point right?".replace(
                    "  ", " "
                ).replace(" :", ":"),
            )


def _value(v: Vehicle, key: str) -> float | None:
    try:
        found: float | None = attrgetter(key)(v)
    except AttributeError:
        return None
    return found


def _asked(ask: Callable[[Vehicle], Iterator[tuple[str, str]]], v: Vehicle) -> Iterator[tuple[str, str]]:
    """Yield what one question finds; of figures that the sheet does not have nothing can be said."""
    try:
        yield from ask(v)
    except MissingFigure:
        return
    except (OutOfRange, BadData, ZeroDivisionError) as error:
        yield _key_of(ask), f"cannot be worked with: {error}"


def _key_of(ask: Callable[..., object]) -> str:
    return {"top_gear": "gearbox.final", "slip_gear": "gearbox.slip_test_gear"}.get(
        ask.__name__, ask.__name__.replace("_", " ")
    )
