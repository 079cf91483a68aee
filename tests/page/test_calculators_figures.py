"""One published figure or known relation through each calculator, as typed into its fields."""

from math import pi

import pytest

from bitepoint.page.calculators import calculator_named
from bitepoint.pictures import draw
from bitepoint.workshop.pedal_motion import moved
from bitepoint.workshop.vehicles import vehicle


def results(name: str, **typed: object) -> dict[str, str]:
    """Return the results of a calculator by their labels."""
    return dict(calculator_named(name).answer(typed).results)


def number(text: str) -> float:
    """Return the figure a result starts with."""
    return float(text.split()[0])


def warned(name: str, **typed: object) -> str:
    """Return all warnings of a calculator in one text."""
    return " ".join(calculator_named(name).answer(typed).warnings)


@pytest.mark.parametrize(
    ("value", "unit", "label", "shown"),
    [
        (1, "lbf·ft", "In N·m", "1.3558 N·m"),
        (1, "in", "In mm", "25.4 mm"),
        (1, "bar", "In psi", "14.504 psi"),
        (60, "mph", "In km/h", "96.561 km/h"),
        (100, "N·m", "In lbf·ft", "73.756 lbf·ft"),
    ],
)
def test_units_by_the_published_factors(value: float, unit: str, label: str, shown: str) -> None:
    """nist-sp-811, appendix B: 1 lbf·ft = 1.355818 N·m, 1 in = 25.4 mm, 1 psi = 6.894757 kPa, 1 mi/h = 1.609344 km/h."""
    assert results("unit-converter", figure=value, unit=unit)[label] == shown


def test_clutch_capacity_of_a_printed_example() -> None:
    """theory-of-machines, ex. 10.23: 300 and 200 mm, 0.3, two faces, 3141.6 N: 235.62 N·m by uniform wear."""
    typed = {"outer": 300, "inner": 200, "mu": "0,3", "load": "3141,6"}
    assert results("clutch-capacity", **typed)["Torque before it slips"] == "235.6 N·m"


def test_one_face_by_uniform_pressure() -> None:
    """machine-elements-design, ex. 11.2: 200 and 100 mm, 0.2, one face: 366.52 N·m at 23 562 N; here at 11 781 N."""
    typed = {
        "outer": 200,
        "inner": 100,
        "mu": 0.2,
        "load": 11781,
        "faces": "1",
        "state": "new (uniform pressure)",
    }
    assert results("clutch-capacity", **typed)["Torque before it slips"] == "183.3 N·m"
    assert "2 faces" in warned("clutch-capacity", **typed)


def test_an_oiled_facing_is_warned() -> None:
    """With half the friction training vehicle A's clutch slips at full load."""
    assert "slips at full load" in warned("clutch-capacity", mu=0.15)
    assert warned("clutch-capacity") == ""


def test_wear_of_coil_springs_of_a_printed_example() -> None:
    """machine-elements-design, ch. 11: 7200 N, nine springs of 160 N/mm, slip at 3361 N: 2.67 mm of wear."""
    typed = {"load": 7200, "engine": 250, "outer": 250, "inner": 175, "mu": 0.35, "coil": 1440}
    shown = results("wear-until-slip", **typed)
    # The book takes uniform pressure; by uniform wear the slip load is the same to 1 %.
    assert number(shown["Slips below a clamp load of"]) == pytest.approx(3361, rel=0.01)
    assert number(shown["Coil springs slip after"]) == pytest.approx(2.666, rel=0.01)


def test_a_diaphragm_outlasts_coil_springs_and_gains_first() -> None:
    """The relation the calculator is there to show."""
    shown = results("wear-until-slip")
    assert number(shown["Diaphragm spring slips after"]) > number(shown["Coil springs slip after"])
    assert number(shown["Clamp load now, diaphragm"]) > 3050 > number(shown["Clamp load now, coil springs"])


