"""The calculator of moving off: how long the clutch slips, how much heat it makes, how hot it gets."""

from math import atan, degrees, pi

from bitepoint.mechanics.heat import slip_energy_j, slip_time_s, temperature_rise_k
from bitepoint.mechanics.takeup import hill_torque_at_clutch_nm, vehicle_inertia_at_clutch_kg_m2
from bitepoint.mechanics.tyres import rolling_circumference_mm, tyre_diameter_mm
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import vehicle

_CAR = vehicle("A")
_WHEELS = _CAR.wheels
_ROLLS_MM = rolling_circumference_mm(
    tyre_diameter_mm(_WHEELS.tyre_width_mm, aspect_percent=_WHEELS.tyre_aspect_pct, rim_in=_WHEELS.rim_in)
)
GEARS = {f"gear {i} ({ratio:g})": ratio for i, ratio in enumerate(_CAR.gearbox.ratios[:3], start=1)}
HELD_KG_M2 = 1e12
"""An engine that the driver's foot holds at its speed: as if it had endless inertia."""
STEEL_J_PER_KG_K = 480.0
"""Specific heat of cast iron and steel, from memory (460 to 500)."""
HOT_K, LONG_S = 200.0, 5.0
"""From here the calculator warns: our own thresholds, no published ones."""


@calculator(
    "take-up-heat",
    title="Heat of moving off: slip time, energy, temperature",
    about=(
        "The driver holds the engine at its speed and lets the clutch slip until the car keeps up. Try "
        "second gear, a hill, "
        "a trailer, ten starts in a row. Mass that is heated and its share are examples; cooling is left out."
    ),
    vehicle="A",
    source="theory-of-machines",
    blames={"clutch_torque_nm": "clutch"},
    first=("rpm", "gear", "starts"),
    fields=(
        Field(key="rpm", label="Engine held at", unit="rpm", default=1500, low=700, high=5000, step=100),
        Field(
            key="clutch",
            label="Torque of the slipping clutch",
            unit="N·m",
            default=60,
            low=5,
            high=400,
            step=5,
        ),
        Field(key="gear", label="Gear", default=next(iter(GEARS)), options=tuple(GEARS)),
        Field(
            key="mass",
            label="Mass of car and load",
            unit="kg",
            default=_CAR.masses.vehicle_kg,
            low=500,
            high=3500,
            step=50,
        ),
        Field(key="slope", label="Slope of the road", unit="%", default=0, low=0, high=30),
        Field(key="starts", label="Starts in a row", default="1", options=("1", "2", "5", "10", "20")),
        Field(key="part", label="Mass of the pressure plate", unit="kg", default=2, low=0.5, high=15, step=0.5),
        Field(key="share", label="Its share of the heat", unit="%", default=50, low=10, high=100, step=5),
    ),
)
def take_up_heat(values: Values, choices: Choices) -> Calculation:
    """Slip time, energy of a start and temperature rise of the pressure plate."""
    overall = GEARS[choices["gear"]] * _CAR.gearbox.final
    wheel = {"rolling_circumference_mm": _ROLLS_MM, "overall_ratio": overall}
    inertia = vehicle_inertia_at_clutch_kg_m2(values["mass"], **wheel)
    hill = hill_torque_at_clutch_nm(values["mass"], slope_deg=degrees(atan(values["slope"] / 100)), **wheel)
    slip = {
        "clutch_torque_nm": values["clutch"], "engine_inertia_kg_m2": HELD_KG_M2, "driven_inertia_kg_m2": inertia, "load_torque_nm": hill,
    }  # fmt: skip
    time, energy = slip_time_s(values["rpm"], **slip), slip_energy_j(values["rpm"], **slip)
    starts = int(choices["starts"])
    rise = starts * temperature_rise_k(
        energy, mass_kg=values["part"], specific_heat_j_per_kg_k=STEEL_J_PER_KG_K, share=values["share"] / 100
    )
    omega = values["rpm"] * pi / 30
    return Calculation(
        results=(
            ("Slip time of one start", f"{figure(time)} s"),
            ("Heat of one start", f"{figure(energy / 1000)} kJ"),
            (f"Temperature rise after {starts}" + (" start" if starts == 1 else " starts"), f"{figure(rise)} K"),
        ),
        working=(
            "The car as the clutch feels it: mass × (rolling circumference ÷ (2π × ratio))² = "
            f"{values['mass']:g} × "
            f"({_ROLLS_MM / 1000:.3f} ÷ (2π × {overall:.2f}))² = {inertia:.3f} kg·m²",
            f"Road and hill at the clutch: {hill:.1f} N·m",
            f"Speed to make up: {values['rpm']:g} rpm = {omega:.1f} rad/s",
            f"Time = {omega:.1f} × {inertia:.3f} ÷ ({values['clutch']:g} − {hill:.1f}) = {figure(time)} s",
            f"Heat = torque × speed × time ÷ 2 = {values['clutch']:g} × {omega:.1f} × {figure(time)} ÷ "
            f"2 = {figure(energy / 1000)} kJ",
            f"Rise = {starts} × {values['share']:g} % × heat ÷ (mass × {STEEL_J_PER_KG_K:g} J/(kg·K)) = "
            f"{figure(rise)} K",
        ),
        warnings=_heat_warnings(rise, time),
        picture=Picture("take-up", {
            "engine_rpm": values["rpm"], "time_s": time, "energy_j": energy, "rise_k": rise, "clutch_nm": values["clutch"],
        }),
    )  # fmt: skip


def _heat_warnings(rise: float, time: float) -> tuple[str, ...]:
    if rise > HOT_K:
        return (
            "That is hot: friction fades, the facing glazes, steel near 300 °C turns blue. Let it cool "
            "before the next start.",
        )
    if time > LONG_S:
        return (
            f"More than {LONG_S:g} s of slip: take a lower gear or less load, or ask why the clutch takes so little.",
        )
    return ()
