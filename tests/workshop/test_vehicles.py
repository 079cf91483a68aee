"""The data sheets: what they carry, and what a person reads when one of them is wrong."""

import re
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.mechanics import joints
from bitepoint.workshop import figures
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.vehicles import FRAME, read_vehicle, vehicle, vehicles

SHEETS = sorted((places.assets() / "vehicles").glob("*.toml"))


def sheet_with(folder: Path, old: str, new: str, letter: str = "b") -> Path:
    """A copy of a data sheet with one text exchanged."""
    text = (places.assets() / "vehicles" / f"{letter}.toml").read_text(encoding="utf-8")
    assert old in text
    copy = folder / f"{letter}.toml"
    copy.write_text(text.replace(old, new, 1), encoding="utf-8")
    return copy


def test_four_vehicles_in_order() -> None:
    """There are four training vehicles, A to D."""
    assert list(vehicles()) == ["A", "B", "C", "D"]


def test_a_letter_that_is_none() -> None:
    """Asking for a vehicle that does not exist says which there are."""
    with pytest.raises(BadData) as caught:
        vehicle("E")

    assert str(caught.value) == "There is no training vehicle 'E'. Choose one of A, B, C, D."


def test_sheets_cannot_be_changed() -> None:
    """A data sheet in memory is frozen."""
    with pytest.raises(AttributeError):
        vehicle("A").engine.code = "other"  # type: ignore[misc]


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_every_sheet_says_that_it_is_invented(path: Path) -> None:
    """The first line of each data sheet is the frame that every page shows."""
    assert f"# {FRAME}" == path.read_text(encoding="utf-8").splitlines()[0]


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_no_sheet_names_a_make(path: Path) -> None:
    """A sheet has no key for a make or a model; the vehicle is its letter."""
    assert not re.search(r"^\s*(make|model|brand|maker)\b", path.read_text(encoding="utf-8"), re.MULTILINE)


@pytest.mark.parametrize("letter", "ABCD")
def test_every_sheet_carries_the_job_date(letter: str) -> None:
    """The day of the job stands on the sheet, so that wrench dates do not age."""
    assert vehicle(letter).job_date == "2026-04-14"


@pytest.mark.parametrize(("letter", "noted"), [("A", 3), ("B", 6), ("C", 5), ("D", 3)])
def test_slip_test_gear_is_the_highest_that_stays_legal(letter: str, noted: int) -> None:
    """The gear for the slip test is the highest in which greatest torque comes below 90 km/h."""
    v = vehicle(letter)

    assert noted == v.gearbox.slip_test_gear == figures.slip_test_gear(v)


@pytest.mark.parametrize(("letter", "noted"), [("A", 69), ("B", 87), ("C", 88), ("D", 88)])
def test_road_speed_of_the_slip_test(letter: str, noted: float) -> None:
    """Greatest torque comes at 69, 87, 88 and 88 km/h in the gear of the slip test."""
    v = vehicle(letter)

    speed = figures.road_speed_kmh(v, gear=v.gearbox.slip_test_gear, rpm=v.engine.max_torque_rpm)

    assert noted == pytest.approx(speed, abs=0.6)


def test_slip_test_gear_when_none_is_slow_enough() -> None:
    """Where even first gear is too fast, the message names sheet and limit."""
    with pytest.raises(BadData, match=r"^a\.toml: a gear that stays below 5 km/h"):
        figures.slip_test_gear(vehicle("A"), limit_kmh=5)


def test_hub_nut_by_the_sheet() -> None:
    """Each car with driven front wheels says how its hub nut is slackened; both ways occur."""
    assert [v.wheels.hub_nut for v in vehicles().values()] == [
        "on the ground",
        "raised just clear",
        "on the ground",
        None,
    ]


def test_reverse_of_every_training_vehicle_is_without_synchroniser() -> None:
    """Lessons 3 and 11 say so; where a sheet says otherwise, the drag test by reverse shows nothing on that car."""
    assert not any(v.gearbox.reverse_synchronised for v in vehicles().values())


@pytest.mark.parametrize(
    ("letter", "tyre"), [("A", "165/65 R14"), ("B", "205/55 R16"), ("C", "225/45 R17"), ("D", "195/65 R15")]
)
def test_tyre_size_as_on_the_sidewall(letter: str, tyre: str) -> None:
    """The tyre size reads as it stands on the tyre."""
    assert tyre == vehicle(letter).wheels.tyre