def test_a_clutch_too_weak_for_the_engine_slips_from_the_start() -> None:
    """No wear is left then, and the words say why."""
    shown = results("wear-until-slip", engine=200)
    assert (shown["Diaphragm spring slips after"], shown["Coil springs slip after"]) == ("0.00 mm of wear",) * 2
    assert "slips from the start" in warned("wear-until-slip", engine=200)


def test_diaphragm_spring_sized_in_a_textbook() -> None:
    """machine-elements-design, ch. 11: t 2.65298, h 3.97947, 154.818 and 88.468 mm give 4500 N pressed flat."""
    typed = {"t": "2.65298", "h": "3.97947", "outer": "154.818478", "inner": "88.467702"}
    assert results("diaphragm-spring", **typed)["Load pressed flat"] == "4500 N"


@pytest.mark.parametrize(("h", "word"), [(8, "snaps through"), (3, "only rises"), (3.98, "")])
def test_springs_no_clutch_can_use_are_told(h: float, word: str) -> None:
    """Above 2√2 it stays inside out, below √2 it has no dip."""
    told = warned("diaphragm-spring", h=h)
    assert (word in told, bool(told)) == (True, bool(word))


def test_heat_of_moving_off_is_as_much_as_the_car_gains() -> None:
    """theory-of-machines: with the engine held and no hill, half the energy drawn becomes heat, I ω² / 2."""
    shown = calculator_named("take-up-heat").answer({"clutch": 400})
    inertia = float(shown.working[0].split("= ")[-1].split()[0])
    omega = 1500 * pi / 30
    road = float(shown.working[1].split(": ")[1].split()[0])
    held = inertia * omega**2 / 2 * 400 / (400 - road)
    assert number(dict(shown.results)["Heat of one start"]) == pytest.approx(held / 1000, rel=5e-3)


def test_third_gear_heats_far_more_than_first() -> None:
    """By the square of the ratios, (3.64 / 1.33)² = 7.5, and a little more for the road."""
    first, third = (
        number(results("take-up-heat", gear=g)["Heat of one start"]) for g in ("gear 1 (3.64)", "gear 3 (1.33)")
    )
    assert 7.4 < third / first < 9


def test_cable_of_training_vehicle_a_reaches_its_travel() -> None:
    """(140 - 18) × 0.9 ÷ 13.34 = 8.23 mm, within 7.2 to 9.5; no warning."""
    assert results("pedal-and-release")["Travel of the release bearing"] == "8.23 mm"
    assert warned("pedal-and-release") == ""


def test_the_lift_is_that_of_the_slider_and_of_the_lesson() -> None:
    """What bends is taken off first: (8.23 - 0.8) ÷ 3.8 = 1.96 mm; where all the travel bends parts, nothing lifts."""
    down = moved(vehicle("A"), vehicle("A").release.pedal_travel_mm)
    assert results("pedal-and-release")["Lift of the pressure plate"] == f"{down.lift:.2f} mm" == "1.96 mm"
    assert results("pedal-and-release", free=60, pedal=65)["Lift of the pressure plate"] == "0.00 mm"


def test_slave_cylinder_gives_the_force_of_a_printed_example() -> None:
    """fluid-power-applications, ex. 3.5: lever 4, bores 1 and 3.25 in: 25 lbf at the pad hold 1056 lbf."""
    typed = {
        "way": "slave cylinder and fork", "ratio": 4, "fork": 1, "master": "1 in", "slave": "3.1 in",
        "force_share": 100, "load": f"{25 * 4 * 3.1**2:.0f} lbf",
    }  # fmt: skip
    assert number(results("pedal-and-release", **typed)["Effort at the pad"]) == pytest.approx(25 * 4.44822, rel=0.01)


@pytest.mark.parametrize(("free", "pedal", "word"), [(40, 140, "drags"), (0, 170, "Too far"), (0, 140, "No free play")])
def test_wrong_travel_is_told(free: float, pedal: float, word: str) -> None:
    """Too little travel, too much, and no play at all."""
    assert word in warned("pedal-and-release", free=free, pedal=pedal)


