"""Calculators of the tightening lessons: preload of a bolt, wrench with a crow-foot, order of tightening.

The figures they start with are those of training vehicle A's flywheel bolts and of the workshop's middle wrench.
"""

from collections.abc import Sequence

from bitepoint.mechanics.bolts import (
    preload_from_torque_n,
    proof_load_n,
    proof_stress_mpa,
    share_of_proof_pct,
    stress_area_mm2,
)
from bitepoint.mechanics.friction import torque_budget_pct, torque_with_friction_nm
from bitepoint.mechanics.tightening import (
    BALANCE_ALLOWANCE,
    best_peak_out_of_balance,
    even_circle_deg,
    is_star,
    peak_out_of_balance,
    preloads_after,
    star_order,
    tilt,
)
from bitepoint.mechanics.wrench import straight_bar_setting_nm, torque_at_bolt_nm, wrench_setting_nm
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import vehicle

_SHEET = vehicle("A").flywheel
_BOLT = _SHEET.bolt
BY_FACTOR, BY_FRICTION = "nut factor K", "friction in thread and under head"
NOTHING, BAR, CROW_FOOT = "nothing", "straight bar", "crow-foot"
STAR, ROUND, SIDE, FORGOTTEN = "star", "round the circle", "one half first", "star, last bolt forgotten"
STAGES = {"1 stage (100 %)": (100,), "2 stages (70, 100 %)": (70, 100), "3 stages (30, 70, 100 %)": (30, 70, 100)}
SCATTER_NOTE = (
    "A torque wrench is right, yet the preload still scatters: by ±25 % oiled, ±35 % dry (published figures)."
)


@calculator(
    "bolt-preload",
    title="Preload of a bolt",
    about=(
        "How hard a bolt clamps when you tighten it to a torque, and how near that comes to its proof load. "
        "Change the friction and see how little of the torque is left for clamping."
    ),
    vehicle="A",
    source="iso-898-1",
    blames={"pitch_mm": "pitch", "head_mm": "ring", "preload_n": "Preload"},
    first=("torque", "k", "d"),
    fields=(
        Field(key="torque", label="Torque", unit="N·m", default=_SHEET.tightening.final_nm, low=1, high=500),
        Field(key="way", label="Friction given as", default=BY_FACTOR, options=(BY_FACTOR, BY_FRICTION)),
        Field(
            key="k",
            label="Nut factor K",
            default=_SHEET.tightening.nut_factor,
            low=0.05,
            high=0.6,
            step=0.01,
            only_for=("way", BY_FACTOR),
        ),
        Field(
            key="thread",
            label="Friction in the thread",
            default=0.12,
            low=0,
            high=1,
            step=0.01,
            only_for=("way", BY_FRICTION),
        ),
        Field(
            key="head",
            label="Friction under the head",
            default=0.12,
            low=0,
            high=1,
            step=0.01,
            only_for=("way", BY_FRICTION),
        ),
        Field(
            key="ring",
            label="Mean diameter the head rubs on",
            unit="mm",
            default=13.5,
            low=4,
            high=96,
            step=0.5,
            only_for=("way", BY_FRICTION),
        ),
        Field(key="d", label="Thread diameter", unit="mm", default=_BOLT.d_mm, low=4, high=24),
        Field(key="pitch", label="Pitch", unit="mm", default=_BOLT.pitch_mm, low=0.5, high=4, step=0.25),
        Field(key="class", label="Property class", default=_BOLT.prop_class, options=("8.8", "10.9", "12.9")),
    ),
)
def bolt_preload(values: Values, choices: Choices) -> Calculation:
    """Preload in kN and in percent of the proof load."""
    d, pitch, prop_class = values["d"], values["pitch"], choices["class"]
    preload, working = _preload(values, choices["way"])
    share = share_of_proof_pct(preload, d_mm=d, pitch_mm=pitch, prop_class=prop_class)
    proof = proof_load_n(d, pitch_mm=pitch, prop_class=prop_class)
    area, stress = stress_area_mm2(d, pitch_mm=pitch), proof_stress_mpa(prop_class, d_mm=d)
    return Calculation(
        results=(
            ("Preload", f"{preload / 1000:.1f} kN"),
            ("Proof load of the bolt", f"{proof / 1000:.1f} kN"),
            ("Preload in percent of proof", f"{share:.0f} %"),
        ),
        working=(
            *working,
            f"Proof load: stress area {area:.1f} mm² × proof stress {stress:.0f} MPa = {proof / 1000:.1f} kN",
            f"{preload / 1000:.1f} ÷ {proof / 1000:.1f} × 100 = {share:.0f} %",
            SCATTER_NOTE,
        ),
        warnings=_proof_warnings(share),
        picture=Picture("bolt-stretch"),
    )


