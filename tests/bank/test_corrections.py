"""What was found wrong is looked up by exercise and revision, and read anew for another set of data files."""

from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.bank import corrections, exercises
from bitepoint.workshop.datafiles import DataFiles, using

NEWEST = exercises()["start.choice"].revision
WITHDRAWN = """
[[withdrawal]]
exercise = "start.choice"
revisions = [{revision}]
date = 2027-02-01
why = "{why}"
"""
CORRECTED = """
[[correction]]
exercise = "start.number"
revision = {revision}
date = 2027-02-01
what = "The lever was measured from the wrong end."
dangerous = {dangerous}
"""


def test_a_file_with_nothing_withdraws_and_corrects_nothing() -> None:
    """As shipped."""
    assert corrections.withdrawal_of("start.choice", NEWEST) is None
    assert corrections.correction_since("start.number", 0) is None
    assert corrections.withdrawn_now() == frozenset()


def test_each_set_of_data_files_has_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first of two entries says why; a revision that nobody withdrew stands; outside of that set nothing is withdrawn."""
    monkeypatch.setattr(corrections, "_FILE", tmp_path / "corrections.toml")
    (tmp_path / "corrections.toml").write_text(
        WITHDRAWN.format(revision=NEWEST, why="First.") + WITHDRAWN.format(revision=NEWEST, why="Second."), "utf-8"
    )
    with using(DataFiles(places.assets())):
        found = corrections.withdrawal_of("start.choice", NEWEST)
        assert found is not None
        assert found.why == "First."
        assert corrections.withdrawal_of("start.choice", NEWEST + 1) is None
        assert corrections.withdrawn_now() == {"start.choice"}
    assert corrections.withdrawn_now() == frozenset()


def test_a_dangerous_correction_is_told_before_a_newer_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only what came after the revision counts."""
    monkeypatch.setattr(corrections, "_FILE", tmp_path / "corrections.toml")
    newest = exercises()["start.number"].revision
    (tmp_path / "corrections.toml").write_text(
        CORRECTED.format(revision=newest, dangerous="false") + CORRECTED.format(revision=newest, dangerous="true"),
        "utf-8",
    )
    with using(DataFiles(places.assets())):
        found = corrections.correction_since("start.number", newest - 1)
        assert found is not None
        assert found.dangerous
        assert corrections.correction_since("start.number", newest) is None
        assert corrections.correction_since("start.choice", 0) is None