def test_air_costs_what_lesson_ten_works_out() -> None:
    """One millilitre in a ring of 36 and 27 mm takes 1000 mm³ ÷ 445.3 mm² = 2.25 mm from the bearing, as the exercise asks it."""
    shown = results("air-in-the-line")
    missed = 1000 / (pi * (36**2 - 27**2) / 4)
    assert number(shown["Bearing travel lost to air"]) == pytest.approx(missed, abs=0.006)
    assert number(shown["Bearing travel left"]) == pytest.approx(8.93 - missed, abs=0.011)
    assert "no longer releases" in warned("air-in-the-line")
    assert warned("air-in-the-line", air=0) == ""


def test_rolling_circumference_of_a_common_tyre() -> None:
    """wdk-rolling-circumference: 205/55 R16 rolls 1927 mm."""
    typed = {"car": "training vehicle B", "width": 205, "aspect": 55, "rim": 16}
    assert results("tyre-and-gear", **typed)["Rolling circumference"] == "1927 mm"
    assert "sheet" not in warned("tyre-and-gear", **typed)
    assert "205/55 R16" in warned("tyre-and-gear", car="training vehicle B")


def test_a_log_that_fits_no_gear_is_not_called_a_gear() -> None:
    """60 km/h at 3600 rpm lies between second and third gear."""
    assert results("tyre-and-gear", rpm=3600, kmh=60)["The log was in"] == "no gear of this gearbox"


def test_slip_of_a_worked_example() -> None:
    """3000 rpm, 90 km/h, 0.9 × 3.9, 1927.3 mm: 8.9 % slip; 1 % each gives 1.58 points, doubled 3.2."""
    typed = {
        "rpm": 3000,
        "kmh": 90,
        "gear": 0.9,
        "final": 3.9,
        "rolls": 1927.3,
        "u_rpm": 1,
        "u_kmh": 1,
        "u_rolls": 1,
    }
    shown = results("slip-from-log", **typed)
    assert (shown["Slip"], shown["What may be said"]) == ("8.9 % ± 3.2 %", "the clutch slips")


@pytest.mark.parametrize(("kmh", "said"), [(68, "no finding"), (63, "the clutch slips"), (75, "a figure is wrong")])
def test_what_may_be_said_of_a_slip(kmh: float, said: str) -> None:
    """Within its uncertainty no finding; below 0 by more than it something is wrong."""
    assert results("slip-from-log", kmh=kmh)["What may be said"] == said


def test_resonance_of_both_flywheels() -> None:
    """engine-orders: four cylinders fire twice a turn; B's dual-mass flywheel meets 13.1 Hz at 392 rpm, below idle."""
    shown = results("vibration-orders")
    assert shown["Firing frequency at 1500 rpm"] == "50 Hz"
    assert shown["Dual-mass: natural frequency"] == "13.1 Hz, met at 392 rpm"
    assert "rigid flywheel" in warned("vibration-orders")


def test_run_out_of_a_record() -> None:
    """tm-9-2815-202-34: highest less lowest; 0.004 and -0.007 are 0.011 mm."""
    readings = dict(zip((f"r{i}" for i in range(1, 9)), (0, 0.004, 0.001, "-0,007", -0.002, 0, 0, 0), strict=True))
    assert results("run-out", **readings)["Run-out"] == "0.011 mm"


def test_a_run_out_equal_to_max_is_within() -> None:
    """“max” includes the value; a hundredth more does not."""
    assert results("run-out", r5=0.08)["Decision"] == "within the limit"
    assert results("run-out", r5=0.09)["Decision"] == "above the limit"


