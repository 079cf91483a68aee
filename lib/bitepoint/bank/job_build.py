"""Lesson 12, the whole job: the wrench for each joint and tool, the tightening, the gearbox back in."""

import msgspec

from bitepoint.bank.job_common import BUILDS
from bitepoint.bank.job_story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.star_common import (
    HAND,
    dowel_deg,
    flywheel_name,
    flywheel_stages,
    ring_picture,
    second_torque,
    torque_stages,
    turned,
)
from bitepoint.bank.torque_common import Case, choice_from, joint_of
from bitepoint.mechanics.tightening import stage_torques_nm, star_order
from bitepoint.mechanics.wrench import torque_at_bolt_nm, wrench_setting_nm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.pulls import Stage
from bitepoint.questions.question import Mistake
from bitepoint.questions.tightening import Fitted, Tightening
from bitepoint.workshop.tools import TorqueWrench, torque_wrench

_TYPED = "Typed, write one stage a line: its name, “at” and the setting if a wrench is set, a colon, the bolts."
_COVER_SHARES = (30, 70, 100)


def wrench_for(torque_nm: float) -> TorqueWrench:
    """Return the small torque wrench of the workshop where its scale reaches, else the middle one."""
    small = torque_wrench("TW1")
    return small if torque_nm <= small.highest_nm else torque_wrench("TW2")


@exercise("job.setting", lesson="job", outcome=BUILDS, minutes=4, title="Set the wrench")
def setting(draw: Draw) -> Number:
    story = story_of(draw)
    return (_crow_foot, _bar, _square)[draw.form(3)](story)


def _number(
    story: Story, ask: str, right: float, wrongs: tuple[Mistake, ...], why: str, step: str, done: str
) -> Number:
    return Number(
        ask=ask,
        answer=right,
        unit="N·m",
        within=percent(1),
        decimals=1,
        mistakes=wrongs,
        why=why,
        step=step,
        solution=done,
        source="navedtra-14315-fig-3-44",
        vehicle=story.car.id,
    )


_UPSIDE_DOWN = "You turned it upside down. The bolt would be stretched, and a stretched bolt breaks later."


def _crow_foot(story: Story) -> Number:
    joint, out = joint_of(story.car, 2), story.crow_foot_mm
    lever = wrench_for(joint.torque_nm).lever_mm
    right = wrench_setting_nm(joint.torque_nm, lever_mm=lever, offset_mm=out)
    return _number(
        story,
        f"One bell housing bolt of {story.car.name} is reached only with a crow-foot. It stands straight out and moves "
        f"the drive {out} mm. The lever is {lever:g} mm, the bolt needs {joint.torque_nm:g} N·m. What do you set?",
        right,
        (
            Mistake(joint.torque_nm, "sets as if nothing were fitted",
                    "The arm to your hand has grown. Set so, the bolt gets more than it may."),
            Mistake(torque_at_bolt_nm(joint.torque_nm, lever_mm=lever, offset_mm=out), "turns the fraction round",
                    _UPSIDE_DOWN),
        ),
        "The wrench feels only its own lever. The crow-foot adds the rest.",
        f"The whole arm is {lever:g} + {out} = {lever + out:g} mm. The wrench feels {lever:g} mm of it.",
        f"{joint.torque_nm:g} × {lever:g} ÷ ({lever:g} + {out}) = {right:.1f} N·m.",
    )  # fmt: skip


def _bar(story: Story) -> Number:
    joint, bar = joint_of(story.car, 0), story.bar_mm
    lever = wrench_for(joint.torque_nm).lever_mm
    return _number(
        story,
        f"Flywheel bolts of {story.car.name}, last torque stage: the sheet says {joint.torque_nm:g} N·m. "
        f"A straight bar of {bar} mm sits between wrench and socket, square to the handle. "
        f"The lever is {lever:g} mm. What do you set?",
        joint.torque_nm,
        (
            Mistake(wrench_setting_nm(joint.torque_nm, lever_mm=lever, offset_mm=bar), "corrects for a straight bar",
                    "The bar stands in line with the bolt and is no lever. So set, every bolt stays too loose."),
            Mistake(torque_at_bolt_nm(joint.torque_nm, lever_mm=lever, offset_mm=bar), "adds for a straight bar",
                    "A stiff bar passes on all of the torque. So set, every bolt is stretched too far."),
        ),
        "A straight bar changes nothing: from the bolt's axis to your hand it is as far as before.",
        "Look from above. How far is it from the middle of the bolt to your hand, with and without the bar?",
        f"The bar changes nothing: {joint.torque_nm:g} N·m.",
    )  # fmt: skip


