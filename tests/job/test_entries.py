"""What is recorded in a job: judged by the sheet, warned of out of order, and free of what is personal."""

from datetime import date
from pathlib import Path
from unicodedata import normalize

import msgspec
import pytest

from bitepoint.errors import BadInput, NotRecorded, ReasonNeeded
from bitepoint.job.closing import close
from bitepoint.job.erasing import erase
from bitepoint.job.events import (
    AnyEvent,
    Closed,
    Measurement,
    Photo,
    StageBegun,
    StageDone,
    StepDone,
    Tightened,
)
from bitepoint.job.findings import decide, fit_part, measure, reading
from bitepoint.job.missing_entries import missing, missing_in
from bitepoint.job.opening import NewJob, keep_personal, open_for_training
from bitepoint.job.order import cautions, due
from bitepoint.job.photos import add_photo
from bitepoint.job.reading import read_job
from bitepoint.job.recording import deviation, note, second_check
from bitepoint.job.stages import begin_stage, cautions_read, do_steps, end_stage
from bitepoint.job.tightening import tighten
from bitepoint.workshop.joints import tightened_joints

from .job_rooms import DAY, OWN, PERSONAL, WRENCH, new_job, png


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return new_job(tmp_path, personal=PERSONAL)


def last(folder: Path) -> AnyEvent:
    return read_job(folder).entries[-1].event


def test_a_reading_is_judged_by_the_limit_with_its_guard_band(folder: Path) -> None:
    """Within, near the limit, beyond: reuse, stop and ask, what the criterion says."""
    for value, decision in ((0.05, "reuse"), (0.095, "stop and ask"), (0.15, "stop and ask")):
        measure(folder, "flywheel-runout", value, instrument="dial gauge", uncertainty=0.006)
        event = last(folder)
        assert isinstance(event, Measurement)
        assert (event.decision, event.upper, event.unit) == (decision, 0.1, "mm")
    measure(folder, "rivet-depth", 0.2, instrument="depth gauge")
    assert last(folder).decision == "replace"


def test_a_missing_limit_decides_nothing(tmp_path: Path) -> None:
    """The sheet says look it up, and so does the entry."""
    text = OWN.read_text(encoding="utf-8").replace("face_runout_limit_mm = 0.1", 'face_runout_limit_mm = "look it up"')
    folder = new_job(tmp_path, text=text)
    measure(folder, "flywheel-runout", 0.05, instrument="dial gauge", uncertainty=0.006)
    event = last(folder)
    assert (event.decision, event.lower, event.upper) == (None, None, None)
    assert "look it up" in event.reason
    assert "Nothing is decided by it." in event.reason


def test_what_the_sheet_does_not_judge_is_recorded_with_its_unit(folder: Path) -> None:
    """Freely named, no decision; without a unit it is refused, and another unit than the criterion's too."""
    measure(folder, "pedal free play", 6, unit="mm", instrument="rule")
    assert (last(folder).criterion, last(folder).decision) == ("", None)
    with pytest.raises(BadInput, match="needs its unit"):
        measure(folder, "pedal free play", 6, instrument="rule")
    with pytest.raises(BadInput, match="is measured in mm"):
        measure(folder, "flywheel-runout", 6, unit="kg", instrument="rule")
    measure(folder, "flywheel-runout", 0.002, unit="in", instrument="dial gauge", uncertainty=0.0002)
    assert (last(folder).value, last(folder).unit, last(folder).decision) == (pytest.approx(0.0508), "mm", "reuse")
    assert reading("0,08 mm") == (0.08, "mm")
    for bad in (float("nan"), float("inf"), 1e9):
        with pytest.raises(BadInput, match="value must be"):
            measure(folder, "flywheel-runout", bad, instrument="rule")
    with pytest.raises(BadInput, match="uncertainty must be above 0"):
        measure(folder, "flywheel-runout", 0.05, instrument="rule", uncertainty=0)


