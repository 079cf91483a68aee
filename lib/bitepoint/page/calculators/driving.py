"""Calculators of the road log: which gear it was in, and how much the clutch slipped."""

from bitepoint.mechanics.driveline import (
    gear_in_use,
    input_speed_rpm,
    kmh_per_rpm,
    slip_percent,
    slip_uncertainty_percent,
)
from bitepoint.mechanics.tyres import rolling_circumference_mm, tyre_diameter_mm, unloaded_circumference_mm
from bitepoint.mechanics.uncertainty import expanded_uncertainty
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import vehicle, vehicles

_CAR = vehicle("A")
_TEST_GEAR = _CAR.gearbox.slip_test_gear
GEARBOXES = {f"training vehicle {letter}": car for letter, car in vehicles().items()}


@calculator(
    "tyre-and-gear",
    title="Road speed in every gear, and the gear a log was in",
    about=(
        "From the tyre's size and the ratios of the gearbox. Use a stretch with a light foot: at full "
        "load a slipping clutch "
        "looks like a lower gear. Then take the wrong tyre and see what happens."
    ),
    vehicle="A",
    source="wdk-rolling-circumference",
    blames={"diameter_mm": "Diameter of the tyre"},
    first=("car", "rpm", "kmh"),
    fields=(
        Field(key="car", label="Gearbox of", default="training vehicle A", options=tuple(GEARBOXES)),
        Field(
            key="width",
            label="Tyre, width",
            unit="mm",
            default=_CAR.wheels.tyre_width_mm,
            low=125,
            high=345,
            step=5,
        ),
        Field(
            key="aspect",
            label="Tyre, height of the side in % of the width",
            default=_CAR.wheels.tyre_aspect_pct,
            low=25,
            high=95,
            step=5,
        ),
        Field(key="rim", label="Rim", unit="in", default=_CAR.wheels.rim_in, low=12, high=22),
        Field(key="rpm", label="Engine speed of the log", unit="rpm", default=3000, low=500, high=8000, step=50),
        Field(key="kmh", label="Road speed of the log", unit="km/h", default=57, low=5, high=250),
    ),
)
def tyre_and_gear(values: Values, choices: Choices) -> Calculation:
    """Speed at 1000 rpm in each gear, and the gear that fits the log."""
    car = GEARBOXES[choices["car"]]
    diameter = tyre_diameter_mm(values["width"], aspect_percent=values["aspect"], rim_in=values["rim"])
    rolls = rolling_circumference_mm(diameter)
    ratios, final = car.gearbox.ratios, car.gearbox.final
    each = [1000 * kmh_per_rpm(ratio, final, rolls) for ratio in ratios]
    gear = gear_in_use(
        values["rpm"],
        road_speed_kmh=values["kmh"],
        gear_ratios=ratios,
        final_ratio=final,
        rolling_circumference_mm=rolls,
    )
    log = 1000 * values["kmh"] / values["rpm"]
    warnings = []
    if (values["width"], values["aspect"], values["rim"]) != (
        car.wheels.tyre_width_mm,
        car.wheels.tyre_aspect_pct,
        car.wheels.rim_in,
    ):
        warnings.append(
            f"The sheet of {choices['car']} says {car.wheels.tyre}. Read the tyre on the car: another "
            "size makes every speed wrong."
        )
    if gear is None:
        warnings.append(
            "No gear fits within 4 %: clutch slip, wrong tyre, wrong gearbox or wrong reading. Ask before you decide."
        )
    return Calculation(
        results=(
            ("The log was in", f"gear {gear}" if gear else "no gear of this gearbox"),
            ("Rolling circumference", f"{rolls:.0f} mm"),
            *((f"Gear {i}, at 1000 rpm", f"{speed:.1f} km/h") for i, speed in enumerate(each, start=1)),
        ),
        working=(
            f"Diameter = rim × 25.4 + 2 × width × % ÷ 100 = {values['rim']:g} × 25.4 + 2 × "
            f"{values['width']:g} × "
            f"{values['aspect'] / 100:g} = {diameter:.1f} mm",
            f"Rolling circumference = 3.05 × diameter = {rolls:.0f} mm, not π × diameter = "
            f"{unloaded_circumference_mm(diameter):.0f} mm",
            f"Speed at 1000 rpm = 60 × circumference ÷ (gear ratio × final ratio {final:g}) ÷ 1000",
            f"The log: 1000 × {values['kmh']:g} ÷ {values['rpm']:g} = {log:.1f} km/h at 1000 rpm",
        ),
        warnings=tuple(warnings),
        picture=Picture("gear-lines", {
            "ratios": list(ratios), "final": final, "circumference_mm": rolls, "rpm": values["rpm"], "kmh": values["kmh"], "gear": gear,
        }),
    )  # fmt: skip


