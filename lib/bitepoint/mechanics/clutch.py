"""What a dry plate clutch can carry: friction radius, torque capacity, reserve.

Two published models, and every function says which one it uses. *Uniform pressure* fits a new facing.
*Uniform wear* fits a run-in one and is the smaller of the two; on a car's plate they differ by 1 to 2 %. A
single plate has two friction faces.
"""

from math import pi

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of, whole, within

UNIFORM_WEAR = "uniform wear"
UNIFORM_PRESSURE = "uniform pressure"
THEORIES = (UNIFORM_WEAR, UNIFORM_PRESSURE)

_FACES = "A single plate has 2 friction faces: flywheel side and pressure plate side."


def friction_radius_mm(outer_diameter_mm: float, *, inner_diameter_mm: float, theory: str = UNIFORM_WEAR) -> float:
    r"""Radius at which the whole friction force of one face may be thought to act.

    .. math:: R_w = (r_o + r_i)/2 \qquad R_p = \frac{2}{3} \, \frac{r_o^3 - r_i^3}{r_o^2 - r_i^2}

    Parameters
    ----------
    outer_diameter_mm, inner_diameter_mm : float
        Diameters of the facing, 2 r_o and 2 r_i [mm].
    theory : str
        "uniform wear" (run in) or "uniform pressure" (new).

    Validity
    --------
    0 <= inner < outer, outer 10 to 2000 mm; flat ring facing, slots ignored.

    Source
    ------
    machine-elements-design
    No published figure: the step inside the torque capacity, which is checked.

    Examples
    --------
    >>> friction_radius_mm(190, inner_diameter_mm=132)
    80.5
    >>> friction_radius_mm(190, inner_diameter_mm=132, theory="uniform pressure")
    81.3706
    """
    outer, inner = facing_radii_mm(outer_diameter_mm, inner_diameter_mm)
    one_of("theory", theory, THEORIES, "Uniform wear is the safe choice for a clutch that has run.")
    if theory == UNIFORM_WEAR:
        return (outer + inner) / 2
    # Same as 2/3 (ro³ - ri³)/(ro² - ri²), without the subtraction that loses digits on a narrow ring.
    return 2 / 3 * (outer * outer + outer * inner + inner * inner) / (outer + inner)


def torque_capacity_nm(
    clamp_load_n: float,
    *,
    outer_diameter_mm: float,
    inner_diameter_mm: float,
    friction: float,
    faces: int = 2,
    theory: str = UNIFORM_WEAR,
) -> float:
    r"""Torque at which the clutch begins to slip.

    .. math:: T = \mu F N R

    Parameters
    ----------
    clamp_load_n : float
        Force of the pressure plate on the disc, F [N].
    outer_diameter_mm, inner_diameter_mm : float
        Diameters of the facing [mm].
    friction : float
        Friction coefficient mu, 0.01 to 1.5. Dry organic facings: 0.35 to 0.40 in a handbook (source key
        tribology-handbook-b7); data sheets use a lower figure to be safe.
    faces : int
        Number of friction faces N; 2 for a single plate.
    theory : str
        "uniform wear" or "uniform pressure".

    Validity
    --------
    Dry, clean facings; clamp load 0 to 200 kN.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> torque_capacity_nm(3050, outer_diameter_mm=190, inner_diameter_mm=132, friction=0.3)
    147.315
    """
    load = within("clamp_load_n", clamp_load_n, 0, 200_000, "N", "Take the clamp load from the data sheet.")
    radius = friction_radius_mm(outer_diameter_mm, inner_diameter_mm=inner_diameter_mm, theory=theory)
    return checked_friction(friction) * load * checked_faces(faces) * radius / 1000


