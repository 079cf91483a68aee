"""Copies across classes: the same hand-in in two of them, and wrong figures that are right for a learner of another."""

import tempfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.marking.college.fits import FiguresGiven, Fit, Fits, Sought, Typed, fits_in
from bitepoint.marking.college.folder import ClassPlace
from bitepoint.marking.college.traces import AskedFor, ClassTrace, WrongFigure
from bitepoint.marking.flagging.answers import TWICE
from bitepoint.marking.flagging.neighbours import CHANCE, OTHER_FIGURES, at_least
from bitepoint.marking.processes import Pool

MOST_DRAWS = 1_000_000
"""Questions drawn to find whose figures these are: counted, so that the same classes give the same flags everywhere."""
_SHOWN = 5


class Copy(Struct, frozen=True, kw_only=True):
    """Something to look at between classes: what kind, which classes and learners or files, and the evidence."""

    kind: str
    who: str
    evidence: str


class Across(Struct, frozen=True, kw_only=True):
    """What comparing classes came to; `left_out` counts the questions that were too many to compare."""

    copies: list[Copy]
    compared: int = 0
    left_out: int = 0


def compare(
    places: Sequence[ClassPlace], traces: Mapping[str, ClassTrace], sizes: Mapping[str, int], pool: Pool, scratch: Path
) -> Across:
    """Compare classes that were marked, of these sizes; `scratch` is a folder for a file that all processes read."""
    figures = [(name, figure) for name, trace in sorted(traces.items()) for figure in trace.figures]
    asked = Counter(figure.asked for _, figure in figures)
    most = max(1, MOST_DRAWS // max(1, sum(sizes.values())))
    kept = {key for key, _ in sorted(asked.items(), key=lambda item: (-item[1], item[0]))[:most]}
    compared = [(name, figure) for name, figure in figures if figure.asked in kept]
    copies = list(_same_lines(traces))
    if compared:
        copies += _copied([p for p in places if p.name in traces], compared, traces, sizes, pool, scratch)
    return Across(copies=copies, compared=len(compared), left_out=len(asked) - len(kept))


def _same_lines(traces: Mapping[str, ClassTrace]) -> Iterator[Copy]:
    """Yield hand-ins with the same lines that lie in two classes."""
    groups: dict[str, list[tuple[str, str, str]]] = {}
    for name, trace in sorted(traces.items()):
        for handed in trace.handed:
            groups.setdefault(handed.lines, []).append((name, handed.name, handed.content))
    for group in groups.values():
        if len({name for name, _, _ in group}) > 1:
            same = "the same bytes" if len({content for _, _, content in group}) == 1 else "the same lines"
            who = "; ".join(f"{name}: {file}" for name, file, _ in group[:_SHOWN])
            more = f" {len(group) - _SHOWN} more like them." if len(group) > _SHOWN else ""
            yield Copy(kind=TWICE, who=who, evidence=f"{len(group)} hand-ins with {same}.{more}")


def _copied(
    places: Sequence[ClassPlace],
    figures: Sequence[tuple[str, WrongFigure]],
    traces: Mapping[str, ClassTrace],
    sizes: Mapping[str, int],
    pool: Pool,
    scratch: Path,
) -> list[Copy]:
    """Return who has more figures of one learner elsewhere than chance brings: the same rule as within a class."""
    people = list(dict.fromkeys((name, figure.learner) for name, figure in figures))
    numbers = {who: number for number, who in enumerate(people)}
    given: dict[int, list[int]] = {}
    for number, (name, figure) in enumerate(figures):
        given.setdefault(numbers[name, figure.learner], []).append(number)
    with tempfile.TemporaryDirectory(dir=scratch, prefix=".across-") as folder:
        path = Path(folder) / "sought"
        words = [traces[name].word for name, _ in people]
        path.write_bytes(msgspec.msgpack.encode(Sought(_questions(figures, numbers), words)))
        counts: Counter[int] = Counter()
        found: list[tuple[str, Fit]] = []
        for fits in pool.map(partial(fits_in, sought=path), places, at_once=1, lost=_nothing):
            counts.update(fits.counts)
            found += [(fits.name, fit) for fit in fits.found]
    everybody = sum(sizes.values())
    copies = []
    for owner_class, fit in found:
        others = max(1, everybody - sizes[people[fit.learner][0]])
        expected = sum((counts[n] - (n in fit.numbers) + 0.5) / others for n in given[fit.learner])
        if at_least(len(fit.numbers), expected) < CHANCE / (others * (others + 1)):
            copies.append(_copy(people[fit.learner], owner_class, fit, figures, len(given[fit.learner]), expected))
    return sorted(copies, key=lambda copy: copy.who)


def _nothing(place: ClassPlace) -> Fits:
    return Fits(place.name, {}, [])


def _copy(
    who: tuple[str, str],
    owner_class: str,
    fit: Fit,
    figures: Sequence[tuple[str, WrongFigure]],
    of: int,
    expected: float,
) -> Copy:
    examples = [figures[n][1] for n in fit.numbers[:_SHOWN]]
    shown = "; ".join(f"{x.asked.exercise}, turn {x.asked.turn}: {x.said}" for x in examples)
    return Copy(
        kind=OTHER_FIGURES,
        who=f"{who[0]}: {who[1]}; {owner_class}: {fit.owner}",
        evidence=(
            f"{len(fit.numbers)} of {of} wrong figures of {who[1]} that no known mistake explains are right for {fit.owner} "
            f"of {owner_class}; by chance about {expected:.1f} would be. Ask both to work one through. {shown}"
        ),
    )


def _questions(
    figures: Sequence[tuple[str, WrongFigure]], numbers: Mapping[tuple[str, str], int]
) -> list[FiguresGiven]:
    by_question: dict[AskedFor, dict[str | None, list[tuple[float, int, int]]]] = {}
    for number, (name, figure) in enumerate(figures):
        by_unit = by_question.setdefault(figure.asked, {})
        by_unit.setdefault(figure.unit, []).append((figure.value, number, numbers[name, figure.learner]))
    return [
        FiguresGiven(
            asked, [Typed(unit, *map(list, zip(*sorted(found), strict=True))) for unit, found in by_unit.items()]
        )
        for asked, by_unit in by_question.items()
    ]
