"""The calculator that says whether a torque wrench may be used for a torque."""

from bitepoint.mechanics.calibration import deviation_pct, permissible_deviation_pct, true_torque_limits_nm
from bitepoint.mechanics.wrench import CYCLES_PER_CALIBRATION, range_check
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture
from bitepoint.workshop.tools import torque_wrench, workshop
from bitepoint.workshop.vehicles import vehicle

_WRENCH = torque_wrench(workshop().torque_wrenches[1].id)
RULES = {"20 to 100 % of the highest value": 100.0, "20 to 80 % of the highest value": 80.0}
IN_DATE, RUN_OUT, NONE, DROPPED = "in date", "run out", "no label", "in date, but dropped since"
LABELS = {
    IN_DATE: "", RUN_OUT: "The calibration has run out: do not use it.", NONE: "No label: nobody knows whether it is right. Do not use it.",
    DROPPED: "It was dropped since: have it checked first.",
}  # fmt: skip


@calculator(
    "wrench-check",
    title="Whether this torque wrench may be used for this torque",
    about=(
        "Scale, label and record decide together. The record is judged by the deviation relative to "
        "the test device: "
        "100 N·m set and 96.15 read is 4.004 %, not 3.85 %. Clicking is no proof of being right."
    ),
    vehicle="A",
    source="iso-6789",
    blames={"lowest_mark_nm": "lowest"},
    first=("torque", "highest", "label"),
    fields=(
        Field(
            key="torque",
            label="Torque wanted",
            unit="N·m",
            default=vehicle("A").flywheel.tightening.final_nm,
            low=1,
            high=600,
        ),
        Field(
            key="lowest",
            label="Lowest mark of the scale",
            unit="N·m",
            default=_WRENCH.lowest_nm,
            low=0.5,
            high=300,
        ),
        Field(
            key="highest",
            label="Highest value of the scale",
            unit="N·m",
            default=_WRENCH.highest_nm,
            low=2,
            high=1000,
            step=5,
        ),
        Field(key="rule", label="Usable part", default=next(iter(RULES)), options=tuple(RULES)),
        Field(key="label", label="Label", default=IN_DATE, options=tuple(LABELS)),
        Field(key="pulls", label="Pulls since calibration", default=1200, low=0, high=50_000, step=100),
        Field(key="set", label="Record: set on the wrench", unit="N·m", default=60, low=0.5, high=1000),
        Field(
            key="read",
            label="Record: the test device read",
            unit="N·m",
            default=59.1,
            low=0.5,
            high=1000,
            step=0.1,
        ),
    ),
)
def wrench_check(values: Values, choices: Choices) -> Calculation:
    """Whether the wrench may be used, and every reason against it."""
    torque, highest = values["torque"], values["highest"]
    percent = RULES[choices["rule"]]
    fits = range_check(torque, lowest_mark_nm=values["lowest"], highest_nm=highest, highest_pct=percent)
    deviation = deviation_pct(values["set"], reference_nm=values["read"])
    allowed = permissible_deviation_pct(highest)
    against = [] if fits.ok else [fits.reason]
    if LABELS[choices["label"]]:
        against.append(LABELS[choices["label"]])
    if values["pulls"] > CYCLES_PER_CALIBRATION:
        against.append(f"More than {CYCLES_PER_CALIBRATION} pulls since calibration: have it calibrated.")
    # 1e-9: a deviation equal to the limit is allowed, whatever the last binary digit says.
    if abs(deviation) > allowed * (1 + 1e-9):
        against.append(f"The record shows {deviation:+.2f} %, more than ±{allowed:g} %: do not use it.")
    low, high = true_torque_limits_nm(torque, allowed_pct=allowed)
    start = max(values["lowest"], 0.2 * highest)
    return Calculation(
        results=(
            ("Use it for this torque?", "no" if against else "yes"),
            ("Usable part of the scale", f"{figure(start)} to {figure(highest * percent / 100)} N·m"),
            ("Deviation in the record", f"{deviation:+.2f} %, allowed ±{allowed:g} %"),
            ("A wrench just within tolerance gives", f"{low:.1f} to {high:.1f} N·m"),
        ),
        working=(
            f"Usable from the larger of the lowest mark {values['lowest']:g} and 20 % of {highest:g} = "
            f"{figure(0.2 * highest)} N·m",
            f"Deviation = (set − read) ÷ read × 100 = ({values['set']:g} − {values['read']:g}) ÷ "
            f"{values['read']:g} × 100 = {deviation:+.2f} %",
            f"Allowed: 6 % up to 10 N·m, 4 % above; this scale ends at {highest:g} N·m: ±{allowed:g} %",
        ),
        warnings=tuple(against),
        picture=Picture("wrench-scale", {
            "torque": torque, "lowest": values["lowest"], "highest": highest, "usable": [start, highest * percent / 100],
            "deviation": deviation, "allowed": allowed,
        }),
    )  # fmt: skip
