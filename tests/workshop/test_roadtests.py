"""Simulated road tests: consistent with the sheet, the same each time, and every fault found again by calculation."""

from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.mechanics.driveline import input_speed_rpm
from bitepoint.workshop import roadtests
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.roadtest_files import read_log
from bitepoint.workshop.roadtest_verdict import SPIN_PERCENT, spectrum, stretches, verdict
from bitepoint.workshop.simulator import FAULTS, Fault, Log, simulate
from bitepoint.workshop.vehicles import FRAME, vehicle, vehicles

LETTERS = tuple(vehicles())
SEEDS = range(20)


@pytest.mark.parametrize("letter", LETTERS)
@pytest.mark.parametrize("fault", FAULTS)
def test_the_fault_is_found_again_and_no_other(letter: str, fault: Fault) -> None:
    """Over 20 seeds the verdict names the fault that was put in, alone."""
    found = {verdict(simulate(vehicle(letter), fault, seed=seed)).faults for seed in SEEDS}
    assert found == {(fault,)}


@pytest.mark.parametrize("letter", LETTERS)
def test_a_healthy_clutch_shows_no_slip_beyond_its_uncertainty(letter: str) -> None:
    """No stretch of a healthy log slips, whatever tyres are fitted, and the gear found is the gear driven."""
    for seed in SEEDS:
        for part in stretches(simulate(vehicle(letter), seed=seed)):
            assert abs(part.slip_percent) <= part.uncertainty_percent
            assert part.gear_found == part.gear


@pytest.mark.parametrize("letter", LETTERS)
def test_a_worn_clutch_slips_at_full_throttle_only(letter: str) -> None:
    """In the gear of the slip test the slip is there at full throttle and gone with a light foot."""
    test_gear = vehicle(letter).gearbox.slip_test_gear
    for seed in SEEDS:
        parts = [p for p in stretches(simulate(vehicle(letter), "slip", seed=seed)) if p.gear == test_gear]
        assert {(p.full_load, p.slips) for p in parts} == {(True, True), (False, False)}


@pytest.mark.parametrize("letter", LETTERS)
def test_wheel_spin_is_not_taken_for_clutch_slip(letter: str) -> None:
    """Engine and driven wheels keep their ratio while the driven wheels run ahead of the car."""
    for seed in SEEDS:
        parts = stretches(simulate(vehicle(letter), "wheel spin", seed=seed))
        assert max(p.spin_percent for p in parts) > SPIN_PERCENT
        assert [p for p in parts if p.slips] == []


@pytest.mark.parametrize("letter", LETTERS)
def test_only_a_dragging_clutch_creeps_with_the_pedal_down(letter: str) -> None:
    """Standing in first gear, pedal down: the car moves with drag and stands without."""
    for fault, moves in (("drag", True), ("healthy", False)):
        log = simulate(vehicle(letter), fault, seed=3)  # type: ignore[arg-type]
        held = [s for s in log.samples if s.gear == 1 and s.pedal_pct == 100 and s.t_s < 16]
        assert len(held) >= 40
        assert (max(s.speed_km_h for s in held) > 1.5) is moves


@pytest.mark.parametrize("letter", LETTERS)
def test_a_log_keeps_to_the_sheet_and_to_the_road(letter: str) -> None:
    """A minute or two, ten lines a second, below 90 km/h and the limiter; in gear the sheet's ratios hold to 3 %."""
    v, log = vehicle(letter), simulate(vehicle(letter), seed=5)
    assert 600 <= len(log.samples) <= 1200
    assert max(s.speed_km_h for s in log.samples) < 91
    assert max(s.engine_rpm for s in log.samples) < v.engine.limiter_rpm
    for s in log.samples:
        if s.gear > 1 and s.pedal_pct == 0 and s.driven_wheel_km_h > 20:
            turning = input_speed_rpm(
                s.driven_wheel_km_h, gear_ratio=v.gearbox.ratios[s.gear - 1], final_ratio=v.gearbox.final,
                rolling_circumference_mm=rolling_circumference_mm(v),
            )  # fmt: skip
            assert abs(s.engine_rpm / turning - 1) < 0.03


