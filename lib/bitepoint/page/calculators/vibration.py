"""The calculator of shake: firing frequency, and the natural frequency with a rigid and a dual-mass flywheel."""

from bitepoint.mechanics.vibration import (
    firing_frequency_hz,
    firing_order,
    order_frequency_hz,
    resonance_speed_rpm,
    stiffness_nm_per_rad,
    two_inertia_frequency_hz,
)
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import InertiaModel, vehicle

_CAR = vehicle("B")
_MODEL: InertiaModel = _CAR.flywheel.inertia_model or InertiaModel(
    engine_rigid_kgm2=0.16, input_rigid_kgm2=0.012, primary_dmf_kgm2=0.13, secondary_dmf_kgm2=0.075,
    dmf_nm_per_deg=5.6, short_damper_nm_per_deg=26,
)  # fmt: skip


@calculator(
    "vibration-orders",
    title="Engine speeds at which the driveline shakes: rigid against dual-mass flywheel",
    about=(
        "Training vehicle B may get a rigid flywheel with a long-travel damper instead of its "
        "dual-mass flywheel. The firing "
        "strokes shake the driveline most where they meet its natural frequency. Two inertias on one "
        "spring: a first model."
    ),
    vehicle="B",
    source="two-inertia-model",
    first=("cylinders", "rpm", "idle"),
    fields=(
        Field(
            key="cylinders",
            label="Cylinders",
            default=str(_CAR.engine.cylinders),
            options=("2", "3", "4", "5", "6", "8"),
        ),
        Field(
            key="idle",
            label="Idle speed",
            unit="rpm",
            default=_CAR.engine.idle_rpm,
            low=400,
            high=1500,
            step=10,
        ),
        Field(key="rpm", label="Engine speed to look at", unit="rpm", default=1500, low=300, high=7000, step=50),
        Field(
            key="rigid_k",
            label="Rigid: stiffness of the plate's damper",
            unit="N·m/°",
            default=_CAR.clutch.damper.stiffness_nm_per_deg,
            low=0.5,
            high=100,
            step=0.5,
        ),
        Field(
            key="rigid_1",
            label="Rigid: engine side",
            unit="kg·m²",
            default=_MODEL.engine_rigid_kgm2,
            low=0.01,
            high=1,
            step=0.005,
        ),
        Field(
            key="rigid_2",
            label="Rigid: gearbox side",
            unit="kg·m²",
            default=_MODEL.input_rigid_kgm2,
            low=0.001,
            high=1,
            step=0.001,
        ),
        Field(
            key="dual_k",
            label="Dual-mass: stiffness of its springs",
            unit="N·m/°",
            default=_MODEL.dmf_nm_per_deg,
            low=0.5,
            high=100,
            step=0.1,
        ),
        Field(
            key="dual_1",
            label="Dual-mass: engine side",
            unit="kg·m²",
            default=_MODEL.primary_dmf_kgm2,
            low=0.01,
            high=1,
            step=0.005,
        ),
        Field(
            key="dual_2",
            label="Dual-mass: gearbox side",
            unit="kg·m²",
            default=_MODEL.secondary_dmf_kgm2,
            low=0.001,
            high=1,
            step=0.001,
        ),
    ),
)
def vibration_orders(values: Values, choices: Choices) -> Calculation:
    """Firing frequency, natural frequencies, and the speeds at which they meet."""
    cylinders, speed, idle = int(choices["cylinders"]), values["rpm"], values["idle"]
    firing = firing_frequency_hz(speed, cylinders=cylinders)
    rigid, dual = (
        two_inertia_frequency_hz(
            stiffness_nm_per_rad(values[f"{kind}_k"]),
            engine_side_kg_m2=values[f"{kind}_1"],
            gearbox_side_kg_m2=values[f"{kind}_2"],
        )
        for kind in ("rigid", "dual")
    )
    rigid_rpm, dual_rpm = (resonance_speed_rpm(f, cylinders=cylinders) for f in (rigid, dual))
    order = firing_order(cylinders)
    k, one, two = values["rigid_k"], values["rigid_1"], values["rigid_2"]
    return Calculation(
        results=(
            (f"Firing frequency at {speed:g} rpm", f"{figure(firing)} Hz"),
            (f"Once a turn (order 1) at {speed:g} rpm", f"{figure(order_frequency_hz(1, speed_rpm=speed))} Hz"),
            ("Rigid: natural frequency", f"{figure(rigid)} Hz, met at {rigid_rpm:.0f} rpm"),
            ("Dual-mass: natural frequency", f"{figure(dual)} Hz, met at {dual_rpm:.0f} rpm"),
        ),
        working=(
            f"{cylinders} cylinders fire {order:g} times a turn: {speed:g} × {order:g} ÷ 60 = "
            f"{figure(firing)} Hz",
            f"Stiffness in N·m/rad = N·m/° × 180 ÷ π: {k:g} becomes {stiffness_nm_per_rad(k):.0f}",
            f"f = √(k × (1/J1 + 1/J2)) ÷ 2π = √({stiffness_nm_per_rad(k):.0f} × (1/{one:g} + "
            f"1/{two:g})) ÷ 2π = {figure(rigid)} Hz (rigid)",
            f"The same for dual-mass: {figure(dual)} Hz",
            f"Met where {order:g} × rpm ÷ 60 equals it: {rigid_rpm:.0f} rpm and {dual_rpm:.0f} rpm; "
            f"idle is {idle:g} rpm",
        ),
        warnings=_shake_warnings(idle, rigid_rpm, dual_rpm),
        picture=Picture("firing-and-resonance", {
            "cylinders": cylinders, "idle_rpm": idle, "speed_rpm": speed, "rigid_hz": rigid, "dual_hz": dual,
        }),
    )  # fmt: skip


def _shake_warnings(idle: float, rigid_rpm: float, dual_rpm: float) -> tuple[str, ...]:
    told = []
    if rigid_rpm >= idle:
        told.append(
            f"With the rigid flywheel the meeting point, {rigid_rpm:.0f} rpm, lies above idle: expect "
            "rattle there. Tell the customer before."
        )
    if dual_rpm >= idle:
        told.append(
            f"With the dual-mass flywheel the meeting point, {dual_rpm:.0f} rpm, lies above idle: check the figures."
        )
    return tuple(told)