def test_a_decision_has_its_reason_and_the_known_finding_beside(folder: Path) -> None:
    """What the trade decides about a crack stands beside what was decided."""
    decide(folder, "flywheel", "replace", because="crack at bolt hole 3", finding="flywheel-crack")
    assert last(folder).advised == "replace"
    assert "crack" in last(folder).advice
    with pytest.raises(ReasonNeeded, match="The known finding asks for “replace”.*no crack is small enough"):
        decide(folder, "flywheel", "reuse", because="hardly to be seen", finding="flywheel-crack")
    decide(folder, "flywheel", "reuse", because="hardly to be seen", finding="flywheel-crack", reason="a scratch")
    assert (last(folder).warned != (), last(folder).reason) == (True, "hardly to be seen; a scratch")
    with pytest.raises(BadInput, match="decision must be one of reuse, replace, stop and ask"):
        decide(folder, "flywheel", "scrap", because="x")
    with pytest.raises(BadInput, match="because must say something"):
        decide(folder, "flywheel", "replace", because=" ")


def test_a_used_part_asks_for_its_reason(folder: Path) -> None:
    """New parts with number and lot mark; a used one is never silent."""
    fit_part(folder, "clutch kit", "K-225-21", lot="L2207")
    with pytest.raises(ReasonNeeded, match="is a used part"):
        fit_part(folder, "flywheel", "FW-9", used=True)
    fit_part(folder, "flywheel", "FW-9", used=True, reason="within every limit, see measurements")
    assert last(folder).used


def test_the_joints_are_those_of_this_car() -> None:
    """Seven flywheel bolts, cover, housing, slave cylinder, wheels: each with the stages of the sheet."""
    from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet

    found = {joint.key: (joint.stages_nm, joint.angle_deg) for joint in tightened_joints(read_own_sheet(OWN).vehicle)}
    assert found == {
        "flywheel.bolt": ((20, 35), 40),
        "clutch.cover": ((22,), None),
        "gearbox.bell_bolts.1": ((70,), None),
        "release.slave_bolts": ((22,), None),
        "wheels": ((110,), None),
    }


def test_a_joint_tightened_as_the_sheet_says_is_recorded_without_a_question(folder: Path) -> None:
    """Bare, and with a crow-foot by its own setting: 35 N·m × 410 / (410 + 45) = 31.5 N·m."""
    tighten(folder, "flywheel.bolt", WRENCH, setting_nm=35, second_round="paint marks looked at", on=DAY)
    event = last(folder)
    assert isinstance(event, Tightened)
    assert (event.target_nm, event.angle_deg, event.expected_nm, event.warned) == (35, 40, 35, ())
    crow = msgspec.structs.replace(WRENCH, adaptor="crow-foot 16", offset_mm=45)
    tighten(folder, "flywheel.bolt", crow, setting_nm=31.5, on=DAY)
    assert last(folder).expected_nm == pytest.approx(31.54, abs=0.01)


@pytest.mark.parametrize(
    ("change", "setting", "told"),
    [
        ({}, 45, "the sheet asks for 35 N·m"),
        ({"adaptor": "crow-foot 16", "offset_mm": 45.0}, 35, "a setting of 31.54 N·m, not 35"),
        ({"due": date(2026, 6, 1)}, 35, "Calibration ran out on 2026-06-01"),
        ({"calibrated": date(2024, 1, 12), "due": None}, 35, "Calibration ran out on 2025-01-11"),
        ({"lowest_nm": 40.0, "highest_nm": 200.0}, 35, "take a smaller wrench"),
    ],
)
def test_what_does_not_fit_asks_for_a_reason_and_is_kept_with_it(
    folder: Path, change: dict[str, object], setting: float, told: str
) -> None:
    """Another setting, an adaptor left out of account, a wrench out of date or range."""
    wrench = msgspec.structs.replace(WRENCH, **change)
    with pytest.raises(ReasonNeeded, match=told):
        tighten(folder, "flywheel.bolt", wrench, setting_nm=setting, on=DAY)
    tighten(folder, "flywheel.bolt", wrench, setting_nm=setting, on=DAY, reason="the supervisor said so")
    assert any(told in warned for warned in last(folder).warned)
    assert last(folder).reason == "the supervisor said so"


