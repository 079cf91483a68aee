"""Graphs of bolts: thread and proof load, torque plus angle, where the torque goes."""

from collections.abc import Sequence

from bitepoint.mechanics.bolts import (
    core_diameter_mm,
    pitch_diameter_mm,
    proof_load_n,
    share_of_proof_pct,
    stress_area_mm2,
)
from bitepoint.mechanics.joints import preload_after_angle_n
from bitepoint.mechanics.limits import within
from bitepoint.pictures.axes import Axes, figure, label, round_up
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    SKY,
    VERMILLION,
    WHITE,
    Canvas,
)  # fmt: skip
from bitepoint.pictures.registry import Drawing, picture


@picture("thread-and-load")
def thread_and_load(
    *, d_mm: float = 10, pitch_mm: float = 1.25, prop_class: str = "10.9", preload_kn: float = 38.2
) -> Drawing:
    """The bolt's cross-section with its stress area to scale, and preload beside proof load."""
    proof = proof_load_n(d_mm, pitch_mm=pitch_mm, prop_class=prop_class) / 1000
    area = stress_area_mm2(d_mm, pitch_mm=pitch_mm)
    share = share_of_proof_pct(1000 * preload_kn, d_mm=d_mm, pitch_mm=pitch_mm, prop_class=prop_class)
    mean = (pitch_diameter_mm(d_mm, pitch_mm=pitch_mm) + core_diameter_mm(d_mm, pitch_mm=pitch_mm)) / 2
    canvas = Canvas(430)
    centre, r = (168.0, 190.0), 130.0
    canvas.circle(centre, r, METAL, INK, 3, dash="10 6")
    canvas.circle(centre, r * mean / d_mm, ORANGE, INK, 4)
    canvas.text(168, 180, "stress area", 20)
    canvas.text(168, 212, f"{area:.1f} mm²", 26, bold=True)
    canvas.dimension((38, 352), (298, 352), f"M{d_mm:g}×{pitch_mm:g}: {d_mm:g} mm", above=False)
    canvas.text(168, 412, f"counts as {mean:.2f} mm", 18)
    top = round_up(max(proof, preload_kn) * 1.12)
    axes = Axes(canvas, (428, 50, 690, 340), x=(0, 2), y=(0, top))
    axes.grid("", "", x_ticks=())
    canvas.text(358, 195, "load, kN", 19, turn=-90)
    for i, (name, load, fill) in enumerate((("preload", preload_kn, SKY), ("proof load", proof, METAL))):
        left, y = axes.at(i + 0.15, load)
        canvas.rect(left, y, 92, 340 - y, fill)
        canvas.text(left + 46, y - 8, f"{load:.1f}", 21, bold=True)
        canvas.text(left + 46, 368, name, 19)
    canvas.text(559, 404, f"class {prop_class}: {share:.0f} % of proof", 20, bold=True)
    return canvas.drawing(
        alt=(
            f"Cross-section of an M{d_mm:g}×{pitch_mm:g} thread, outer diameter {d_mm:g} mm, stress "
            f"area {area:.1f} mm². Two bars: "
            f"preload {preload_kn:.1f} kN, proof load of class {prop_class} {proof:.1f} kN: {share:.0f} "
            "percent."
        ),
        caption=f"{preload_kn:.1f} kN of {proof:.1f} kN proof load: {share:.0f} %.",
    )


@picture("preload-and-angle")
def preload_and_angle(
    *,
    snug_kn: float = 12.5,
    angle_deg: float = 50,
    pitch_mm: float = 1,
    stiffness: float = 236,
    proof_kn: float = 53.5,
) -> Drawing:
    """Preload against the angle turned from snug, once and a second time by mistake, with the proof load."""
    shared = {"pitch_mm": pitch_mm, "stiffness_kn_per_mm": stiffness}
    once, twice = (preload_after_angle_n(1000 * snug_kn, angle_deg=k * angle_deg, **shared) / 1000 for k in (1, 2))
    canvas = Canvas(500)
    axes = Axes(canvas, (96, 60, 690, 420), x=(0, 2.25 * angle_deg), y=(0, round_up(max(twice, proof_kn) * 1.1)))
    axes.grid("angle turned from snug, °", "preload, kN")
    axes.level(proof_kn, VERMILLION, f"proof load {proof_kn:.1f} kN", below=twice > proof_kn)
    axes.curve([(0, snug_kn), (angle_deg, once)], BLUE, 7)
    second = [(angle_deg * (1 + i / 60), once + (twice - once) * i / 60) for i in range(61)]
    axes.curve(second, INK, 4, dashed=True)
    axes.dot(0, snug_kn, WHITE)
    place = axes.dot(angle_deg, once, ORANGE)
    label(canvas, (place[0] + 14, place[1] + 32), f"{angle_deg:g}°: {once:.1f} kN", 19, anchor="start")
    place = axes.dot(2 * angle_deg, twice, WHITE)
    label(canvas, (place[0] - 18, place[1] - 12), f"turned twice: {twice:.1f} kN", 19, anchor="end")
    told = f"thick: the angle, from snug {snug_kn:.1f} kN · dashed: turned a second time"
    canvas.text(60, 34, told, 18, anchor="start")
    return canvas.drawing(
        alt=(
            f"Graph of preload in kN against angle in degrees. Snug {snug_kn:.1f} kN; after "
            f"{angle_deg:g} degrees {once:.1f} kN; "
            f"after the same angle a second time {twice:.1f} kN. Line at the proof load, {proof_kn:.1f} kN."
        ),
        caption=(
            f"The angle once: {once:.1f} kN. Twice: an elastic bolt would carry {twice:.1f} kN, "
            f"proof load {proof_kn:.1f} kN."
        ),
    )


@picture("torque-bar")
def torque_bar(*, torque_nm: float = 65, shares: Sequence[float] = (15, 38, 47)) -> Drawing:
    """One bar for the whole torque in three parts: stretching, thread friction, head friction."""
    within("sum of shares", sum(shares), 99.5, 100.5, "%", "Give pitch, thread and head in percent.")
    canvas = Canvas(330)
    canvas.text(30, 40, f"{figure(torque_nm)} N·m on the wrench go to", 24, anchor="start", bold=True)
    left = 30.0
    for i, (share, fill) in enumerate(zip(shares, (ORANGE, SKY, METAL), strict=True)):
        width = 660 * share / 100
        canvas.rect(left, 70, width, 90, fill)
        if i == 1:
            canvas.hatch(left, 70, width, 90, gap=18)
        if width > 54:
            canvas.boxed(left + width / 2, 124, f"{share:.0f} %", 24)
        left += width
    for i, (words, share, fill) in enumerate((
        ("stretches the bolt: this clamps", shares[0], ORANGE), ("rubs in the thread", shares[1], SKY), ("rubs under the head", shares[2], METAL),
    )):  # fmt: skip
        y = 196 + 42 * i
        canvas.rect(30, y, 44, 28, fill)
        if i == 1:
            canvas.hatch(30, y, 44, 28)
        canvas.text(88, y + 22, f"{share:.0f} %, {figure(torque_nm * share / 100)} N·m {words}", 20, anchor="start")
    return canvas.drawing(
        alt=(
            f"One bar for {figure(torque_nm)} N·m in three parts: {shares[0]:.0f} percent stretches the "
            f"bolt, {shares[1]:.0f} percent "
            f"rubs in the thread, {shares[2]:.0f} percent rubs under the head."
        ),
        caption=f"Only {shares[0]:.0f} % of the torque clamps; the rest is friction.",
    )
