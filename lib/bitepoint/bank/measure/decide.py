"""Lesson 6, measuring and deciding: reuse, replace, or stop and ask."""

from bitepoint.bank.measure.common import DECIDES, Form, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.criteria import Measured, criteria, judge, judge_seen, limits_of
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.vehicles import Vehicle, vehicle

_SEEN = {
    "flywheel-crack": ("a fine crack beside a bolt hole", "It is as long as a match is thick."),
    "flywheel-blue": ("blue patches only, flat, no hard spots, no crack", "The sheet says nothing of re-facing."),
    "flywheel-tint": ("a light tint that wipes off, flat, no crack", "The customer asks whether it can stay."),
}


@exercise("measure.flywheel-seen", lesson="measure", outcome=DECIDES, minutes=2, title="What you see on a flywheel")
def flywheel_seen(draw: Draw) -> Choice:
    car = draw.vehicle()
    id = tuple(_SEEN)[draw.form(3)]
    seen, more = _SEEN[id]
    verdict = judge_seen(id)
    texts = {"reuse": "Reuse it", "replace": "Replace it", "stop and ask": "Stop and ask"}
    offered = [_not_seen(d, id, texts[d]) for d in texts if d != verdict.decision]
    offered.append(_reface(id))
    form: Form = (
        f"The rigid flywheel of a car like {car.name}, {draw.integer(80, 190)} thousand kilometres, shows this: {seen}. {more} "
        "What do you decide?",
        texts[verdict.decision],
        tuple(offered),
        _because(id),
        "Ask what can grow with heat and speed, what only an expert can judge, and what is only on the surface.",
    )
    return choice_from(draw, form, source=verdict.source, vehicle=car.id)


_WHY_NOT = {
    ("reuse", "flywheel-crack"): "A crack grows with every heat. A flywheel that bursts comes through the floor.",
    ("stop and ask", "flywheel-crack"): "Asking is never wrong, but here the rule is clear: look at it again.",
    ("reuse", "flywheel-blue"): "Colour does not tell how deep the heat went. It may judder, or worse, soon.",
    ("replace", "flywheel-blue"): "It may be sound. Nobody pays for a part thrown out on a guess.",
    ("replace", "flywheel-tint"): "Normal heat leaves that tint. The customer pays for a part that was good.",
    ("stop and ask", "flywheel-tint"): "Asking is never wrong, but here the list decides. It costs time only.",
}


def _because(id: str) -> str:
    because = next(item.because for item in criteria().seen if item.id == id)
    return f"{because[0].upper()}{because[1:]}."


def _not_seen(decision: str, id: str, text: str) -> Mistake:
    names = {
        "reuse": "uses it again too lightly",
        "replace": "throws a part out on sight",
        "stop and ask": "asks where the rule is clear",
    }
    critical = (decision, id) == ("reuse", "flywheel-crack")
    return Mistake(text, names[decision], _WHY_NOT[decision, id], critical)


def _reface(id: str) -> Mistake:
    crack = id == "flywheel-crack"
    says = (
        "Turning it thinner makes a cracked wheel weaker still. It can burst."
        if crack
        else "Re-facing is allowed only where the sheet says so. It moves the fingers and makes the wheel thinner."
    )
    return Mistake("Turn the face down a little and reuse it", "re-faces without leave of the sheet", says, crack)


_ROWS = ("flywheel-runout", "crank-end-float", "plate-runout", "input-shaft-play", "finger-height")
_OVER = (
    ("flywheel-runout", "plate-runout"),
    ("crank-end-float", "finger-height"),
    ("input-shaft-play", "plate-runout"),
)


@once_a_set
def _measured(id: str) -> Measured:
    return next(item for item in criteria().measured if item.id == id)


