"""Threads, strength and tightening torque against published tables."""

from math import pi

import pytest

from bitepoint.mechanics import bolts, friction, joints, scatter
from bitepoint.sources import SOURCES
from bitepoint.units import INCH_M, POUND_FORCE_N, convert

INCH_MM = 1000 * INCH_M

# d, pitch, pitch diameter [mm] in the key bolted-joints-introduction-4 (quoted)
PITCH_DIAMETERS = [(8, 1.25, 7.1881), (10, 1.5, 9.0257), (12, 1.75, 10.863)]


@pytest.mark.parametrize(("d", "pitch", "published"), PITCH_DIAMETERS)
def test_pitch_diameter(d, pitch, published):
    """Pitch diameters of the bolted-joints book (quoted) hold to half a micron."""
    assert pytest.approx(published, abs=5e-4) == bolts.pitch_diameter_mm(d, pitch_mm=pitch)


# d, pitch, stress area [mm²], unrounded, in the same table (quoted)
STRESS_AREAS = [(6, 1, 20.123), (8, 1.25, 36.609), (10, 1.5, 57.990), (12, 1.75, 84.267), (14, 2, 115.44)]


@pytest.mark.parametrize(("d", "pitch", "published"), STRESS_AREAS)
def test_stress_area(d, pitch, published):
    """Stress areas of the bolted-joints book (quoted) hold to their last digit."""
    assert pytest.approx(published, abs=6e-3 if d == 14 else 1e-3) == bolts.stress_area_mm2(d, pitch_mm=pitch)


# d, pitch, nominal stress area [mm²], seen: ISO 898-1, table of proof loads, rounded to three digits
NOMINAL_AREAS = [
    (6, 1, 20.1, "quoted"),
    (8, 1.25, 36.6, "quoted"),
    (8, 1, 39.2, "memory"),
    (10, 1.5, 58.0, "quoted"),
    (10, 1.25, 61.2, "memory"),
    (10, 1, 64.5, "memory"),
    (12, 1.75, 84.3, "quoted"),
    (12, 1.5, 88.1, "memory"),
    (12, 1.25, 92.1, "memory"),
    (14, 2, 115, "quoted"),
    (14, 1.5, 125, "memory"),
]


@pytest.mark.parametrize(("d", "pitch", "nominal", "seen"), NOMINAL_AREAS)
def test_nominal_stress_area(d, pitch, nominal, seen):
    """The stress area lies within the rounding (0.5 %) of the nominal one in ISO 898-1."""
    assert pytest.approx(nominal, rel=5e-3) == bolts.stress_area_mm2(d, pitch_mm=pitch), seen


# ISO 898-1, nominal proof stress and least yield stress [MPa] (quoted)
STRENGTHS = [
    (bolts.proof_stress_mpa, "8.8", 16, 580),
    (bolts.proof_stress_mpa, "8.8", 18, 600),
    (bolts.proof_stress_mpa, "9.8", 10, 650),
    (bolts.proof_stress_mpa, "10.9", 10, 830),
    (bolts.proof_stress_mpa, "12.9", 10, 970),
    (bolts.yield_stress_mpa, "8.8", 16, 640),
    (bolts.yield_stress_mpa, "10.9", 10, 940),
    (bolts.yield_stress_mpa, "12.9", 10, 1100),
]


@pytest.mark.parametrize(("strength", "prop_class", "d", "published"), STRENGTHS)
def test_strength_of_a_property_class(strength, prop_class, d, published):
    """Proof and yield stress are those of ISO 898-1."""
    assert published == strength(prop_class, d_mm=d)


# d, pitch, proof loads [N] of 8.8, 10.9, 12.9, seen: ISO 898-1. The tables multiply areas rounded to three
# digits (up to 0.5 %) and round again by no single rule (up to 0.5 %): together at most 0.8 % was met.
PROOF_LOADS = [
    (6, 1, (11_600, 16_700, 19_500), "quoted"),
    (8, 1.25, (21_200, 30_400, 35_500), "quoted"),
    (10, 1.5, (33_700, 48_100, 56_300), "quoted"),
    (12, 1.75, (48_900, 70_000, 81_800), "quoted"),
    (14, 2, (66_700, 95_500, 112_000), "quoted"),
    (8, 1, (22_700, 32_500, 38_000), "memory"),
    (10, 1.25, (35_500, 50_800, 59_400), "memory"),
    (10, 1, (37_400, 53_500, 62_700), "memory"),
    (12, 1.5, (51_100, 73_100, 85_500), "memory"),
    (12, 1.25, (53_400, 76_400, 89_300), "memory"),
    (14, 1.5, (72_500, 104_000, 121_000), "memory"),
]
PROOF_LOAD_CASES = [
    (d, pitch, prop_class, load, seen)
    for d, pitch, loads, seen in PROOF_LOADS
    for prop_class, load in zip(("8.8", "10.9", "12.9"), loads, strict=True)
]


