"""The plan of a second marking: worked out from the same hand-ins, register and rules as the marks, and only then."""

import tempfile
from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.marking.batch import read_and_mark
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.flagging.answers import UNKNOWN
from bitepoint.marking.line_store import LineStore
from bitepoint.marking.marks import LEARNER_COLUMNS, learner_cells
from bitepoint.marking.moderation.answers import ToMark, to_mark
from bitepoint.marking.moderation.strata import Chosen, choose
from bitepoint.marking.outputs.read_back import read_results
from bitepoint.marking.reading.handins import find_sources
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.registry.fitting import of_another_class
from bitepoint.marking.result import Result
from bitepoint.marking.roster import Roster
from bitepoint.marking.rules import ClassRules


class Plan(Struct, frozen=True, kw_only=True):
    """Whom and what a second person marks; `of` is how many handed in, `cars` those of the class.

    `strangers` handed in and are not in the roster: a person says first who they are.
    """

    seed: int
    rest: float
    of: int
    chosen: tuple[Chosen, ...]
    answers: tuple[ToMark, ...]
    cars: ClassCars = ORDINARY
    strangers: tuple[str, ...] = ()


def make_plan(
    marks: Path,
    inputs: Sequence[Path],
    *,
    seed: int,
    rest: float = 0.1,
    answers: int = 8,
    roster: Roster | None = None,
    rules: ClassRules | None = None,
    entries: Sequence[Entry] = (),
) -> Plan:
    """Return the plan for the results folder `marks`.

    Parameters
    ----------
    marks, inputs, roster, rules, entries
        The results folder, and what it was marked from.
    seed, rest
        See strata.choose.
    answers
        How many answers of each learner.

    Raises
    ------
    BadInput
        The results are not those of these hand-ins, register and rules.
    """
    learners = read_results(marks, lambda _: None).learners
    sources, problems = find_sources(inputs, leave_out=marks)
    if not sources:
        raise BadInput(problems[0] if problems else "There is no hand-in there. Name the folder with the hand-ins.")
    with tempfile.TemporaryFile() as spool:
        work = ClassWork(roster, LineStore(spool), rules=rules, entries=entries)
        for source in sources:
            for batch in read_and_mark(source, work.cars):
                work.take(batch)
        if strange := of_another_class(work.entries, work.learners, with_roster=roster is not None):
            work.leave_out_register(strange)
        results = list(work.results())
        _check_same(marks, learners, results)
        strangers = [r.name for r in results if any(f.kind == UNKNOWN for f in r.flags)]
        chosen = choose([r for r in results if r.name not in strangers], work.entries, seed=seed, rest=rest)
        names = {c.learner for c in chosen}
        found = [
            answer
            for result in results
            if result.name in names
            for answer in to_mark(result, work.lines_of(result.name), seed=seed, most=answers)
        ]
    return Plan(
        seed=seed,
        rest=rest,
        of=sum(not r.nothing for r in results),
        chosen=tuple(chosen),
        answers=tuple(found),
        cars=work.cars,
        strangers=tuple(strangers),
    )


def _check_same(marks: Path, learners: Sequence[dict[str, str]], results: Sequence[Result]) -> None:
    """Refuse a plan for marks that came from something else: the two marks would not be of the same answers."""
    before = {row["learner"]: row for row in learners}
    now = {r.name: dict(zip(LEARNER_COLUMNS, learner_cells(r), strict=True)) for r in results}
    other = [name for name in {**now, **before} if now.get(name) != before.get(name)]
    if other:
        few = ", ".join(sorted(other)[:5]) + (f" and {len(other) - 5} more" if len(other) > 5 else "")
        raise BadInput(
            f"{marks}: these results are not those of these hand-ins, class file, roster and register: {few} came out "
            "otherwise. Give the same options as for “bitepoint mark”, or mark again first."
        )
