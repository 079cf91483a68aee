"""Lesson 8, star tightening: what a second round tells, and a job that nobody remembers."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import JUDGES
from bitepoint.questions.choice import Choice, Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle

AGAIN = "Slacken all bolts, fit new ones in clean threads, start at the first stage and write it down"


_SEATED = "A bolt that gives so late was not clamping before. The part may sit tilted, and bolts work loose in service."


@exercise("star.second-round", lesson="star", outcome=JUDGES, minutes=2)
def second_round(draw: Draw) -> Choice:
    form = draw.form(3)
    car = vehicle(draw.pick("B", "C")) if form == 2 else vehicle(draw.pick("A", "D"))
    if form == 2:
        return _paint_mark(draw, car.id, car.flywheel.bolt_count)
    final, limit, n = car.flywheel.tightening.final_nm, 15, car.flywheel.bolt_count
    turns = [draw.integer(0, 5) for _ in range(n)]
    odd = draw.integer(1, n)
    if form == 0:
        turns[odd - 1] = draw.integer(22, 34)
    big = turns[odd - 1]
    common: dict[str, object] = {
        "ask": f"Second round at {final:g} N·m on the flywheel of {car.name}. "
        "The table shows how far each bolt turned before "
        f"the click. The limit is {limit}°. What do you do?",
        "table": (("Bolt", *map(str, range(1, n + 1))), ("Turned", *(f"{t}°" for t in turns))),
        "source": "invented",
        "vehicle": car.id,
    }
    return _all_within(draw, limit, common) if form == 1 else _one_over(draw, odd, big, common)


def _one_over(draw: Draw, bolt: int, big: int, common: dict[str, object]) -> Choice:
    return Choice.of(
        draw,
        right=AGAIN,
        wrong=[
            Mistake(
                "Nothing: it has clicked now",
                "trusts the last click",
                f"The last click does not undo it. {_SEATED}",
                True,
            ),
            Mistake(
                f"Turn every other bolt by {big}° as well",
                "makes the angles equal",
                (
                    "The sheet asks for torque here, not for an angle. So far past the click the others "
                    "are overstretched and may break."
                ),
                True,
            ),
            Mistake(
                f"Slacken bolt {bolt} alone and tighten it in one pull",
                "mends one bolt only",
                (
                    "The others were tightened against a part that was not down. One bolt mended alone "
                    "leaves the clamp uneven."
                ),
            ),
        ],
        why=f"Bolt {bolt} turned {big}°, so it was not at torque before. "
        "Find out why: missed, dirt under the head, thread. "
        "Then all start again, with new bolts: patch or thread-locker works once.",
        step=(
            f"Compare with the limit: bolt {bolt} turned {big}°. Ask what the other bolts were clamping "
            "in the meantime."
        ),
        solution=f"Bolt {bolt} is over the limit. {AGAIN}.",
        **common,
    )


def _all_within(draw: Draw, limit: int, common: dict[str, object]) -> Choice:
    return Choice.of(
        draw,
        right="Note the figures and go on: every bolt is within the limit",
        wrong=[
            Mistake(
                "Go round again until no bolt moves at all",
                "wants no movement at all",
                (
                    "A few degrees are normal: each bolt makes up what its neighbours took. Round after "
                    "round only wears head and thread."
                ),
            ),
            Mistake(
                AGAIN,
                "treats a normal reading as a fault",
                (
                    f"No bolt turned more than {limit}°, so nothing points to a fault. New bolts and an "
                    "hour are spent for nothing."
                ),
            ),
            Mistake(
                "Set the wrench 10 % higher for one more round",
                "goes above the sheet to be safe",
                (
                    "Above the sheet is not safer. It stretches the bolts further than their maker "
                    "allows, and one may break in service."
                ),
                True,
            ),
        ],
        why="A few degrees are what neighbours took from each other. That is what the second round is for.",
        step=f"Read the largest figure of the table and compare it with {limit}°.",
        solution=f"The largest figure lies below {limit}°: note it and go on.",
        **common,
    )


def _paint_mark(draw: Draw, letter: str, n: int) -> Choice:
    bolt, angle = draw.integer(1, n), vehicle(letter).flywheel.tightening.angle_deg
    return Choice.of(
        draw,
        ask=f"The flywheel bolts of training vehicle {letter} were turned by {angle:g}°, "
        "each marked with paint. "
        "In the second round the "
        f"mark of bolt {bolt} is not where the others are: it was never turned. What do you do?",
        right=AGAIN,
        wrong=[
            Mistake(
                f"Pull bolt {bolt} with the torque wrench until it clicks",
                "takes a click for the angle",
                (
                    "A click at the stage torque says nothing about the angle. The bolt holds a fraction "
                    "of its load and works loose."
                ),
                True,
            ),
            Mistake(
                f"Turn all bolts by another {angle:g}° to be sure",
                "turns the angle twice",
                (
                    "The angle twice stretches the other bolts far past their proof load. They may break "
                    "at once or on the road."
                ),
                True,
            ),
            Mistake(
                "Leave it: one bolt in so many does not matter",
                "thinks that the others carry it",
                (
                    "One bolt without load hands its share to its neighbours. They break one after the "
                    "other, and the flywheel comes off."
                ),
                True,
            ),
        ],
        why=(
            "Nobody knows what the joint did while one bolt was left out. New bolts and a fresh start "
            "are sure, a guess is not."
        ),
        step=(
            f"Bolt {bolt} still lacks {angle:g}°. Ask what the others held while it was missing, and "
            "whether a guess is good enough."
        ),
        solution=f"{AGAIN}.",
        source="common-practice",
        vehicle=letter,
    )


def _goes_on(by_angle: bool) -> Option:
    if by_angle:
        return wrong(
            "Go on with the angle on the bolts without a paint mark",
            "goes on with the last stage",
            "A missing mark does not tell which torque stages a bolt had. It can end far too weak and come loose.",
            critical=True,
        )
    return wrong(
        "Go on with the last stage: a finished bolt clicks at once",
        "goes on with the last stage",
        "A click does not tell which stages a bolt had. The part can sit tilted under bolts that all click.",
    )


@exercise("star.after-lunch", lesson="star", outcome=JUDGES, minutes=2)
def after_lunch(draw: Draw) -> Several:
    by_angle = draw.form(2) == 1
    car = vehicle(draw.pick("B", "C") if by_angle else draw.pick("A", "D"))
    n = car.flywheel.bolt_count
    sheet = "stages and an angle" if by_angle else "torque stages"
    fresh = needed(
        "Fit new bolts",
        "uses the bolts again",
        "Patch or thread-locker is spent and the stretch unknown. Used again, a bolt can come loose.",
        critical=True,
    )
    begin = needed(
        "Start again at the first stage, in a star",
        "starts in the middle",
        "Started in the middle, the part is not drawn down level. The stages exist to bring it down evenly.",
    )
    slacken = needed(
        f"Slacken all {n} bolts",
        "leaves some bolts as they are",
        "Bolts at different stages pull the part askew. All must start from nothing, or the clamp stays uneven.",
    )
    note = needed(
        "Write on the card what happened",
        "keeps no record",
        "Without a note the next fitter guesses again, as you had to.",
    )
    last = _goes_on(by_angle)
    extra = (
        wrong(
            f"Turn every bolt by {car.flywheel.tightening.angle_deg:g}° once more",
            "turns the angle twice",
            ("Bolts that had their angle are then far past their proof load. They may break at once or on the road."),
            critical=True,
        )
        if by_angle
        else wrong(
            "Set the wrench 10 % higher and go round once",
            "goes above the sheet to be safe",
            "Above the sheet stretches bolts that were already done. They may break in service.",
            critical=True,
        )
    )
    return Several.of(
        draw,
        options=[slacken, fresh, begin, note, last, extra],
        ask=f"After lunch nobody knows how far the flywheel of {car.name} was tightened. "
        f"Its {n} bolts have a locking patch or thread-locker. "
        f"The sheet gives {sheet}. What do you do? Pick all that are right.",
        why=(
            "Unknown means not done. All off, new bolts, first stage again, and a note: that is the only "
            "state you can vouch for."
        ),
        step=(f"Ask of each line: afterwards, do you know what all {n} bolts hold? Only a fresh start says yes."),
        solution="Slacken all, fit new bolts, start again at the first stage, write it down.",
        source="common-practice",
        vehicle=car.id,
    )
