"""Calculators of measuring: run-out from eight readings, and a figure against its limit."""

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.decisions import (
    CANNOT_TELL,
    OUTSIDE,
    WITHIN,
    conformance_probability,
    decide,
    guard_band,
)
from bitepoint.mechanics.metrology import run_out_bounds_mm, run_out_limit_mm, run_out_mm
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import vehicle

_FLYWHEEL, _ENGINE = vehicle("A").flywheel, vehicle("A").engine
PUSHED, LOOSE = "pushed to one side", "not pushed, free to move"
FIRST = (0.0, 0.02, 0.04, 0.06, 0.07, 0.05, 0.03, 0.01)


@calculator(
    "run-out",
    title="Run-out of the flywheel from eight readings",
    about=(
        "Highest reading less lowest reading of one full turn, never the highest alone. Push the "
        "crankshaft to the same side "
        "before each reading and read the first place again at the end. The lock is out while you turn."
    ),
    vehicle="A",
    source="tm-9-2815-202-34",
    first=("r1", "float", "limit"),
    fields=(
        *(
            Field(
                key=f"r{i}", label=f"Reading {i}, at {45 * (i - 1)}°", unit="mm", default=r, low=-2, high=2, step=0.01,
                group="Readings", short=f"{45 * (i - 1)}°",
            )
            for i, r in enumerate(FIRST, start=1)
        ),
        Field(
            key="again", label="First place again", unit="mm", default=0, low=-2, high=2, step=0.01,
            group="Readings", short="0° again",
        ),
        Field(key="float", label="Crankshaft", default=PUSHED, options=(PUSHED, LOOSE)),
        Field(key="end", label="End float of the crankshaft", unit="mm", default=0.15, low=0, high=0.6, step=0.01, only_for=("float", LOOSE)),
        Field(key="limit", label="Limit of the sheet, max", unit="mm", default=_FLYWHEEL.face_runout_limit_mm, low=0.01, high=0.5, step=0.01),
        Field(key="radius", label="Radius the gauge stands on", unit="mm", default=_FLYWHEEL.runout_radius_mm, low=40, high=200),
    ),
)  # fmt: skip
def run_out(values: Values, choices: Choices) -> Calculation:
    """Run-out, its bounds if end float was not kept out, and the comparison with the limit."""
    readings = [values[f"r{i}"] for i in range(1, 9)]
    shown = _checked_run_out(readings, values["again"])
    low, high = (shown, shown) if choices["float"] == PUSHED else run_out_bounds_mm(shown, end_float_mm=values["end"])
    limit = values["limit"]
    least, most = decide(low, upper=limit), decide(high, upper=limit)
    decision = (
        {WITHIN: "within the limit", OUTSIDE: "above the limit"}[least]
        if least == most
        else "cannot be told: measure again"
    )
    true = f"{shown:.3f} mm" if low == high else f"{low:.3f} to {high:.3f} mm"
    return Calculation(
        results=(
            ("Run-out", true),
            ("Limit of the sheet", f"{figure(limit)} mm max"),
            ("Decision", decision),
        ),
        working=(
            f"Highest {max(readings):g}, lowest {min(readings):g}: {max(readings):g} − "
            f"{_signed(min(readings))} = {shown:.3f} mm",
            "“max” includes the value: a run-out equal to the limit is still within it.",
            *(
                ()
                if low == high
                else (f"End float may have added all of its {values['end']:g} mm or hidden it: {true}",)
            ),
            "General rule, only where a sheet gives no limit: 0.001 mm for each mm of radius = "
            f"{run_out_limit_mm(values['radius']):.3f} mm",
        ),
        warnings=_run_out_warnings(decision),
        picture=Picture(
            "run-out-readings",
            {"readings": readings, "limit": limit} | ({} if low == high else {"end_float": values["end"]}),
        ),
    )


def _signed(value: float) -> str:
    return f"{value:g}" if value >= 0 else f"(−{-value:g})"


def _checked_run_out(readings: list[float], again: float) -> float:
    try:
        return run_out_mm(readings, first_again_mm=again)
    except OutOfRange as error:
        raise OutOfRange("First place again", error.rule, error.given, error.advice) from None


def _run_out_warnings(decision: str) -> tuple[str, ...]:
    if decision.startswith("above"):
        return (
            "Do not fit it so. Clean the seat, look for burrs, turn the readings round once more; then "
            "replace by the sheet.",
        )
    if decision.startswith("cannot"):
        return ("With end float in the readings nobody can tell. Push the crankshaft to one side before each reading.",)
    return ()


