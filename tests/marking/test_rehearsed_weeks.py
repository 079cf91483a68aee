"""Invented learners who come back for recall: what they remembered is known, and marking finds it again."""

import csv
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from bitepoint.errors import BadInput, OutOfRange
from bitepoint.logbook.record import RECALL_BOOK, read_line
from bitepoint.marking import Outcome, mark_hand_ins
from bitepoint.marking.rehearsal.memory import BEST, FLOOR, MemoryTrace
from bitepoint.marking.rehearsal.place import next_steps
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.rehearsal.weeks import weeks_there
from bitepoint.recall.memory import memory_of
from bitepoint.recall.reviews import Review

LESSONS = ("safe", "torque")


@pytest.fixture(scope="module")
def term(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A class of five that came back over eight weeks, and its marks; a class without recall beside it."""
    folder = tmp_path_factory.mktemp("term")
    rehearse(folder / "class", learners=5, seed=4, weeks=8, lessons=LESSONS)
    rehearse(folder / "plain", learners=5, seed=4, lessons=LESSONS)
    return folder


def rows(path: Path) -> list[dict[str, str]]:
    """Return the rows of a table."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def marked(folder: Path) -> Outcome:
    """Mark a rehearsed class into results beside its hand-ins."""
    return mark_hand_ins([folder / "hand-ins"], roster=folder / "roster.csv", out=folder / "results")


def test_marking_finds_what_was_really_remembered(term: Path) -> None:
    """Each answer of the truth stands in recall.csv with its days, right or not; and no other one."""
    marked(term / "class")
    truth = {
        (r["learner"], r["exercise"], r["at"][:19]): (round(float(r["days"]), 1), r["right"])
        for r in rows(term / "class" / "truth-recall.csv")
    }
    found = {
        (r["learner"], r["exercise"], r["at"][:19]): (round(float(r["days"]), 1), r["right"])
        for r in rows(term / "class" / "results" / "recall.csv")
    }
    assert len(truth) > 100
    assert truth.keys() == found.keys()
    assert all(abs(truth[key][0] - found[key][0]) < 0.2 and truth[key][1] == found[key][1] for key in truth)


def test_recall_of_invented_learners_raises_no_flag_and_moves_no_mark(term: Path) -> None:
    """Flags, marks and lines to read are those of the same class without recall."""
    with_recall, plain = marked(term / "class"), marked(term / "plain")
    told = [[(f.kind, f.learner, f.exercise) for f in outcome.summary.flags] for outcome in (with_recall, plain)]
    assert told[0] == told[1]
    assert with_recall.problems == plain.problems
    names = ("learner", "exercise", "mark", "critical_open", "tries", "turns", "reason")
    marks = [
        [[r[n] for n in names] for r in rows(term / which / "results" / "marks.csv")] for which in ("class", "plain")
    ]
    assert marks[0] == marks[1]


def test_recall_lies_in_a_chain_of_its_own_as_the_page_writes_it(tmp_path: Path) -> None:
    """One file a device, every line drawn with recall's word; a reason stands behind its decision and has no score."""
    rehearse(tmp_path / "class", learners=2, seed=4, weeks=6, form="folder", lessons=LESSONS)
    paths = list((tmp_path / "class" / "hand-ins").glob(f"*/logbook/{RECALL_BOOK}.*.jsonl"))
    records = [r for p in paths for x in p.read_bytes().splitlines() if (r := read_line(x).record)]
    assert records
    assert all(r.is_recall and r.how in ("recall", "own words") for r in records)
    assert all((r.score is None) == r.in_own_words for r in records)
    reasons = [r for r in records if r.in_own_words]
    decisions = {(r.exercise, r.turn, r.device): r.score for r in records if not r.in_own_words}
    assert reasons
    assert all(decisions[r.exercise, r.turn, r.device] == 1 for r in reasons)


def test_the_same_seed_gives_the_same_weeks(tmp_path: Path) -> None:
    """Byte for byte; another number of weeks changes nothing before."""
    for name, weeks in (("a", 4), ("b", 4), ("c", 6)):
        rehearse(tmp_path / name, learners=2, seed=9, weeks=weeks, lessons=("torque",))
    truths = [(tmp_path / n / "truth-recall.csv").read_text("utf-8").splitlines() for n in "abc"]
    assert truths[0] == truths[1]
    assert len(truths[2]) > len(truths[0])


def test_every_fourth_learner_stays_away_for_weeks() -> None:
    """The longest pause of those is four weeks or more, and others miss a week now and then."""
    for seed in range(20):
        there = weeks_there(8, 20, Random(seed))
        assert max(b - a for a, b in zip([0, *there], [*there, 21], strict=True)) > 4
    assert 12 < sum(len(weeks_there(7, 20, Random(seed))) for seed in range(20)) / 20 < 20


def test_the_invented_law_is_not_the_schedulers() -> None:
    """It falls from its best to a floor exponentially; the scheduler's power law lies above it after a long pause."""
    at = datetime.fromisoformat("2026-09-01T08:00:00+00:00")
    known = memory_of([Review(at, "right", False)])
    trace = MemoryTrace(at, 1.0)
    assert trace.chance(at) == pytest.approx(BEST)
    assert trace.chance(at + timedelta(days=365)) == pytest.approx(FLOOR)
    # A trace that agrees with the scheduler where both say 0.9 falls below it later.
    trace.days = known.stability_days / 0.0858
    later = at + timedelta(days=20 * known.stability_days)
    assert trace.chance(later) < known.chance(later) - 0.1


def test_the_next_steps_go_on_to_the_warm_up() -> None:
    """Mark, then the warm-up from what was marked; as workbooks the board comes first, as ever."""
    mark, warm_up = next_steps(Path("term"), weeks=True)
    assert mark.startswith("bitepoint mark term/hand-ins ")
    assert warm_up == "bitepoint warm-up term/results --out term/warm-up"
    assert len(next_steps(Path("term"), weeks=True, workbooks=True)) == 1


def test_weeks_are_counted_and_go_with_honest_learners(tmp_path: Path) -> None:
    """More than a year is refused, and so are planted cases with weeks."""
    with pytest.raises(OutOfRange, match="weeks must be between 0 and 52"):
        rehearse(tmp_path / "a", learners=1, seed=1, weeks=53)
    with pytest.raises(BadInput, match="without weeks of recall"):
        rehearse(tmp_path / "b", learners=24, seed=1, weeks=4, planted=True)
