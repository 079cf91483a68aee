"""The calculator of air in the line: what it takes from the pedal's travel."""

from bitepoint.mechanics.hydraulics import (
    bearing_travel_lost_to_air_mm,
    bore_area_mm2,
    line_pressure_bar,
    ring_area_mm2,
    share_squeezed,
)
from bitepoint.mechanics.release import bearing_travel_mm, overall_ratio
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import vehicle

_RING = vehicle("B")


@calculator(
    "air-in-the-line",
    title="Pedal travel that air in the line takes away",
    about=(
        "Fluid does not give, air does. Training vehicle B has a concentric slave cylinder: see how "
        "little air it takes "
        "until the clutch no longer releases, and why a harder foot does not help."
    ),
    vehicle="B",
    source="college-physics",
    blames={"inner_mm": "inner", "line_pressure_bar": "Pressure with the pedal down", "ratio": "Overall ratio"},
    first=("air", "pedal", "free"),
    fields=(
        Field(key="air", label="Air in the line, at rest", unit="ml", default=1, low=0, high=10, step=0.1),
        Field(
            key="load",
            label="Release load at the fingers",
            unit="N",
            default=_RING.clutch.release_load_max_n,
            low=200,
            high=6000,
            step=50,
        ),
        Field(
            key="master",
            label="Master cylinder, bore",
            unit="mm",
            default=_RING.release.master_bore_mm or 1.0,
            low=10,
            high=40,
            step=0.1,
        ),
        Field(
            key="outer",
            label="Ring piston, outer diameter",
            unit="mm",
            default=_RING.release.slave_outer_mm or 1.0,
            low=25,
            high=80,
            step=0.5,
        ),
        Field(
            key="inner",
            label="Ring piston, inner diameter",
            unit="mm",
            default=_RING.release.slave_inner_mm or 1.0,
            low=15,
            high=70,
            step=0.5,
        ),
        Field(key="ratio", label="Pedal ratio", default=_RING.release.pedal_ratio, low=2, high=10, step=0.1),
        Field(
            key="pedal",
            label="Travel of the pedal pad",
            unit="mm",
            default=_RING.release.pedal_travel_mm,
            low=60,
            high=250,
        ),
        Field(
            key="free",
            label="Free play at the pad",
            unit="mm",
            default=_RING.release.free_play_set_mm,
            low=0,
            high=40,
        ),
        Field(
            key="share",
            label="Travel that arrives",
            unit="%",
            default=100 * _RING.release.efficiency_travel,
            low=40,
            high=100,
        ),
        Field(
            key="needed",
            label="Bearing travel needed",
            unit="mm",
            default=_RING.release.bearing_travel_required_mm,
            low=2,
            high=20,
            step=0.1,
        ),
    ),
)
def air_in_the_line(values: Values, choices: Choices) -> Calculation:
    """Stroke lost to air, and the bearing travel left."""
    master, slave = bore_area_mm2(values["master"]), ring_area_mm2(values["outer"], inner_mm=values["inner"])
    pressure = line_pressure_bar(values["load"], slave_area_mm2=slave)
    missed = bearing_travel_lost_to_air_mm(values["air"], slave_area_mm2=slave)
    ratio = overall_ratio(values["ratio"], master_area_mm2=master, slave_area_mm2=slave)
    share = values["share"] / 100
    whole = bearing_travel_mm(values["pedal"], free_play_mm=values["free"], ratio=ratio, efficiency=share)
    lost = missed * ratio / share
    left = max(0.0, whole - missed)
    needed = values["needed"] * ratio / share
    return Calculation(
        results=(
            ("Pressure with the pedal down", f"{pressure:.1f} bar"),
            ("Bearing travel lost to air", f"{missed:.2f} mm"),
            ("That is, at the pad", f"{lost:.1f} mm"),
            ("Bearing travel left", f"{left:.2f} mm of {whole:.2f} mm"),
            ("Bearing travel needed", f"{values['needed']:g} mm"),
        ),
        working=(
            f"Pressure = release load ÷ ring area = {values['load']:g} N ÷ {slave:.1f} mm² = "
            f"{pressure:.1f} bar",
            f"Of the air, p ÷ (p + 1.013 bar) = {100 * share_squeezed(pressure):.1f} % is squeezed away: all of it is counted",
            f"Bearing travel lost = {1000 * values['air']:.0f} mm³ ÷ {slave:.1f} mm² = {missed:.2f} mm",
            f"Bearing travel left = {whole:.2f} − {missed:.2f} = {left:.2f} mm",
            f"At the pad = {missed:.2f} mm × {ratio:.2f} ÷ {share:g} = {lost:.1f} mm",
        ),
        warnings=_air_warnings(left, values["needed"]),
        picture=Picture("stroke-with-air", {
            "pedal_mm": values["pedal"], "free_mm": values["free"], "lost_mm": lost, "needed_mm": needed, "air_ml": values["air"],
        }),
    )  # fmt: skip


def _air_warnings(left: float, needed: float) -> tuple[str, ...]:
    if left >= needed:
        return ()
    return (
        "The clutch no longer releases fully: it drags, gears grate. Bleed by the sheet; pumping only "
        "helps for one stroke.",
    )