def test_judder_from_geometry_turns_with_the_slip_and_judder_from_friction_keeps_its_frequency() -> None:
    """The largest order of the slip is 1 for the one; the other is stronger over time than in any order of the slip."""
    geometry = simulate(vehicle("B"), "judder from geometry", seed=2)
    friction = simulate(vehicle("B"), "judder from friction", seed=2)
    order, _ = max(spectrum(geometry, "slip", low=0.2, high=4, step=0.02), key=lambda p: p[1])
    assert order == pytest.approx(1.0, abs=0.03)
    over_time = max(a for _, a in spectrum(friction, "time", low=5, high=20, step=0.25))
    over_slip = max(a for _, a in spectrum(friction, "slip", low=0.2, high=4, step=0.02))
    assert over_time > 2 * over_slip


def test_the_same_seed_gives_the_same_log_and_another_gives_another() -> None:
    """Nothing but vehicle, fault and seed decides."""
    first, again, other = (simulate(vehicle("A"), "slip", seed=seed) for seed in (1, 1, 2))
    assert first == again
    assert first != other


def test_the_files_are_those_that_the_command_makes(tmp_path: Path) -> None:
    """Regenerated, every shipped log is the same text; none is missing and none is left over."""
    assert roadtests.write_logs(tmp_path) == 2 * len(roadtests.stored())
    shipped = places.assets() / "road-tests"
    assert sorted(p.name for p in shipped.iterdir() if p.name != "recipes.csv") == sorted(
        p.name for p in tmp_path.iterdir()
    )
    assert [p.name for p in tmp_path.iterdir() if p.read_bytes() != (shipped / p.name).read_bytes()] == []


@pytest.mark.parametrize("name", roadtests.names())
def test_a_shipped_log_is_read_and_gives_its_fault_away_by_calculation_only(name: str) -> None:
    """The verdict from the file is the recipe's fault, which neither the name nor the file says."""
    letter, fault, _ = roadtests.recipe(name)
    log = roadtests.road_test(name)
    assert (log.vehicle, verdict(log).faults) == (letter, (fault,))
    text = (places.assets() / "road-tests" / f"{name}.csv").read_text(encoding="utf-8")
    assert text.startswith(f"# {FRAME}\n")
    assert fault not in text


def test_every_vehicle_has_a_healthy_log_and_one_that_slips() -> None:
    """Whatever car a learner drew, both can be asked; every fault comes up somewhere."""
    held = {(row.vehicle, row.fault) for row in roadtests.stored().values()}
    assert [x for letter in LETTERS for x in ((letter, "healthy"), (letter, "slip")) if x not in held] == []
    assert {fault for _, fault in held} == set(FAULTS)


@pytest.mark.parametrize("letter", LETTERS)
@pytest.mark.parametrize("fault", FAULTS)
def test_a_question_finds_logs_of_its_own_with_a_fault(letter: str, fault: Fault) -> None:
    """Sixteen names a vehicle and fault, all different, three figures long; the log of each has that fault and no other."""
    names = [roadtests.log_with(letter, fault, nth) for nth in range(16)]
    assert len(set(names)) == 16
    assert all(name[:2] == f"{letter.casefold()}-" and 100 <= int(name[2:]) <= 999 for name in names)
    assert {roadtests.recipe(name)[:2] for name in names} == {(letter, fault)}
    assert {verdict(roadtests.road_test(name)).faults for name in names[:6]} == {(fault,)}


def test_the_number_of_a_log_has_the_same_fault_on_every_vehicle_and_tells_nothing() -> None:
    """Each fault has between 80 and 160 of the 900 numbers, and neighbours differ as chance has it."""
    faults = [roadtests.recipe(f"b-{n}")[1] for n in range(100, 1000)]
    assert all(roadtests.recipe(f"d-{n}")[1] == faults[n - 100] for n in range(100, 1000))
    assert {80 <= faults.count(fault) <= 160 for fault in FAULTS} == {True}
    assert 60 <= sum(a == b for a, b in zip(faults, faults[1:], strict=False)) <= 170


