"""The cards of a job: made from the sheet and the tools at hand, in the job's own frame, and never with a figure that is missing."""

from datetime import date
from pathlib import Path

import pytest

from bitepoint.classroom.job_cards.guarded_limits import guarded_rows
from bitepoint.classroom.job_cards.pages import JOB_FRAME, card_pages
from bitepoint.classroom.job_cards.tools_at_hand import TEMPLATE, ToolsAtHand, read_tools
from bitepoint.classroom.job_cards.worked_figures import release_figures, speed_table
from bitepoint.classroom.job_cards.wrench_settings import joint_settings
from bitepoint.errors import BadData
from bitepoint.mechanics.wrench import wrench_setting_nm
from bitepoint.workshop.own_sheets.own_sheet import own_sheet_from
from bitepoint.workshop.own_sheets.template import Choices, template
from bitepoint.workshop.vehicles import vehicles

TEXT = (Path(__file__).parents[2] / "own_sheets" / "k7v.toml").read_text(encoding="utf-8")
DAY = date(2026, 6, 1)


def own(text=TEXT):
    """Return the vehicle of an own sheet."""
    return own_sheet_from(text.encode("utf-8")).vehicle


@pytest.fixture
def tools(tmp_path):
    """The template's tools, all at hand."""
    text = "\n".join(line.removeprefix("# ") for line in TEMPLATE.splitlines()[1:])
    (tmp_path / "tools.toml").write_text(text, encoding="utf-8")
    return read_tools(tmp_path / "tools.toml")


def test_every_torque_has_its_wrench_and_its_setting_with_each_adaptor(tools):
    """Both stages of the flywheel, cover, housing, slave, wheels; a crow-foot's setting is that of the calculator."""
    rows = {(row.joint, row.torque): row for row in joint_settings(own(), tools, DAY)}
    assert [joint for joint, _ in rows] == [
        "Flywheel",
        "Flywheel",
        "Clutch cover",
        "Housing bolts",
        "Slave cylinder",
        "Wheels, on the ground",
    ]
    # The angle stands beside the last torque: nobody stops at the click.
    second = rows["Flywheel", "35 N·m, then 40°"]
    assert second.setting == "35 N·m"
    assert second.with_adaptors == (f"crow-foot 16: {wrench_setting_nm(35, lever_mm=410, offset_mm=45):.1f} N·m",)
    wheels = rows["Wheels, on the ground", "110 N·m"]
    assert wheels.setting == ""
    assert "above 100 N·m" in wheels.wrench


def test_a_wrench_out_of_date_is_not_used(tools):
    """Its joint has no setting, and the reason stands there."""
    late = {row.setting for row in joint_settings(own(), tools, date(2027, 6, 1))}
    assert late == {""}
    assert "2027-01-12" in joint_settings(own(), tools, date(2027, 6, 1))[0].wrench


def test_without_a_torque_there_is_no_setting(tools):
    """The row says so, and no figure stands in it."""
    rows = joint_settings(own(TEXT.replace("torque_nm = 22", 'torque_nm = "look it up"', 1)), tools, DAY)
    cover = next(row for row in rows if row.joint == "Clutch cover")
    assert (cover.torque, cover.setting, cover.with_adaptors) == ("look it up", "", ())


def test_limits_are_drawn_in_by_the_gauge_at_hand(tools):
    """u = 0.006 mm, one-sided 95 %: 1.645 times 0.006 is 0.010 (iso-14253-1); where no gauge is listed the limit stands alone."""
    limits = {row.id: row.limit for row in guarded_rows(own(), tools)}
    assert limits["flywheel-runout"] == "at most 0.1 mm; dial gauge: good up to 0.090, bad above 0.110"
    assert limits["flywheel-flatness"] == "at most 0.08 mm"
    assert limits["plate-runout"] == "look it up"


def test_engine_speeds_agree_with_the_speed_that_the_sheet_gives():
    """A speed in the table, driven back, is the road speed at its head; below idle and above the limiter stands a dash."""
    table = speed_table(vehicles()["A"])
    third = table[3]
    assert table[0][0] == "Gear"
    assert third[0] == "3"
    # Vehicle A: 3600 rpm in third are 69 km/h by its sheet, so 70 km/h are a little more than 3650 rpm.
    assert third[4] == "3680"
    assert table[1][-1] == "–"


def test_every_page_carries_the_frame_of_a_job_and_the_stamp(tools):
    """No page of a job has the frame of the course: it says what to compare it with."""
    pages = card_pages(own(), tools, on=DAY, stamp="NOT CHECKED")
    assert set(pages) == {
        "risk",
        "order-of-work",
        "final-check",
        "inspection",
        "tightening",
        "wrench-settings",
        "figures",
    }
    for page in pages.values():
        assert JOB_FRAME.replace("'", "&#39;") in page
        assert "NEVER USE ON A CAR" not in page
        assert ">NOT CHECKED<" in page


def test_a_sheet_with_nothing_on_it_makes_every_card(tools):
    """All of it says “look it up”."""
    text = template(Choices(id="K7V", drive="rear", release="external"))
    for name in ("by", "document", "pages"):
        text = text.replace(f'{name} = ""', f'{name} = "x"')
    assert all(figure == "look it up" for _, figure in release_figures(own(text)))
    assert card_pages(own(text), ToolsAtHand(), on=DAY)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("highest_nm = 100", "highest_nm = 10", "lowest_nm before highest_nm"),
        ('"flywheel-runout"', '"flywheel"', "measures 'flywheel', which is no criterion"),
        ("offset_mm = 45", "offset_mm = -45", "offset_mm"),
        ("lever_mm", "lever", "lever"),
    ],
)
def test_tools_that_cannot_be_read_are_told_in_one_line(tmp_path, old, new, told):
    """The file, the key and the rule."""
    text = "\n".join(line.removeprefix("# ") for line in TEMPLATE.splitlines()[1:])
    (tmp_path / "tools.toml").write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadData, match=told) as caught:
        read_tools(tmp_path / "tools.toml")
    assert "\n" not in str(caught.value)
