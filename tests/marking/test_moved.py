"""Whose results moved since the marking before."""

from pathlib import Path

from bitepoint.marking.marks import LEARNER_COLUMNS
from bitepoint.marking.moved import earlier, moved


def line(learner: str, evidence: str = "more work needed", right: str = "2", critical: str = "0") -> list[str]:
    """Return a learner's line of learners.csv."""
    known = {
        "learner": learner,
        "evidence": evidence,
        "right": right,
        "of": "4",
        "needed": "3",
        "critical_open": critical,
    }
    return [known.get(name, "") for name in LEARNER_COLUMNS]


def test_only_who_stands_elsewhere_moved() -> None:
    """More right, other words, a critical mistake dropped: told from what to what; who is new or the same is not."""
    before = [dict(zip(LEARNER_COLUMNS, line(who), strict=True)) for who in ("L1", "L2", "L3", "L4")]
    now = [line("L1"), line("L2", right="3"), line("L3", critical="1"), line("L4", evidence="complete"), line("L5")]
    found = moved(before, LEARNER_COLUMNS, now)
    assert ["L2", "L3", "L4"] == [m.learner for m in found]
    assert "more work needed: 2 of 4 right, 3 needed, critical open: 0" == found[0].before
    assert "more work needed: 3 of 4 right, 3 needed, critical open: 0" == found[0].now


def test_a_set_that_cannot_be_read_moves_nobody(tmp_path: Path) -> None:
    """No folder, no file, no text: nothing is compared."""
    assert [] == earlier(None) == earlier(tmp_path)
    (tmp_path / "learners.csv").write_bytes(b"\xff\xfe\x00")
    assert [] == earlier(tmp_path)