def _preload(values: Values, way: str) -> tuple[float, tuple[str, ...]]:
    """Return the preload [N] and its working."""
    torque, d = values["torque"], values["d"]
    if way == BY_FACTOR:
        preload = preload_from_torque_n(torque, d_mm=d, nut_factor=values["k"])
        line = f"Preload = torque ÷ (K × d) = {torque:g} ÷ ({values['k']:g} × {d / 1000:g} m) = {preload / 1000:.1f} kN"
        return preload, (line,)
    friction = {
        "pitch_mm": values["pitch"], "mu_thread": values["thread"], "mu_head": values["head"], "head_mm": values["ring"]
    }  # fmt: skip
    each_kn = torque_with_friction_nm(1000, d_mm=d, **friction)
    shares = torque_budget_pct(d, **friction)
    return 1000 * torque / each_kn, (
        f"Each kN of preload takes {each_kn:.3f} N·m of torque",
        f"Preload = {torque:g} ÷ {each_kn:.3f} = {torque / each_kn:.1f} kN",
        f"Of the torque, {shares.head_pct:.0f} % rubs under the head, {shares.thread_pct:.0f} % in the thread, "
        f"{shares.pitch_pct:.0f} % stretches the bolt",
    )


def _proof_warnings(share: float) -> tuple[str, ...]:
    if share > 100:
        return (
            "Above 100 % of proof nobody guarantees that the bolt stays straight. Do not tighten so: check every figure.",
        )
    if share > 90:
        return ("Above 90 % of proof little is left for the twist of tightening and for scatter. Check every figure.",)
    return ()


@calculator(
    "wrench-with-crow-foot",
    title="What to set on the wrench",
    about=(
        "A straight bar between wrench and socket changes nothing. A crow-foot or offset adaptor moves the drive and "
        "changes the setting. Measure L from the drive centre to the grip mark, E from the drive centre to the bolt centre."
    ),
    vehicle="A",
    source="navedtra-14315-fig-3-44",
    blames={"lever_mm + offset_mm·cos(angle_deg)": "From grip to bolt, along the handle,"},
    fields=(
        Field(
            key="target", label="Torque of the sheet", unit="N·m", default=_SHEET.tightening.final_nm, low=1, high=500
        ),
        Field(key="fitted", label="Fitted to the wrench", default=CROW_FOOT, options=(NOTHING, BAR, CROW_FOOT)),
        Field(
            key="lever",
            label="Lever L",
            unit="mm",
            default=410,
            low=150,
            high=1200,
            step=10,
            only_for=("fitted", BAR, CROW_FOOT),
        ),
        Field(
            key="offset",
            label="Offset E, or length of the bar",
            unit="mm",
            default=60,
            low=0,
            high=300,
            step=5,
            only_for=("fitted", BAR, CROW_FOOT),
        ),
        Field(
            key="angle",
            label="Angle a of the crow-foot to the handle",
            unit="°",
            default=0,
            low=0,
            high=180,
            step=15,
            only_for=("fitted", CROW_FOOT),
        ),
    ),
)
def wrench_with_crow_foot(values: Values, choices: Choices) -> Calculation:
    """Setting of the wrench for what is fitted."""
    if choices["fitted"] == CROW_FOOT:
        return _crow_foot(values)
    target, lever, length = values["target"], values["lever"], values["offset"]
    if choices["fitted"] == NOTHING:
        return Calculation(
            results=(("Set on the wrench", f"{target:.1f} N·m"),),
            working=("Nothing is fitted: set the torque of the sheet.",),
            picture=Picture("wrench-grip"),
        )
    setting = straight_bar_setting_nm(target, bar_mm=length)
    wrong = wrench_setting_nm(target, lever_mm=lever, offset_mm=length)
    return Calculation(
        results=(("Set on the wrench", f"{setting:.1f} N·m"),),
        working=(
            "The bar stands in line with the bolt, so the lever stays the same.",
            "Set the torque of the sheet, whatever the length of the bar.",
            f"Whoever corrects for {length:g} mm sets {wrong:.1f} N·m: the bolt ends {100 * (1 - wrong / target):.0f} % too low.",
        ),
        picture=Picture("straight-bar", {"lever_mm": lever, "bar_mm": length}),
    )


