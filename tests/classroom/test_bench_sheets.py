"""Bench sheets: the vehicle's own figures, the frame, the page size, star orders that are those of the mechanics."""

import re
from math import atan2, degrees
from pathlib import Path

import pytest

from bitepoint.classroom.bench_sheets.checking import REVERSE
from bitepoint.classroom.bench_sheets.inspecting import HOW, READINGS, limit_in_words, looked_at, measuring_rows
from bitepoint.classroom.bench_sheets.observing import STANDARD, observed_criteria
from bitepoint.classroom.bench_sheets.sheets import SHEETS, sheet_page, write_sheets
from bitepoint.classroom.bench_sheets.star import place_name
from bitepoint.classroom.bench_sheets.tightening import rings
from bitepoint.cli import main
from bitepoint.mechanics.tightening import is_star, star_order
from bitepoint.workshop.criteria import criteria, measured_on
from bitepoint.workshop.fitted import applies
from bitepoint.workshop.hazards import hazards
from bitepoint.workshop.operations import first_broken, operations_for
from bitepoint.workshop.vehicles import FRAME, vehicle, vehicles

LETTERS = tuple(vehicles())
TEXT = re.compile(r'<text x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]+)</text>')


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("key", SHEETS)
def test_every_sheet_of_every_vehicle_has_frame_and_page_size(key: str, paper: str) -> None:
    """The frame stands at the top and in the margin of every printed page; nothing is fetched or run."""
    for v in vehicles().values():
        page = sheet_page(key, v, paper=paper)  # type: ignore[arg-type]
        assert f'<div class="strip" role="note">{FRAME}</div>' in page
        assert f'@bottom-left {{ content: "{FRAME}"' in page
        assert f"size: {paper};" in page
        assert f"Training vehicle {v.id}</strong>" in page
        assert re.findall(r"<script|https?://(?!www\.w3\.org/2000/svg)|<link|url\(", page) == []
        assert '<meta http-equiv="Content-Security-Policy" content="default-src \'none\';' in page


@pytest.mark.parametrize("key", SHEETS)
def test_no_type_is_smaller_than_twelve_points(key: str) -> None:
    """A sheet is read at arm's length; only sizes in points are set."""
    fonts = [float(s) for s in re.findall(r"font(?:-size)?:[^;}]*?(\d+(?:\.\d+)?)pt", sheet_page(key, vehicle("A")))]
    assert 12 in fonts
    assert [size for size in fonts if size < 12] == []


@pytest.mark.parametrize("letter", LETTERS)
def test_star_orders_are_those_of_the_mechanics_for_its_own_circle(letter: str) -> None:
    """Flywheel, dual-mass flywheel where there is one, and cover."""
    v = vehicle(letter)
    wheel, cover = v.flywheel.hole_angles_deg, v.clutch.cover.hole_angles_deg
    circles = [wheel] * (2 if v.flywheel.bolt_dmf else 1) + [cover]
    made = rings(v)
    assert [star_order(circle) for circle in circles] == [ring.order for ring in made]
    assert [is_star(circle, ring.order) for circle, ring in zip(circles, made, strict=True)] == [True] * len(made)
    page = sheet_page("tightening", v)
    for ring in made:
        assert " → ".join(map(str, ring.order)) in page


@pytest.mark.parametrize("letter", LETTERS)
def test_the_drawing_numbers_bolts_and_places_as_the_order_says(letter: str) -> None:
    """Each place stands in the direction of its own bolt, and each bolt where the data sheet has its hole."""
    v = vehicle(letter)
    ring = rings(v)[0]
    where = {words: _bearing(float(x), float(y)) for x, y, words in TEXT.findall(ring.drawing)}
    assert 2 * v.flywheel.bolt_count == len(where)
    for place, bolt in enumerate(ring.order, start=1):
        angle = v.flywheel.hole_angles_deg[bolt - 1]
        for words in (str(bolt), place_name(place)):
            # Half a letter's height lies between the middle of the words and their base line.
            assert abs((where[words] - angle + 180) % 360 - 180) < 6


def _bearing(x: float, y: float) -> float:
    """Degrees clockwise from the top, of a base line in a drawing 560 wide and high."""
    return degrees(atan2(x - 280, 280 - (y - 11))) % 360


@pytest.mark.parametrize("letter", LETTERS)
def test_the_tightening_card_holds_the_stages_of_the_data_sheet(letter: str) -> None:
    """Every torque and angle, of the flywheel that is fitted and of the other one."""
    v = vehicle(letter)
    made = rings(v)
    how, dual = v.flywheel.tightening, v.flywheel.bolt_dmf
    expected = [f"Stage {n}: {nm:g} N·m" for n, nm in enumerate(how.stages_nm, start=1)]
    expected += [f"Angle: {how.angle_deg:g}° (bolts marked first)"] if how.angle_deg is not None else []
    assert expected == list(made[0].stages[:-1])
    if dual:
        assert f"Angle: {dual.angle_deg:g}° (bolts marked first)" in made[1].stages
        assert f"{dual.length_mm:g} mm long" in made[1].bolts
    assert f"Torque: {v.clutch.cover.torque_nm:g} N·m" == made[-1].stages[-1]
    assert [note for ring in made for note in ring.notes if " deg" in note] == []
    second = "paint marks" if how.second_round == "paint marks" else f"{how.final_nm:g} N·m, each once"
    assert f"Second round: {second}" == made[0].stages[-1]


