"""Pressure on a clutch facing, and how large a facing must be.

Every function says which model it uses: uniform wear (run in, greatest pressure at the inner edge) or uniform
pressure (new). See the module clutch.
"""

from math import acos, cos, isclose, pi, sqrt

from bitepoint.mechanics.clutch import (
    THEORIES,
    UNIFORM_WEAR,
    checked_faces,
    checked_friction,
    facing_radii_mm,
)
from bitepoint.mechanics.limits import one_of, within


def face_pressure_mpa(clamp_load_n: float, *, outer_diameter_mm: float, inner_diameter_mm: float) -> float:
    r"""Mean pressure on one face; each face carries the whole clamp load.

    .. math:: p = F / [\pi (r_o^2 - r_i^2)]

    Handbook range for wound automotive facings: 0.175 to 0.70 MPa (source key tribology-handbook-b7).

    Validity
    --------
    Clamp load 0 to 200 kN, ring at least 1 mm wide.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> face_pressure_mpa(3050, outer_diameter_mm=190, inner_diameter_mm=132)
    0.208
    """
    load = within("clamp_load_n", clamp_load_n, 0, 200_000, "N", "Take the clamp load from the data sheet.")
    outer, inner = facing_radii_mm(outer_diameter_mm, inner_diameter_mm)
    return load / (pi * (outer - inner) * (outer + inner))


def pressure_at_edges_mpa(
    clamp_load_n: float, *, outer_diameter_mm: float, inner_diameter_mm: float
) -> tuple[float, float]:
    r"""Greatest (inner edge) and least (outer edge) pressure of a run-in facing: uniform wear, p r constant.

    .. math:: p_{max} = \frac{F}{2 \pi r_i (r_o - r_i)} \qquad p_{min} = \frac{F}{2 \pi r_o (r_o - r_i)}

    Validity
    --------
    Inner diameter at least 2 mm: at a solid disc's middle the model has no finite pressure.

    Source
    ------
    theory-of-machines

    Examples
    --------
    >>> pressure_at_edges_mpa(4000, outer_diameter_mm=200, inner_diameter_mm=100)
    (0.2546, 0.1273)
    """
    load = within("clamp_load_n", clamp_load_n, 0, 200_000, "N", "Take the clamp load from the data sheet.")
    outer, inner = facing_radii_mm(outer_diameter_mm, inner_diameter_mm, least_inner_mm=2)
    return load / (2 * pi * inner * (outer - inner)), load / (2 * pi * outer * (outer - inner))


def clamp_load_from_pressure_n(
    pressure_mpa: float, *, outer_diameter_mm: float, inner_diameter_mm: float, theory: str = UNIFORM_WEAR
) -> float:
    r"""Clamp load that brings a face to its greatest (uniform wear) or only (uniform pressure) pressure.

    .. math:: F_w = 2 \pi p_{max} r_i (r_o - r_i) \qquad F_p = \pi p (r_o^2 - r_i^2)

    Validity
    --------
    pressure 0 to 50 MPa.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> clamp_load_from_pressure_n(1, outer_diameter_mm=200, inner_diameter_mm=100)
    15707.963
    """
    pressure = within("pressure_mpa", pressure_mpa, 0, 50, "MPa", "A dry facing works below 1 MPa.")
    outer, inner = facing_radii_mm(outer_diameter_mm, inner_diameter_mm)
    one_of("theory", theory, THEORIES, "Uniform wear takes the greatest pressure, uniform pressure the only one.")
    share = 2 * inner if theory == UNIFORM_WEAR else outer + inner
    return pi * pressure * share * (outer - inner)


def inner_diameters_for_torque_mm(
    torque_nm: float, *, pressure_mpa: float, outer_diameter_mm: float, friction: float, faces: int = 2
) -> tuple[float, ...]:
    r"""Inner diameters at which a facing just carries the torque at its greatest pressure.

    Uniform wear: :math:`T = \mu N \pi p_{max} r_i (r_o^2 - r_i^2)`, a cubic in r_i. It has two answers, one
    (at the best inner diameter, 0.577 of the outer), or none when the facing is too small: then the tuple is
    empty.

    Parameters
    ----------
    torque_nm : float
        Torque to be carried [N·m], 0.001 to 20 000.
    pressure_mpa : float
        Greatest pressure allowed [MPa], 0.001 to 50.
    outer_diameter_mm, friction, faces
        As for `torque_capacity_nm`.

    Returns
    -------
    tuple of float
        0, 1 or 2 diameters [mm], the larger (narrower ring) first.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> inner_diameters_for_torque_mm(550, pressure_mpa=0.5, outer_diameter_mm=250, friction=0.25)
    (174.166, 112.290)
    """
    within("torque_nm", torque_nm, 0.001, 20_000, "N·m", "Give the torque in newton metres.")
    within("pressure_mpa", pressure_mpa, 0.001, 50, "MPa", "A dry facing works below 1 MPa.")
    outer, _ = facing_radii_mm(outer_diameter_mm, 0)
    wanted = torque_nm * 1000 / (checked_friction(friction) * checked_faces(faces) * pi * pressure_mpa)
    best = 2 * outer**3 / (3 * sqrt(3))
    if isclose(wanted, best, rel_tol=1e-12):
        return (2 * outer / sqrt(3),)
    if wanted > best:
        return ()
    # Three real roots of x³ - ro² x + wanted = 0; the third one is negative.
    third = acos(-wanted / best) / 3
    return tuple(4 * outer / sqrt(3) * cos(third - turn) for turn in (0, 2 * pi / 3))