def test_end_float_in_the_readings_cannot_be_told() -> None:
    """0.07 mm shown with 0.15 mm of end float is anything from 0 to 0.22 mm."""
    shown = results("run-out", float="not pushed, free to move")
    assert (shown["Run-out"], shown["Decision"]) == ("0.000 to 0.220 mm", "cannot be told: measure again")


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ({}, "within"),
        ({"r5": 0.2}, "above"),
        ({"float": "not pushed, free to move"}, "cannot be told"),
        ({"float": "not pushed, free to move", "end": 0.01}, "within"),
        ({"float": "not pushed, free to move", "end": 0.01, "r5": 0.2}, "above"),
    ],
)
def test_table_and_picture_of_the_run_out_say_the_same(typed: dict[str, object], word: str) -> None:
    """What the table decides stands in the caption and in the words for who cannot see the picture."""
    found = calculator_named("run-out").answer(typed)
    assert found.picture
    drawn = draw(found.picture.key, **found.picture.parameters)
    assert word in dict(found.results)["Decision"]
    for words in (drawn.caption, drawn.alt):
        assert [w for w in ("within", "above", "cannot be told") if w in words] == [word]


def test_the_first_place_read_again_must_agree() -> None:
    """A crankshaft that moved gives no figure, in one line that names the field."""
    with pytest.raises(ValueError, match="First place again must be within 0.02 mm of the first reading"):
        results("run-out", again=0.05)


def test_probability_of_a_printed_example() -> None:
    """jcgm-106: one standard uncertainty inside the limit is 84.1 %."""
    shown = results("guard-band", measured=0.09, limit="0,1")
    assert shown["Chance that the part keeps the limit"] == "84.1 %"


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ({"measured": 0.08, "given": "no"}, "may be reused"),
        ({"measured": 0.081, "given": "no"}, "replace"),
        ({"measured": 0.08}, "stop and ask"),
        ({"measured": 0.06}, "may be reused"),
        ({"measured": 0.1}, "replace"),
        ({"measured": 6.3, "limit": 6.2, "kind": "min"}, "may be reused"),
        ({"measured": 6.1, "limit": 6.2, "kind": "min"}, "replace"),
    ],
)
def test_reuse_ask_or_replace(typed: dict[str, object], word: str) -> None:
    """Plain comparison without an uncertainty, three answers with one, for max and min."""
    assert word in results("guard-band", **typed)["Decision"]


@pytest.mark.parametrize(
    ("pitch", "prop", "area", "load"), [(1.5, "8.8", "58.0 mm²", 33.6), (1.25, "10.9", "61.2 mm²", 50.8)]
)
def test_stress_area_and_proof_load_of_the_standard(pitch: float, prop: str, area: str, load: float) -> None:
    """iso-898-1: M10 has 58.0 mm² and 33 700 N in class 8.8 (rounded there), M10×1.25 61.2 mm² and 50 800 N in 10.9."""
    shown = results("thread-and-proof-load", pitch=pitch, **{"class": prop})
    assert shown["Stress area"] == area
    assert number(shown["Proof load"]) == pytest.approx(load, abs=0.05)


def test_angle_of_a_rigid_joint_gives_the_stress_of_the_handbook() -> None:
    """mil-hdbk-60: 26.236° stretch a 30 mm M10×1.25 (418.2 kN/mm) to 622.5 MPa, 38.1 kN."""
    typed = {"snug": 0, "angle": 26.2361, "d": 10, "pitch": 1.25, "stiffness": 418.19}
    assert results("torque-plus-angle", **typed)["Preload after the angle"].startswith("38.1 kN")


def test_an_angle_turned_twice_is_warned() -> None:
    """B's bolts: 85 % of proof once, 146 % twice."""
    assert results("torque-plus-angle")["If the angle is turned twice"] == (
        "78.1 kN, 146 % of proof: the bolt yields before that"
    )
    assert "stretches the bolt for good" in warned("torque-plus-angle")


@pytest.mark.parametrize(
    ("length", "word"), [(34, "fits"), (45, "bottoms"), (20, "does not reach"), (28, "too little")]
)
def test_the_bolt_in_its_hole(length: float, word: str) -> None:
    """B's 20 mm hub and 18 mm thread: 34 fits, 45 stands off, 20 does not reach, 28 holds too little."""
    assert word in results("bolt-engagement", length=length)["This bolt"]
    assert bool(warned("bolt-engagement", length=length)) is (word != "fits")


