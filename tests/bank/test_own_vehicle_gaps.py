"""Own sheets with figures missing here and there: every exercise is drawn, with its picture, or left out with a reason."""

import re
from pathlib import Path
from random import Random

import pytest

from bitepoint import places
from bitepoint.bank import exercises
from bitepoint.classroom.bench_sheets.sheets import SHEETS, sheet_page
from bitepoint.pictures.registry import draw as draw_picture
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.vehicles import vehicle

OWN_SHEET = Path(__file__).parents[1] / "own_sheets" / "k7v.toml"
_KEPT = ("id =", "drive =", "factory_type", "fitted_now", "kind =", "edition", "[", "#")


def sheet_with_gaps(seed):
    """Return an own sheet: a training vehicle's text with another bolt circle and about one figure in twelve to look up."""
    rng = Random(seed)
    text = (places.assets() / "vehicles" / f"{rng.choice('abcd')}.toml").read_text(encoding="utf-8")
    text = re.sub(r'^id = ".*"', 'id = "K7V"', text, flags=re.M).partition("[[variants]]")[0]
    count = rng.randint(5, 11)
    holes = sorted({round(360 * n / count + rng.choice([0, 0, 4]), 1) % 360 for n in range(count)})
    text = re.sub(r"(\[flywheel\](?:.|\n)*?hole_angles_deg = )\[.*?\]", lambda m: f"{m[1]}{holes}", text, count=1)
    lines = [
        f'{line.partition(" = ")[0]} = "look it up"'
        if " = " in line and not line.startswith(_KEPT) and rng.random() < 0.08
        else line
        for line in text.splitlines()
    ]
    entered = '[entered]\nby = "Bell"\ndocument = "M"\npages = "1"\ndate = 2026-11-01\n'
    return "\n".join([*lines, entered])


@pytest.mark.parametrize("seed", [1, 2, 7])
def test_a_sheet_with_gaps_serves_or_says_why(seed, tmp_path):
    """Alone in its class: right is right, a mistake is none, no picture fails, each bench sheet is made."""
    (tmp_path / "vehicles").mkdir()
    (tmp_path / "vehicles" / "k7v.toml").write_text(sheet_with_gaps(seed), encoding="utf-8")
    with using(DataFiles(places.assets(), tmp_path)):
        assert len(vehicle("K7V").missing) > 3
        for key in SHEETS:
            assert sheet_page(key, vehicle("K7V"))
        served = 0
        for exercise in exercises().values():
            if reason := exercise.left_out(("K7V",)):
                assert reason.casefold().startswith(
                    ("no car of this class", "the sheet of k7v has no", "the figures of k7v")
                )
                continue
            served += 1
            for turn in (1, 2, 3):
                question = exercise.draw(class_word="x", learner="l", turn=turn, vehicle="K7V", cars=("K7V",))
                assert question.mark(question.right_answer()).right
                assert all(question.mark(answer).score < 1 for answer, _ in question.known_mistakes())
            if question.picture:
                assert draw_picture(question.picture.key, **question.picture.parameters).alt
    assert served > 100


def test_a_training_vehicle_beside_a_sheet_with_gaps_hides_no_exercise_that_none_can_serve(tmp_path):
    """Only the own sheet is tightened by angle and it lacks a figure for it: left out with that reason, not failed when drawn."""
    (tmp_path / "vehicles").mkdir()
    text = OWN_SHEET.read_text(encoding="utf-8").replace("nut_factor = 0.16", 'nut_factor = "look it up"', 1)
    (tmp_path / "vehicles" / "k7v.toml").write_text(text, encoding="utf-8")
    by_angle = exercises()["star.angle-log"]
    with using(DataFiles(places.assets(), tmp_path)):
        assert "flywheel.tightening.nut_factor" in by_angle.left_out(("A", "K7V"))
        assert not by_angle.left_out(("A", "K7V", "B", "C", "D"))
