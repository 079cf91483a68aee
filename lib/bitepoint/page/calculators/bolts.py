"""Calculators of bolts: thread and proof load, torque plus angle, length in the hole, where the torque goes."""

from bitepoint.mechanics.bolts import (
    PROPERTY_CLASSES,
    core_diameter_mm,
    pitch_diameter_mm,
    preload_from_torque_n,
    proof_load_n,
    proof_stress_mpa,
    share_of_proof_pct,
    stress_area_mm2,
)
from bitepoint.mechanics.friction import nut_factor_from_friction, torque_budget_pct
from bitepoint.mechanics.joints import (
    clearance_to_thread_end_mm,
    engagement_mm,
    engagement_over_d,
    preload_after_angle_n,
    preload_after_angle_twice_n,
)
from bitepoint.page.calculators.fields import Field
from bitepoint.page.calculators.registry import Calculation, Choices, Values, calculator
from bitepoint.pictures.axes import figure
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import vehicle

_A, _B = vehicle("A").flywheel, vehicle("B").flywheel
# Yield over proof stress of the classes 8.8 to 12.9, rounded: 640/580, 940/830, 1100/970 (iso-898-1).
_STRETCHES_PCT = 113
_CLASSES = tuple(c for c in PROPERTY_CLASSES if c != "9.8")


def _thread(d: float, pitch: float) -> tuple[Field, Field]:
    return (
        Field(key="d", label="Thread diameter", unit="mm", default=d, low=4, high=24),
        Field(key="pitch", label="Pitch", unit="mm", default=pitch, low=0.5, high=4, step=0.25),
    )


@calculator(
    "thread-and-proof-load",
    title="Stress area and proof load of a thread",
    about=(
        "How much of the bolt carries, up to which load it is sure to stay straight, and which share "
        "of that a preload "
        "uses. Compare a coarse with a fine pitch, and 8.8 with 10.9."
    ),
    vehicle="A",
    source="iso-898-1",
    blames={"pitch_mm": "pitch"},
    fields=(
        *_thread(_A.bolt.d_mm, _A.bolt.pitch_mm),
        Field(key="class", label="Property class", default=_A.bolt.prop_class, options=_CLASSES),
        Field(key="preload", label="Preload", unit="kN", default=38.2, low=0, high=300, step=0.5),
    ),
)
def thread_and_proof_load(values: Values, choices: Choices) -> Calculation:
    """Stress area, proof load and the share of it that a preload uses."""
    d, pitch, prop = values["d"], values["pitch"], choices["class"]
    d2, d3 = pitch_diameter_mm(d, pitch_mm=pitch), core_diameter_mm(d, pitch_mm=pitch)
    area, stress = stress_area_mm2(d, pitch_mm=pitch), proof_stress_mpa(prop, d_mm=d)
    proof = proof_load_n(d, pitch_mm=pitch, prop_class=prop)
    share = share_of_proof_pct(1000 * values["preload"], d_mm=d, pitch_mm=pitch, prop_class=prop)
    return Calculation(
        results=(
            ("Stress area", f"{area:.1f} mm²"),
            ("Proof load", f"{proof / 1000:.1f} kN"),
            ("Preload in percent of proof", f"{share:.0f} %"),
        ),
        working=(
            f"Pitch diameter = d − 0.6495 × pitch = {d:g} − 0.6495 × {pitch:g} = {d2:.3f} mm",
            f"Core diameter = d − 1.2269 × pitch = {d:g} − 1.2269 × {pitch:g} = {d3:.3f} mm",
            f"Stress area = π/4 × (mean of both)² = π/4 × {(d2 + d3) / 2:.3f}² = {area:.1f} mm²",
            f"Proof load = area × proof stress = {area:.1f} × {stress:g} MPa = {proof / 1000:.1f} kN",
            f"Share = {values['preload']:g} ÷ {proof / 1000:.1f} × 100 = {share:.0f} %",
        ),
        warnings=_over(share),
        picture=Picture(
            "thread-and-load",
            {"d_mm": d, "pitch_mm": pitch, "prop_class": prop, "preload_kn": values["preload"]},
        ),
    )


def _load(load_n: float, share: float) -> str:
    figures = f"{load_n / 1000:.1f} kN, {share:.0f} % of proof"
    return f"{figures}: the bolt yields before that" if share > _STRETCHES_PCT else figures


def _over(share: float) -> tuple[str, ...]:
    return ("Above 100 % of proof nobody guarantees that the bolt stays straight.",) if share > 100 else ()


