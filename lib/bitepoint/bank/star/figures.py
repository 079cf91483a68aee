"""Lesson 8, star tightening: stages and pulls as figures."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import CALCULATES, flywheel_stages, listed
from bitepoint.mechanics.tightening import stage_torques_nm
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake

_THIRDS = "You divided in equal parts. The rule names its own shares, so the stage lands beside the sheet."


@exercise("star.stage-torque", lesson="star", outcome=CALCULATES, minutes=2, title="Work out a stage")
def stage_torque(draw: Draw) -> Number:
    form = draw.form(3)
    final = draw.integer(45, 110) if form == 2 else draw.integer(22, 110)
    share = 30 if form == 1 else 70
    right = stage_torques_nm(final, percentages=(share, 100))[0]
    return Number(
        ask=_stage_ask(form, final),
        answer=right,
        unit="N·m",
        within=percent(1),
        decimals=1,
        mistakes=_stage_mistakes(form, final),
        why=f"{share} % of {final} N·m is {right:.1f} N·m. Small first steps bring the part down level.",
        step=f"Write {share} % as {share / 100:g} and multiply it by the final torque, {final} N·m.",
        solution=f"{share / 100:g} × {final} N·m = {right:.1f} N·m.",
        source="tm-army-70-100" if form == 2 else "common-practice",
    )


def _stage_ask(form: int, final: int) -> str:
    if form == 2:
        return (
            "A maintenance manual has a rule for bolts above 41 N·m. Go round in the pattern at 70 %, "
            "then at 100 %. "
            f"Your bolts end at {final} N·m. What do you set for the first round?"
        )
    which = "first" if form == 1 else "second"
    return (
        f"A sheet gives only a final torque, {final} N·m. The workshop card says: stages at 30 %, 70 % "
        "and 100 %, "
        f"then a second round. What do you set for the {which} stage?"
    )


def _stage_mistakes(form: int, final: int) -> tuple[Mistake, ...]:
    if form == 1:
        return (
            Mistake(final / 3, "divides in equal parts", _THIRDS),
            Mistake(
                final * 0.7,
                "takes what is left",
                "That is what is left to do after the stage. The share is taken of the "
                "final torque from zero. Set so high at once, one side is drawn down hard.",
            ),
        )
    step = (
        "The share is of the final torque, counted from zero. You took the step between two stages. The "
        "bolts stay far below."
    )
    if form == 2:
        return (
            Mistake(final / 2, "divides in equal parts", _THIRDS),
            Mistake(final * 0.3, "takes the step, not the value", step),
        )
    return (
        Mistake(final * 2 / 3, "divides in equal parts", _THIRDS),
        Mistake(final * 0.4, "takes the step, not the value", step),
        Mistake(
            final * 0.3,
            "takes another stage",
            "That is the share of the stage before. Repeating it moves no bolt at all.",
        ),
    )


@exercise("star.pulls-count", lesson="star", outcome=CALCULATES, minutes=2, title="Count the pulls")
def pulls_count(draw: Draw) -> Number:
    ask, bolts, rounds, letter = _pulls_form(draw, draw.form(3))
    right = bolts * rounds
    ending = "Do not count the hand start, nor a look at paint marks."
    return Number(
        ask=f"{ask} How many pulls do you make with wrench and gauge, all bolts together? {ending}",
        answer=right,
        unit="",
        within=plus_minus(0.4),
        mistakes=(
            Mistake(
                bolts,
                "one pull a bolt",
                "You counted one pull a bolt. Every stage goes round all bolts. "
                "Whoever stops after one leaves the joint at the first torque.",
            ),
            Mistake(
                bolts * (rounds - 1),
                "leaves out a round",
                "One round is missing in your count. A round left out on the "
                "car leaves bolts that lost preload to their neighbours.",
            ),
            Mistake(
                bolts * (rounds + 1),
                "counts a round without a tool",
                "You counted a round that needs no pull. "
                "Hand start and paint marks are no pulls: a pull too many is how bolts get overstretched.",
            ),
        ),
        why=(f"{bolts} bolts × {rounds} rounds = {right} pulls. Ticked on the card pull by pull, none is forgotten."),
        step=f"Count the rounds with a tool first: there are {rounds}. Each goes round all {bolts} bolts.",
        solution=f"{bolts} × {rounds} = {right} pulls.",
        source="derived",
        vehicle=letter,
    )


def _pulls_form(draw: Draw, form: int) -> tuple[str, int, int, str]:
    """Return the words, the number of bolts, the rounds with a tool, and the vehicle's letter."""
    car = draw.vehicle()
    if form == 0:
        sheet, n = car.flywheel.tightening, car.flywheel.bolt_count
        rounds = sum(s.kind in ("torque", "angle", "second torque") for s in flywheel_stages(car))
        told = f"{listed(sheet.stages_nm)} N·m"
        turn = "" if sheet.angle_deg is None else f", then {sheet.angle_deg:g}°"
        last = f"{sheet.final_nm:g} N·m again" if sheet.angle_deg is None else "a look at the paint marks"
        return (
            f"The flywheel of {car.name} has {n} bolts. Stages: {told}{turn}. Second round: {last}.",
            n,
            rounds,
            car.id,
        )
    if form == 1:
        cover = car.clutch.cover
        ask = (
            f"The cover of {car.name} has {cover.n} bolts. Stages: 30, 70 and 100 % of "
            f"{cover.torque_nm:g} N·m. "
            f"Second round: {cover.torque_nm:g} N·m again."
        )
        return ask, cover.n, 4, car.id
    bolts, stages = draw.pick(10, 12, 14, 16), draw.pick(2, 3)
    torques = (18, 30) if stages == 2 else (12, 24, 36)
    ask = f"A gearbox housing has {bolts} bolts. Stages: {listed(torques)} N·m. Second round: {torques[-1]} N·m again."
    return ask, bolts, stages + 1, ""