@pytest.mark.parametrize(
    ("line", "old", "new", "told"),
    [
        (1, "TRAINING", "ANY", r"b-4.csv: line 1: must be # TRAINING VEHICLE"),
        (2, "vehicle B", "vehicle X", r"line 2: must be '# training vehicle' and one of A, B, C, D"),
        (3, "gear", "gears", r"line 3: must be t_s,engine_rpm"),
        (4, "0,", "abc,", r"line 4: t_s must be a number from 0 to 600, but is 'abc'"),
        (5, "0.1,", "nan,", r"line 5: t_s must be a number from 0 to 600, but is 'nan'"),
        (5, "0.1,", "0.3,", r"line 5: t_s must be 0.1 s after the line before"),
        (6, "0.2,", "", r"line 6: must hold 8 figures, but holds 7"),
        (7, "0,0,0,0,0,", "0,0,0,0,1.5,", r"line 7: gear must be a whole number from 0 to 8, but is '1.5'"),
    ],
)
def test_a_broken_log_is_one_clear_line(tmp_path: Path, line: int, old: str, new: str, told: str) -> None:
    """File, line and rule are named."""
    folder = places.assets() / "road-tests"
    lines = (folder / "b-4.csv").read_text(encoding="utf-8").split("\n")
    assert old in lines[line - 1]
    lines[line - 1] = lines[line - 1].replace(old, new, 1)
    broken = tmp_path / "b-4.csv"
    broken.write_text("\n".join(lines), encoding="utf-8")
    with pytest.raises(BadData, match=told):
        read_log(broken, folder / "b-4-shake.csv")


def test_a_log_that_is_missing_short_or_paired_wrongly_is_refused(tmp_path: Path) -> None:
    """The message says which file and what to do."""
    folder = places.assets() / "road-tests"
    with pytest.raises(BadData, match=r"gone.csv: cannot be read \(No such file or directory\)"):
        read_log(tmp_path / "gone.csv", folder / "b-4-shake.csv")
    with pytest.raises(BadData, match=r"names training vehicle A, but b-4.csv names B. Pair them again"):
        read_log(folder / "b-4.csv", folder / "a-1-shake.csv")
    short = tmp_path / "short.csv"
    short.write_text("\n".join((folder / "b-4.csv").read_text(encoding="utf-8").split("\n")[:10]), encoding="utf-8")
    with pytest.raises(BadData, match=r"a log has at least 20 lines"):
        read_log(short, folder / "b-4-shake.csv")
    (tmp_path / "odd.csv").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(BadData, match=r"odd.csv: must be text in UTF-8"):
        read_log(tmp_path / "odd.csv", folder / "b-4-shake.csv")


def test_an_unknown_name_fault_or_reference_is_one_clear_line() -> None:
    """Each says what there is to choose from."""
    with pytest.raises(BadData, match=r"There is no road test 'z-9'. Choose one of a-1, "):
        roadtests.road_test("z-9")
    for name in ("a-0", "a-1000", "a-01", "a-1.0", "a", "A-3"):
        with pytest.raises(BadData, match=r"or one of a, b, c, d with a number up to 999, such as b-417\."):
            roadtests.road_test(name)
    with pytest.raises(BadData, match=r"There is no fault 'rust' to simulate. Choose one of healthy, slip"):
        simulate(vehicle("A"), "rust")  # type: ignore[arg-type]
    with pytest.raises(BadData, match=r"There is no reference 'wheel'"):
        spectrum(roadtests.road_test("a-1"), "wheel", low=1, high=2, step=1)  # type: ignore[arg-type]
    with pytest.raises(BadData, match=r"Give 1 to 1000 orders"):
        spectrum(roadtests.road_test("a-1"), "time", low=1, high=2, step=0)


def test_a_log_without_a_pull_at_full_throttle_proves_nothing() -> None:
    """Slip shows at full load only: without it there is no verdict."""
    log = simulate(vehicle("A"), seed=1)
    gentle = Log("A", tuple(s for s in log.samples if s.throttle_pct < 90), log.shake)
    with pytest.raises(BadData, match="holds no stretch at full throttle"):
        verdict(gentle)
