"""How far a facing may wear before the clutch slips: with coil springs, and with a diaphragm spring.

Coil springs lose load from the first tenth of wear; a diaphragm gains first and loses late. The facing must
also stay above its rivets: the data sheet's least thickness comes first.
"""

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within
from bitepoint.mechanics.spring import load_ratio, turning_points


def wear_until_slip_coil_springs_mm(
    clamp_load_n: float, *, slip_load_n: float, springs: int, spring_rate_n_per_mm: float
) -> float:
    r"""Facing wear (both faces together) after which a cover with coil springs slips.

    Coil springs lose load with every tenth of wear: :math:`w = (F - F_{slip}) / (n k)`. A diaphragm does not;
    see `wear_until_slip_diaphragm_mm`.

    Parameters
    ----------
    clamp_load_n : float
        Clamp load before the wear [N].
    slip_load_n : float
        Load at which it slips, see `clamp_load_for_torque_n` [N]; not above the clamp load.
    springs : int
        Number of springs n, 1 to 48.
    spring_rate_n_per_mm : float
        Rate of one spring k [N/mm], 0.1 to 10 000.

    Source
    ------
    machine-elements-design

    Examples
    --------
    >>> wear_until_slip_coil_springs_mm(7200, slip_load_n=3361.3445, springs=9, spring_rate_n_per_mm=160)
    2.665733
    """
    load = within("clamp_load_n", clamp_load_n, 0, 200_000, "N", "Take the clamp load from the data sheet.")
    slip = within("slip_load_n", slip_load_n, 0, load, "N", "Above the clamp load the clutch slips from the start.")
    whole("springs", springs, 1, 48, "Count the springs of the cover.")
    rate = within("spring_rate_n_per_mm", spring_rate_n_per_mm, 0.1, 10_000, "N/mm", "Give the rate of one spring.")
    return (load - slip) / (springs * rate)


def clamp_load_after_wear_n(
    wear_mm: float,
    *,
    clamp_load_new_n: float,
    height_ratio: float,
    cone_height_mm: float,
    travel_ratio_new: float,
) -> float:
    r"""Clamp load of a diaphragm cover after the facings have lost `wear_mm` (both faces together).

    Wear lets the spring relax: :math:`u = u_{new} - w/h`, and :math:`F = F_{new} \, f(u)/f(u_{new})` with f
    from `load_ratio`. A new spring sits past flat, so the load first *rises* with wear, and only late falls,
    then fast.

    Parameters
    ----------
    wear_mm : float
        Loss of plate thickness [mm], 0 to 10.
    clamp_load_new_n : float
        Clamp load with a new plate [N], 1 to 200 000.
    height_ratio : float
        Cone height / thickness of the spring, up to 2.8.
    cone_height_mm : float
        Travel of the pressure plate from free to flat [mm], 0.1 to 20.
    travel_ratio_new : float
        Where the spring sits with a new plate, 0.05 to 2.

    Validity
    --------
    No self-adjusting cover; cushion springing and the levers' own bending left out; not past free.

    Source
    ------
    derived

    Examples
    --------
    >>> shared = dict(clamp_load_new_n=5000, height_ratio=1.75, cone_height_mm=3, travel_ratio_new=1.2)
    >>> [clamp_load_after_wear_n(w, **shared) for w in (0, 1.62, 2.1, 2.4)]
    [5000.0, 6183.4, 5928.4, 5452.5]
    """
    _check_cover(clamp_load_new_n, height_ratio, cone_height_mm, travel_ratio_new)
    h = cone_height_mm
    free_after = min(10.0, travel_ratio_new * h)
    within("wear_mm", wear_mm, 0, free_after, "mm", "Beyond that the spring would be free and clamp nothing.")
    new = _load_when_new(travel_ratio_new, height_ratio)
    # max: rounding may leave a hair below zero where the spring is just free.
    return clamp_load_new_n * load_ratio(max(0.0, travel_ratio_new - wear_mm / h), height_ratio=height_ratio) / new


def wear_until_slip_diaphragm_mm(
    slip_load_n: float,
    *,
    clamp_load_new_n: float,
    height_ratio: float,
    cone_height_mm: float,
    travel_ratio_new: float,
) -> float:
    r"""Facing wear after which the clamp load of a diaphragm cover has fallen to the slip load.

    Found on the falling side, between the peak and the free spring, by halving the interval.

    Parameters
    ----------
    slip_load_n : float
        Load at which it slips [N], above 0 and at most the new clamp load; see
        clutch.clamp_load_for_torque_n.
    clamp_load_new_n, height_ratio, cone_height_mm, travel_ratio_new
        As for `clamp_load_after_wear_n`; travel_ratio_new not past the least load.

    Source
    ------
    derived

    Examples
    --------
    Back at the load of the new clutch after 2.59 mm; slip at 80 % of it only 0.3 mm later:

    >>> shared = dict(clamp_load_new_n=5000, height_ratio=1.75, cone_height_mm=3, travel_ratio_new=1.2)
    >>> wear_until_slip_diaphragm_mm(5000, **shared), wear_until_slip_diaphragm_mm(4000, **shared)
    (2.58892, 2.88952)
    """
    _check_cover(clamp_load_new_n, height_ratio, cone_height_mm, travel_ratio_new)
    within(
        "slip_load_n",
        slip_load_n,
        0.01,
        clamp_load_new_n,
        "N",
        "Above the new clamp load it slips from the start.",
    )
    target = slip_load_n / clamp_load_new_n * _load_when_new(travel_ratio_new, height_ratio)
    peaks = turning_points(height_ratio)
    if peaks:
        # Past its least load the spring loses load first: the clutch could slip before the peak.
        within("travel_ratio_new", travel_ratio_new, 0.05, peaks[1], "", "Sits past its least load: give less.")
    high = min(travel_ratio_new, peaks[0]) if peaks else travel_ratio_new
    low = 0.0
    # `load_ratio` written out as a cubic, so that each halving is three multiplications; 50 halvings leave less than
    # a millionth of a micron.
    r = height_ratio * height_ratio
    for _ in range(50):
        middle = (low + high) / 2
        if middle * (r + 1 + middle * r * (middle / 2 - 1.5)) < target:
            low = middle
        else:
            high = middle
    return (travel_ratio_new - high) * cone_height_mm


def _check_cover(load_n: float, height_ratio: float, cone_height_mm: float, travel_ratio_new: float) -> None:
    within("clamp_load_new_n", load_n, 1, 200_000, "N", "Take the clamp load from the data sheet.")
    within("height_ratio", height_ratio, 0.01, 2.8, "", "A spring that snaps through is no clutch spring.")
    within("cone_height_mm", cone_height_mm, 0.1, 20, "mm", "Plate travel from free to flat.")
    within("travel_ratio_new", travel_ratio_new, 0.05, 2, "", "A new clutch spring sits near 1.1 to 1.2.")


def _load_when_new(travel_ratio_new: float, height_ratio: float) -> float:
    new = load_ratio(travel_ratio_new, height_ratio=height_ratio)
    if new < 0.01:
        raise OutOfRange(
            "travel_ratio_new",
            "where the spring pushes with at least 1 % of its flat load",
            f"{travel_ratio_new:.10g}",
            "A new clutch spring sits near 1.1 to 1.2.",
        )
    return new