@pytest.mark.parametrize(("d", "pitch", "prop_class", "published", "seen"), PROOF_LOAD_CASES)
def test_proof_load(d, pitch, prop_class, published, seen):
    """Stress area times proof stress lies within the rounding of the proof-load tables of ISO 898-1."""
    load = bolts.proof_load_n(d, pitch_mm=pitch, prop_class=prop_class)
    assert pytest.approx(published, rel=8e-3) == load, seen


# diameter [in], threads an inch, stress area of the inch thread [in²]: textbook table 8-2, page 413 (quoted)
INCH_AREAS = [(0.75, 16, 0.373), (0.375, 24, 0.0878), (0.25, 28, 0.0364)]


@pytest.mark.parametrize(("d", "threads", "published"), INCH_AREAS)
def test_stress_area_of_inch_threads(d, threads, published):
    """The inch rule (NSTS 08307A, appendix A: 0.9743) gives up to 1.3 % less than the metric one."""
    by_inch_rule = pi / 4 * (d - 0.9743 / threads) ** 2
    metric = bolts.stress_area_mm2(d * INCH_MM, pitch_mm=INCH_MM / threads) / INCH_MM**2
    assert pytest.approx(published, rel=2e-3) == by_inch_rule
    assert 1 < metric / by_inch_rule < 1.013


# condition, nut factor, source, section, seen
NUT_FACTORS = [
    ("not plated", 0.30, "mech-eng-design-9", "table 8-15, page 439", "quoted"),
    ("zinc plated", 0.20, "mech-eng-design-9", "table 8-15, page 439", "quoted"),
    ("lubricated", 0.18, "mech-eng-design-9", "table 8-15, page 439", "quoted"),
    ("cadmium plated", 0.16, "mech-eng-design-9", "table 8-15, page 439", "quoted"),
    ("unknown", 0.20, "mech-eng-design-5", "recommended value", "quoted"),
]


@pytest.mark.parametrize(("condition", "published", "source", "section", "seen"), NUT_FACTORS)
def test_nut_factor(condition, published, source, section, seen):
    """Nut factors are those of the textbook's table."""
    assert source in SOURCES, (section, seen)
    assert published == bolts.NUT_FACTORS[condition]


# d [in], preload [lbf], K, torque [lbf·in] as printed, half of its last digit, source, section, seen
INCH_TORQUES = [
    (0.75, 25_000, 0.20, 3750, 0.5, "mech-eng-design-9", "example 8-3 (b), page 440", "memory"),
    (0.19, 1275, 0.30, 72.7, 0.06, "mechanical-fastening-joining-assembly", "page 85", "memory"),
    (0.19, 1275, 0.20, 48.5, 0.06, "mechanical-fastening-joining-assembly", "page 85", "memory"),
]


@pytest.mark.parametrize(("d", "preload", "k", "printed", "tol", "source", "section", "seen"), INCH_TORQUES)
def test_torque_by_nut_factor(d, preload, k, printed, tol, source, section, seen):
    """Torque by nut factor agrees with worked examples in inches and pounds."""
    assert source in SOURCES, (section, seen)
    torque = bolts.torque_for_preload_nm(preload * POUND_FORCE_N, d_mm=d * INCH_MM, nut_factor=k)
    assert pytest.approx(printed, abs=tol) == convert(torque, "N·m", "lbf·in")


def test_torque_with_friction_of_the_textbook():
    """Textbook example 8-3 (c), equation 8-26 (memory): 3551 lbf·in; ours lacks a second-order term."""
    torque = friction.torque_with_friction_nm(
        25_000 * POUND_FORCE_N,
        d_mm=0.75 * INCH_MM,
        pitch_mm=INCH_MM / 16,
        mu_thread=0.15,
        mu_head=0.15,
        head_mm=1.25 * 0.75 * INCH_MM,
    )
    assert pytest.approx(3551, rel=3e-3) == convert(torque, "N·m", "lbf·in")


@pytest.mark.parametrize("mu", [0.12, 0.15])
@pytest.mark.parametrize(("d", "pitch"), [(8, 1.25), (10, 1.5), (12, 1.75)])
def test_simplified_torque_of_the_handbook(d, pitch, mu):
    """MIL-HDBK-60 appendix B, 100.5, page 26 (print): its short form is at most 1 % too high."""
    simplified = 0.159 * pitch + d * (0.531 + 0.625) * mu
    exact = d * friction.nut_factor_from_friction(d, pitch_mm=pitch, mu_thread=mu, mu_head=mu, head_mm=1.25 * d)
    assert 1 < simplified / exact < 1.01


