"""Lesson 12, the whole job: flywheel and cover, tightened stage by stage."""

import msgspec

from bitepoint.bank.job.outcomes import BUILDS, OWN_KIT, own_first
from bitepoint.bank.job.story import story_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import (
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
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.tools import TorqueWrench, torque_wrench
from bitepoint.workshop.vehicles import vehicle

_TYPED = "Typed, write one stage a line: its name, “at” and the setting if a wrench is set, a colon, the bolts."
_COVER_SHARES = (30, 70, 100)


def wrench_for(torque_nm: float) -> TorqueWrench:
    """Return the small torque wrench of the workshop where its scale reaches, else the middle one."""
    small = torque_wrench("TW1")
    return small if torque_nm <= small.highest_nm else torque_wrench("TW2")


@exercise("job.tighten", lesson="job", outcome=BUILDS, minutes=8, title="Tighten the flywheel", needs=OWN_KIT)
def tighten(draw: Draw) -> Tightening:
    story = story_of(draw)
    if own_first(draw, 2):
        return _cover(story.car.id)
    question = _flywheel(story.car.id, story.bar_mm)
    return msgspec.structs.replace(question, ask=f"{story.since_bench}{question.ask}")


@once_a_set
def _flywheel(letter: str, bar_mm: int) -> Tightening:
    car = vehicle(letter)
    wrench = wrench_for(car.flywheel.tightening.final_nm)
    return _job(
        letter,
        f"Fit the {flywheel_name(car)} of {car.name} with {car.flywheel.bolt_count} new bolts. "
        f"{_wrench_words(car.flywheel.tightening.final_nm)}",
        flywheel_stages(car),
        car.flywheel.hole_angles_deg,
        Fitted("straight bar", wrench.lever_mm, bar_mm),
        dowel_deg(car),
    )


@once_a_set
def _cover(letter: str) -> Tightening:
    car = vehicle(letter)
    cover = car.clutch.cover
    torques = stage_torques_nm(cover.torque_nm, percentages=_COVER_SHARES)
    stages = (HAND, *torque_stages([round(t, 1) for t in torques]), second_torque(cover.torque_nm))
    held = "The preloading tool holds its spring. " if cover.kind == "self-adjusting" else ""
    question = _job(
        letter,
        f"Fit the cover of {car.name}: {cover.n} bolts, plate centred, cover on its dowels. {held}"
        f"The sheet gives {cover.torque_nm:g} N·m; the workshop card adds stages at 30 and 70 %. {_wrench_words(cover.torque_nm)}",
        stages,
        turned(cover.hole_angles_deg, 90),
        Fitted(),
        None,
    )
    return msgspec.structs.replace(question, part="cover")


def _wrench_words(final_nm: float) -> str:
    small, middle = torque_wrench("TW1"), torque_wrench("TW2")
    if final_nm <= small.highest_nm:
        return f"The small wrench, {small.lowest_nm:g} to {small.highest_nm:g} N·m, sets every torque stage. "
    return f"Up to {small.highest_nm:g} N·m the small wrench is at hand, above that the large one, up to {middle.highest_nm:g} N·m. "


def _largest_used(stages: tuple[Stage, ...]) -> str:
    needed = max(stage.target for stage in stages if "torque" in stage.kind)
    return "small" if needed <= torque_wrench("TW1").highest_nm else "large"


def _job(
    letter: str,
    ask: str,
    stages: tuple[Stage, ...],
    angles_deg: tuple[float, ...],
    fitted: Fitted,
    dowel: float | None,
) -> Tightening:
    tool = (
        f"A straight bar of {fitted.offset_mm:g} mm sits on the wrench, square to the handle; "
        f"the lever of the {_largest_used(stages)} wrench is {fitted.lever_mm:g} mm."
        if fitted.kind
        else "The socket sits straight on the wrench."
    )
    order = star_order(angles_deg)
    wanted = ", then ".join(s.label.partition(" · ")[2] for s in stages if s.kind in ("torque", "angle"))
    question = Tightening(
        ask=f"{ask}{tool} The sheet wants {wanted}. Do every stage on every bolt, and set the wrench yourself.",
        typed_as=_TYPED,
        angles_deg=angles_deg,
        stages=stages,
        fitted=fitted,
        dowel_deg=dowel,
        picture=ring_picture(angles_deg, dowel),
        why="Every bolt got every stage, balanced and rightly set. The last round finds the one that gave way.",
        step=f"Start at bolt {order[0]} and cross over to bolt {order[1]}. Then look for the bolt across from the next.",
        source="invented",
        vehicle=letter,
    )
    return msgspec.structs.replace(question, solution="\n".join(str(question.right_answer()).split("; ")))
