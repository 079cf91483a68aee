"""The bolted joint: engagement, stiffness, torque plus angle, reuse."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import bolts, joints
from bitepoint.mechanics.reuse import ReuseDecision, reuse_decision
from bitepoint.workshop.vehicles import vehicles

STIFF = st.floats(min_value=1, max_value=5000)

# letter, engagement [mm], over d, clearance to the end of the thread [mm]
SHEETS = [("A", 13, 1.3, 5), ("B", 14, 1.4, 4), ("C", 16, 4 / 3, 5), ("D", 13.5, 1.35, 3.5)]


@pytest.mark.parametrize(("letter", "engaged", "over_d", "clearance"), SHEETS)
def test_engagement_of_the_training_vehicles(letter, engaged, over_d, clearance):
    """The right bolt engages at least its diameter and never bottoms."""
    bolt = vehicles()[letter].flywheel.bolt
    found = (
        joints.engagement_mm(bolt.length_mm, clamped_mm=bolt.hub_clamped_mm),
        joints.engagement_over_d(bolt.length_mm, clamped_mm=bolt.hub_clamped_mm, d_mm=bolt.d_mm),
        joints.clearance_to_thread_end_mm(
            bolt.length_mm, clamped_mm=bolt.hub_clamped_mm, thread_depth_mm=bolt.crank_thread_depth_mm
        ),
    )
    assert pytest.approx((engaged, over_d, clearance)) == found


@pytest.mark.parametrize(("letter", "bottoms_by", "engaged"), [("B", 7, 3), ("C", 19, -8)])
def test_the_other_bolt_is_caught(letter, bottoms_by, engaged):
    """The long bolt in the thin flywheel bottoms; the short one in the thick flywheel hardly engages, or not."""
    flywheel = vehicles()[letter].flywheel
    rigid, dual = flywheel.bolt, flywheel.bolt_dmf
    clearance = joints.clearance_to_thread_end_mm(
        dual.length_mm, clamped_mm=rigid.hub_clamped_mm, thread_depth_mm=rigid.crank_thread_depth_mm
    )
    assert pytest.approx(-bottoms_by) == clearance
    assert pytest.approx(engaged) == joints.engagement_mm(rigid.length_mm, clamped_mm=dual.hub_clamped_mm)


# letter, preload after the angle stage [kN], % of proof, % of proof when turned twice
ANGLES = [("B", 45.3, 84.6, 145.8), ("C", 60.08, 82.1, 135.7)]


@pytest.mark.parametrize(("letter", "preload_kn", "pct", "twice_pct"), ANGLES)
def test_angle_stage_of_the_training_vehicles(letter, preload_kn, pct, twice_pct):
    """The angle stage lands below proof load, turned twice far above."""
    bolt, tightening = vehicles()[letter].flywheel.bolt, vehicles()[letter].flywheel.tightening
    snug = bolts.preload_from_torque_n(tightening.final_nm, d_mm=bolt.d_mm, nut_factor=tightening.nut_factor)
    stage = {
        "angle_deg": tightening.angle_deg,
        "pitch_mm": bolt.pitch_mm,
        "stiffness_kn_per_mm": tightening.joint_stiffness_kn_per_mm,
    }
    thread = {"d_mm": bolt.d_mm, "pitch_mm": bolt.pitch_mm, "prop_class": bolt.prop_class}
    once, twice = joints.preload_after_angle_n(snug, **stage), joints.preload_after_angle_twice_n(snug, **stage)
    assert pytest.approx(preload_kn, abs=0.06) == once / 1000
    assert pytest.approx(pct, abs=0.2) == bolts.share_of_proof_pct(once, **thread)
    assert pytest.approx(twice_pct, abs=0.2) == bolts.share_of_proof_pct(twice, **thread)


@settings(deadline=None)
@given(st.floats(min_value=0, max_value=1e5), st.floats(min_value=0.1, max_value=360), STIFF)
def test_turning_twice_adds_the_same_again(snug, angle, stiffness):
    """Each turn adds the same preload in an elastic joint; no turn adds none."""
    stage = {"pitch_mm": 1.25, "stiffness_kn_per_mm": stiffness}
    once = joints.preload_after_angle_n(snug, angle_deg=angle, **stage)
    twice = joints.preload_after_angle_twice_n(snug, angle_deg=angle, **stage)
    assert snug == joints.preload_after_angle_n(snug, angle_deg=0, **stage)
    assert snug < once < twice
    assert pytest.approx(twice - once, rel=1e-6) == once - snug


# Own derivation: M10×1.25, 622.5 MPa, 30 mm, 205 GPa; parts three and five times as stiff as the bolt.
@pytest.mark.parametrize(("ratio", "angle"), [(1e9, 26.2361), (3, 34.9815), (5, 31.4833)])
def test_soft_parts_need_a_larger_angle(ratio, angle):
    """A rigid joint needs 26.24°; soft parts 4/3 and 6/5 of it."""
    rigid = joints.rigid_joint_angle_deg(622.5, length_mm=30, pitch_mm=1.25)
    bolt = joints.bolt_stiffness_kn_per_mm(10, pitch_mm=1.25, length_mm=30)
    parts = min(ratio * bolt, 100_000)
    joint = joints.joint_stiffness_kn_per_mm(bolt, parts_kn_per_mm=parts)
    needed = rigid * bolt / joint
    assert pytest.approx(angle, rel=5e-3 if ratio > 100 else 1e-5) == needed
    preload = 622.5 * bolts.stress_area_mm2(10, pitch_mm=1.25)
    reached = joints.preload_after_angle_n(0, angle_deg=needed, pitch_mm=1.25, stiffness_kn_per_mm=joint)
    assert pytest.approx(preload, rel=1e-9) == reached


@settings(deadline=None)
@given(STIFF, STIFF)
def test_stiffness_in_a_row(bolt, parts):
    """Two springs in a row are softer than the softer one, whichever comes first; the shares of a pull make one."""
    joint = joints.joint_stiffness_kn_per_mm(bolt, parts_kn_per_mm=parts)
    assert joint < min(bolt, parts)
    assert pytest.approx(joint, rel=1e-12) == joints.joint_stiffness_kn_per_mm(parts, parts_kn_per_mm=bolt)
    shares = (
        joints.bolt_share_of_load(bolt, parts_kn_per_mm=parts),
        joints.bolt_share_of_load(parts, parts_kn_per_mm=bolt),
    )
    assert pytest.approx(1, rel=1e-12) == sum(shares)


# letter, friction torque of the flange [N·m] at 0.12
@pytest.mark.parametrize(("letter", "torque"), [("A", 826), ("B", 1434), ("C", 1556), ("D", 1418)])
def test_flange_carries_far_more_than_the_engine(letter, torque):
    """Friction alone carries several times the engine's greatest torque on every training vehicle."""
    car = vehicles()[letter]
    bolt, tightening = car.flywheel.bolt, car.flywheel.tightening
    preload = bolts.preload_from_torque_n(tightening.final_nm, d_mm=bolt.d_mm, nut_factor=tightening.nut_factor)
    if tightening.angle_deg:
        preload = joints.preload_after_angle_n(
            preload,
            angle_deg=tightening.angle_deg,
            pitch_mm=bolt.pitch_mm,
            stiffness_kn_per_mm=tightening.joint_stiffness_kn_per_mm,
        )
    carried = joints.joint_friction_torque_nm(
        preload, bolts=car.flywheel.bolt_count, mu=0.12, pcd_mm=car.flywheel.pcd_mm
    )
    assert pytest.approx(torque, rel=3e-3) == carried
    assert carried > 3 * car.engine.max_torque_nm


