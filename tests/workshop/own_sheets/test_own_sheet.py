"""A college's own sheet: read, checked by a second person, and what stands where a figure is missing."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import BadData, BadInput, BitepointError
from bitepoint.mechanics.clutch import torque_capacity_nm
from bitepoint.missing import LOOK_UP, MissingFigure, is_missing
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from, read_own_sheet

TEXT = (Path(__file__).parents[2] / "own_sheets" / "k7v.toml").read_text(encoding="utf-8")


def sheet(text=TEXT):
    """Return the own sheet in a text."""
    return own_sheet_from(text.encode("utf-8"))


def test_an_own_sheet_has_the_type_of_the_training_vehicles_and_says_who_entered_it():
    """The same type, its own frame, and a name that is no training vehicle's."""
    found = sheet()
    assert found.vehicle.flywheel.bolt_count == 7
    assert found.vehicle.name == "vehicle K7V"
    assert found.vehicle.frame == "TRAINING TASK · SHEET BY BELL COLLEGE, SITUATION INVENTED · NEVER USE ON A CAR"
    assert found.entered.document == "Workshop manual KV19, edition 4"


def test_a_figure_that_is_not_written_is_missing_and_never_a_default():
    """Left out or said to be looked up: the key is named, and whatever is done with it raises."""
    found = sheet()
    assert found.missing == ("clutch.mu_design", "clutch.plate_runout_limit_mm")
    mu = found.vehicle.clutch.mu_design
    assert is_missing(mu)
    assert repr(mu) == LOOK_UP
    for use in (
        lambda: mu * 2,
        lambda: 2 / mu,
        lambda: f"{mu:g}",
        lambda: str(mu),
        lambda: mu < 1,
        lambda: float(mu),
        lambda: bool(mu),
    ):
        with pytest.raises(MissingFigure, match="The sheet of K7V has no clutch.mu_design. Look it up"):
            use()


def test_a_calculator_names_the_missing_figure():
    """A range check does not say that “look it up” is out of range."""
    with pytest.raises(MissingFigure, match="clutch.mu_design"):
        torque_capacity_nm(
            5000, friction=sheet().vehicle.clutch.mu_design, outer_diameter_mm=225, inner_diameter_mm=150
        )


def test_a_figure_may_be_written_with_its_unit():
    """What stands in the document in another unit is typed as it stands there."""
    found = sheet(TEXT.replace("torque_nm = 22", 'torque_nm = "16.2 lbf·ft"', 1))
    assert found.vehicle.clutch.cover.torque_nm == 21.96


def test_a_converted_figure_has_no_more_digits_than_anybody_can_set():
    """Four; what is written in the sheet's own unit stays as it is."""
    text = TEXT.replace("stages_nm = [20, 35]", 'stages_nm = ["30 lbf·ft", "44 lbf·ft", "59.656 N·m"]')
    found = sheet(text.replace("gearbox_kg = 41.0", 'gearbox_kg = "90.4 lb"')).vehicle
    assert found.flywheel.tightening.stages_nm == (40.67, 59.66, 59.656)
    assert found.masses.gearbox_kg == 41.0


def test_an_angle_written_in_takes_the_line_of_the_second_torque_off():
    """The form has a line for a second round by torque; nobody must know that an angle stage has none."""
    text = TEXT.replace("angle_deg = 40", 'angle_deg = 40\nsecond_round_limit_deg = "look it up"')
    found = sheet(text).vehicle.flywheel.tightening
    assert (found.angle_deg, found.second_round_limit_deg) == (40, None)
    assert "flywheel.tightening.second_round_limit_deg" not in sheet(text).missing


def test_what_follows_from_another_line_need_not_be_written():
    """A hydraulic release has a bore, a torque has a second round: not written, they are missing."""
    text = "\n".join(line for line in TEXT.splitlines() if not line.startswith(("master_bore_mm", "fluid_grade")))
    assert {"release.master_bore_mm", "release.fluid_grade"} <= set(sheet(text).missing)


CHECKED = '\n[checked]\nby = "{by}"\ndate = 2026-11-03\nfigures = "{figures}"\n'


def test_until_a_second_person_has_checked_it_the_stamp_stands_and_a_changed_figure_brings_it_back():
    """A comment changes nothing; a figure does; the person who entered it cannot check it."""
    figures = sheet().figures
    checked = TEXT + CHECKED.format(by="C. Second", figures=figures)
    assert sheet().stamp == "NOT CHECKED"
    assert sheet(checked).stamp == ""
    assert sheet(f"# looked at again\n{checked}").stamp == ""
    changed = sheet(checked.replace("oil_litre = ", "oil_litre = 1", 1))
    assert changed.stamp == "NOT CHECKED"
    assert changed.changed_since
    with pytest.raises(BadInput, match="A second person must compare them"):
        sheet(TEXT + CHECKED.format(by="bell college", figures=figures))


