"""Bolts: geometry, strength, torque and preload, friction, scatter."""

import inspect
import math
import re
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import bolts, calibration, friction, joints, reuse, scatter, wrench
from bitepoint.sources import SOURCES
from bitepoint.workshop.vehicles import vehicles

# Own calculation by the formulas of ISO 68-1 and ISO 898-1: d, pitch, d2, d1, d3 [mm], stress area [mm²].
THREADS = [
    (6, 1, 5.3505, 4.9175, 4.7731, 20.1234),
    (8, 1.25, 7.1881, 6.6468, 6.4664, 36.6085),
    (8, 1, 7.3505, 6.9175, 6.7731, 39.1671),
    (10, 1.5, 9.0257, 8.3762, 8.1597, 57.9896),
    (10, 1.25, 9.1881, 8.6468, 8.4664, 61.1986),
    (10, 1, 9.3505, 8.9175, 8.7731, 64.4940),
    (12, 1.75, 10.8633, 10.1056, 9.8530, 84.2665),
    (12, 1.5, 11.0257, 10.3762, 10.1597, 88.1260),
    (12, 1.25, 11.1881, 10.6468, 10.4664, 92.0718),
    (14, 2, 12.7010, 11.8349, 11.5463, 115.4394),
    (14, 1.5, 13.0257, 12.3762, 12.1597, 124.5455),
]
D = st.floats(min_value=5, max_value=30)
PITCH = st.floats(min_value=0.35, max_value=1.25)
MU = st.floats(min_value=0.01, max_value=0.5)
K = st.floats(min_value=0.05, max_value=0.6)
M10 = {"d_mm": 10, "pitch_mm": 1.25}
HEAD = {"mu_thread": 0.12, "mu_head": 0.12, "head_mm": 13.5}


@pytest.mark.parametrize(("d", "pitch", "d2", "d1", "d3", "area"), THREADS)
def test_thread_geometry(d, pitch, d2, d1, d3, area):
    """Diameters hold to half a micron, the stress area to 0.0001 mm²."""
    found = (
        bolts.pitch_diameter_mm(d, pitch_mm=pitch),
        bolts.minor_diameter_mm(d, pitch_mm=pitch),
        bolts.core_diameter_mm(d, pitch_mm=pitch),
        bolts.stress_area_mm2(d, pitch_mm=pitch),
    )
    assert pytest.approx((d2, d1, d3, area), abs=6e-5) == found


@settings(deadline=None)
@given(D, PITCH)
def test_two_forms_of_the_stress_area(d, pitch):
    """The form with 0.938 194 187 P gives the same area; a thread is smaller the nearer to its core."""
    area = bolts.stress_area_mm2(d, pitch_mm=pitch)
    assert pytest.approx(pi / 4 * (d - 0.938194187 * pitch) ** 2, rel=1e-9) == area
    d2, d1 = bolts.pitch_diameter_mm(d, pitch_mm=pitch), bolts.minor_diameter_mm(d, pitch_mm=pitch)
    assert 0 < bolts.core_diameter_mm(d, pitch_mm=pitch) < d1 < d2 < d
    assert pytest.approx(5 / 3, rel=1e-9) == (d - d1) / (d - d2)


@pytest.mark.parametrize(("d", "expected"), [(15.9, 580), (16, 580), (16.1, 600), (64, 600)])
def test_class_8_8_by_diameter(d, expected):
    """Class 8.8 has 580 MPa up to and with 16 mm, 600 above."""
    assert expected == bolts.proof_stress_mpa("8.8", d_mm=d)


@pytest.mark.parametrize("prop_class", ["8.8", "10.9", "12.9"])
@pytest.mark.parametrize("d", [8, 20])
def test_proof_stress_is_below_yield(prop_class, d):
    """A bolt is proved below its yield stress."""
    assert bolts.proof_stress_mpa(prop_class, d_mm=d) < bolts.yield_stress_mpa(prop_class, d_mm=d)


@settings(deadline=None)
@given(st.floats(min_value=0.1, max_value=300), D, K)
def test_torque_and_preload_are_inverse(torque, d, k):
    """A torque worked back from its preload is the same torque."""
    preload = bolts.preload_from_torque_n(torque, d_mm=d, nut_factor=k)
    assert pytest.approx(torque, rel=1e-12) == bolts.torque_for_preload_nm(preload, d_mm=d, nut_factor=k)
    assert preload < bolts.preload_from_torque_n(torque * 1.01, d_mm=d, nut_factor=k)


