"""Planted cases: every one is found, and nobody else is flagged; the marks are what the learners really did."""

import csv
from pathlib import Path

import pytest

from bitepoint.cli import main
from bitepoint.errors import BadInput, OutOfRange
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.registry.lists import add_all, read_codes
from bitepoint.marking.registry.register import Register
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
    add_all(Register(tmp_path / "register"), read_codes(group / "codes.csv"))
    mark_hand_ins(
        [group / "hand-ins"],
        roster=group / "roster.csv",
        out=tmp_path / "marks",
        register=tmp_path / "register",
        rules=read_rules(group / "class.toml"),
    )
    planted = table(group / "planted.csv")
    found = {(r["learner"], f) for r in table(tmp_path / "marks" / "learners.csv") for f in r["flags"].split("; ") if f}
    truth, marks = (
        [tuple(r[c] for c in COMPARED) for r in table(p)]
        for p in (group / "truth.csv", tmp_path / "marks" / "marks.csv")
    )

    assert {(r["learner"], r["flag"]) for r in planted if r["flag"]} == found
    assert {"two honest devices", "typed in advance by Run All"} == {r["case"] for r in planted if not r["flag"]}
    assert len({r["flag"] for r in planted}) == 11
    assert truth == marks


def test_planted_cases_need_room(tmp_path: Path) -> None:
    """18 learners at least, and zips."""
    with pytest.raises(OutOfRange, match="learners must be 18 or more with planted cases, but you gave 17"):
        rehearse(tmp_path, learners=17, seed=1, planted=True)
    with pytest.raises(BadInput, match="Planted cases are handed in as zips"):
        rehearse(tmp_path, learners=18, seed=1, planted=True, form="notebook")


def test_the_command_plants_and_marks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From rehearsal to marks with noted codes and the class file: a person should look, status 1."""
    monkeypatch.chdir(tmp_path)

    assert main(["rehearse", "--learners", "18", "--seed", "4", "--out", "class", "--planted"]) == 0
    assert main(["note-codes", "class/codes.csv"]) == 0
    assert main(["mark", "class/hand-ins", "--roster", "class/roster.csv", "--class-file", "class/class.toml"]) == 1
    kinds = {f for r in table(tmp_path / "marks" / "learners.csv") for f in r["flags"].split("; ") if f}
    assert {r["flag"] for r in table(tmp_path / "class" / "planted.csv") if r["flag"]} == kinds