def test_share_of_an_outside_load():
    """Textbook example 8-3 (quoted): 6.5/(6.5 + 13.8) = 0.320."""
    assert pytest.approx(0.320, abs=5e-4) == joints.bolt_share_of_load(6.5, parts_kn_per_mm=13.8)


# VDI 2230:2001, table for fine threads, hexagon heads, 90 % of the yield stress (quoted).
# d, pitch, mu, preloads [kN] of 8.8, 10.9, 12.9, torques [N·m] of the same
VDI = [
    (8, 1, 0.10, (20.7, 30.4, 35.6), (22.8, 33.5, 39.2)),
    (8, 1, 0.12, (20.2, 29.7, 34.7), (26.1, 38.3, 44.9)),
    (8, 1, 0.14, (19.7, 28.9, 33.9), (29.2, 42.8, 50.1)),
    (12, 1.25, 0.10, (49.1, 72.1, 84.4), (79, 116, 135)),
    (12, 1.25, 0.12, (48.0, 70.5, 82.5), (90, 133, 155)),
    (12, 1.25, 0.14, (46.8, 68.7, 80.4), (101, 149, 174)),
]
VDI_CASES = [
    (d, pitch, mu, prop_class, force, torque)
    for d, pitch, mu, forces, torques in VDI
    for prop_class, force, torque in zip(("8.8", "10.9", "12.9"), forces, torques, strict=True)
]
# Mean of the bearing face (ISO 4014, memory) and of a medium clearance hole (ISO 273, memory) [mm]
HEAD_MM = {
    6: (8.88 + 6.6) / 2,
    8: (11.63 + 9) / 2,
    10: (14.63 + 11) / 2,
    12: (16.63 + 13.5) / 2,
    14: (19.64 + 15.5) / 2,
    16: (22.49 + 17.5) / 2,
}


@pytest.mark.parametrize(("d", "pitch", "mu", "prop_class", "force", "torque"), VDI_CASES)
def test_preload_of_vdi_2230(d, pitch, mu, prop_class, force, torque):
    """The preload at 90 % of yield lies within 0.4 % of the table."""
    preload = friction.assembly_preload_n(d, pitch_mm=pitch, prop_class=prop_class, mu_thread=mu)
    assert pytest.approx(force, rel=4e-3) == preload / 1000


@pytest.mark.parametrize(("d", "pitch", "mu", "prop_class", "force", "torque"), VDI_CASES)
def test_torque_of_vdi_2230(d, pitch, mu, prop_class, force, torque):
    """The torque that goes with it lies within 0.7 % or the table's rounding."""
    preload = friction.assembly_preload_n(d, pitch_mm=pitch, prop_class=prop_class, mu_thread=mu)
    worked = friction.torque_with_friction_nm(
        preload, d_mm=d, pitch_mm=pitch, mu_thread=mu, mu_head=mu, head_mm=HEAD_MM[d]
    )
    assert pytest.approx(torque, rel=7e-3, abs=0.55) == worked


# d, pitch, torque [N·m]: trade page, hexagon head, class 8.8, mu 0.12 (key torque-table-hex-head, quoted)
COARSE = [(6, 1, 10.1), (8, 1.25, 24.6), (10, 1.5, 48), (12, 1.75, 84), (14, 2, 133), (16, 2, 206)]


@pytest.mark.parametrize(("d", "pitch", "torque"), COARSE)
def test_torque_of_coarse_threads(d, pitch, torque):
    """Torque at 90 % of yield lies within 1 % of a table for hexagon heads."""
    preload = friction.assembly_preload_n(d, pitch_mm=pitch, prop_class="8.8", mu_thread=0.12)
    worked = friction.torque_with_friction_nm(
        preload, d_mm=d, pitch_mm=pitch, mu_thread=0.12, mu_head=0.12, head_mm=HEAD_MM[d]
    )
    assert pytest.approx(torque, rel=1e-2) == worked


# method, plus or minus [%], source, section, seen
SCATTER = [
    ("feel", 35, "mil-hdbk-60", "table I, page 12", "print"),
    ("torque and angle", 15, "mil-hdbk-60", "table I, page 12 (turn of nut)", "print"),
    ("yield sensing", 8, "mil-hdbk-60", "table I, page 12", "print"),
    ("bolt stretch measured", 5, "mil-hdbk-60", "table I, page 12 (3 to 5)", "print"),
    ("strain gauge", 1, "mil-hdbk-60", "table I, page 12", "print"),
    ("torque wrench, lubricated", 25, "nasa-std-5020b", "table 3, page 25", "print"),
    ("torque wrench, dry", 35, "nasa-std-5020b", "table 3, page 25", "print"),
    ("torque wrench, lubricated", 25, "nsts-08307", "3.4, page 3-7", "print"),
    ("torque wrench, dry", 35, "nsts-08307", "3.4, page 3-7 (unlubricated)", "print"),
    ("torque wrench, lubricated", 25, "mil-hdbk-60", "table I, page 12", "print"),
]