def test_no_torque_on_the_sheet_is_looked_up_and_said(tmp_path: Path) -> None:
    """Never a default: what was set is kept with where it was found."""
    text = OWN.read_text(encoding="utf-8").replace("torque_nm = 110", 'torque_nm = "look it up"')
    folder = new_job(tmp_path, text=text)
    wrench = msgspec.structs.replace(WRENCH, highest_nm=None, lowest_nm=None)
    with pytest.raises(ReasonNeeded, match="the sheet has no torque"):
        tighten(folder, "wheels", wrench, setting_nm=110, on=DAY)
    tighten(folder, "wheels", wrench, setting_nm=110, on=DAY, reason="repair data, page 44")
    assert (last(folder).target_nm, last(folder).expected_nm) == (None, None)


def test_a_joint_or_adaptor_that_cannot_be_worked_out_is_one_line(folder: Path) -> None:
    """No such joint; an adaptor without its sizes; a straight bar needs none."""
    with pytest.raises(BadInput, match="There is no joint 'hub'"):
        tighten(folder, "hub", WRENCH, setting_nm=35, on=DAY)
    with pytest.raises(BadInput, match="needs lever and offset"):
        tighten(folder, "wheels", msgspec.structs.replace(WRENCH, adaptor="crow-foot"), setting_nm=110, on=DAY)
    bare = msgspec.structs.replace(WRENCH, lever_mm=None, offset_mm=45.0)
    with pytest.raises(BadInput, match="offset needs the lever"):
        tighten(folder, "flywheel.bolt", bare, setting_nm=35, on=DAY)
    tighten(
        folder, "flywheel.bolt", msgspec.structs.replace(WRENCH, adaptor="straight extension"), setting_nm=35, on=DAY
    )


def test_the_first_stage_is_due_with_what_is_free_and_what_is_held_back(folder: Path) -> None:
    """Rear-wheel drive has no hub nuts; a step is held back with the reason of its rule."""
    now = read_job(folder)
    first = due(now)
    assert first.stage.id == "diagnose"
    assert "D2" in first.free
    assert dict(first.held)["D3"].startswith("“Look before you dismantle” comes before “Diagnostic road test”, because")
    assert "R3" not in [step for stage in now.stages for step in stage.steps]


def test_out_of_a_safe_order_is_warned_of_and_never_blocked(folder: Path) -> None:
    """A stage begun too early and a step done too early ask for the reason; with it they are recorded."""
    with pytest.raises(ReasonNeeded, match="comes before") as raised:
        begin_stage(folder, "strip")
    assert raised.value.warned
    begin_stage(folder, "strip", reason="gearbox came out in another workshop")
    event = last(folder)
    assert isinstance(event, StageBegun)
    assert event.warned == raised.value.warned
    with pytest.raises(ReasonNeeded, match="“Lock the flywheel” comes before"):
        do_steps(folder, ["C3"])
    do_steps(folder, ["C3"], reason="locked by hand tool")
    event = last(folder)
    assert isinstance(event, StepDone)
    assert event.warned
    assert event.reason == "locked by hand tool"


def test_what_is_never_done_is_never_ticked(folder: Path) -> None:
    """It is recorded as a deviation, if at all; an unknown step and one done twice are one line."""
    for step, told in (("X1", "is never done"), ("R3", "There is no operation"), ("Q", "There is no operation")):
        with pytest.raises(BadInput, match=told):
            do_steps(folder, [step])
    do_steps(folder, ["D1", "D2"])
    with pytest.raises(BadInput, match="is recorded already"):
        do_steps(folder, ["D2"])
    with pytest.raises(BadInput, match="is recorded already"):
        do_steps(folder, ["D3", "D3"])