@settings(deadline=None)
@given(D, PITCH, MU, MU, st.floats(min_value=1.05, max_value=2))
def test_budget_adds_up_and_gives_the_nut_factor(d, pitch, mu_thread, mu_head, head):
    """The three shares make 100 %, and both forms of the torque agree by way of K."""
    rub = {"pitch_mm": pitch, "mu_thread": mu_thread, "mu_head": mu_head, "head_mm": head * d}
    budget = friction.torque_budget_pct(d, **rub)
    assert pytest.approx(100, rel=1e-12) == sum(budget)
    assert min(budget) > 0
    k = friction.nut_factor_from_friction(d, **rub)
    torque = friction.torque_with_friction_nm(10_000, d_mm=d, **rub)
    assert pytest.approx(k * 10_000 * d / 1000, rel=1e-12) == torque


def test_budget_of_an_m10():
    """M10×1.5 at 0.12: own calculation 14.62, 38.29 and 47.09 %; without friction all goes to the pitch."""
    rub = {"pitch_mm": 1.5, "mu_thread": 0.12, "mu_head": 0.12, "head_mm": 12.815}
    assert pytest.approx((14.62, 38.29, 47.09), abs=5e-3) == friction.torque_budget_pct(10, **rub)
    smooth = friction.torque_budget_pct(10, **rub | {"mu_thread": 0, "mu_head": 0})
    only_pitch = (100, 0, 0)
    assert only_pitch == tuple(smooth)


# Own calculation by the form of VDI 2230, class 8.8 at 0.12: d, pitch, preload [kN]
COARSE = [(6, 1, 10.18), (8, 1.25, 18.63), (10, 1.5, 29.60), (12, 1.75, 43.11), (14, 2, 59.15), (16, 2, 80.97)]


@pytest.mark.parametrize(("d", "pitch", "expected"), COARSE)
def test_preload_at_nine_tenths_of_yield(d, pitch, expected):
    """Assembly preload of coarse threads."""
    preload = friction.assembly_preload_n(d, pitch_mm=pitch, prop_class="8.8", mu_thread=0.12)
    assert pytest.approx(expected, abs=8e-3) == preload / 1000


@settings(deadline=None)
@given(D, PITCH, MU, st.sampled_from(["8.8", "10.9", "12.9"]))
def test_twist_takes_from_the_pull(d, pitch, mu, prop_class):
    """The more friction, the less preload before yield; always less than the pure pull."""
    less, more = (
        friction.assembly_preload_n(d, pitch_mm=pitch, prop_class=prop_class, mu_thread=m) for m in (mu + 0.01, mu)
    )
    pull = bolts.stress_area_mm2(d, pitch_mm=pitch) * bolts.yield_stress_mpa(prop_class, d_mm=d)
    assert less < more < 0.9 * pull


# Torque plus nut factor against the data sheets: letter, preload of the last torque stage [kN], % of proof, scatter [kN]
SHEETS = [
    ("A", 38.2, 75.3, (28.7, 47.8)),
    ("B", 12.5, 23.4, None),
    ("C", 20.8, 28.5, None),
    ("D", 37.5, 73.8, (28.1, 46.9)),
]


@pytest.mark.parametrize(("letter", "preload_kn", "pct", "spread"), SHEETS)
def test_flywheel_bolts_of_the_training_vehicles(letter, preload_kn, pct, spread):
    """Preload, share of proof load and its spread at 25 % for the last torque stage of each sheet."""
    flywheel = vehicles()[letter].flywheel
    bolt, tightening = flywheel.bolt, flywheel.tightening
    preload = bolts.preload_from_torque_n(tightening.final_nm, d_mm=bolt.d_mm, nut_factor=tightening.nut_factor)
    share = bolts.share_of_proof_pct(preload, d_mm=bolt.d_mm, pitch_mm=bolt.pitch_mm, prop_class=bolt.prop_class)
    assert pytest.approx(preload_kn, abs=0.06) == preload / 1000
    assert pytest.approx(pct, abs=0.1) == share
    low, high = scatter.preload_range_n(preload, scatter_pct=25)
    assert pytest.approx(spread or (0.75 * preload_kn, 1.25 * preload_kn), abs=0.1) == (low / 1000, high / 1000)