_ROLLS_MM = rolling_circumference_mm(
    tyre_diameter_mm(_CAR.wheels.tyre_width_mm, aspect_percent=_CAR.wheels.tyre_aspect_pct, rim_in=_CAR.wheels.rim_in)
)


@calculator(
    "slip-from-log",
    title="Slip of the clutch from a road log, with its uncertainty",
    about=(
        "A licensed driver authorised by the workshop drives; you note the figures at full load. A "
        "slip smaller than its "
        "uncertainty is no finding. Training vehicle A is tested in third gear."
    ),
    vehicle="A",
    source="jcgm-100",
    blames={"slip_percent": "Slip"},
    first=("rpm", "kmh", "gear"),
    fields=(
        Field(
            key="rpm",
            label="Engine speed at full load",
            unit="rpm",
            default=3600,
            low=500,
            high=8000,
            step=50,
        ),
        Field(key="kmh", label="Road speed", unit="km/h", default=63, low=10, high=250),
        Field(
            key="gear",
            label="Gear ratio",
            default=_CAR.gearbox.ratios[_TEST_GEAR - 1],
            low=0.4,
            high=5,
            step=0.01,
        ),
        Field(key="final", label="Final drive ratio", default=_CAR.gearbox.final, low=2, high=7, step=0.01),
        Field(
            key="rolls",
            label="Rolling circumference",
            unit="mm",
            default=round(_ROLLS_MM),
            low=1200,
            high=2800,
        ),
        Field(
            key="u_rpm",
            label="Engine speed known to, standard",
            unit="%",
            default=0.5,
            low=0,
            high=10,
            step=0.1,
        ),
        Field(key="u_kmh", label="Road speed known to, standard", unit="%", default=1, low=0, high=10, step=0.1),
        Field(
            key="u_rolls",
            label="Circumference known to, standard",
            unit="%",
            default=1,
            low=0,
            high=10,
            step=0.1,
        ),
    ),
)
def slip_from_log(values: Values, choices: Choices) -> Calculation:
    """Slip, its expanded uncertainty, and what may be said."""
    car = {
        "road_speed_kmh": values["kmh"],
        "gear_ratio": values["gear"],
        "final_ratio": values["final"],
        "rolling_circumference_mm": values["rolls"],
    }
    n_in, slip = input_speed_rpm(**car), slip_percent(values["rpm"], **car)
    shares = [values[key] / 100 for key in ("u_rpm", "u_kmh", "u_rolls")]
    u = slip_uncertainty_percent(slip, engine_speed_u=shares[0], road_speed_u=shares[1], circumference_u=shares[2])
    expanded = expanded_uncertainty(u)
    finding, warnings = _finding(slip, expanded)
    return Calculation(
        results=(
            ("Slip", f"{slip:.1f} % ± {expanded:.1f} %"),
            ("Gearbox input turns", f"{n_in:.0f} rpm"),
            ("What may be said", finding),
        ),
        working=(
            f"Input speed = road speed × gear × final ÷ (0.06 × circumference in m) = {values['kmh']:g} "
            f"× {values['gear']:g} × "
            f"{values['final']:g} ÷ (0.06 × {values['rolls'] / 1000:g}) = {n_in:.0f} rpm",
            f"Slip = 100 × (1 − input ÷ engine) = 100 × (1 − {n_in:.0f} ÷ {values['rpm']:g}) = {slip:.1f} %",
            f"Standard uncertainty = (100 − {slip:.1f}) × √({figure(shares[0])}² + {figure(shares[1])}² + "
            f"{figure(shares[2])}²) = {u:.2f} points; doubled (k = 2): ± {figure(expanded)}",
        ),
        warnings=warnings,
        picture=Picture(
            "slip-interval",
            {"engine_rpm": values["rpm"], "input_rpm": n_in, "slip_pct": slip, "expanded_pct": expanded},
        ),
    )


def _finding(slip: float, expanded: float) -> tuple[str, tuple[str, ...]]:
    if slip > expanded:
        return "the clutch slips", ()
    if slip < -expanded:
        return "a figure is wrong", ("A clutch cannot slip backwards: check gear, tyre size and both speeds.",)
    return "no finding", (
        "The slip is not larger than its uncertainty. Measure again, several times, before you condemn a clutch.",
    )