def test_a_stage_is_done_when_its_steps_are_ticked_or_a_reason_says_why_not(folder: Path) -> None:
    """What was left out with its reason holds nothing back later."""
    with pytest.raises(ReasonNeeded, match=r"\(D1\) is not ticked"):
        end_stage(folder, "diagnose")
    do_steps(folder, ["D1", "D2"])
    end_stage(folder, "diagnose", reason="brought in on a trailer, no road test")
    event = last(folder)
    assert isinstance(event, StageDone)
    assert event.left_open == ("D3", "D4")
    do_steps(folder, ["D5", "D5b", "D6"])
    end_stage(folder, "identify")
    assert last(folder).left_open == ()
    assert due(read_job(folder)).stage.id == "plan"
    with pytest.raises(BadInput, match="There is no stage 'paint'"):
        begin_stage(folder, "paint")


def test_cautions_are_shown_for_this_car_and_recorded_as_read(folder: Path) -> None:
    """No hub nut on rear-wheel drive; what is not read is named as missing."""
    assert "hub-nut-raised" not in [hazard.id for hazard in cautions(read_job(folder), "remove")]
    assert "Cautions of “Gearbox out” not read." in missing_in(read_job(folder), "remove")
    cautions_read(folder, "remove", by="T. Prentice")
    assert "airbag" in last(folder).hazards
    assert "Cautions of “Gearbox out” not read." not in missing_in(read_job(folder), "remove")


def test_a_second_person_is_another_person(folder: Path) -> None:
    """Whoever does the work checks nothing of it; initials and stops make no difference."""
    with pytest.raises(BadInput, match="A second person must look at it"):
        second_check(folder, "flywheel bolts", checked_by="t prentice")
    second_check(folder, "flywheel bolts, every mark", checked_by="A. Head")
    assert last(folder).checked_by == "A. Head"


@pytest.mark.parametrize("one", ["NFC", "NFD"])
def test_a_letter_with_its_dots_behind_it_is_the_same_letter(tmp_path: Path, one: str) -> None:
    """Typed on another keyboard a name stays the same person's, and personal data stay personal."""
    other = "NFD" if one == "NFC" else "NFC"
    said = NewJob(by=normalize(one, "Jörg"))
    open_for_training(tmp_path / "job", "A", said, {"customer": normalize(one, "Frau Größe")})
    with pytest.raises(BadInput, match="A second person must look at it"):
        second_check(tmp_path / "job", "flywheel bolts", checked_by=normalize(other, "jörg"))
    with pytest.raises(BadInput, match="That text holds the customer"):
        note(tmp_path / "job", normalize(other, "größe wants it on Friday"))


def test_a_deviation_says_what_why_and_who_agreed(folder: Path) -> None:
    """None of the three may be left out."""
    deviation(folder, "flywheel bolts of another maker", why="none to be had", agreed_by="A. Head")
    with pytest.raises(BadInput, match="agreed by must say something"):
        deviation(folder, "x", why="y", agreed_by="")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("called zz 417-kv today", "registration"),
        ("ring +43660 5550177 about it", "telephone"),
        ("Mrs Quist wants it on Friday", "customer"),
        ("number ZZ0LKT22PFD071999 read at the door", "identification number"),
        ("WXYZABCDEFG123456", "identification number"),
    ],
)
def test_no_text_of_the_record_holds_what_is_personal(folder: Path, text: str, told: str) -> None:
    """However it is spaced; the line names the field and says where it is kept."""
    before = (folder / "job.jsonl").read_bytes()
    with pytest.raises(BadInput, match=told):
        note(folder, text)
    with pytest.raises(BadInput, match=told):
        deviation(folder, "wheel bolts", why=text, agreed_by="A. Head")
    assert (folder / "job.jsonl").read_bytes() == before