@settings(deadline=None)
@given(st.floats(min_value=1, max_value=1e6), st.floats(min_value=0, max_value=59), st.integers(1, 100))
def test_spread_encloses_the_nominal(preload, pct, n):
    """The range encloses the nominal preload, gets narrower with more bolts and fits the tightening factor."""
    low, high = scatter.preload_range_n(preload, scatter_pct=pct)
    assert low <= preload <= high
    assert low <= scatter.preload_range_n(preload, scatter_pct=pct, bolts=n)[0]
    assert pytest.approx(scatter.tightening_factor(pct), rel=1e-9) == high / low


def test_spread_of_torque_and_of_several_bolts():
    """A torque of ±5 % widens the range both ways; four bolts halve the scatter at the low end only."""
    found = scatter.preload_range_n(1000, scatter_pct=20, torque_tolerance_pct=5, bolts=4)
    assert pytest.approx((0.95 * 0.9 * 1000, 1.05 * 1.2 * 1000)) == found


# own derivation by (1 + s) / (1 - s)
@pytest.mark.parametrize(
    ("pct", "factor"),
    [(0, 1), (9, 1.198), (17, 1.410), (23, 1.597), (25, 1.667), (28, 1.778), (30, 1.857), (35, 2.077), (60, 4)],
)
def test_tightening_factor(pct, factor):
    """Largest over smallest preload."""
    assert pytest.approx(factor, abs=6e-4) == scatter.tightening_factor(pct)


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (
            lambda: bolts.preload_from_torque_n(65_000, d_mm=10, nut_factor=0.17),
            "torque_nm must be between 0 and 5000 N·m, but you gave 65000 N·m. Take the torque from the data sheet.",
        ),
        (
            lambda: bolts.preload_from_torque_n(65, d_mm=10, nut_factor=17),
            "nut_factor must be between 0.05 and 0.6, but you gave 17. "
            "Take it from the data sheet; 0.16 to 0.20 is usual.",
        ),
        (
            lambda: bolts.stress_area_mm2(10, pitch_mm=12.5),
            "pitch_mm must be between 0.2 and 2.5 mm, but you gave 12.5 mm. "
            "Read the pitch from the thread: 1.25 for M10×1.25.",
        ),
        (
            lambda: bolts.proof_stress_mpa("10,9", d_mm=10),
            "prop_class must be one of 8.8, 9.8, 10.9, 12.9, but you gave '10,9'. "
            "Read the marking on the head of the bolt.",
        ),
        (
            lambda: bolts.proof_stress_mpa("9.8", d_mm=18),
            "d_mm must be between 1.6 and 16 mm, but you gave 18 mm. Take the nominal diameter: 10 for M10.",
        ),
        (
            lambda: scatter.scatter_pct("guess"),
            "method must be one of feel, torque wrench, lubricated, torque wrench, dry, torque and angle, "
            "yield sensing, bolt stretch measured, strain gauge, but you gave 'guess'. "
            "Choose how the bolt was tightened.",
        ),
        (
            lambda: friction.nut_factor_from_friction(10, pitch_mm=1.25, mu_thread=12, mu_head=0.12, head_mm=13),
            "mu_thread must be between 0 and 1, but you gave 12. "
            "Take it from the data sheet; clean steel lies near 0.12.",
        ),
    ],
)
def test_out_of_range_is_told(call, told):
    """A figure out of range is refused with name, rule, value and advice."""
    with pytest.raises(OutOfRange) as caught:
        call()
    assert told == str(caught.value)