def _square(story: Story) -> Number:
    joint, out = joint_of(story.car, 2), story.crow_foot_mm
    lever = wrench_for(joint.torque_nm).lever_mm
    return _number(
        story,
        f"A bell housing bolt of {story.car.name} needs {joint.torque_nm:g} N·m. You turn the crow-foot of {out} mm "
        f"until it stands at right angles to the handle. The lever is {lever:g} mm. What do you set?",
        joint.torque_nm,
        (
            Mistake(wrench_setting_nm(joint.torque_nm, lever_mm=lever, offset_mm=out),
                    "corrects as if it stood straight out",
                    "Nothing of it points outward now. So set, the bolt stays too loose."),
            Mistake(torque_at_bolt_nm(joint.torque_nm, lever_mm=lever, offset_mm=out), "turns the fraction round",
                    _UPSIDE_DOWN),
        ),
        "At right angles nothing points outward, so nothing is corrected.",
        "Draw it from above. Which part of the crow-foot makes the arm to your hand longer?",
        f"Nothing to correct: {joint.torque_nm:g} N·m.",
    )  # fmt: skip


@exercise("job.tighten", lesson="job", outcome=BUILDS, minutes=8, title="Tighten flywheel or cover")
def tighten(draw: Draw) -> Tightening:
    story = story_of(draw)
    return _cover(story) if draw.form(2) else _flywheel(story)


def _flywheel(story: Story) -> Tightening:
    car = story.car
    wrench = wrench_for(car.flywheel.tightening.final_nm)
    stages = tuple(s for s in flywheel_stages(car) if not s.needs_setting or s.target >= wrench.lowest_nm)
    return _job(
        story,
        f"Fit the {flywheel_name(car)} of {car.name} with {car.flywheel.bolt_count} new bolts. ",
        stages,
        car.flywheel.hole_angles_deg,
        Fitted("straight bar", wrench.lever_mm, story.bar_mm),
        dowel_deg(car),
    )