@exercise("measure.sheet", lesson="measure", outcome=DECIDES, minutes=3, title="The inspection sheet")
def sheet(draw: Draw) -> Several:
    car = draw.vehicle()
    over = _OVER[draw.form(3)]
    exact = draw.pick(*(id for id in _ROWS if id not in over))
    rows, options = [], []
    for id in _ROWS:
        value, limit = _value(draw, id, car, over=id in over, exact=id == exact)
        rows.append((_label(id), f"{value:.2f} mm", f"max {limit:.2f} mm"))
        options.append(_row_option(id, value, car))
    good = [o.text for o in options if o.right]
    return Several.of(
        draw,
        options=options,
        ask=f"Inspection sheet of {car.name}, filled in before assembly. No uncertainty is given. "
        "Which rows are within the limit and may go on? Pick all.",
        table=(("row", "measured", "limit"), *draw.shuffle(rows)),
        why="Within and exactly on max pass. Over the limit, the list says replace or stop and ask.",
        step="Go row by row. Is the measured figure more than the limit? On the limit is not more.",
        solution=f"Within: {'; '.join(good)}. All the others are over.",
        source="invented",
        vehicle=car.id,
    )


def _label(id: str) -> str:
    item = _measured(id)
    return f"{item.part}, {item.what}"


def _value(draw: Draw, id: str, car: Vehicle, *, over: bool, exact: bool) -> tuple[float, float]:
    limit = limits_of(_measured(id), car)[1] or 0.0
    if exact:
        return limit, limit
    off = draw.integer(1, 3) / 100
    return (limit + off if over else limit - off), limit


def _row_option(id: str, value: float, car: Vehicle) -> Option:
    verdict = judge(id, round(value, 3), car)
    text = _label(id)
    text = text[0].upper() + text[1:]
    if verdict.decision == "reuse":
        return needed(
            text,
            f"refuses {verdict.part} within its limit",
            "One row that passes is missing. Max includes the value, and good parts need not be paid for.",
        )
    says = "That row is over its limit. Passed on, the fault comes back, and the gearbox comes out again."
    return wrong(text, f"passes {_label(id)}", says)


@exercise("measure.end-float-over", lesson="measure", outcome=DECIDES, minutes=1.5, title="End float over its limit")
def end_float_over(draw: Draw) -> Choice:
    car = vehicle("ABCD"[draw.integer(0, 3)])
    form = (_too_much, _customer)[draw.form(2)]
    over = car.engine.crank_end_float_limit_mm + draw.integer(3, 12) / 100
    return choice_from(draw, form(draw, car, over), vehicle=car.id)


def _too_much(draw: Draw, car: Vehicle, over: float) -> Form:
    return (
        f"Crankshaft of {car.name}: end float {over:.2f} mm, the sheet allows {car.engine.crank_end_float_limit_mm:g} mm. "
        f"The new clutch lies ready, {draw.integer(2, 5)} hours are left. What do you do?",
        "Stop and ask: the thrust bearing is worn",
        (
            Mistake(
                "Go on: the clutch is another part",
                "looks at one part at a time",
                "The pedal pushes the crankshaft every time. It wears on, and the engine can fail on the road.",
            ),
            Mistake(
                "Set the pedal higher to make up for it",
                "adjusts around a worn part",
                "The release point still wanders. The bearing inside goes on wearing.",
            ),
            Mistake(
                "Put a thicker washer under the cover",
                "shims in the wrong place",
                "The play is inside the engine. A packed cover sits askew, and its bolts can come loose.",
                True,
            ),
        ),
        "The clutch job stops here. The engine needs a decision, and the customer hears of it first.",
        "Which bearing holds the crankshaft against the push of the pedal?",
    )


def _customer(draw: Draw, car: Vehicle, over: float) -> Form:
    return (
        f"End float of {car.name} is {over:.2f} mm, limit {car.engine.crank_end_float_limit_mm:g} mm. "
        f"A colleague of {draw.integer(10, 25)} years says: “They all have that. Close it up.” What do you do?",
        "Stop and ask the person in charge, with the figure on the sheet",
        (
            Mistake(
                "Close it up: experience counts",
                "lets a voice outweigh a figure",
                "The limit is on the sheet. The worn bearing goes on wearing with every push of the pedal.",
            ),
            Mistake(
                "Close it up and say nothing",
                "hides a finding",
                "Nobody can act on what nobody knows. The engine can fail, and your record says all was well.",
            ),
            Mistake(
                "Measure with the shaft pushed one way only",
                "measures until it fits",
                "Pushed one way there is nothing to see. End float is from stop to stop.",
            ),
        ),
        "A figure over its limit goes to whoever may decide. It stays on the sheet as it was read.",
        "Who may decide about an engine, and what does that person need from you?",
    )