def test_a_photo_is_kept_stripped_under_a_neutral_name(folder: Path, tmp_path: Path) -> None:
    """Its own name stays out of the record; a changed photo is told."""
    source = tmp_path / "Quist ZZ-417.png"
    source.write_bytes(png())
    add_photo(folder, source, shows="crack at bolt hole 3")
    event = last(folder)
    assert isinstance(event, Photo)
    assert event.file.startswith("photo-")
    assert "Quist" not in (folder / "job.jsonl").read_text(encoding="ascii")
    job = read_job(folder)
    assert job.photo(event.file).read_bytes() == png()
    assert job.problems == ()
    job.photo(event.file).write_bytes(png() + b"x")
    assert read_job(folder).problems == (f"photos/{event.file} was changed after it was recorded.",)


def test_a_photo_that_is_none_is_one_line_and_nothing_is_kept(folder: Path, tmp_path: Path) -> None:
    """A text, a folder, a file that is not there."""
    (tmp_path / "a.jpg").write_text("no photo", encoding="utf-8")
    before = (folder / "job.jsonl").read_bytes()
    for path, told in (
        (tmp_path / "a.jpg", "a.jpg: is no JPEG or PNG picture"),
        (tmp_path, "is not there, or is no file"),
        (tmp_path / "b.jpg", "is not there, or is no file"),
    ):
        with pytest.raises(BadInput, match=told):
            add_photo(folder, path, shows="wear")
    assert (folder / "job.jsonl").read_bytes() == before
    assert not list((folder / "photos").glob("*"))


def test_erased_is_gone_and_the_record_still_holds(folder: Path, tmp_path: Path) -> None:
    """No word of it is left in the folder; the chain verifies; nothing personal is added any more."""
    source = tmp_path / "a.png"
    source.write_bytes(png())
    add_photo(folder, source, shows="wear")
    assert erase(folder, by="A. Head")
    job = read_job(folder)
    assert (job.personal, job.erased, job.problems) == (None, True, ())
    assert not (folder / "photos").exists()
    for path in folder.rglob("*"):
        if path.is_file():
            content = path.read_bytes()
            assert not [value for value in PERSONAL.values() if value.encode() in content]
    with pytest.raises(BadInput, match="were erased"):
        add_photo(folder, source, shows="wear")
    with pytest.raises(BadInput, match="were erased"):
        keep_personal(folder, {"customer": "Somebody Else"})
    assert not erase(folder)
    note(folder, "wheel bolts looked at again")


def test_personal_data_may_come_later_and_be_corrected(tmp_path: Path) -> None:
    """The last one counts; a side file changed by hand or lost is told."""
    folder = new_job(tmp_path)
    keep_personal(folder, {"vin": PERSONAL["vin"]})
    keep_personal(folder, {"customer": "W. Quist"})
    keep_personal(folder, {"customer": "Wilhelmina Quist"})
    assert read_job(folder).personal == {"vin": PERSONAL["vin"], "customer": "Wilhelmina Quist"}
    assert read_job(folder).problems == ()
    path = folder / "personal.json"
    content = path.read_text(encoding="utf-8")
    path.write_text(content.replace("Quist", "Other"), encoding="utf-8")
    assert "the customer is not the one" in read_job(folder).problems[0]
    path.write_text("{", encoding="utf-8")
    assert "cannot be read" in read_job(folder).problems[0]
    path.unlink()
    assert "is not there, though nothing was erased" in read_job(folder).problems[0]
    with pytest.raises(BadInput, match="There is no field"):
        keep_personal(folder, {"shoe size": "43"})


