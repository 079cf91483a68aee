"""Lesson 12, the whole job: the gearbox back in without force, and what the wrench is set to at its bolts."""

from msgspec import structs

from bitepoint.bank.forms import form_of
from bitepoint.bank.job.build import wrench_for
from bitepoint.bank.job.outcomes import BUILDS, ORDERS, OWN_KIT, own_first
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import joint_of
from bitepoint.mechanics.wrench import torque_at_bolt_nm, wrench_setting_nm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake


@exercise("job.refit", lesson="job", outcome=ORDERS, minutes=3, title="Bring the gearbox back in", needs=OWN_KIT)
def refit(draw: Draw) -> Choice:
    story = story_of(draw)
    low, high = story.car.release.free_play_mm
    question = form_of(draw).choice(
        draw,
        vehicle=story.car.id,
        car=story.car.name,
        gap=round(story.crow_foot_mm / 10),
        bolts=story.car.gearbox.bell_bolts[0].n,
        found=f"{round(low / 3, 1):g}",
        low=f"{low:g}",
        high=f"{high:g}",
    )
    return structs.replace(question, ask=f"{story.since_bench if draw.turn == 1 else ''}{question.ask}")


@exercise("job.setting", lesson="job", outcome=BUILDS, minutes=3, title="Set the wrench", needs=OWN_KIT)
def setting(draw: Draw) -> Number:
    story = story_of(draw)
    return (_crow_foot, _bar, _square)[own_first(draw, 3)](story)


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