def clamp_load_for_torque_n(
    torque_nm: float,
    *,
    outer_diameter_mm: float,
    inner_diameter_mm: float,
    friction: float,
    faces: int = 2,
    theory: str = UNIFORM_WEAR,
) -> float:
    r"""Clamp load at which the clutch just carries `torque_nm`: the load below which it slips.

    .. math:: F = T / (\mu N R)

    Parameters
    ----------
    torque_nm : float
        Torque to be carried, T [N·m], 0 to 20 000.
    outer_diameter_mm, inner_diameter_mm, friction, faces, theory
        As for `torque_capacity_nm`.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> clamp_load_for_torque_n(250, outer_diameter_mm=250, inner_diameter_mm=175, friction=0.35)
    3361.34
    """
    torque = within("torque_nm", torque_nm, 0, 20_000, "N·m", "Take the greatest engine torque from the data sheet.")
    radius = friction_radius_mm(outer_diameter_mm, inner_diameter_mm=inner_diameter_mm, theory=theory)
    return torque * 1000 / (checked_friction(friction) * checked_faces(faces) * radius)


def reserve_factor(capacity_nm: float, *, engine_torque_nm: float) -> float:
    r"""How many times the greatest engine torque the clutch can carry, :math:`\beta = T / T_{engine}`.

    Below 1 it slips at full load. New car clutches lie about 1.2 to 1.5 (source key common-practice; worked
    examples print 1.3, 1.5 and 2.1), so it is a figure to compare, never a fixed limit.

    Validity
    --------
    capacity 0 to 100 000 N·m, engine torque 1 to 20 000 N·m.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> reserve_factor(147.3, engine_torque_nm=95)
    1.55
    """
    within("capacity_nm", capacity_nm, 0, 100_000, "N·m", "Work out the torque capacity first.")
    within(
        "engine_torque_nm",
        engine_torque_nm,
        1,
        20_000,
        "N·m",
        "Take the greatest engine torque from the sheet.",
    )
    return capacity_nm / engine_torque_nm


def transmitted_power_kw(torque_nm: float, *, speed_rpm: float) -> float:
    r"""Power that a torque carries at a speed, :math:`P = 2 \pi n T / 60`.

    Validity
    --------
    torque 0 to 100 000 N·m, speed 0 to 30 000 rpm, no slip.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> transmitted_power_kw(95, speed_rpm=3600)
    35.814
    """
    within("torque_nm", torque_nm, 0, 100_000, "N·m", "Give the torque in newton metres.")
    within("speed_rpm", speed_rpm, 0, 30_000, "rpm", "Give the speed in turns a minute.")
    return torque_nm * speed_rpm * 2 * pi / 60_000


def facing_radii_mm(
    outer_diameter_mm: float, inner_diameter_mm: float, least_inner_mm: float = 0
) -> tuple[float, float]:
    """Outer and inner radius [mm] of a facing, checked: a ring at least 1 mm wide.

    Source
    ------
    derived
    No published figure: halves of two diameters.
    """
    within("outer_diameter_mm", outer_diameter_mm, 10, 2000, "mm", "Measure across the facing.")
    within(
        "inner_diameter_mm",
        inner_diameter_mm,
        least_inner_mm,
        2000,
        "mm",
        "Measure across the hole of the facing.",
    )
    if outer_diameter_mm - inner_diameter_mm < 2:
        raise OutOfRange(
            "inner_diameter_mm",
            f"at least 2 mm less than outer_diameter_mm ({outer_diameter_mm:.10g} mm)",
            f"{inner_diameter_mm:.10g} mm",
            "Give diameters, not radii, the larger one as outer_diameter_mm.",
        )
    return outer_diameter_mm / 2, inner_diameter_mm / 2


def checked_friction(friction: float) -> float:
    """Friction coefficient, checked: 0.01 to 1.5."""
    return within("friction", friction, 0.01, 1.5, "", "Dry facings have 0.2 to 0.5.")


def checked_faces(faces: int) -> int:
    """Number of friction faces, checked: 1 to 40."""
    return whole("faces", faces, 1, 40, _FACES)
