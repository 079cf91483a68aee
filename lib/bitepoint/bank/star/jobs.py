"""Lesson 8, star tightening: the whole job on the learner's own vehicle."""

import msgspec

from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import (
    FINISHES,
    HAND,
    dowel_deg,
    flywheel_name,
    flywheel_stages,
    ring_picture,
    second_torque,
    torque_stages,
    turned,
)
from bitepoint.mechanics.tightening import stage_torques_nm, star_order
from bitepoint.questions.draw import Draw
from bitepoint.questions.fitted import Fitted
from bitepoint.questions.pulls import Stage
from bitepoint.questions.tightening import Tightening
from bitepoint.workshop.vehicles import Vehicle

OFFSETS_MM = (30, 45, 60, 75, 90, 120)
SMALL, MIDDLE = (5, 25, 260), (20, 100, 410)
"""Workshop wrenches: lowest, highest setting [N·m], lever from drive to grip mark [mm] (source: invented)."""

_TYPED = "Typed, write one stage a line: its name, “at” and the setting if a wrench is set, a colon, the bolts."


def _wrench(final_nm: float) -> tuple[int, int, int]:
    return SMALL if final_nm <= SMALL[1] else MIDDLE


def _wrench_words(final_nm: float, *, middle_alone: bool = False) -> str:
    """Return which wrenches lie ready; the middle one is not set at the bottom of its scale where the small one is there."""
    small = f"goes from {SMALL[0]} to {SMALL[1]} N·m in steps of 0.2."
    middle = f"goes from {MIDDLE[0]} to {MIDDLE[1]} N·m in steps of 0.5."
    if final_nm <= SMALL[1]:
        return f"Your wrench {small} Set the nearest step."
    if middle_alone:
        return f"Your wrench {middle} Set the nearest step."
    return (
        f"Two wrenches lie ready. The small one {small} The large one {middle} Up to {SMALL[1]} N·m take the small one."
    )


def _fitted_words(fitted: Fitted) -> str:
    if fitted.kind == "crow-foot":
        return (
            "A crow-foot is fitted, straight out in line with the handle. It moves the drive "
            f"{fitted.offset_mm:g} mm out. "
            f"The lever is {fitted.lever_mm:g} mm."
        )
    if fitted.kind == "straight bar":
        return (
            f"A straight extension bar of {fitted.offset_mm:g} mm sits between wrench and socket, square to the handle. "
            f"The lever{' of the large wrench' if fitted.lever_mm == MIDDLE[2] else ''} is {fitted.lever_mm:g} mm."
        )
    return "The socket sits straight on the wrench."


def _setting_words(fitted: Fitted, stage: Stage) -> str:
    """Return the working of one setting with the learner's own figures."""
    t, lever, out = stage.target, fitted.lever_mm, fitted.offset_mm
    if fitted.kind == "crow-foot":
        return f"{t:g} × {lever:g} / ({lever:g} + {out:g}) = {fitted.setting_nm(t):.1f} N·m"
    if fitted.kind == "straight bar":
        return f"{t:g} N·m, because a straight bar leaves the lever as it is"
    return f"{t:g} N·m, the torque of the stage"


def _finished(question: Tightening) -> Tightening:
    """Return the question with its step and its worked solution, made from its own stages."""
    stage = next(s for s in question.stages if s.needs_setting)
    order = star_order(question.angles_deg)
    step = (
        f"Set the wrench for “{stage.label}”: {_setting_words(question.fitted, stage)}. "
        f"Then start at bolt {order[0]} and cross over to bolt {order[1]}."
    )
    solution = "\n".join(str(question.right_answer()).split("; "))
    return msgspec.structs.replace(question, step=step, solution=solution)


