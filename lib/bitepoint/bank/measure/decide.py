"""Lesson 6, measuring and deciding: reuse, replace, or stop and ask."""

from typing import Any

from bitepoint.bank.forms import form_of
from bitepoint.bank.measure.outcomes import DECIDES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option, Several
from bitepoint.questions.draw import Draw
from bitepoint.workshop.criteria import Measured, criteria, judge, limits_of
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.vehicles import Vehicle


@exercise(
    "measure.flywheel-seen",
    lesson="measure",
    outcome=DECIDES,
    minutes=2,
    beyond=True,
    title="Decide what you see on a flywheel",
)
def flywheel_seen(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    # A form has the id of what is seen in the list of decisions, its options the names of the decisions there.
    seen = next(item for item in criteria().seen if item.id == form.key)
    return form.choice(
        draw,
        vehicle=car.id,
        right=seen.decision.replace(" ", "-"),
        car=car.name,
        km=draw.integer(80, 190),
        because=f"{seen.because[0].upper()}{seen.because[1:]}.",
    )


_ROWS = ("flywheel-runout", "crank-end-float", "plate-runout", "input-shaft-play", "finger-height")
_OVER = (
    ("flywheel-runout", "plate-runout"),
    ("crank-end-float", "finger-height"),
    ("input-shaft-play", "plate-runout"),
)


@once_a_set
def _measured(id: str) -> Measured:
    return next(item for item in criteria().measured if item.id == id)


@exercise("measure.sheet", lesson="measure", outcome=DECIDES, minutes=3, title="Decide the inspection sheet row by row")
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
        says = f"You left out “{_label(id)}”. Max includes the value, and a good part need not be paid for."
        return Option(text, True, f"refuses {verdict.part} within its limit", says, key=id)
    says = "That row is over its limit. Passed on, the fault comes back, and the gearbox comes out again."
    return Option(text, False, f"passes {_label(id)}", says, key=id)


@exercise("measure.end-float-over", lesson="measure", outcome=DECIDES, minutes=1.5, title="Decide about end float")
def end_float_over(draw: Draw) -> Choice:
    car, form = draw.pick(*draw.cars()), form_of(draw)
    limit = car.engine.crank_end_float_limit_mm
    over = limit + draw.integer(3, 12) / 100
    low, high = car.engine.crank_end_float_new_mm
    figures: dict[str, Any] = {
        "found": f"{over:.2f}",
        "limit": f"{limit:.2f}",
        "new": f"{low:.2f} to {high:.2f} mm",
        "inside": f"{(high + limit) / 2:.2f}",
    }
    return form.choice(draw, vehicle=car.id, car=car.name, **figures)