def test_shares_of_the_torque_of_the_handbook() -> None:
    """mil-hdbk-60: M10×1.5 at 0.12: 14.6 % pitch, 38.3 % thread, 47.1 % head; 48.34 N·m make 29.6 kN."""
    shown = results("torque-budget", torque=48.34, pitch=1.5, ring=12.815)
    assert [shown[k] for k in ("Stretches the bolt", "Rubs in the thread", "Rubs under the head")] == [
        "14.6 %",
        "38.3 %",
        "47.1 %",
    ]
    assert shown["Preload"] == "29.6 kN"


@pytest.mark.parametrize(("read", "use"), [(96.16, "yes"), (96.15, "no"), (104.16, "yes"), (104.17, "no")])
def test_deviation_is_relative_to_the_test_device(read: float, use: str) -> None:
    """iso-6789: 100 set passes from 96.154 to 104.167 read, not from 96 to 104."""
    assert results("wrench-check", set=100, read=read)["Use it for this torque?"] == use


@pytest.mark.parametrize(
    "typed", [{"torque": 15}, {"torque": 120}, {"label": "run out"}, {"label": "no label"}, {"pulls": 5001}]
)
def test_every_reason_against_a_wrench_is_told(typed: dict[str, object]) -> None:
    """One reason is enough for a no, and it stands in words."""
    assert results("wrench-check", **typed)["Use it for this torque?"] == "no"
    assert warned("wrench-check", **typed) != ""


def test_the_best_of_all_lifts() -> None:
    """niosh-94-110: 25 cm in front, 75 cm high, no more than 25 cm up, no twist, good grip, seldom: 23 kg."""
    typed = {"h": 25, "v": 75, "d": 25, "a": 0, "grip": "good", "load": 23}
    shown = results("lifting-limit", **typed)
    assert (shown["Mass allowed for this lift"], shown["Lifting index, aim at 1 or less"]) == (
        "23.0 kg",
        "1.00",
    )


def test_a_small_lift_may_be_typed_in_inches() -> None:
    """10 inches are 25.4 cm: the factor is 25/25.4."""
    typed = {"h": "10 in", "v": 75, "d": 25, "a": 0, "grip": "good"}
    assert results("lifting-limit", **typed)["Mass allowed for this lift"] == "22.6 kg"


@pytest.mark.parametrize(
    "typed",
    [{"age": "under 18"}, {"way": "overhead, under the car"}, {"way": "with one hand, or an unsteady load"}],
)
def test_no_mass_is_given_where_the_equation_does_not_hold(typed: dict[str, object]) -> None:
    """Under 18 the employer's rules come first; overhead and one-handed lifts are not covered."""
    assert results("lifting-limit", **typed) == {"Mass allowed for this lift": "no figure"}


def test_axle_loads_of_training_vehicle_a_without_its_gearbox() -> None:
    """Moments about the front axle: 33 kg at -60 mm leave 521 and 351 kg, 37 mm further back."""
    shown = results("axle-load-shift")
    assert shown["Axle loads with the part out"] == "front 521 kg, rear 351 kg"
    assert shown["Centre of gravity behind the front axle"] == "905 mm, then 941 mm"
    assert shown["It moves to the rear by"] == "37 mm"


@pytest.mark.parametrize(
    ("typed", "word"),
    [({"fore": 1000}, "tips"), ({"fore": 700}, "Close to tipping"), ({"rated": 600}, "rating"), ({}, "")],
)
def test_a_car_that_would_tip_or_is_too_heavy_is_told(typed: dict[str, object], word: str) -> None:
    """The centre of gravity must stay between the pads, the load below the plate's figure."""
    told = warned("axle-load-shift", **typed)
    assert (word in told, bool(told)) == (True, bool(word))
