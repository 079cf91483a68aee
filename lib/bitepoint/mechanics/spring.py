"""The diaphragm spring: its load rises, falls and rises again with travel.

Load and deflection follow the equation of Almen and László for a coned disc. Two shape factors are in print;
every function that needs one names which (argument `rule`): "textbook" (Almen and László, US books) or "DIN"
(DIN 2092, EN 16984). They differ by 0.1 to 2 %, more for a wider ring. The *ratio* of a load to the flat load
needs neither.
"""

from math import log, pi, sqrt

from bitepoint.mechanics.limits import one_of, within

TEXTBOOK = "textbook"
DIN = "DIN"
RULES = (TEXTBOOK, DIN)
STEEL_MODULUS_MPA = 206_000
"""Young's modulus of spring steel (source: din-2093)."""
STEEL_POISSON = 0.3
"""Poisson's ratio of spring steel (source: machine-elements-design)."""


def shape_factor(diameter_ratio: float, *, rule: str) -> float:
    r"""Shape factor of a coned disc from the ratio d of outer to inner diameter.

    .. math:: M = \frac{6}{\pi \ln d} \left(\frac{d-1}{d}\right)^2 \qquad
              K_1 = \frac{1}{\pi} \frac{((d-1)/d)^2}{(d+1)/(d-1) - 2/\ln d}

    Parameters
    ----------
    diameter_ratio : float
        d = outer / inner diameter, 1.05 to 10.
    rule : str
        "textbook" for M, "DIN" for K1.

    Source
    ------
    machine-elements-design, din-2092

    Examples
    --------
    >>> shape_factor(1.75, rule="textbook"), shape_factor(1.75, rule="DIN")
    (0.6268, 0.6301)
    """
    d = within("diameter_ratio", diameter_ratio, 1.05, 10, "", "Divide the outer by the inner diameter.")
    one_of("rule", rule, RULES, "Name the shape factor, for two are in print.")
    edge = ((d - 1) / d) ** 2
    if rule == TEXTBOOK:
        return 6 * edge / (pi * log(d))
    return edge / (pi * ((d + 1) / (d - 1) - 2 / log(d)))


def flat_load_n(
    thickness_mm: float,
    *,
    cone_height_mm: float,
    outer_diameter_mm: float,
    inner_diameter_mm: float,
    rule: str,
    modulus_mpa: float = STEEL_MODULUS_MPA,
    poisson: float = STEEL_POISSON,
) -> float:
    r"""Load of a coned disc pressed just flat.

    .. math:: F_0 = \frac{4 E}{1 - \nu^2} \, \frac{t^3 h_0}{K D_e^2}

    Parameters
    ----------
    thickness_mm : float
        Thickness of the disc t [mm], 0.1 to 20.
    cone_height_mm : float
        Height of the free cone h0 (free height less thickness) [mm], 0.01 to 50.
    outer_diameter_mm, inner_diameter_mm : float
        De and Di [mm]; ratio 1.05 to 10.
    rule : str
        Shape factor K: "textbook" or "DIN".
    modulus_mpa, poisson : float
        Elastic constants of the steel.

    Validity
    --------
    Full disc, no fingers, loads at the two edges, elastic.

    Source
    ------
    machine-elements-design, din-2092

    Examples
    --------
    A washer that a textbook sized for 4500 N:

    >>> flat_load_n(2.65298, cone_height_mm=3.97947, outer_diameter_mm=154.818478,
    ...             inner_diameter_mm=88.467702, rule="textbook", modulus_mpa=207000)
    4500.0
    """
    t = within("thickness_mm", thickness_mm, 0.1, 20, "mm", "Measure the sheet with a micrometer.")
    h = within("cone_height_mm", cone_height_mm, 0.01, 50, "mm", "Free height less thickness.")
    outer = within("outer_diameter_mm", outer_diameter_mm, 5, 1000, "mm", "Measure across the disc.")
    inner = within("inner_diameter_mm", inner_diameter_mm, 1, 1000, "mm", "Measure the hole, fingers left out.")
    within("modulus_mpa", modulus_mpa, 1000, 500_000, "MPa", "Steel has about 206 000 MPa.")
    within("poisson", poisson, 0, 0.49, "", "Steel has 0.3.")
    return 4 * modulus_mpa / (1 - poisson**2) * t**3 * h / (shape_factor(outer / inner, rule=rule) * outer**2)


def load_ratio(travel_ratio: float, *, height_ratio: float) -> float:
    r"""Load as a share of the flat load, from travel as a share of the cone height.

    .. math:: F/F_0 = u \left[(1-u)(1-u/2) \, r^2 + 1\right]

    Parameters
    ----------
    travel_ratio : float
        u = travel / cone height, 0 free, 1 flat, 2 turned inside out; -0.5 to 2.5.
    height_ratio : float
        r = cone height / thickness, 0.01 to 10. Clutch springs lie about 1.5 to 2.

    Source
    ------
    derived

    Examples
    --------
    >>> load_ratio(1, height_ratio=1.75), load_ratio(0.66, height_ratio=1.75)
    (1.0, 1.1204)
    """
    u = within("travel_ratio", travel_ratio, -0.5, 2.5, "", "0 is free, 1 is flat.")
    r = within("height_ratio", height_ratio, 0.01, 10, "", "Divide cone height by thickness.")
    return u * ((1 - u) * (1 - u / 2) * r * r + 1)


def rate_ratio(travel_ratio: float, *, height_ratio: float) -> float:
    r"""Spring rate as a share of flat load over cone height: the slope of `load_ratio`.

    .. math:: \frac{d(F/F_0)}{du} = 1 + r^2 (1 - 3u + 3u^2/2)

    Source
    ------
    derived
    No published figure: the slope of the load, which is checked.

    Examples
    --------
    >>> rate_ratio(1, height_ratio=1.75)
    -0.53125
    """
    u = within("travel_ratio", travel_ratio, -0.5, 2.5, "", "0 is free, 1 is flat.")
    r = within("height_ratio", height_ratio, 0.01, 10, "", "Divide cone height by thickness.")
    return 1 + r * r * (1 - 3 * u + 1.5 * u * u)


def turning_points(height_ratio: float) -> tuple[float, ...]:
    r"""Travel ratios of the greatest and the least load, :math:`u = 1 \mp \sqrt{(r^2 - 2)/(3 r^2)}`.

    Empty up to r = √2: the load then only rises.

    Source
    ------
    derived

    Examples
    --------
    >>> turning_points(1.75)
    (0.65993, 1.34007)
    >>> turning_points(1.2)
    ()
    """
    r = within("height_ratio", height_ratio, 0.01, 10, "", "Divide cone height by thickness.")
    if r * r <= 2:
        return ()
    half = sqrt((r * r - 2) / (3 * r * r))
    return 1 - half, 1 + half


def zero_load_travels(height_ratio: float) -> tuple[float, ...]:
    r"""Travel ratios past flat with zero load: from there the spring snaps through and stays.

    .. math:: u = \frac{3 \mp \sqrt{1 - 8/r^2}}{2}

    Empty below r = 2√2: the spring always comes back by itself, as a clutch spring must.

    Source
    ------
    derived

    Examples
    --------
    >>> zero_load_travels(3)
    (1.33333, 1.66667)
    >>> zero_load_travels(1.75)
    ()
    """
    r = within("height_ratio", height_ratio, 0.01, 10, "", "Divide cone height by thickness.")
    if r * r < 8:
        return ()
    half = sqrt(1 - 8 / (r * r)) / 2
    return 1.5 - half, 1.5 + half
