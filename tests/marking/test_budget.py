"""What marking costs stays within the budget of tests/bench/budget.py: ratios of processor time, never seconds."""

import zipfile
from collections.abc import Callable
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from runpy import run_path
from statistics import median
from time import process_time

import msgspec
import pytest

from bitepoint.bank import Exercise, exercises
from bitepoint.marking.batch import read_and_mark
from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.learner_set import learner_sets
from bitepoint.marking.line_marking import _drawn
from bitepoint.marking.line_store import LineStore
from bitepoint.marking.processes import processes
from bitepoint.marking.reading.handins import HandInSource, find_sources
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.right_figures import _figures

BUDGET = run_path(str(Path(__file__).parents[1] / "bench" / "budget.py"))["BUDGET"]
AT = datetime(2026, 6, 30, tzinfo=UTC)


def least(work: Callable[[], object], rounds: int = 3) -> float:
    """Return the least processor time of several runs, none with questions remembered from the one before [s]."""
    spent = []
    for _ in range(rounds):
        _drawn.cache_clear()
        _figures.clear()
        began = process_time()
        work()
        spent.append(process_time() - began)
    return min(spent)


@pytest.fixture(scope="module")
def sources(tmp_path_factory: pytest.TempPathFactory) -> list[HandInSource]:
    """Hand-ins of four learners, marked once, so that what is read once a process is read."""
    folder = tmp_path_factory.mktemp("budget") / "class"
    rehearse(folder, learners=4, seed=3)
    found, _ = find_sources([folder / "hand-ins"])
    for source in found:
        read_and_mark(source)
    return found


def decoded(source: HandInSource) -> int:
    """Read and decode a hand-in's lines, nothing else, and return how many there are."""
    with zipfile.ZipFile(source.path) as packed:
        logbooks = [packed.read(name) for name in packed.namelist() if name.endswith(".jsonl")]
    lines = [line for raw in logbooks for line in raw.splitlines()]
    for line in lines:
        msgspec.json.decode(line)
    return len(lines)


def made(sources: list[HandInSource]) -> int:
    """Work out results and make the pages of these hand-ins, marked already, and return how many pages."""
    work = ClassWork(None, LineStore(BytesIO()))
    for source in sources:
        for batch in read_and_mark(source):
            work.take(batch)
    with processes(1) as pool:
        return sum(len(one.pages) for one in learner_sets(work, AT, pool))


def once(exercise: Exercise, number: int) -> float:
    """Return the processor time to draw one question and mark its right answer [s]."""
    began = process_time()
    question = exercise.draw(class_word="budget", learner=f"L{number}", turn=1 + number % 3)
    question.facts_digest()
    question.mark(question.right_answer())
    return process_time() - began


def test_marking_stays_within_its_multiple_of_reading(sources: list[HandInSource]) -> None:
    """Drawing each question again and marking it costs no more than so many times reading the line."""
    floor, marking = (least(lambda work=work: work(sources[0])) for work in (decoded, read_and_mark))

    assert marking / floor < BUDGET["mark a hand-in / read and decode its lines"]


def test_results_and_pages_stay_within_their_multiple_of_marking(sources: list[HandInSource]) -> None:
    """A page draws no question again that nobody reads on it."""
    marking = least(lambda: [read_and_mark(source) for source in sources])
    whole = least(lambda: made(sources))

    assert (whole - marking) / marking < BUDGET["results and three pages / mark the hand-in"]


def test_a_record_costs_the_same_in_a_larger_class(sources: list[HandInSource]) -> None:
    """Four learners cost four times one, with room for comparing them with each other."""
    one, four = least(lambda: made(sources[:1])), least(lambda: made(sources))
    records = [sum(map(decoded, some)) for some in (sources[:1], sources)]

    assert (four / records[1]) / (one / records[0]) < BUDGET["a record of four learners / a record of one"]


def test_no_exercise_costs_a_multiple_of_the_others() -> None:
    """The costliest exercise to draw and mark is no more than so many times the middle one."""
    cost = {id: median(once(exercise, number) for number in range(9)) for id, exercise in exercises().items()}
    worst = max(cost, key=lambda id: cost[id])

    assert cost[worst] / median(cost.values()) < BUDGET["costliest exercise / middle exercise"], worst
