"""Bench sheets of a college's own sheet: its frame, NOT CHECKED, and “look it up” where a figure is missing."""

from pathlib import Path

import pytest

from bitepoint.classroom.bench_sheets.sheets import SHEETS, sheet_page, write_own_sheets
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from, read_own_sheet
from bitepoint.workshop.own_sheets.template import Choices, template
from bitepoint.workshop.vehicles import vehicles

OWN = Path(__file__).parents[1] / "own_sheets" / "k7v.toml"
TEXT = OWN.read_text(encoding="utf-8")


def page(text, key):
    """Return one sheet of the vehicle in a text."""
    sheet = own_sheet_from(text.encode("utf-8"))
    return sheet_page(key, sheet.vehicle, stamp=sheet.stamp)


@pytest.mark.parametrize("key", SHEETS)
def test_not_checked_stands_across_every_page_until_a_second_person_has_checked(key):
    """With the check it is gone; the frame says whose sheet it is."""
    checked = TEXT + f'\n[checked]\nby = "C. S"\ndate = 2026-11-03\nfigures = "{read_own_sheet(OWN).figures}"\n'
    assert '<div class="stamp" role="note">NOT CHECKED</div>' in page(TEXT, key)
    assert "NOT CHECKED" not in page(checked, key)
    assert "SHEET BY BELL COLLEGE, SITUATION INVENTED" in page(checked, key)


@pytest.mark.parametrize("key", SHEETS)
@pytest.mark.parametrize("release", ["cable", "concentric", "external"])
def test_a_sheet_on_which_nothing_was_looked_up_yet_makes_every_page_and_no_figure(key, release):
    """No default stands anywhere: “look it up” does."""
    text = template(Choices(id="K7V", drive="front", release=release, flywheel="dual-mass", cover="self-adjusting"))
    for name in ("by", "document", "pages"):
        text = text.replace(f'{name} = ""', f'{name} = "x"')
    assert "look it up" in page(text, key).casefold()


def test_without_a_torque_there_is_no_tightening_card():
    """The ring whose torque is missing has no order and no boxes to tick, and the key is named; the other has its card."""
    made = page(TEXT.replace("torque_nm = 22", 'torque_nm = "look it up"', 1), "tightening")
    assert "No tightening card: the sheet has no clutch.cover.torque_nm. Look it up." in made
    assert made.count("Tick each bolt") == 1
    assert "1 → 4 → 7 → 3 → 6 → 2 → 5" in made


def test_a_missing_limit_says_look_it_up():
    """On the measuring sheet the row of the plate's run-out is there, without a limit."""
    made = page(TEXT, "measuring")
    assert "<strong>Limit: look it up.</strong>" in made
    assert "Run-out on a circle 105 mm from the middle." in made
    gap = page(TEXT.replace("runout_radius_mm = 105", 'runout_radius_mm = "look it up"'), "measuring")
    assert "Run-out on the circle that the repair data name: look it up." in gap
    assert made.count("<strong>Limit: ") == page(TEXT, "inspection").count('<td class="w">')


def test_training_vehicles_have_no_stamp_and_their_own_frame(tmp_path):
    """What stands on them stays; an own sheet is written by its file."""
    assert "NOT CHECKED" not in sheet_page("tightening", vehicles()["A"])
    assert "TRAINING VEHICLE · INVENTED FIGURES" in sheet_page("tightening", vehicles()["A"])
    assert len(write_own_sheets(OWN, tmp_path / "out")) == len(SHEETS)
