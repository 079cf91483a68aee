"""Planted cases: every one is found, and nobody else is flagged; the marks are what the learners really did."""

import csv
import os
from collections.abc import Sequence
from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.errors import BadInput, OutOfRange
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.registry.lists import add_all, read_codes
from bitepoint.marking.registry.register import Entry, Register
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.marking.rules import read_rules

COMPARED = ("learner", "exercise", "first_score", "last_score")


def table(path: Path) -> list[dict[str, str]]:
    """Return the rows of a CSV file."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("learners", "seed", "lessons"),
    [*((120, seed, ("start", "torque", "star")) for seed in range(5)), (18, 5, ())],
)
def test_every_planted_case_is_flagged_and_nobody_else(
    tmp_path: Path, learners: int, seed: int, lessons: tuple[str, ...]
) -> None:
    """120 learners in three lessons, and 18 in all: flags are exactly those planted, marks equal the truth."""
    group = tmp_path / "class"
    rehearse(group, learners=learners, seed=seed, planted=True, lessons=lessons)
    noted(group)
    mark(group, tmp_path / "marks")
    planted = table(group / "planted.csv")

    assert {(r["learner"], r["flag"]) for r in planted if r["flag"]} == flagged(tmp_path / "marks")
    assert {"two honest devices", "typed in advance by Run All"} == {r["case"] for r in planted if not r["flag"]}
    assert len({r["flag"] for r in planted}) == 11
    assert columns(group / "truth.csv", COMPARED) == columns(tmp_path / "marks" / "marks.csv", COMPARED)


def mark(group: Path, out: Path, hand_ins: Sequence[Path] = ()) -> None:
    """Mark a rehearsed class, or some of its hand-ins."""
    mark_hand_ins(
        list(hand_ins) or [group / "hand-ins"],
        roster=group / "roster.csv",
        out=out,
        register=group / "register",
        rules=read_rules(group / "class.toml"),
    )


def noted(group: Path) -> None:
    """Note the check codes of a rehearsed class."""
    add_all(Register(group / "register"), read_codes(group / "codes.csv"))


def flagged(out: Path) -> set[tuple[str, str]]:
    """Return who was flagged, and how."""
    return {(r["learner"], f) for r in table(out / "learners.csv") for f in r["flags"].split("; ") if f}


def columns(path: Path, names: Sequence[str]) -> list[tuple[str, ...]]:
    """Return some columns of a CSV file, without rows that are empty but for the first two."""
    rows = [tuple(row[name] for name in names) for row in table(path)]
    return [row for row in rows if any(row[2:])]


SAT = ("learner", "exercise", "sitting_mark")
STANDING = ("learner", "exercise", "sitting", "sitting_standing", "sitting_mark", "sitting_critical_open")
SEEDS = range(int(os.environ.get("BITEPOINT_SITTING_SEEDS", "2")))


@pytest.mark.slow
@pytest.mark.parametrize("seed", SEEDS)
def test_every_case_planted_in_a_sitting_is_flagged_and_practice_moves_none(tmp_path: Path, seed: int) -> None:
    """24 learners: flags are exactly those planted, both marks equal the truth; without practice a sitting is the same.

    More seeds with BITEPOINT_SITTING_SEEDS=50.
    """
    group = tmp_path / "class"
    rehearse(group, learners=24, seed=seed, planted=True, sittings=True, lessons=("start", "torque"))
    noted(group)
    mark(group, tmp_path / "marks")
    planted = table(group / "planted.csv")
    marks = tmp_path / "marks" / "marks.csv"

    assert {(r["learner"], r["flag"]) for r in planted if r["flag"]} == flagged(tmp_path / "marks")
    assert columns(group / "truth.csv", COMPARED) == columns(marks, COMPARED)
    assert columns(group / "truth.csv", SAT) == columns(marks, SAT)

    sat = [p for p in (group / "hand-ins").iterdir() if p.is_dir() or "-202608" in p.name]
    mark(group, tmp_path / "sat", sat)
    assert columns(tmp_path / "sat" / "marks.csv", STANDING) == columns(marks, STANDING)

    confirm_the_clocks(group, tmp_path)


def confirm_the_clocks(group: Path, out: Path) -> None:
    """Clocks wrong by an hour, a day, ten years: nobody loses, nobody gains; one entry each makes it supervised."""
    slow = [r["learner"] for r in table(group / "planted.csv") if r["case"].startswith("clock slow by")]
    for learner in slow:
        said = {"word": "red-kite", "by": "A. Assessor", "text": "sat in the room, the clock was wrong"}
        Register(group / "register").add(Entry(kind="confirmation", learner=learner, **said))
    mark(group, out / "confirmed")
    before, after = ({r["learner"]: r for r in table(out / name / "learners.csv")} for name in ("marks", "confirmed"))

    assert 3 == len(slow)
    assert {"sitting, time to confirm"} == {before[x]["sitting"] for x in slow}
    assert {"supervised by A. Assessor"} == {after[x]["sitting"].split(" (")[0] for x in slow}
    assert all("confirmed by A. Assessor" in after[x]["sitting"] for x in slow)
    assert columns(out / "marks" / "marks.csv", SAT) == columns(out / "confirmed" / "marks.csv", SAT)
    assert {"sitting", "flags", "evidence"} >= {k for x in before for k in before[x] if before[x][k] != after[x][k]}
    assert all(before[x] == after[x] for x in before if x not in slow)


def test_planted_cases_need_room(tmp_path: Path) -> None:
    """18 learners at least, 24 with a sitting, and zips."""
    with pytest.raises(OutOfRange, match="learners must be 24 or more with planted cases, but you gave 23"):
        rehearse(tmp_path, learners=23, seed=1, planted=True, sittings=True)
    with pytest.raises(BadInput, match="A rehearsed sitting comes with planted cases"):
        rehearse(tmp_path, learners=24, seed=1, sittings=True)
    with pytest.raises(OutOfRange, match="learners must be 18 or more with planted cases, but you gave 17"):
        rehearse(tmp_path, learners=17, seed=1, planted=True)
    with pytest.raises(BadInput, match="Planted cases are handed in as zips"):
        rehearse(tmp_path, learners=18, seed=1, planted=True, form="notebook")


def test_the_command_plants_and_marks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From rehearsal to marks with noted codes and the class file: a person should look, status 1."""
    monkeypatch.chdir(tmp_path)

    assert main(["rehearse", "--learners", "24", "--seed", "4", "--out", "class", "--planted"]) == 0
    assert main(["note-codes", "class/codes.csv"]) == 0
    assert main(["mark", "class/hand-ins", "--roster", "class/roster.csv", "--class-file", "class/class.toml"]) == 1
    kinds = {f for r in table(tmp_path / "marks" / "learners.csv") for f in r["flags"].split("; ") if f}
    assert {r["flag"] for r in table(tmp_path / "class" / "planted.csv") if r["flag"]} == kinds