@calculator(
    "torque-plus-angle",
    title="Preload of a bolt tightened by torque and angle",
    about=(
        "A small torque draws the parts together; the angle then stretches the bolt, nearly free of "
        "friction. Turn it a "
        "second time “to check” and see what the bolt would carry. Training vehicle B's flywheel bolts "
        "with the rigid kit."
    ),
    vehicle="B",
    source="derived",
    blames={"pitch_mm": "pitch"},
    first=("snug", "angle", "k"),
    fields=(
        Field(key="snug", label="Last torque stage", unit="N·m", default=_B.tightening.final_nm, low=0, high=200),
        Field(key="k", label="Nut factor K", default=_B.tightening.nut_factor, low=0.05, high=0.6, step=0.01),
        Field(key="angle", label="Angle", unit="°", default=_B.tightening.angle_deg or 50.0, low=5, high=180, step=5),
        *_thread(_B.bolt.d_mm, _B.bolt.pitch_mm),
        Field(
            key="stiffness", label="Stiffness of bolt and parts", unit="kN/mm", low=20, high=2000, step=1,
            default=_B.tightening.joint_stiffness_kn_per_mm or 236.0,
        ),
        Field(key="class", label="Property class", default=_B.bolt.prop_class, options=_CLASSES),
    ),
)  # fmt: skip
def torque_plus_angle(values: Values, choices: Choices) -> Calculation:
    """Preload after torque, after the angle, and after turning the angle twice."""
    d, pitch, prop, angle = values["d"], values["pitch"], choices["class"], values["angle"]
    snug = preload_from_torque_n(values["snug"], d_mm=d, nut_factor=values["k"])
    turn = {"angle_deg": angle, "pitch_mm": pitch, "stiffness_kn_per_mm": values["stiffness"]}
    once, twice = preload_after_angle_n(snug, **turn), preload_after_angle_twice_n(snug, **turn)
    proof = proof_load_n(d, pitch_mm=pitch, prop_class=prop)
    shares = [100 * load / proof for load in (once, twice)]
    told = list(_over(shares[0]))
    if shares[1] > _STRETCHES_PCT:
        told.append(
            "Whoever turns the angle twice stretches the bolt for good: it is scrap. Check afterwards "
            "by the paint marks only."
        )
    return Calculation(
        results=(
            ("Preload after the torque stage", f"{snug / 1000:.1f} kN"),
            ("Preload after the angle", _load(once, shares[0])),
            ("If the angle is turned twice", _load(twice, shares[1])),
        ),
        working=(
            f"Snug = torque ÷ (K × d) = {values['snug']:g} ÷ ({values['k']:g} × {d / 1000:g} m) = "
            f"{snug / 1000:.1f} kN",
            f"The angle draws in pitch × angle ÷ 360 = {pitch:g} × {angle:g} ÷ 360 = "
            f"{pitch * angle / 360:.3f} mm",
            f"That times the stiffness = {pitch * angle / 360:.3f} × {values['stiffness']:g} = "
            f"{(once - snug) / 1000:.1f} kN",
            f"Together {once / 1000:.1f} kN; proof load {proof / 1000:.1f} kN. All this holds while "
            "bolt and parts are elastic.",
        ),
        warnings=tuple(told),
        picture=Picture("preload-and-angle", {
            "snug_kn": snug / 1000, "angle_deg": angle, "pitch_mm": pitch, "stiffness": values["stiffness"], "proof_kn": proof / 1000,
        }),
    )  # fmt: skip


@calculator(
    "bolt-engagement",
    title="Thread engaged, and whether a wrong bolt bottoms",
    about=(
        "Training vehicle B: the rigid kit's bolts are 34 mm long, those of the dual-mass flywheel 45 "
        "mm. Put in 45 and see "
        "why the torque wrench clicks and nothing is clamped."
    ),
    vehicle="B",
    source="derived",
    fields=(
        Field(
            key="length",
            label="Bolt, length under the head",
            unit="mm",
            default=_B.bolt.length_mm,
            low=5,
            high=200,
        ),
        Field(
            key="clamped",
            label="Thickness clamped",
            unit="mm",
            default=_B.bolt.hub_clamped_mm,
            low=0,
            high=150,
            step=0.5,
        ),
        Field(
            key="depth",
            label="Depth of the thread",
            unit="mm",
            default=_B.bolt.crank_thread_depth_mm,
            low=3,
            high=150,
            step=0.5,
        ),
        Field(key="d", label="Thread diameter", unit="mm", default=_B.bolt.d_mm, low=4, high=24),
        Field(key="least", label="Least engagement, times the diameter", default=1.25, low=0.5, high=3, step=0.05),
    ),
)
def bolt_engagement(values: Values, choices: Choices) -> Calculation:
    """Engagement, room to the end of the thread, and what is wrong with the bolt."""
    length, clamped, depth, d = (values[key] for key in ("length", "clamped", "depth", "d"))
    engaged, times = (
        engagement_mm(length, clamped_mm=clamped),
        engagement_over_d(length, clamped_mm=clamped, d_mm=d),
    )
    room = clearance_to_thread_end_mm(length, clamped_mm=clamped, thread_depth_mm=depth)
    verdict, told = _length_verdict(engaged, room, times < values["least"])
    return Calculation(
        results=(
            ("This bolt", verdict),
            ("Thread that would engage", f"{figure(engaged)} mm, {times:.2f} × diameter"),
            ("Room to the end of the thread", f"{figure(room)} mm"),
        ),
        working=(
            f"Engaged = length − clamped = {length:g} − {clamped:g} = {figure(engaged)} mm",
            f"In diameters: {figure(engaged)} ÷ {d:g} = {times:.2f}; wanted at least "
            f"{values['least']:g} (1.25 in steel, more in aluminium: common practice, no source)",
            f"Room = depth − engaged = {depth:g} − {figure(engaged)} = {figure(room)} mm; below 0 the bolt bottoms",
        ),
        warnings=told,
        picture=Picture("bolt-in-hole", {"length_mm": length, "clamped_mm": clamped, "depth_mm": depth, "d_mm": d}),
    )