@pytest.mark.parametrize(("method", "published", "source", "section", "seen"), SCATTER)
def test_scatter_by_method(method, published, source, section, seen):
    """Scatter by method is the published one."""
    assert source in SOURCES, (section, seen)
    assert published == scatter.scatter_pct(method)


# T/Kd, least and greatest preload [lbf]: NASA TM-106943, table I (print): 25 % scatter, 5 % relaxation
TM_106943 = [(2011, 1436, 2514), (4851, 3465, 6064), (20608, 14720, 25760)]


@pytest.mark.parametrize(("nominal", "least", "greatest"), TM_106943)
def test_least_and_greatest_preload(nominal, least, greatest):
    """Least preload (divided by 1.05 for relaxation) and greatest agree to 1 lbf."""
    low, high = scatter.preload_range_n(nominal, scatter_pct=25)
    assert pytest.approx(least, abs=1) == low / 1.05
    assert pytest.approx(greatest, abs=1) == high


# nominal, tolerance, least, greatest: NASA-STD-5020B, pages 22, 23 and 47 (print)
TOLERANCES = [(40, 5, 38, 42), (60, 5, 57, 63)]


@pytest.mark.parametrize(("nominal", "tolerance", "least", "greatest"), TOLERANCES)
def test_tolerance_of_the_torque(nominal, tolerance, least, greatest):
    """40 ± 2 N·m means factors of 0.95 and 1.05, 60 ± 3 in-lb means 57 and 63."""
    both = scatter.preload_range_n(nominal, scatter_pct=0, torque_tolerance_pct=tolerance)
    assert pytest.approx((least, greatest), rel=1e-12) == both


# scatter [%] and step of the tightening factor: VDI 2230 (quoted), steps of 0.2 and more
STEPS = [(9, 1.2), (17, 1.4), (23, 1.6), (28, 1.8), (43, 2.5), (60, 4.0)]


@pytest.mark.parametrize(("plus_minus", "step"), STEPS)
def test_steps_of_the_tightening_factor(plus_minus, step):
    """Largest over smallest preload gives the steps of VDI 2230 to 1.3 %."""
    assert pytest.approx(step, rel=1.3e-2) == scatter.tightening_factor(plus_minus)


# function, published constant by which the pitch is multiplied (quoted: ISO 68-1, ISO 724 and ISO 898-1 as printed in tables)
THREAD_CONSTANTS = [
    (bolts.pitch_diameter_mm, 0.649519053, "iso-68-1"),
    (bolts.minor_diameter_mm, 1.082531755, "iso-68-1"),
    (bolts.core_diameter_mm, 1.226869322, "iso-68-1"),
]


@pytest.mark.parametrize(("diameter", "constant", "key"), THREAD_CONSTANTS)
@pytest.mark.parametrize("pitch", [1.0, 1.25, 1.5])
def test_thread_diameters_follow_the_printed_constants(diameter, constant, key, pitch):
    """Pitch, minor and core diameter are d less the printed multiple of the pitch (quoted), to nine digits."""
    assert key in SOURCES
    assert pytest.approx(10 - constant * pitch, abs=2e-8) == diameter(10, pitch_mm=pitch)


# K, torque [lbf·in] for 1275 lbf in a bolt of 0.190 in: page 85 of mechanical-fastening-joining-assembly (memory). Its five
# rows are shared out, so that none counts twice: two give the torque (above), two the preload, one the nut factor.
@pytest.mark.parametrize(("nut_factor", "printed"), [(0.25, 60.6), (0.15, 36.3)])
def test_preload_of_a_printed_torque(nut_factor, printed):
    """Two printed torques give the 1275 lbf back, within their rounding."""
    preload_n = bolts.preload_from_torque_n(
        convert(printed, "lbf·in", "N·m"), d_mm=0.190 * INCH_MM, nut_factor=nut_factor
    )
    assert pytest.approx(1275, rel=3e-3) == preload_n / POUND_FORCE_N


def test_nut_factor_from_a_printed_torque():
    """24.2 lbf·in that make 1275 lbf in a bolt of 0.190 in are a nut factor of 0.10, as printed."""
    found = scatter.nut_factor_from_test(
        convert(24.2, "lbf·in", "N·m"), preload_n=1275 * POUND_FORCE_N, d_mm=0.190 * INCH_MM
    )
    assert pytest.approx(0.10, abs=5e-4) == found