@pytest.mark.parametrize(("letter", "found"), [("A", {}), ("B", {}), ("C", {2: 8.0}), ("D", {})])
def test_bolts_that_sit_out_of_their_even_place(letter: str, found: dict[int, float]) -> None:
    """Only the second hole of vehicle C is off, by eight degrees; the even rings have none."""
    assert vehicle(letter).flywheel.out_of_place_deg == found


def test_vehicle_c_has_blind_holes_and_a_locking_patch() -> None:
    """Vehicle C has blind holes with 21 mm of thread and dry bolts with a locking patch."""
    bolt = vehicle("C").flywheel.bolt

    assert bolt.crank_thread_depth_mm == 21.0
    assert "locking patch" in bolt.coating
    assert "blind" in bolt.coating
    assert "sealant" not in bolt.coating


def test_vehicle_d_has_no_locking_patch() -> None:
    """Vehicle D uses thread-locker from the kit, not a patch."""
    assert "patch" not in vehicle("D").flywheel.bolt.coating


@pytest.mark.parametrize("letter", "BC")
def test_bolt_of_the_other_flywheel_does_not_do(letter: str) -> None:
    """The long bolt bottoms in the rigid flywheel; the short one hardly reaches through the dual-mass one."""
    flywheel = vehicle(letter).flywheel
    short, long = flywheel.bolt, flywheel.bolt_dmf
    assert long is not None
    room = joints.clearance_to_thread_end_mm(
        long.length_mm, clamped_mm=short.hub_clamped_mm, thread_depth_mm=short.crank_thread_depth_mm
    )
    hold = joints.engagement_over_d(short.length_mm, clamped_mm=long.hub_clamped_mm, d_mm=short.d_mm)

    assert room < 0
    assert hold < 1


@pytest.mark.parametrize("letter", "AD")
def test_no_dual_mass_figures_where_there_is_none(letter: str) -> None:
    """Asking the sheet of a car with a rigid flywheel for the other bolt names file and key."""
    with pytest.raises(BadData, match=rf"^{letter.lower()}\.toml: flywheel\.bolt_dmf is not on the sheet"):
        figures.dual_mass_bolt_preload_n(vehicle(letter))


def test_no_slave_on_a_cable() -> None:
    """A car with a cable has no slave cylinder to take the area of."""
    with pytest.raises(BadData, match=r"^a\.toml: release\.slave_bore_mm is not on the sheet"):
        figures.slave_area_mm2(vehicle("A"))


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("max_torque_nm = 260", "max_torqe_nm = 260", r"^b\.toml: .*max_torqe_nm.*\$\.engine"),
        ("max_torque_nm = 260\n", "", r"^b\.toml: .*missing required field `max_torque_nm`.*\$\.engine"),
        (
            "max_torque_nm = 260",
            'max_torque_nm = "260"',
            r"^b\.toml: Expected `float`, got `str`.*engine\.max_torque_nm",
        ),
        ("max_torque_nm = 260", "max_torque_nm = 0", r"^b\.toml: Expected `float` > 0.*engine\.max_torque_nm"),
        ('prop_class = "10.9"', 'prop_class = "10,9"', r"^b\.toml: Invalid enum value '10,9'.*flywheel\.bolt"),
        ("max_torque_nm = 260", "max_torque_nm = = 260", r"^b\.toml: is no valid TOML"),
        (
            "plate_id_mm = 155",
            "plate_id_mm = 236",
            r"^b\.toml: clutch\.plate_id_mm: must be less than clutch\.plate_od_mm",
        ),
        ("plate_od_mm = 235", "plate_od_mm = 250", r"^b\.toml: clutch\.plate_od_mm: must not exceed the friction face"),
        (
            "hole_angles_deg = [0.0, 60.0, 120.0, 180.0, 240.0, 300.0]",
            "hole_angles_deg = [0.0, 60.0]",
            r"^b\.toml: clutch\.cover\.hole_angles_deg: must hold one angle a bolt",
        ),
        ("front_axle_kg = 865", "front_axle_kg = 896", r"^b\.toml: masses\.vehicle_kg: must be the sum of the axles"),
        (
            "[flywheel.tightening]\nstages_nm = [10, 20]",
            "[flywheel.tightening]\nstages_nm = [20, 10]",
            r"^b\.toml: flywheel\.tightening\.stages_nm: must rise from stage to stage",
        ),
        (
            'second_round = "paint marks"',
            'second_round = "torque"',
            r"^b\.toml: flywheel\.tightening\.second_round: must be paint marks when there is an angle stage",
        ),
        (
            'second_round = "paint marks"',
            'second_round = "paint marks"\nsecond_round_limit_deg = 15',
            r"^b\.toml: flywheel\.tightening\.second_round_limit_deg: must be given where the second round is a torque",
        ),
        (
            "joint_stiffness_kn_per_mm = 236.0\n",
            "",
            r"^b\.toml: flywheel\.tightening\.joint_stiffness_kn_per_mm: must be given where there is an angle stage",
        ),
        (
            "static_test_max_rpm = 4000",
            "static_test_max_rpm = 4800",
            r"^b\.toml: engine\.static_test_max_rpm: must not exceed engine\.limiter_rpm",
        ),
        ('hub_nut = "raised just clear"\n', "", r"^b\.toml: wheels\.hub_nut: must be given where the front wheels"),
        ("slip_test_gear = 6", "slip_test_gear = 7", r"^b\.toml: gearbox\.slip_test_gear: must be one of the gears"),
    ],
)
def test_a_bad_sheet_names_file_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A data sheet that breaks a rule says in one line which file, which key, which rule."""
    with pytest.raises(BadData, match=message) as caught:
        read_vehicle(sheet_with(tmp_path, old, new))

    assert "\n" not in str(caught.value)
    assert "Correct that" in str(caught.value)


def test_a_sheet_that_is_not_text(tmp_path: Path) -> None:
    """Bytes that are no text are refused by the file's name."""
    path = tmp_path / "b.toml"
    path.write_bytes(b"\xff\xfe\x00")

    with pytest.raises(BadData, match=r"^b\.toml: is no valid TOML"):
        read_vehicle(path)