def _length_verdict(engaged: float, room: float, too_little: bool) -> tuple[str, tuple[str, ...]]:
    """Return what the bolt's length does, and the warning that goes with it."""
    if engaged <= 0:
        return "does not reach the thread", ("It does not reach the thread at all. Wrong bolt or a part too many.",)
    if room < 0:
        told = "It bottoms: the wrench clicks, nothing is clamped, the part works loose. Wrong bolt or a part missing."
        return f"bottoms, the head stands off by {figure(-room)} mm", (told,)
    if too_little:
        return "too little thread", ("Too little thread is engaged: it can strip. Wrong bolt or a part too many.",)
    return "fits by its length", ()


@calculator(
    "torque-budget",
    title="Shares of the torque: what clamps and what only rubs",
    about=(
        "Most of the torque rubs. Lower the friction under the head by oil: the same torque then "
        "stretches the bolt much "
        "more, perhaps too much. That is why a bolt meant to be dry stays dry."
    ),
    vehicle="A",
    source="mil-hdbk-60",
    blames={"pitch_mm": "pitch", "head_mm": "ring"},
    first=("torque", "thread", "head"),
    fields=(
        Field(key="torque", label="Torque", unit="N·m", default=_A.tightening.final_nm, low=1, high=500),
        *_thread(_A.bolt.d_mm, _A.bolt.pitch_mm),
        Field(key="thread", label="Friction in the thread", default=0.12, low=0, high=0.5, step=0.01),
        Field(key="head", label="Friction under the head", default=0.12, low=0, high=0.5, step=0.01),
        Field(
            key="ring",
            label="Mean diameter the head rubs on",
            unit="mm",
            default=13.5,
            low=4,
            high=96,
            step=0.5,
        ),
    ),
)
def torque_budget(values: Values, choices: Choices) -> Calculation:
    """Shares of the torque in pitch, thread and head, and the nut factor they make."""
    d = values["d"]
    friction = {
        "pitch_mm": values["pitch"], "mu_thread": values["thread"], "mu_head": values["head"], "head_mm": values["ring"],
    }  # fmt: skip
    shares, k = torque_budget_pct(d, **friction), nut_factor_from_friction(d, **friction)
    preload = values["torque"] / (k * d / 1000)
    told = ("So little friction is rare. Check the figures.",) if min(values["thread"], values["head"]) < 0.06 else ()
    return Calculation(
        results=(
            ("Stretches the bolt", f"{shares.pitch_pct:.1f} %"),
            ("Rubs in the thread", f"{shares.thread_pct:.1f} %"),
            ("Rubs under the head", f"{shares.head_pct:.1f} %"),
            ("Nut factor K of this friction", f"{k:.3f}"),
            ("Preload", f"{preload / 1000:.1f} kN"),
        ),
        working=(
            f"Stretch: pitch ÷ 2π = {values['pitch'] / 6.283185307:.3f} N·m for each kN",
            f"Thread: friction × pitch diameter ÷ (2 cos 30°) = {k * d * shares.thread_pct / 100:.3f} N·m for each kN",
            f"Head: friction × ring ÷ 2 = {values['head']:g} × {values['ring']:g} ÷ 2 = "
            f"{values['head'] * values['ring'] / 2:.3f} N·m for each kN",
            f"K = sum ÷ d = {k * d:.3f} ÷ {d:g} = {k:.3f}; preload = {values['torque']:g} ÷ {k * d:.3f} "
            f"= {preload / 1000:.1f} kN",
        ),
        warnings=told,
        picture=Picture("torque-bar", {"torque_nm": values["torque"], "shares": list(shares)}),
    )