def test_paint_mark_goes_once_round():
    """A full turn moves the mark by the circumference."""
    assert pytest.approx(75.398, abs=1e-3) == joints.mark_travel_mm(360, diameter_mm=24)


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (
            lambda: joints.engagement_mm(0, clamped_mm=9),
            "length_mm must be between 1 and 500 mm, but you gave 0 mm. "
            "Measure from under the head to the end of the bolt.",
        ),
        (
            lambda: joints.preload_after_angle_n(12.5, angle_deg=50, pitch_mm=1, stiffness_kn_per_mm=236_000),
            "stiffness_kn_per_mm must be between 0.1 and 100000 kN/mm, but you gave 236000 kN/mm. "
            "Take it from the data sheet in kN/mm.",
        ),
        (
            lambda: joints.joint_friction_torque_nm(38_000, bolts=6.0, mu=0.12, pcd_mm=60),
            "bolts must be a whole number from 1 to 100, but you gave 6.0. Count the bolts of the flange.",
        ),
    ],
)
def test_out_of_range_is_told(call, told):
    """A figure out of range is refused with name, rule, value and advice."""
    with pytest.raises(OutOfRange) as caught:
        call()
    assert told == str(caught.value)


GOOD = {
    "sheet_allows": True, "tightened_by_angle": False, "locking_patch": False, "thread_good": True,
    "length_mm": 40.1, "longest_mm": 40.5,
}  # fmt: skip