def test_a_sheet_that_is_not_there(tmp_path: Path) -> None:
    """A missing data sheet is named, with what to do."""
    with pytest.raises(
        BadData, match=r"^e\.toml: cannot be read \(No such file or directory\)\. Put the data sheet back"
    ):
        read_vehicle(tmp_path / "e.toml")


def test_uneven_holes_do_not_all_meet_in_another_position() -> None:
    """Even holes all meet when the flywheel is turned by one; of the six uneven ones of C only four do."""
    assert (6, 4) == (vehicle("A").flywheel.bolts_when_turned, vehicle("C").flywheel.bolts_when_turned)


@pytest.mark.parametrize("letter", "ABCD")
def test_fields_say_what_the_sentences_say(letter: str) -> None:
    """Mark, guide tube, ring and fluid grade as fields agree with the sentences that a reader of the sheet sees."""
    car = vehicle(letter)

    assert f"text {car.clutch.mark} on" in car.clutch.marking
    assert car.release.guide_tube_greased == ("thin film" in car.release.guide_tube)
    assert (car.flywheel.bolt.ring_mm is not None) == ("reinforcing ring" in car.flywheel.bolt.note)
    assert car.release.fluid.endswith(f"grade {car.release.fluid_grade}" if car.release.fluid_grade else "")


def test_a_cable_has_no_fluid_grade(tmp_path: Path) -> None:
    """A fluid grade on a sheet without hydraulics is one clear line."""
    with pytest.raises(BadData, match="release.fluid_grade: must be given where the release is hydraulic"):
        read_vehicle(sheet_with(tmp_path, 'play_set_at = "cable"', 'fluid_grade = "DOT 4"', "a"))


def test_a_sheet_is_named_like_its_file(tmp_path: Path) -> None:
    """Editions of a sheet and the kits beside it are found by the file's name, so another letter in it is refused."""
    (tmp_path / "vehicles").mkdir()
    text = (places.assets() / "vehicles" / "a.toml").read_text(encoding="utf-8")
    (tmp_path / "vehicles" / "e.toml").write_text(text, encoding="utf-8")
    with using(DataFiles(places.assets(), tmp_path)), pytest.raises(BadData) as caught:
        vehicles()
    assert (
        str(caught.value)
        == "e.toml: id: must be the name of the file, in capitals. Correct that key in the data sheet."
    )


def test_an_option_code_for_a_rigid_flywheel_needs_its_counterpart(tmp_path: Path) -> None:
    """The code that allows the rigid flywheel and the one that rules it out stand together."""
    broken = sheet_with(tmp_path, 'start_stop_option = "S7"\n', "", "c")
    with pytest.raises(
        BadData, match=r"^c\.toml: flywheel\.rigid_option: must be given together with start_stop_option"
    ):
        read_vehicle(broken)