@pytest.mark.parametrize("letter", LETTERS)
def test_inspection_and_measuring_hold_every_limit_of_the_sheet(letter: str) -> None:
    """Each criterion with a limit on this vehicle's data sheet, and its boxes; eight for the run-out."""
    v = vehicle(letter)
    inspection, measuring = sheet_page("inspection", v), sheet_page("measuring", v)
    for item in measured_on(v):
        assert f'<td class="w">{limit_in_words(item, v)}</td>' in inspection
        assert f"Limit: {limit_in_words(item, v)}." in measuring
    assert f"at most {v.flywheel.face_runout_limit_mm:g} mm" in measuring
    assert sum(len(row.boxes) for row in measuring_rows(v)) == measuring.count('<div class="reading">')
    assert 8 == len(READINGS["flywheel-runout"])
    for part in looked_at(v):
        assert f"<strong>{part[0].upper()}{part[1:]}</strong>" in inspection


def test_every_criterion_by_figure_has_its_boxes_and_no_key_is_left_over() -> None:
    """A criterion that is renamed would lose its boxes silently."""
    known = {item.id for item in criteria().measured}
    assert known == set(READINGS)
    assert set(HOW) - known == set()


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("clutch cable", "A"),
        ("dual-mass flywheel", "BC"),
        ("concentric slave cylinder", "B"),
        ("release fork", "ACD"),
        ("self-adjusting cover", "C"),
        ("flywheel dowel", "ABD"),
        ("pilot bearing", "D"),
    ],
)
def test_only_parts_that_a_vehicle_has_are_looked_at(part: str, expected: str) -> None:
    """A cable has no concentric slave, and evenly drilled cranks have a dowel."""
    assert expected == "".join(letter for letter in LETTERS if part in looked_at(vehicle(letter)))


@pytest.mark.parametrize("letter", LETTERS)
def test_the_order_of_work_is_whole_and_breaks_no_rule(letter: str) -> None:
    """Printed from top to bottom it keeps every rule, advice too."""
    ids = [step.id for step in operations_for(vehicle(letter))]
    assert first_broken(ids, among=ids, advice=True) is None
    assert ids == re.findall(r'<td class="w"[^>]*>(\w+)</td>', sheet_page("order-of-work", vehicle(letter)))


@pytest.mark.parametrize("letter", LETTERS)
def test_final_check_names_the_slip_test_gear_and_the_figures(letter: str) -> None:
    """Gear by the rule of the road, test speed, wheel bolts."""
    v = vehicle(letter)
    page = sheet_page("final-check", v)
    assert f"Slip test: gear {v.gearbox.slip_test_gear}<" in page
    assert "the slip run waits for the running-in" in page
    assert "Once or twice" not in page
    assert f"<td>{REVERSE[v.gearbox.reverse_synchronised]}</td>" in page
    assert f"{v.engine.static_test_max_rpm:g} rpm, oil warm" in page
    assert f"{v.wheels.torque_nm:g} N·m" in page
    assert "authorised by the workshop drives" in page


@pytest.mark.parametrize("letter", LETTERS)
def test_the_risk_sheet_has_every_danger_of_the_vehicle(letter: str) -> None:
    """Stage by stage, none left out, none of a part it does not have."""
    v = vehicle(letter)
    wanted = sum(applies(hazard.only, v) for hazard in hazards())
    assert wanted == sheet_page("risk", v).count("<tr><td><strong>")


@pytest.mark.parametrize("letter", LETTERS)
def test_observation_says_what_counts_with_the_vehicles_figures(letter: str) -> None:
    """Standard criteria are spelled out; a class's own leaves lines to write on."""
    v = vehicle(letter)
    listed = observed_criteria(v)
    assert list(STANDARD) == [one.criterion for one in listed]
    assert f"at most {v.flywheel.face_runout_limit_mm:g} mm" in listed[3].counts
    assert f"then {v.clutch.cover.torque_nm:g} N·m" in listed[6].counts
    own = sheet_page("observation", v, criteria=("Sweeps the <floor>",))
    assert "Sweeps the &lt;floor&gt;" in own
    assert "agree and write it down before you watch" in own
    assert "competent" not in own.casefold()


def test_sheets_are_written_one_file_each(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A small letter is understood; the files are named after vehicle and sheet."""
    assert main(["sheets", "--vehicle", "b", "--out", str(tmp_path / "out"), "--letter"]) == 0
    assert [f"b-{key}.html" for key in SHEETS] == [Path(p).name for p in capsys.readouterr().out.split()]
    assert "size: letter;" in (tmp_path / "out" / "b-risk.html").read_text(encoding="utf-8")
    assert 7 == len(write_sheets("B", tmp_path / "out"))


def test_a_wrong_letter_and_a_file_for_a_folder_are_told_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is written then."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    assert main(["sheets", "--vehicle", "Q", "--out", str(tmp_path / "q")]) == 2
    assert main(["sheets", "--vehicle", "A", "--out", str(tmp_path / "taken")]) == 2
    err = capsys.readouterr().err.splitlines()
    assert "bitepoint: There is no training vehicle 'Q'. Choose one of A, B, C, D." == err[0]
    assert "is a file. Name a folder" in err[1]
    assert not (tmp_path / "q").exists()
