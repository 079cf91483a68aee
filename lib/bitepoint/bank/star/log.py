"""Lesson 8, star tightening: the record of a torque-angle wrench."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import JUDGES
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle


@exercise("star.angle-log", lesson="star", outcome=JUDGES, minutes=3)
def angle_log(draw: Draw) -> Choice:
    form = draw.form(3)
    car = vehicle(draw.pick("B", "C"))
    n, angle = car.flywheel.bolt_count, round(car.flywheel.tightening.angle_deg or 0)
    usual = 72 if car.id == "B" else 115
    bolt = draw.integer(2, n)
    angles = [angle + draw.integer(-1, 1) for _ in range(n)]
    torques = [usual + draw.integer(-4, 4) for _ in range(n)]
    if form == 0:
        angles[bolt - 1], torques[bolt - 1] = draw.integer(8, 14), usual + draw.integer(8, 15)
    if form == 1:
        torques[bolt - 1] = draw.integer(24, 32) if car.id == "B" else draw.integer(44, 56)
    ask, best, others, why = (_early, _soft, _sound)[form](bolt, angles[bolt - 1], torques[bolt - 1], angle)
    return Choice.of(
        draw,
        ask=(
            f"A torque-angle wrench kept a record of the angle stage on {car.name}, {angle}°, with the "
            f"torque at the end. {ask}"
        ),
        table=(
            ("Bolt", *map(str, range(1, n + 1))),
            ("Angle", *(f"{a}°" for a in angles)),
            ("Torque", *(f"{t} N·m" for t in torques)),
        ),
        right=best,
        wrong=others,
        why=why,
        step=f"Compare bolt {bolt} with its neighbours: {angles[bolt - 1]}° and {torques[bolt - 1]} N·m. "
        f"The others lie near {angle}° and {usual} N·m.",
        solution=f"{best}. {why}",
        source="common-practice",
        vehicle=car.id,
    )


_Form = tuple[str, str, list[Mistake], str]


def _early(bolt: int, angle: int, torque: int, wanted: int) -> _Form:
    others = [
        Mistake(
            f"Turn bolt {bolt} on to {wanted}°",
            "thinks that only the angle counts",
            ("The torque is up already: something blocks the bolt. Forced on, it or the crankshaft thread breaks."),
            True,
        ),
        Mistake(
            "Leave it: the torque is reached",
            "thinks that only the torque counts",
            (
                "Torque without turning means that the bolt jams. It clamps next to nothing, and the "
                "flywheel works loose."
            ),
            True,
        ),
        Mistake(
            "Take another wrench: this one is faulty",
            "blames the wrench",
            ("The same wrench did all the other bolts well. Blame the tool, and a jammed bolt stays in the joint."),
        ),
    ]
    why = (
        f"At {angle}° the bolt already took {torque} N·m. It bottoms, is crossed, or is the wrong length. "
        "Find the cause before you turn anything on."
    )
    return (
        f"At bolt {bolt} the wrench stopped early. What do you do?",
        f"Take bolt {bolt} out, measure it and look at both threads",
        others,
        why,
    )


def _soft(bolt: int, angle: int, torque: int, wanted: int) -> _Form:
    others = [
        Mistake(
            f"Turn bolt {bolt} on until the torque matches the others",
            "chases the torque",
            ("A bolt that turns without torque is giving way, or its thread is. Turned on, it strips or breaks."),
            True,
        ),
        Mistake(
            "Accept it: the angle is right",
            "thinks that only the angle counts",
            "Angle without torque clamps next to nothing. The neighbours carry its share until they let go.",
            True,
        ),
        Mistake(
            f"Slacken bolt {bolt} and turn it by {wanted}° once more",
            "uses a strained bolt again",
            (
                "Bolt or thread has already given way. Turned once more, it may hold in the workshop and "
                "break on the road."
            ),
            True,
        ),
    ]
    why = (
        f"The bolt made its {angle}° with only {torque} N·m. Bolt or thread is giving way. "
        "The crankshaft is the dear part, so a person with more experience looks at it."
    )
    return (
        f"Look at bolt {bolt}. What do you do?",
        "Stop and ask: take it out, and have bolt and thread looked at",
        others,
        why,
    )


def _sound(bolt: int, angle: int, torque: int, wanted: int) -> _Form:
    others = [
        Mistake(
            "Turn the bolts with the lowest torque a little further",
            "makes the torques equal",
            (
                "Here the angle is the rule. Friction differs from bolt to bolt, so the torque does too. "
                "Turned on, a bolt is overstretched."
            ),
            True,
        ),
        Mistake(
            "Slacken all bolts and fit new ones",
            "treats a normal reading as a fault",
            ("Every angle is within a degree and no torque stands out. New bolts and an hour are spent for nothing."),
        ),
        Mistake(
            "Go round once more with the torque wrench",
            "turns an angle bolt again",
            ("Bolts tightened by angle are never turned again. Another pull takes them past what their maker allows."),
            True,
        ),
    ]
    why = (
        "All angles are within a degree and no torque stands out. Friction makes the small differences. "
        "What is left is the look at the paint marks."
    )
    return "What do you do?", "Accept it, keep the record and look at the paint marks", others, why