ANY = st.one_of(
    st.floats(), st.floats(min_value=0, max_value=30), st.sampled_from([0.0, 1.6, 64, 5e6, 1e308, -1e308, 5e-324])
)
TOLD = re.compile(r".+ must be (between|one of) .+, but you gave .+\. .+\.", re.S)
CLASSES = {"prop_class": "10.9"}
# calculator, arguments given anything, arguments held
SCALARS = [
    (bolts.pitch_diameter_mm, ("pitch_mm",), {}),
    (bolts.minor_diameter_mm, ("pitch_mm",), {}),
    (bolts.core_diameter_mm, ("pitch_mm",), {}),
    (bolts.stress_area_mm2, ("pitch_mm",), {}),
    (bolts.proof_load_n, ("pitch_mm",), CLASSES),
    (bolts.share_of_proof_pct, ("d_mm", "pitch_mm"), CLASSES),
    (bolts.preload_from_torque_n, ("d_mm", "nut_factor"), {}),
    (bolts.torque_for_preload_nm, ("d_mm", "nut_factor"), {}),
    (friction.torque_with_friction_nm, ("d_mm", "pitch_mm", "mu_thread", "mu_head", "head_mm"), {}),
    (friction.nut_factor_from_friction, ("pitch_mm", "mu_thread", "mu_head", "head_mm"), {}),
    (friction.assembly_preload_n, ("pitch_mm", "mu_thread", "yield_share"), CLASSES),
    (scatter.tightening_factor, (), {}),
    (joints.engagement_mm, ("clamped_mm",), {}),
    (joints.engagement_over_d, ("clamped_mm", "d_mm"), {}),
    (joints.clearance_to_thread_end_mm, ("clamped_mm", "thread_depth_mm"), {}),
    (joints.elongation_mm, ("length_mm", "modulus_mpa"), {}),
    (joints.bolt_stiffness_kn_per_mm, ("pitch_mm", "length_mm"), {}),
    (joints.joint_stiffness_kn_per_mm, ("parts_kn_per_mm",), {}),
    (joints.bolt_share_of_load, ("parts_kn_per_mm",), {}),
    (joints.preload_after_angle_n, ("angle_deg", "pitch_mm", "stiffness_kn_per_mm"), {}),
    (joints.preload_after_angle_twice_n, ("angle_deg", "pitch_mm", "stiffness_kn_per_mm"), {}),
    (joints.rigid_joint_angle_deg, ("length_mm", "pitch_mm"), {}),
    (joints.joint_friction_torque_nm, ("mu", "pcd_mm"), {"bolts": 6}),
    (joints.mark_travel_mm, ("diameter_mm",), {}),
]


def outcome(calculator, first, rest):
    """What a person gets: a figure, or the sentence of the error."""
    try:
        return calculator(first, **rest)
    except OutOfRange as error:
        return str(error)


@pytest.mark.parametrize(("calculator", "names", "held"), SCALARS)
@settings(deadline=None)
@given(data=st.data())
def test_any_figures_give_a_finite_one_or_a_sentence(calculator, names, held, data):
    """Extreme and non-finite figures give a finite result or a told range, never NaN, never a complex number."""
    result = outcome(calculator, data.draw(ANY), held | {name: data.draw(ANY) for name in names})
    if isinstance(result, str):
        assert TOLD.fullmatch(result)
    else:
        assert type(result) is float
        assert math.isfinite(result)


ROOMS = (bolts, calibration, friction, joints, reuse, scatter, wrench)
PUBLIC = [
    f for room in ROOMS for name, f in inspect.getmembers(room, inspect.isfunction)
    if f.__module__ == room.__name__ and not name.startswith("_") and name != "check_preload"
]  # fmt: skip


@pytest.mark.parametrize("calculator", PUBLIC)
def test_docstring_names_a_known_source_and_shows_an_example(calculator):
    """Every calculator names its sources by key and carries a worked example."""
    text = inspect.getdoc(calculator)
    keys = re.search(r"Source\n------\n(.+)\n", text)[1].split(", ")
    unknown = [key for key in keys if key not in SOURCES]
    assert not unknown, unknown
    assert "Examples\n--------\n" in text
    assert ">>> " in text


def test_sources_beside_constants_are_known():
    """A key named beside a constant is a source."""
    named = {
        key
        for room in ROOMS
        for keys in re.findall(r"\(sources?: ([^);]+)", inspect.getsource(room))
        for key in re.findall(r"[a-z]+(?:-[a-z0-9]+)+", keys.split(",")[0])
    }
    assert {"iso-898-1", "iso-68-1", "iso-6789", "mech-eng-design-9"} <= named
    assert set() == named - set(SOURCES)
    assert set() == {entry.source for entry in scatter.SCATTER.values()} - set(SOURCES)