@exercise("star.flywheel-job", lesson="star", outcome=FINISHES, minutes=6, title="Tighten the flywheel")
def flywheel_job(draw: Draw) -> Tightening:
    vehicle = draw.vehicle()
    final = vehicle.flywheel.tightening.final_nm
    low, _, lever = _wrench(final)
    kind = ("", "straight bar", "crow-foot")[draw.form(3)]
    fitted = Fitted(kind, lever, draw.pick(*OFFSETS_MM)) if kind else Fitted()
    stages, done = flywheel_stages(vehicle), ""
    if kind == "crow-foot":
        stages, done = _stages_in_range(stages, fitted, low if final <= SMALL[1] else SMALL[1])
    turn = draw.pick(0, 90, 180, 270)
    angles = turned(vehicle.flywheel.hole_angles_deg, turn)
    dowel = dowel_deg(vehicle)
    place = None if dowel is None else (dowel + turn) % 360
    return _finished(
        Tightening(
            ask=f"Fit the {flywheel_name(vehicle)} of {vehicle.name} with {len(angles)} new bolts. "
            f"{_wrench_words(final, middle_alone=kind == 'crow-foot')} {_fitted_words(fitted)} {done}"
            f"Do every stage of the table on every bolt, and set the wrench yourself.",
            typed_as=_TYPED,
            angles_deg=angles,
            stages=stages,
            fitted=fitted,
            dowel_deg=place,
            picture=ring_picture(angles, place),
            why=_why_job(vehicle),
            source="invented",
            vehicle=vehicle.id,
        )
    )


def _stages_in_range(stages: tuple[Stage, ...], fitted: Fitted, low_nm: float) -> tuple[tuple[Stage, ...], str]:
    """Leave out the stages that this wrench is too large for: they are done and ticked beforehand."""
    first = next(i for i, s in enumerate(stages) if s.needs_setting and fitted.setting_nm(s.target) >= low_nm)
    if all(not s.needs_setting for s in stages[:first]):
        return stages, ""
    done = (
        f"Hand start and the stage at {stages[first - 1].target:g} N·m are done with the small wrench "
        "and ticked on the card. "
    )
    return stages[first:], done


def _why_job(vehicle: Vehicle) -> str:
    if vehicle.flywheel.tightening.angle_deg is None:
        last = (
            "The second round comes after all bolts. It finds the bolt that gave way while its "
            "neighbours were tightened."
        )
    else:
        last = "Angle bolts are turned once. The second round is a look at the paint marks, never another turn."
    return f"Every bolt got every stage, balanced and rightly set. {last}"


@exercise("star.cover-job", lesson="star", outcome=FINISHES, minutes=5, title="Tighten the cover")
def cover_job(draw: Draw) -> Tightening:
    vehicle = draw.vehicle()
    cover = vehicle.clutch.cover
    with_bar = draw.form(2) == 1
    percentages = (70, 100) if with_bar else (30, 70, 100)
    torques = stage_torques_nm(cover.torque_nm, percentages=percentages)
    fitted = Fitted("straight bar", _wrench(cover.torque_nm)[2], draw.pick(75, 90, 120)) if with_bar else Fitted()
    stages = (HAND, *torque_stages([round(t, 1) for t in torques]), second_torque(cover.torque_nm))
    angles = turned(cover.hole_angles_deg, draw.pick(0, 90, 180, 270))
    shares = "70 and 100 %" if with_bar else "30, 70 and 100 %"
    return _finished(
        Tightening(
            ask=f"Fit the cover of {vehicle.name}: {cover.n} bolts, plate centred, cover on its dowels. "
            f"{_cover_care(vehicle)} "
            f"The sheet gives only the final torque, {cover.torque_nm:g} N·m. The workshop card adds "
            f"stages at {shares}. "
            f"{_wrench_words(cover.torque_nm)} {_fitted_words(fitted)}".strip(),
            typed_as=_TYPED,
            angles_deg=angles,
            stages=stages,
            part="cover",
            fitted=fitted,
            picture=ring_picture(angles),
            why=(
                "The cover came down evenly, so neither its rim nor the dowels were bent. The second "
                "round found what had settled."
            ),
            source="common-practice",
            vehicle=vehicle.id,
        )
    )


def _cover_care(vehicle: Vehicle) -> str:
    if vehicle.clutch.cover.kind == "self-adjusting":
        return "It is self-adjusting: the preloading tool holds its spring, so the bolts do not pull it down."
    return "The bolts pull its spring down, so go round in small, even steps."
