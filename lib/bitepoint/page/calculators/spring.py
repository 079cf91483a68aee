"""The calculator of the diaphragm spring: load against travel."""

from bitepoint.mechanics.spring import (
    DIN,
    RULES,
    TEXTBOOK,
    flat_load_n,
    load_ratio,
    rate_ratio,
    shape_factor,
    turning_points,
    zero_load_travels,
)
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture


@calculator(
    "diaphragm-spring",
    title="Load of a diaphragm spring at every travel",
    about=(
        "The load rises, falls and rises again. A clutch works on the falling part: there the pedal "
        "gets lighter. The first "
        "figures are those of a coned disc in a textbook; change the cone height and see when the dip "
        "comes and goes."
    ),
    source="machine-elements-design",
    blames={
        "travel_ratio": "Travel ÷ height of the cone",
        "diameter_ratio": "Outer ÷ inner diameter",
        "height_ratio": "Height of the cone ÷ thickness",
    },
    first=("s", "h", "t"),
    fields=(
        Field(key="t", label="Thickness", unit="mm", default=2.65, low=0.5, high=6, step=0.05),
        Field(key="h", label="Height of the free cone", unit="mm", default=3.98, low=0.5, high=12, step=0.1),
        Field(key="outer", label="Outer diameter", unit="mm", default=154.8, low=80, high=300),
        Field(key="inner", label="Inner diameter, fingers left out", unit="mm", default=88.5, low=40, high=280),
        Field(key="s", label="Travel now", unit="mm", default=4.4, low=0, high=12, step=0.1),
        Field(key="rule", label="Shape factor of", default=TEXTBOOK, options=RULES),
    ),
)
def diaphragm_spring(values: Values, choices: Choices) -> Calculation:
    """Load and rate at the working point, greatest and least load."""
    t, h, travel, rule = values["t"], values["h"], values["s"], choices["rule"]
    outer, inner = values["outer"], values["inner"]
    flat = flat_load_n(
        t, cone_height_mm=h, outer_diameter_mm=outer, inner_diameter_mm=inner, rule=rule, modulus_mpa=207_000
    )
    ratio, u = h / t, travel / h
    load = flat * load_ratio(u, height_ratio=ratio)
    rate = flat / h * rate_ratio(u, height_ratio=ratio)
    turns = turning_points(ratio)
    extremes = tuple(
        (f"{words} load", f"{flat * load_ratio(x, height_ratio=ratio):.0f} N at {x * h:.2f} mm")
        for x, words in zip(turns, ("Greatest", "Least"), strict=False)
    )
    name = "M" if rule == TEXTBOOK else "K1"
    factor = shape_factor(outer / inner, rule=rule)
    return Calculation(
        results=(
            ("Load at the travel now", f"{load:.0f} N"),
            ("Load pressed flat", f"{flat:.0f} N"),
            *extremes,
            ("Slope there", f"{rate:+.0f} N for each mm"),
        ),
        working=(
            f"Shape factor {name} for {outer:g} ÷ {inner:g} = {outer / inner:.3f}: {factor:.4f}"
            + (" (DIN)" if rule == DIN else ""),
            "Flat load = 4 E ÷ (1 − ν²) × t³ h ÷ (factor × outer²)",
            "with E = 207 000 MPa and ν = 0.3",
            f"= {flat:.0f} N",
            f"u = travel ÷ cone height = {travel:g} ÷ {h:g} = {u:.3f}; r = cone height ÷ thickness = "
            f"{h:g} ÷ {t:g} = {ratio:.3f}",
            f"Load = flat load × u × [(1 − u)(1 − u/2) r² + 1] = {flat:.0f} × {load / flat:.4f} = {load:.0f} N",
        ),
        warnings=_spring_warnings(ratio, u, turns),
        picture=Picture(
            "diaphragm-curve", {"flat_load_n": flat, "height_ratio": ratio, "cone_mm": h, "travel_mm": travel}
        ),
    )


def _spring_warnings(ratio: float, u: float, turns: tuple[float, ...]) -> tuple[str, ...]:
    if zero_load_travels(ratio):
        return (
            f"Cone height ÷ thickness is {figure(ratio)}, above 2.83: such a spring snaps through and "
            "stays. No clutch can use it.",
        )
    if not turns:
        return (
            f"Cone height ÷ thickness is {figure(ratio)}, below 1.41: the load only rises and the pedal "
            "would get ever heavier.",
        )
    if u > turns[1]:
        return ("Past its least load the spring gets stiff again: the pedal turns hard near the floor.",)
    return ()
