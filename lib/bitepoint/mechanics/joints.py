"""The bolted joint: engagement, stiffness, torque plus angle, friction of the flange."""

from math import pi

from bitepoint.mechanics.bolts import check_preload, stress_area_mm2
from bitepoint.mechanics.limits import whole, within

STEEL_MODULUS_MPA = 205_000.0
"""Young's modulus of bolt steel (source: common-practice; 200 to 210 GPa in use)."""

_LENGTH_ADVICE = "Measure from under the head to the end of the bolt."
_STIFFNESS_ADVICE = "Take it from the data sheet in kN/mm."


def engagement_mm(length_mm: float, *, clamped_mm: float) -> float:
    """Thread engaged: bolt length under the head less what is clamped. Below 0 the bolt does not reach.

    Parameters
    ----------
    length_mm : float
        Length under the head [mm], 1 to 500.
    clamped_mm : float
        Thickness clamped, washer included [mm], 0 to 500.

    Source
    ------
    derived
    No published figure: a difference of lengths.

    Examples
    --------
    >>> engagement_mm(22, clamped_mm=9)
    13.0
    """
    within("length_mm", length_mm, 1, 500, "mm", _LENGTH_ADVICE)
    within("clamped_mm", clamped_mm, 0, 500, "mm", "Measure the parts between head and thread.")
    return float(length_mm - clamped_mm)


def engagement_over_d(length_mm: float, *, clamped_mm: float, d_mm: float) -> float:
    """Thread engaged, as a multiple of the bolt's nominal diameter.

    Source
    ------
    derived
    No published figure: a ratio of lengths.

    Examples
    --------
    >>> engagement_over_d(22, clamped_mm=9, d_mm=10)
    1.3
    """
    within("d_mm", d_mm, 1.6, 64, "mm", "Take the nominal diameter: 10 for M10.")
    return engagement_mm(length_mm, clamped_mm=clamped_mm) / d_mm


def clearance_to_thread_end_mm(length_mm: float, *, clamped_mm: float, thread_depth_mm: float) -> float:
    """Room between the end of the bolt and the end of the thread. Below 0 the bolt bottoms, clamping nothing.

    Source
    ------
    derived
    No published figure: a difference of lengths.

    Examples
    --------
    >>> clearance_to_thread_end_mm(22, clamped_mm=9, thread_depth_mm=18)
    5.0
    """
    within("thread_depth_mm", thread_depth_mm, 0.5, 500, "mm", "Measure the depth of the usable thread.")
    return float(thread_depth_mm - engagement_mm(length_mm, clamped_mm=clamped_mm))


def elongation_mm(stress_mpa: float, *, length_mm: float, modulus_mpa: float = STEEL_MODULUS_MPA) -> float:
    """Stretch of a bolt under stress: f L / E.

    Parameters
    ----------
    stress_mpa : float
        Stress f [MPa], 0 to 2000.
    length_mm : float
        Effective length L [mm], 1 to 500.
    modulus_mpa : float
        Young's modulus E [MPa], 1000 to 1 000 000.

    Validity
    --------
    Below yield.

    Source
    ------
    mil-hdbk-60
    No published figure: Hooke's law, given there without an example.

    Examples
    --------
    >>> elongation_mm(622.5, length_mm=30)
    0.091098
    """
    within("stress_mpa", stress_mpa, 0, 2000, "MPa", "Divide the preload in N by the stress area in mm².")
    within("length_mm", length_mm, 1, 500, "mm", _LENGTH_ADVICE)
    within("modulus_mpa", modulus_mpa, 1000, 1_000_000, "MPa", "205000 for steel.")
    return stress_mpa * length_mm / modulus_mpa


def bolt_stiffness_kn_per_mm(
    d_mm: float, *, pitch_mm: float, length_mm: float, modulus_mpa: float = STEEL_MODULUS_MPA
) -> float:
    """Stiffness of a bolt with its whole length at the stress area: A E / L.

    Source
    ------
    mil-hdbk-60
    No published figure: given there without an example.

    Examples
    --------
    >>> bolt_stiffness_kn_per_mm(10, pitch_mm=1.25, length_mm=30)
    418.19
    """
    area = stress_area_mm2(d_mm, pitch_mm=pitch_mm)
    return area / elongation_mm(1, length_mm=length_mm, modulus_mpa=modulus_mpa) / 1000


def joint_stiffness_kn_per_mm(bolt_kn_per_mm: float, *, parts_kn_per_mm: float) -> float:
    """Stiffness that the turning bolt meets: bolt and clamped parts one after the other.

    Parameters
    ----------
    bolt_kn_per_mm, parts_kn_per_mm : float
        Stiffness of the bolt and of the clamped parts [kN/mm], 0.1 to 100 000.

    Source
    ------
    derived
    No published figure: two springs in a row, exact.

    Examples
    --------
    >>> joint_stiffness_kn_per_mm(300, parts_kn_per_mm=900)
    225.0
    """
    within("bolt_kn_per_mm", bolt_kn_per_mm, 0.1, 100_000, "kN/mm", _STIFFNESS_ADVICE)
    within("parts_kn_per_mm", parts_kn_per_mm, 0.1, 100_000, "kN/mm", _STIFFNESS_ADVICE)
    return bolt_kn_per_mm * parts_kn_per_mm / (bolt_kn_per_mm + parts_kn_per_mm)