def decide(**changed):
    facts = GOOD | changed
    return reuse_decision(facts.pop("sheet_allows"), **facts)


def test_good_bolt_that_the_sheet_allows_is_used_again():
    """Only when everything is known and good does a bolt go in again."""
    expected = ReuseDecision("reuse", "The repair data allow it; 40.1 mm is not above 40.5 mm.")
    assert expected == decide()
    assert "reuse" in decide(length_mm=40.5).decision


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        ({"sheet_allows": False}, "The repair data call for new bolts."),
        ({"sheet_allows": None}, "It is not known whether the repair data allow it."),
        ({"tightened_by_angle": True}, "It was tightened by angle and may have been stretched."),
        ({"tightened_by_angle": None}, "It is not known whether it was tightened by angle."),
        ({"locking_patch": True}, "Its locking patch has done its work."),
        ({"locking_patch": None}, "It is not known whether it carries a locking patch."),
        ({"thread_good": False}, "Its thread is damaged or dirty."),
        ({"thread_good": None}, "It is not known whether its thread is good."),
        ({"length_mm": None}, "Its length was not measured."),
        ({"longest_mm": None}, "The greatest length allowed is not known."),
        ({"length_mm": 40.6}, "It is 40.6 mm long, more than 40.5 mm: it has stretched."),
    ],
)
def test_one_doubt_is_enough_to_replace(changed, reason):
    """Anything against it, or not known, means replace, with the reason."""
    expected = ReuseDecision("replace", reason)
    assert expected == decide(**changed)


def test_all_combinations_of_findings():
    """Of all combinations of known and unknown findings, exactly one allows reuse."""
    findings = product((True, False, None), repeat=4)
    names = ("sheet_allows", "tightened_by_angle", "locking_patch", "thread_good")
    allowed = [f for f in findings if decide(**dict(zip(names, f, strict=True))).decision == "reuse"]
    expected = [(True, False, False, True)]
    assert expected == allowed


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (
            {"sheet_allows": False, "thread_good": "no"},
            "thread_good must be True, False or None (not known), but you gave 'no'. Look at the bolt and the sheet.",
        ),
        (
            {"sheet_allows": False, "length_mm": float("nan")},
            "length_mm must be between 1 and 500 mm, but you gave nan mm. "
            "Measure from under the head to the end of the bolt.",
        ),
    ],
)
def test_findings_that_cannot_be_are_told(changed, told):
    """A finding that is none is refused even where another already decides."""
    with pytest.raises(OutOfRange) as caught:
        decide(**changed)
    assert told == str(caught.value)
