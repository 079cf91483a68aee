"""Recall on the pages: what a class is forgetting, what a learner was asked again, the table, and what leaves for other systems."""

import csv
import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bitepoint.logbook.record import RECALL
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.exporting.exports import export
from bitepoint.marking.pages.asked_again import AskedAgain, asked_again
from bitepoint.marking.recalled import Recalled
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.result import Result

LESSONS = ("safe", "torque")


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The results of a class of six that came back over eight weeks."""
    folder = tmp_path_factory.mktemp("recall") / "class"
    rehearse(folder, learners=6, seed=2, weeks=8, lessons=LESSONS)
    mark_hand_ins([folder / "hand-ins"], roster=folder / "roster.csv", out=folder / "results")
    return folder / "results"


def rows(results: Path) -> list[dict[str, str]]:
    """Return the rows of recall.csv."""
    with (results / "recall.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_report_says_what_fades_and_names_who_answered_dangerously(results: Path) -> None:
    """A share with its interval, what stands behind it, what to do; each dangerous answer with learner and exercise."""
    page = (results / "report.html").read_text("utf-8")
    part = page[page.index('id="forgetting"') : page.index('id="critical"')]
    assert "About 1 week" in part
    assert "4 to 10 days" in part
    assert "too few to say" in part
    assert "Begin with “" in part
    assert f"{len(rows(results))}, from 6 learners" in part
    dangers = [r for r in rows(results) if r["critical"] == "yes"]
    assert dangers
    assert part.count('href="assessor/') == len(dangers)
    assert all(r["exercise"] in part for r in dangers)


def test_a_class_without_recall_says_so(tmp_path: Path) -> None:
    """No table of nothing, and recall.csv has its head alone."""
    rehearse(tmp_path / "class", learners=1, seed=2, lessons=("safe",))
    mark_hand_ins([tmp_path / "class" / "hand-ins"], out=tmp_path / "marks")
    assert "Nobody has been asked again yet." in (tmp_path / "marks" / "report.html").read_text("utf-8")
    assert rows(tmp_path / "marks") == []
    assert "Asked again" not in next((tmp_path / "marks" / "learners").glob("*.html")).read_text("utf-8")


def test_pages_show_open_dangers_first_and_own_words_beside_the_reason(results: Path) -> None:
    """Learner and assessor read both; the assessor has a line to write on, and both read that no machine marks it."""
    told = next(r for r in rows(results) if r["own_words"])
    own = (results / "learners" / f"{told['learner']}.html").read_text("utf-8")
    assessor = (results / "assessor" / f"{told['learner']}.html").read_text("utf-8")
    for page in (own, assessor):
        part = page[page.index('id="again"') :]
        assert f"“{told['own_words']}”" in part
        assert "No machine marks this and it changes no mark." in part
    assert '<td class="line"></td>' in assessor[assessor.index('id="again"') :]
    assert '<td class="line"></td>' not in own[own.index('id="again"') :]
    open_ones = [r for r in rows(results) if r["put_right"] == "no"]
    assert open_ones
    page = (results / "learners" / f"{open_ones[0]['learner']}.html").read_text("utf-8")
    assert page.index("Dangerous, and still open:") < page.index("The newest answer is not right")
    assert page.index("Also dangerous when asked again weeks later") < page.index("What to practise next")


def test_the_newest_answer_of_an_exercise_says_whether_it_is_firm() -> None:
    """A miss that a later answer put right stands among what is firm; an open danger stands nowhere else."""
    at = [datetime(2026, 9, day, tzinfo=UTC) for day in (1, 2, 3)]
    recalled = (
        Recalled(exercise="torque.preload", at=at[0], turn=1, score=0),
        Recalled(exercise="torque.preload", at=at[1], turn=2, score=1, days=30.0),
        Recalled(exercise="star.impact", at=at[2], turn=1, score=0, critical=True),
    )
    found = asked_again(Result(name="L1", class_word="w", recalled=recalled))
    assert [t.one.exercise for t in found.dangers] == ["star.impact"]
    assert found.missed == ()
    assert [(t.one.turn, t.after) for t in found.firm] == [(2, "after 4 weeks")]
    assert found.right == 1
    assert asked_again(Result(name="L1", class_word="w")) == AskedAgain(
        answers=(), dangers=(), missed=(), firm=(), reasons=()
    )


def test_statements_of_recall_say_so_and_begin_no_attempt(results: Path, tmp_path: Path) -> None:
    """Each answer in recall carries recall in its context; those of lessons do not; own words are left out."""
    (path,) = export(results, tmp_path / "out", form="xapi", home="https://college.example")
    found = [json.loads(line) for line in path.read_text("utf-8").splitlines()]
    key = "https://college.example/extensions/recall"
    recalled = [s for s in found if s.get("context", {}).get("extensions", {}).get(key)]
    assert len(recalled) == len(rows(results))
    assert {s["verb"]["display"]["en"] for s in recalled} == {"answered"}
    trail = [json.loads(line) for line in (results / "marks.jsonl").read_text("utf-8").splitlines()]
    of_lessons = [t for t in trail if "line" in t and t["sitting"] != RECALL]
    assert len([s for s in found if s["verb"]["display"]["en"] == "answered"]) == len(of_lessons) + len(recalled)