def bolt_share_of_load(bolt_kn_per_mm: float, *, parts_kn_per_mm: float) -> float:
    """Share of an outside pull that the bolt feels: k_b / (k_b + k_j).

    Source
    ------
    mil-hdbk-60

    Examples
    --------
    >>> bolt_share_of_load(6.5, parts_kn_per_mm=13.8)
    0.320197
    """
    return joint_stiffness_kn_per_mm(bolt_kn_per_mm, parts_kn_per_mm=parts_kn_per_mm) / parts_kn_per_mm


def preload_after_angle_n(snug_n: float, *, angle_deg: float, pitch_mm: float, stiffness_kn_per_mm: float) -> float:
    r"""Preload after the angle stage in an elastic joint.

    .. math:: F = F_{snug} + \frac{\theta}{360} \, P \, c

    Parameters
    ----------
    snug_n : float
        Preload after the last torque stage [N], 0 to 5 000 000.
    angle_deg : float
        Angle turned from there on [degrees], 0 to 720.
    pitch_mm : float
        Pitch of the thread [mm], 0.2 to 6.
    stiffness_kn_per_mm : float
        c, stiffness of bolt and parts together [kN/mm], 0.1 to 100 000.

    Validity
    --------
    Elastic, without knowing the bolt: the figure grows with the angle for ever. Hold it against the bolt's proof
    load (`share_of_proof_pct`): above it nobody guarantees that the bolt stays straight, and far above it the figure
    is no preload at all, since the bolt has given way before.

    Source
    ------
    derived
    No published figure: worked examples give no joint stiffness; checked through the rigid joint.

    Examples
    --------
    >>> preload_after_angle_n(12500, angle_deg=50, pitch_mm=1, stiffness_kn_per_mm=236)
    45277.8
    """
    within("snug_n", snug_n, 0, 5e6, "N", "Give newtons: 12.5 kN is 12500 N.")
    within("angle_deg", angle_deg, 0, 720, "°", "Take the angle from the data sheet.")
    within("pitch_mm", pitch_mm, 0.2, 6, "mm", "Read the pitch from the thread: 1.25 for M10×1.25.")
    within("stiffness_kn_per_mm", stiffness_kn_per_mm, 0.1, 100_000, "kN/mm", _STIFFNESS_ADVICE)
    return snug_n + angle_deg / 360 * pitch_mm * stiffness_kn_per_mm * 1000


def preload_after_angle_twice_n(
    snug_n: float, *, angle_deg: float, pitch_mm: float, stiffness_kn_per_mm: float
) -> float:
    """Preload when somebody turns the angle stage a second time, as if it were a check: far too much.

    Validity
    --------
    What an elastic bolt would carry. A figure above the yield load says that the bolt has stretched for good.

    Source
    ------
    derived
    No published figure: nobody publishes a bolt that is turned twice.

    Examples
    --------
    >>> preload_after_angle_twice_n(12500, angle_deg=50, pitch_mm=1, stiffness_kn_per_mm=236)
    78055.6
    """
    within("angle_deg", angle_deg, 0, 360, "°", "Take the angle from the data sheet.")
    return preload_after_angle_n(
        snug_n, angle_deg=2 * angle_deg, pitch_mm=pitch_mm, stiffness_kn_per_mm=stiffness_kn_per_mm
    )


def rigid_joint_angle_deg(
    stress_mpa: float, *, length_mm: float, pitch_mm: float, modulus_mpa: float = STEEL_MODULUS_MPA
) -> float:
    r"""Angle from snug to a stress where only the bolt gives: :math:`\theta = 360 f L / (E P)`.

    Source
    ------
    mil-hdbk-60
    No published figure: given there without an example.

    Examples
    --------
    >>> rigid_joint_angle_deg(622.5, length_mm=30, pitch_mm=1.25)
    26.2361
    """
    within("pitch_mm", pitch_mm, 0.2, 6, "mm", "Read the pitch from the thread: 1.25 for M10×1.25.")
    return 360 * elongation_mm(stress_mpa, length_mm=length_mm, modulus_mpa=modulus_mpa) / pitch_mm


def joint_friction_torque_nm(preload_n: float, *, bolts: int, mu: float, pcd_mm: float) -> float:
    """Torque that a flange carries by friction alone: n F mu r.

    Parameters
    ----------
    preload_n : float
        Preload of each bolt [N], 0 to 5 000 000.
    bolts : int
        1 to 100.
    mu : float
        Friction between the faces, 0 to 1.
    pcd_mm : float
        Diameter of the bolt circle [mm], 5 to 1000; friction is taken to act there.

    Source
    ------
    derived
    No published figure: friction times force times radius, exact.

    Examples
    --------
    >>> joint_friction_torque_nm(38235, bolts=6, mu=0.12, pcd_mm=60)
    825.876
    """
    check_preload(preload_n)
    whole("bolts", bolts, 1, 100, "Count the bolts of the flange.")
    within("mu", mu, 0, 1, "", "0.12 for clean steel on steel.")
    within("pcd_mm", pcd_mm, 5, 1000, "mm", "Measure the circle through the centres of the bolts.")
    return bolts * preload_n * mu * pcd_mm / 2000


def mark_travel_mm(angle_deg: float, *, diameter_mm: float) -> float:
    """How far a paint mark moves along the rim of a socket of this diameter.

    Source
    ------
    derived
    No published figure: an arc of a circle, exact.

    Examples
    --------
    >>> mark_travel_mm(50, diameter_mm=24)
    10.472
    """
    within("angle_deg", angle_deg, 0, 720, "°", "Take the angle from the data sheet.")
    within("diameter_mm", diameter_mm, 1, 500, "mm", "Measure across the socket.")
    return angle_deg / 360 * pi * diameter_mm