def _crow_foot(values: Values) -> Calculation:
    target, lever, offset, angle = values["target"], values["lever"], values["offset"], values["angle"]
    setting = wrench_setting_nm(target, lever_mm=lever, offset_mm=offset, angle_deg=angle)
    forgotten = torque_at_bolt_nm(target, lever_mm=lever, offset_mm=offset, angle_deg=angle)
    effective = lever * target / setting
    told = f"{lever:g} + {offset:g}" if angle == 0 else f"{lever:g} + {offset:g} × cos {angle:g}°"
    back = ("The crow-foot points back towards the hand, so the setting lies above the torque of the sheet.",)
    return Calculation(
        results=(
            ("Set on the wrench", f"{setting:.1f} N·m"),
            (
                "At the bolt, if you forgot the crow-foot",
                f"{forgotten:.1f} N·m, {100 * (forgotten / target - 1):+.0f} %",
            ),
        ),
        working=(
            f"From grip to bolt, along the handle: {told} = {effective:.0f} mm",
            f"Setting = torque × L ÷ that = {target:g} × {lever:g} ÷ {effective:.0f} = {setting:.1f} N·m",
            "Pull at the grip mark, square to the handle.",
        ),
        warnings=back if setting > target * (1 + 1e-9) else (),
        picture=Picture("crow-foot", {"lever_mm": lever, "offset_mm": offset, "angle_deg": angle}),
    )


@calculator(
    "tightening-order",
    title="What order, stages and second round do",
    about=(
        "A model ring of bolts. Tightening one bolt takes some preload from its neighbours. Change one thing at a time: "
        "the order moves the tilt, the stages and the second round move the weakest bolt. The losses are an example."
    ),
    source="derived",
    first=("order", "stages", "second"),
    fields=(
        Field(key="bolts", label="Number of bolts", default="6", options=tuple(str(n) for n in range(4, 13))),
        Field(key="order", label="Order", default=ROUND, options=(STAR, ROUND, SIDE, FORGOTTEN)),
        Field(key="stages", label="Stages", default=next(iter(STAGES)), options=tuple(STAGES)),
        Field(key="second", label="Second round at 100 %", default="no", options=("no", "yes")),
        Field(key="near", label="A neighbour loses", unit="%", default=10, low=0, high=20),
        Field(key="far", label="The next but one loses", unit="%", default=3, low=0, high=10),
    ),
)
def tightening_order(values: Values, choices: Choices) -> Calculation:
    """Out-of-balance, weakest bolt and tilt of a model joint."""
    angles = even_circle_deg(int(choices["bolts"]))
    order = _order(choices["order"], angles)
    passes = [(order, float(share)) for share in STAGES[choices["stages"]]]
    if choices["second"] == "yes":
        passes.append((tuple(sorted(order)), 100.0))
    loads = preloads_after(passes, len(angles), loss=[values["near"] / 100, values["far"] / 100])
    peak, allowed = peak_out_of_balance(angles, order), best_peak_out_of_balance(angles) + BALANCE_ALLOWANCE
    return Calculation(
        results=(
            ("Worst out-of-balance while working", f"{peak:.2f} bolts (a star stays within {allowed:.2f})"),
            ("Weakest bolt at the end", f"bolt {loads.index(min(loads)) + 1}, {min(loads):.0f} % of target"),
            ("Mean of all bolts", f"{sum(loads) / len(loads):.0f} % of target"),
            ("Tilt at the end", f"{100 * tilt(angles, loads):.1f} %"),
        ),
        working=(
            f"Order: {' '.join(map(str, order))}",
            f"Pulls: {sum(len(bolts) for bolts, _ in passes)}",
            "Tilt: how one-sided the clamping is. 0 % is even all round, 100 % is one bolt alone.",
        ),
        warnings=_order_warnings(angles, order),
        picture=Picture("preload-bars", {"preloads": list(loads), "target": 100}),
    )


def _order(name: str, angles: Sequence[float]) -> tuple[int, ...]:
    star, n = star_order(angles), len(angles)
    if name == ROUND:
        return tuple(range(1, n + 1))
    if name == SIDE:
        half = (n + 1) // 2
        return (*range(1, half + 1, 2), *range(2, half + 1, 2), *range(half + 1, n + 1, 2), *range(half + 2, n + 1, 2))
    return star[:-1] if name == FORGOTTEN else star


def _order_warnings(angles: Sequence[float], order: Sequence[int]) -> tuple[str, ...]:
    missed = sorted(set(range(1, len(angles) + 1)) - set(order))
    if missed:
        return (
            f"Bolt {missed[0]} was never tightened. On a car it works loose and the others carry its load until they break.",
        )
    if not is_star(angles, order):
        return ("This order pulls the part down on one side first: it can seat askew.",)
    return ()
