"""Times of the calculators of bolts, wrench and tightening; measured, never asserted."""

from datetime import date

import pytest

from bitepoint.mechanics import bolts, calibration, friction, joints, reuse, scatter, tightening, wrench

THREAD = {"pitch_mm": 1.25}
HEAD = {"pitch_mm": 1.25, "mu_thread": 0.12, "mu_head": 0.12, "head_mm": 13.5}
STAGE = {"angle_deg": 50, "pitch_mm": 1, "stiffness_kn_per_mm": 236}
LEVER = {"lever_mm": 410, "offset_mm": 60, "angle_deg": 45}
SIXTEEN = tightening.even_circle_deg(16)
UNEVEN = tuple(a + 5 * (i % 2) for i, a in enumerate(tightening.even_circle_deg(9)))

# calculator, first argument, other arguments, what it gives
CALLS = [
    (bolts.pitch_diameter_mm, 10, THREAD, 9.188101),
    (bolts.stress_area_mm2, 10, THREAD, 61.198622),
    (bolts.proof_load_n, 10, THREAD | {"prop_class": "10.9"}, 50794.86),
    (bolts.share_of_proof_pct, 38235, THREAD | {"d_mm": 10, "prop_class": "10.9"}, 75.27337),
    (bolts.preload_from_torque_n, 65, {"d_mm": 10, "nut_factor": 0.17}, 38235.29),
    (bolts.torque_for_preload_nm, 38235, {"d_mm": 10, "nut_factor": 0.17}, 64.9995),
    (friction.torque_with_friction_nm, 38235, {"d_mm": 10} | HEAD, 62.92),
    (friction.nut_factor_from_friction, 10, HEAD, 0.164557),
    (friction.assembly_preload_n, 10, THREAD | {"prop_class": "10.9", "mu_thread": 0.12}, 46459),
    (scatter.tightening_factor, 25, {}, 1.666667),
    (joints.engagement_mm, 22, {"clamped_mm": 9}, 13),
    (joints.elongation_mm, 622.5, {"length_mm": 30}, 0.091098),
    (joints.joint_stiffness_kn_per_mm, 300, {"parts_kn_per_mm": 900}, 225),
    (joints.preload_after_angle_n, 12500, STAGE, 45277.78),
    (joints.rigid_joint_angle_deg, 622.5, {"length_mm": 30, "pitch_mm": 1.25}, 26.2361),
    (joints.joint_friction_torque_nm, 38235, {"bolts": 6, "mu": 0.12, "pcd_mm": 60}, 825.876),
    (wrench.wrench_setting_nm, 65, LEVER, 58.90458),
    (wrench.torque_at_bolt_nm, 65, LEVER, 71.72617),
    (wrench.straight_bar_setting_nm, 65, {"bar_mm": 75}, 65),
    (calibration.deviation_pct, 100, {"reference_nm": 96.16}, 3.993344),
    (tightening.best_peak_out_of_balance, SIXTEEN, {}, 1),
]


@pytest.mark.parametrize(("calculator", "first", "rest", "expected"), CALLS, ids=[c[0].__name__ for c in CALLS])
def test_scalar_calculator(benchmark, calculator, first, rest, expected):
    """One call of a calculator, with its result checked."""
    assert pytest.approx(expected, rel=1e-3) == benchmark(calculator, first, **rest)


def test_torque_budget(benchmark):
    """Three shares of the torque."""
    assert pytest.approx(100) == sum(benchmark(friction.torque_budget_pct, 10, **HEAD))


def test_preload_range(benchmark):
    """Least and greatest preload."""
    assert pytest.approx((28676.25, 47793.75)) == benchmark(scatter.preload_range_n, 38235, scatter_pct=25)


def test_range_check(benchmark):
    """Whether a wrench suits a torque."""
    assert benchmark(wrench.range_check, 9, lowest_mark_nm=5, highest_nm=25).ok


def test_date_check(benchmark):
    """Whether a wrench is in date."""
    due = {"due": date(2026, 11, 3), "on": date(2026, 4, 14)}
    assert benchmark(wrench.date_check, date(2025, 11, 3), **due).ok


def test_calibration_record(benchmark):
    """A record of three points and fifteen readings."""
    record = [(20, [20] * 5), (60, [60] * 5), (100, [100] * 5)]
    expected = "pass"
    assert expected == benchmark(calibration.judge_calibration, record, highest_nm=100).result


def test_reuse_decision(benchmark):
    """Reuse or replace."""
    facts = {"tightened_by_angle": False, "locking_patch": False, "thread_good": True}
    expected = "reuse"
    decided = benchmark(reuse.reuse_decision, True, **facts, length_mm=40.1, longest_mm=40.5)
    assert expected == decided.decision


def test_star_order_of_sixteen(benchmark):
    """Our order of 16 bolts, with the best peak remembered."""
    assert tightening.is_star(SIXTEEN, benchmark(tightening.star_order, SIXTEEN))


def test_is_star_of_sixteen(benchmark):
    """Whether an order of 16 bolts is a star."""
    assert benchmark(tightening.is_star, SIXTEEN, tightening.star_order(SIXTEEN))


def test_search_on_an_uneven_circle(benchmark):
    """The search itself, nine uneven holes, nothing remembered."""
    peak, order = benchmark(tightening._search.__wrapped__, UNEVEN)
    assert pytest.approx(peak) == tightening.peak_out_of_balance(UNEVEN, order)


def test_sixteen_bolts_in_six_passes(benchmark):
    """A simulation of 16 bolts: four star stages and two rounds."""
    star, ring = tightening.star_order(SIXTEEN), tuple(range(1, 17))
    passes = [(star, 0.2), (star, 0.4), (star, 0.8), (star, 1.0), (ring, 1.0), (ring, 1.0)]
    load = benchmark(tightening.preloads_after, passes, 16, loss=(0.08, 0.03, 0.01))
    assert 0.99 < min(load) <= max(load) <= 1