def _cover(story: Story) -> Tightening:
    cover = story.car.clutch.cover
    torques = stage_torques_nm(cover.torque_nm, percentages=_COVER_SHARES)
    stages = (HAND, *torque_stages([round(t, 1) for t in torques]), second_torque(cover.torque_nm))
    held = "The preloading tool holds its spring. " if cover.kind == "self-adjusting" else ""
    question = _job(
        story,
        f"Fit the cover of {story.car.name}: {cover.n} bolts, plate centred, cover on its dowels. {held}"
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
        return f"The small wrench, {small.lowest_nm:g} to {small.highest_nm:g} N·m, does every stage. "
    return f"Up to {small.highest_nm:g} N·m the small wrench is at hand, above that the one up to {middle.highest_nm:g} N·m. "


def _job(
    story: Story,
    ask: str,
    stages: tuple[Stage, ...],
    angles_deg: tuple[float, ...],
    fitted: Fitted,
    dowel: float | None,
) -> Tightening:
    tool = (
        f"A straight bar of {fitted.offset_mm:g} mm sits on the wrench, square to the handle; "
        f"the lever is {fitted.lever_mm:g} mm."
        if fitted.kind
        else "The socket sits straight on the wrench."
    )
    order = star_order(angles_deg)
    question = Tightening(
        ask=f"{ask}{tool} Do every stage of the table on every bolt, and set the wrench yourself. {_TYPED}",
        table=(("stage", "what is wanted"), *((s.key, s.label.partition(" · ")[2]) for s in stages)),
        angles_deg=angles_deg,
        stages=stages,
        fitted=fitted,
        dowel_deg=dowel,
        picture=ring_picture(angles_deg, dowel),
        why="Every bolt got every stage, balanced and rightly set. The last round finds the one that gave way.",
        step=f"Start at bolt {order[0]} and cross over to bolt {order[1]}. Then look for the bolt across from the next.",
        source="invented",
        vehicle=story.car.id,
    )
    return msgspec.structs.replace(question, solution="\n".join(str(question.right_answer()).split("; ")))


@exercise("job.refit", lesson="job", outcome=BUILDS, minutes=3, title="Gearbox back in")
def refit(draw: Draw) -> Choice:
    story = story_of(draw)
    case = (_gap, _pedal_early, _play)[draw.form(3)](story)
    return choice_from(draw, case, vehicle=story.car.id)


def _gap(story: Story) -> Case:
    gap = round(story.crow_foot_mm / 10)
    return Case(
        f"The gearbox of {story.car.name} slides on by hand, then stops. {gap} mm of gap are left all round. What now?",
        "Back off, find out what is not home, and slide it on again by hand",
        (
            Mistake(
                "Pull it shut with the housing bolts",
                "closes the gap with bolts",
                "A gap means that the shaft is not home. Plate, hub or housing breaks, and parts fly later.",
                True,
            ),
            Mistake(
                "Let it hang there and turn the engine",
                "lets the gearbox hang on its shaft",
                "Its weight bends the plate at once, and it can fall on whoever turns.",
                True,
            ),
            Mistake(
                "Grease the shaft well and push harder",
                "uses grease against a misfit",
                "Grease cures no misfit. It gets onto the facing, and the clutch judders.",
            ),
        ),
        "By hand it goes home, or something is wrong: the angle, the centring, a dowel, a cable between.",
        "What keeps the last millimetres open, and what would a bolt do to it?",
    )


def _pedal_early(story: Story) -> Case:
    return Case(
        f"The gearbox of {story.car.name} hangs on two of {story.car.gearbox.bell_bolts[0].n} bolts. "
        "A colleague wants to press the pedal “just to feel it”. What do you say?",
        "“Not before every housing bolt is tight and the release is connected”",
        (
            Mistake(
                "“Yes, but gently”",
                "presses the pedal too early",
                "The release has nothing to press against yet. It is pushed apart or jumps off.",
            ),
            Mistake(
                "“Yes, it shows early whether it works”",
                "tests an open joint",
                "It shows nothing, and two bolts do not hold a gearbox. It can come down on you.",
                True,
            ),
            Mistake(
                "“Take the jack away first”",
                "takes the jack away too early",
                "Two bolts and no mount: the gearbox drops on somebody.",
                True,
            ),
        ),
        "Bolts, mount, jack, release, and only then the pedal.",
        "What does the release bearing press against, and what holds the gearbox just now?",
    )


def _play(story: Story) -> Case:
    low, high = story.car.release.free_play_mm
    found = round(low / 3, 1)
    return Case(
        f"All is tight. The pedal of {story.car.name} has {found:g} mm of free play. "
        f"The sheet says {low:g} to {high:g} mm. What do you do?",
        "Set it by the sheet before the engine is started, and write the figure down",
        (
            Mistake(
                "Nothing: new parts settle",
                "waits for play to come by itself",
                "As the facing wears, the play gets smaller, not larger. The new clutch slips and burns.",
            ),
            Mistake(
                "Start and see whether it shifts",
                "tests before setting",
                "It will shift, and slip all the same. You burn the new facing to find out.",
            ),
            Mistake(
                "Write “ok” in the record",
                "writes ok for a figure",
                "The next fitter looks for a fault you knew of. The figure would have told.",
            ),
        ),
        "Too little play keeps the clutch a little open all day. Set now, it costs minutes.",
        "Compare the figure with the lower end of the sheet. What does wear do to it?",
    )