YES, NO = "yes, as below", "no"
MAX, MIN = "max", "min"
DECISIONS = {
    WITHIN: "keeps the limit: may be reused",
    CANNOT_TELL: "stop and ask",
    OUTSIDE: "breaks the limit: replace",
}


@calculator(
    "guard-band",
    title="Reuse, stop and ask, or replace: a figure against its limit",
    about=(
        "“max” and “min” include the value itself. Only where an uncertainty is given is the guard "
        "band used: near the limit "
        "the honest answer is then “stop and ask”. First figures: run-out of training vehicle A's flywheel."
    ),
    vehicle="A",
    source="jcgm-106",
    first=("measured", "limit", "u"),
    fields=(
        Field(key="measured", label="Measured", unit="mm", default=0.07, low=0, high=500, step=0.01),
        Field(
            key="limit",
            label="Limit of the sheet",
            unit="mm",
            default=_FLYWHEEL.face_runout_limit_mm,
            low=0.001,
            high=500,
            step=0.01,
        ),
        Field(key="kind", label="The limit is a", default=MAX, options=(MAX, MIN)),
        Field(key="given", label="Is an uncertainty given?", default=YES, options=(YES, NO)),
        Field(
            key="u",
            label="Standard uncertainty",
            unit="mm",
            default=0.01,
            low=0.0001,
            high=1,
            step=0.001,
            only_for=("given", YES),
        ),
        Field(
            key="confidence",
            label="Has to be proven with",
            unit="%",
            default=95,
            low=80,
            high=99.9,
            step=1,
            only_for=("given", YES),
        ),
    ),
)
def guard_band_decision(values: Values, choices: Choices) -> Calculation:
    """Decision on a measured figure, with or without a guard band."""
    y, limit, maximum = values["measured"], values["limit"], choices["kind"] == MAX
    side = {"upper": limit} if maximum else {"lower": limit}
    if choices["given"] == NO:
        decision = decide(y, **side)
        sign = "≤" if maximum else "≥"
        return Calculation(
            results=(("Decision", DECISIONS[decision]), ("Guard band", "none: no uncertainty is given")),
            working=(
                f"Is {figure(y, 4)} {sign} {figure(limit, 4)}? {'Yes' if decision == WITHIN else 'No'}. "
                "The value itself counts as kept.",
            ),
            picture=Picture("limit-zones", {"measured": y, "limit": limit, "kind": choices["kind"], "uncertainty": 0}),
        )
    u, confidence = values["u"], values["confidence"] / 100
    guard = guard_band(u, confidence=confidence)
    decision = decide(y, **side, uncertainty=u, confidence=confidence)
    inner, outer = (limit - guard, limit + guard) if maximum else (limit + guard, limit - guard)
    chance = 100 * conformance_probability(y, uncertainty=u, **side)
    words = ("up to", "above") if maximum else ("from", "below")
    told = (
        f"The figure lies {figure(abs(y - limit))} mm from the limit, the guard band is {figure(guard, 4)} "
        "mm wide. Measure better, or ask.",
    )
    return Calculation(
        results=(
            ("Decision", DECISIONS[decision]),
            ("Guard band", f"{figure(guard, 4)} mm on either side of the limit"),
            ("Chance that the part keeps the limit", f"{chance:.1f} %"),
        ),
        working=(
            f"Guard band = z × u, z for {values['confidence']:g} % = {guard / u:.3f}: {guard / u:.3f} × "
            f"{figure(u)} = {figure(guard, 4)} mm",
            f"Proven kept {words[0]} {figure(limit, 4)} {'−' if maximum else '+'} {figure(guard, 4)} = "
            f"{figure(inner, 4)} mm",
            f"Proven broken {words[1]} {figure(limit, 4)} {'+' if maximum else '−'} {figure(guard, 4)} = "
            f"{figure(outer, 4)} mm",
            f"{figure(y, 4)} mm: {DECISIONS[decision]}",
        ),
        warnings=told if decision == CANNOT_TELL else (),
        picture=Picture("limit-zones", {
            "measured": y, "limit": limit, "kind": choices["kind"], "uncertainty": u, "confidence": confidence,
        }),
    )  # fmt: skip