def test_a_supervisor_closes_and_says_why_something_is_open(folder: Path) -> None:
    """Not who does the work, not twice; afterwards there are notes only."""
    with pytest.raises(BadInput, match="A supervisor closes the job"):
        close(folder, supervisor="T. Prentice")
    with pytest.raises(ReasonNeeded, match="is not done"):
        close(folder, supervisor="A. Head")
    close(folder, supervisor="A. Head", reason="stopped: cracked housing, the customer decides")
    event = last(folder)
    assert isinstance(event, Closed)
    assert len(event.left_open) > 20
    assert event.left_open == missing(read_job(folder))
    note(folder, "car collected")
    with pytest.raises(BadInput, match="is closed and takes notes only"):
        measure(folder, "flywheel-runout", 0.05, instrument="dial gauge")
    with pytest.raises(BadInput, match="was closed by A. Head already"):
        close(folder, supervisor="A. Head", reason="again")


def test_a_changed_line_is_told_and_never_used(folder: Path) -> None:
    """The chain shows an edit; the entry behind it does not count; such a job is not closed."""
    measure(folder, "flywheel-runout", 0.15, instrument="dial gauge")
    path = folder / "job.jsonl"
    path.write_bytes(path.read_bytes().replace(b'"value":0.15', b'"value":0.05'))
    job = read_job(folder)
    assert job.problems == ("job.jsonl: Line 3: was changed after it was written.",)
    assert job.all_of(Measurement) == []
    with pytest.raises(BadInput, match="The record does not hold"):
        close(folder, supervisor="A. Head", reason="x")


def test_a_job_that_cannot_be_read_or_written_is_one_line(folder: Path) -> None:
    """Folders in place of the record and of the side file."""
    (folder / "personal.json").unlink()
    (folder / "personal.json").mkdir()
    with pytest.raises((BadInput, NotRecorded), match="personal.json"):
        keep_personal(folder, {"customer": "Somebody Else"})
    (folder / "job.jsonl").unlink()
    (folder / "job.jsonl").mkdir()
    with pytest.raises(BadInput, match="job.jsonl cannot be read"):
        read_job(folder)


def test_nothing_is_written_through_a_link(folder: Path, tmp_path: Path) -> None:
    """Neither the record nor the photos lead out of the folder."""
    (tmp_path / "elsewhere").mkdir()
    (folder / "photos").symlink_to(tmp_path / "elsewhere")
    source = tmp_path / "a.png"
    source.write_bytes(png())
    with pytest.raises(BadInput, match="is a link to another place"):
        add_photo(folder, source, shows="wear")
    (tmp_path / "letter").write_bytes((folder / "job.jsonl").read_bytes())
    (folder / "job.jsonl").unlink()
    (folder / "job.jsonl").symlink_to(tmp_path / "letter")
    with pytest.raises(NotRecorded, match="is a link to another place"):
        note(folder, "x")
    assert not list((tmp_path / "elsewhere").iterdir())


def test_a_part_beyond_its_limit_is_not_used_again_without_a_reason(folder: Path) -> None:
    """A decision against the last reading of the part asks why, and the record keeps both; a better reading lifts it."""
    measure(folder, "flywheel-flatness", 0.12, instrument="straight edge")
    with pytest.raises(ReasonNeeded, match="A reading asks for “replace”"):
        decide(folder, "Flywheel", "reuse", because="looks good")
    decide(folder, "Flywheel", "reuse", because="looks good", reason="A. Head measured 0.05 mm")
    assert "A. Head measured" in last(folder).reason  # type: ignore[union-attr]
    decide(folder, "clutch cover", "reuse", because="another part")
    measure(folder, "flywheel-flatness", 0.03, instrument="straight edge")
    decide(folder, "flywheel", "reuse", because="measured again")
    assert last(folder).warned == ()  # type: ignore[union-attr]


def test_nothing_is_recorded_where_no_job_is(tmp_path: Path) -> None:
    """A wrong folder's name makes no record in it, in a course folder as little as in an empty one."""
    with pytest.raises(BadInput, match="holds no job"):
        note(tmp_path, "drained")
    with pytest.raises(BadInput, match="holds no job"):
        deviation(tmp_path, "other bolts", why="none", agreed_by="A. Head")
    assert list(tmp_path.iterdir()) == []