@pytest.mark.parametrize("by", ["Bell-College", "BELL  college.", "Bell Collège"])
def test_a_name_set_otherwise_is_no_second_person(by):
    """Dots, spaces, capitals and how an è is made tell no two people apart."""
    entered = TEXT.replace("Bell College", "Bell Colle\u0300ge" if "è" in by else "Bell College")
    figures = sheet(entered).figures
    with pytest.raises(BadInput, match="A second person must compare them"):
        sheet(entered + CHECKED.format(by=by, figures=figures))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('id = "K7V"', 'id = "K"', "id must have two to four capitals or digits"),
        ('id = "K7V"', 'id = "kk"', "id"),
        ('id = "K7V"', 'id = "CON"', "id is 'CON', a name that some computers keep for a device"),
        ('id = "K7V"', 'id = "LPT1"', "id is 'LPT1', a name that some computers keep for a device"),
        ('drive = "rear"', "", "drive is missing"),
        ("cylinders = 4", "cylindres = 4", "engine.cylindres is no key of a sheet"),
        ("torque_nm = 22", 'torque_nm = "22 mm"', "clutch.cover.torque_nm: mm measures length"),
        ("torque_nm = 22", "torque_nm = -22", "clutch.cover.torque_nm"),
        ("[entered]", "[enterd]", r"\[entered\] is missing"),
        ('by = "Bell College"', 'by = ""', "entered.by must be one line"),
        ("date = 2026-11-01", 'date = "soon"', r"\[entered\]"),
        ("n = 9", "n = 8", "clutch.cover.hole_angles_deg: must hold one angle a bolt"),
        ("[engine]", "[engine", "is no valid TOML"),
        ('id = "K7V"', 'id = "K7V"\nentered_by = "me"', "entered_by is no key of a sheet"),
        ("edition = 1", 'edition = "look it up"', "edition is missing"),
        ("stages_nm = [20, 35]", "stages_nm = []", "flywheel.tightening.stages_nm is an empty list"),
        ("ratios = [3.68, 2.08, 1.41, 1.0, 0.83]", "ratios = []", "gearbox.ratios is an empty list"),
        ("[[gearbox.bell_bolts]]", "[gearbox.bell_bolts]", r"begun with \[\[gearbox.bell_bolts\]\]"),
        ("idle_rpm = 780", "idle_rpm = inf", "engine.idle_rpm: inf is no figure"),
        ("ahead_of_front_axle_mm = -820", "ahead_of_front_axle_mm = nan", "ahead_of_front_axle_mm: nan is no figure"),
        ("free_play_mm = [4, 8]", "free_play_mm = [4, inf]", "release.free_play_mm: inf is no figure"),
        ('code = "5Z1"', 'code = ""', "gearbox.code must be one line of 1 to 300 characters"),
        ('code = "5Z1"', 'code = "5\\u202EZ"', "gearbox.code must be one line of 1 to 300 characters"),
        ('code = "5Z1"', 'code = "5\\nZ"', "gearbox.code must be one line of 1 to 300 characters"),
        ('code = "5Z1"', f'code = "{"x" * 301}"', "gearbox.code must be one line of 1 to 300 characters"),
        ("n = 8\nd_mm = 12", "n = 100000000\nd_mm = 12", "gearbox.bell_bolts: must be at most 60 bolts"),
        ("[0.0, 50.0, 105.0, 155.0, 205.0, 257.0, 308.0]", "[0.0]", "hole_angles_deg: must be of 2 to 24 bolts"),
        ("stages_nm = [20, 35]", f"stages_nm = {[*range(10, 20)]}", "stages_nm: must be at most 9 stages"),
        ('job_date = "2026-04-14"', 'job_date = "tomorrow"', "job_date: must be a day such as 2026-04-14"),
        ('build_date = "2014-09"', 'build_date = "May 2019"', "build.build_date: must be year and month such as 2019-05"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_told_in_one_line(old, new, told):
    """The key and what to do, and nothing else."""
    with pytest.raises(BadInput, match=told) as caught:
        sheet(TEXT.replace(old, new, 1))
    assert "\n" not in str(caught.value)


def test_a_file_is_named(tmp_path):
    """A broken file is told with its name; one that is not there as well."""
    (tmp_path / "x.toml").write_text("[entered]\n", encoding="utf-8")
    with pytest.raises(BadData, match=r"x\.toml: "):
        read_own_sheet(tmp_path / "x.toml")
    with pytest.raises(BadData, match=r"y\.toml: cannot be read"):
        read_own_sheet(tmp_path / "y.toml")


LINES = TEXT.splitlines()


@settings(max_examples=150, deadline=None)
@given(st.integers(0, len(LINES) - 1), st.text(max_size=30))
def test_whatever_stands_in_a_line_there_is_no_other_error(at, text):
    """A sheet with one line replaced is read, or told in one line."""
    told = ""
    try:
        sheet("\n".join([*LINES[:at], text, *LINES[at + 1 :]]))
    except BitepointError as error:
        told = str(error)
    assert "\n" not in told


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=300))
def test_whatever_the_bytes_there_is_no_other_error(content):
    """Any bytes are read, or told in one line."""
    with pytest.raises(BadInput):
        own_sheet_from(content)
