"""Lesson 6, measuring and deciding: how sure a figure is, and how far a part may still go."""

from typing import Any

from bitepoint.bank.forms import form_of
from bitepoint.bank.measure import readings
from bitepoint.bank.measure.outcomes import IS_SURE, WORKS_OUT
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.decisions import guard_band
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.tools import FEELER_LEAVES_MM
from bitepoint.workshop.vehicles import Vehicle


@exercise(
    "measure.guard-band", lesson="measure", outcome=IS_SURE, minutes=2.5, title="Work out a limit with its guard band"
)
def guard(draw: Draw) -> Number:
    form = draw.form(2)
    u = draw.pick(0.005, 0.006, 0.008, 0.010)
    limit = draw.pick(0.08, 0.10, 0.11, 0.12) if form == 0 else draw.pick(6.2, 6.5, 6.7, 7.0)
    band = guard_band(u)
    right = limit - band if form == 0 else limit + band
    sign, kind, word = ("−", "max", "up to") if form == 0 else ("+", "min", "from")
    return Number(
        ask=f"A report gives a standard uncertainty of {u:.3f} mm for this measurement. "
        f"The limit is {kind} {limit:.2f} mm. The guard band is 1.645 times the uncertainty. "
        f"The part is surely good {word} which measured figure? Give three decimals.",
        answer=right,
        unit="mm",
        within=plus_minus(0.0008),
        decimals=3,
        mistakes=(
            Mistake(
                limit,
                "leaves the uncertainty out",
                "An uncertainty is given here, so it counts. At the limit itself half of such parts are bad.",
            ),
            Mistake(
                2 * limit - right,
                "puts the band on the wrong side",
                "Your band lies outside the limit. There you would pass parts that are bad.",
            ),
        ),
        why="Who says that a part is good has to be sure of it. So the doubt goes to the side of the limit.",
        step=f"The band is 1.645 × {u:.3f} = {band:.4f} mm. Ask on which side of the limit the good parts lie.",
        solution=f"{limit:.2f} {sign} {band:.4f} = {right:.3f} mm.",
        source="jcgm-106",
    )


@exercise(
    "measure.facing-life",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2.5,
    beyond=True,
    title="Work out how far a plate may still go",
)
def facing_life(draw: Draw) -> Number:
    car = draw.vehicle()
    new, least = car.clutch.rivet_depth_new_mm, car.clutch.rivet_depth_min_mm
    whole = draw.form(2) == 1
    now, km = draw.until(
        lambda case: _whole_enough(*case, new, least) and abs(case[0] - new + least) > 0.07,
        lambda: (draw.value(0.6, 0.95, 0.05), draw.integer(4, 12) * 10),
    )
    gone = km / (new - now)
    left, life = gone * (now - least), gone * (new - least)
    asked = "At how many thousand km is the limit reached" if whole else "How many thousand km are left"
    other = (
        Mistake(
            left,
            "gives what is left",
            "That is what is still to come. Asked is the figure on the clock, so add what is driven.",
        )
        if whole
        else Mistake(
            life,
            "gives the whole life",
            "That is counted from new. Part of it is already driven, so the plate would run too long.",
        )
    )
    return Number(
        ask=f"Rivets of {car.name}: {new:.2f} mm deep when new, {now:.2f} mm after {km} thousand km. "
        f"The least depth is {least:.2f} mm. Wear goes on evenly. {asked}?",
        answer=life if whole else left,
        unit="",
        within=percent(2),
        decimals=0,
        mistakes=(
            Mistake(
                gone * (new if whole else now),
                "counts down to nothing",
                "The limit comes before the rivets are flush. On your figure they cut the flywheel.",
            ),
            other,
        ),
        why="What is left over what is gone, times the way driven. Real wear is not even: it is an estimate.",
        step=f"Gone: {new - now:.2f} mm in {km} thousand km. Left: {now - least:.2f} mm.",
        solution=f"{km} × {now - least:.2f} / {new - now:.2f} = {left:.0f} thousand km left, {life:.0f} in all.",
        source="derived",
        vehicle=car.id,
    )


def _whole_enough(now_mm: float, km: int, new_mm: float, least_mm: float) -> bool:
    """Whether what is left and the whole life may be given in whole thousands, and no plate lasts for ever."""
    gone = km / (new_mm - now_mm)
    figures = (gone * (now_mm - least_mm), gone * (new_mm - least_mm))
    return figures[1] < 200 and all(abs(round(figure) - figure) < 0.015 * figure for figure in figures)


@exercise("measure.feeler", lesson="measure", outcome=IS_SURE, minutes=2, title="Say what the feeler leaves tell")
def feeler(draw: Draw) -> Number:
    car = draw.vehicle()
    upper = draw.form(2) == 1
    left_out = draw.pick(*FEELER_LEAVES_MM)
    leaves = [leaf for leaf in FEELER_LEAVES_MM if leaf != left_out]
    at = draw.integer(1, 4 if not upper else 3)
    goes, stops = leaves[at], leaves[at + 1]
    right, within = stops if upper else goes, plus_minus(0.004)
    asked = "Which leaf does the gap surely stay below" if upper else "How wide is the gap at least"
    return Number(
        ask=f"Straight edge across the flywheel of {car.name}, place {draw.integer(1, 6)}. Every leaf of the set was tried; "
        f"the gap is drawn enlarged. {asked}, in mm?",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings.feeler(leaves, goes, upper=upper), within),
        why=f"Leaf {goes:.2f} goes, leaf {stops:.2f} does not. Two leaves give two bounds, never a figure.",
        step="Go from thin to thick: which leaf is the last that reaches under the edge, and which is the first that stops?",
        solution=f"At least {goes:.2f} mm, surely below {stops:.2f} mm. {_follows(goes, stops, car.flywheel.flatness_limit_mm)}",
        picture=Picture("feeler-and-straight-edge", {"goes_mm": goes, "leaves_mm": leaves}),
        source="tm-5-2420-222-34",
        vehicle=car.id,
    )


def _follows(goes_mm: float, stops_mm: float, limit_mm: float) -> str:
    """Return what two leaves say about a limit."""
    if stops_mm <= limit_mm:
        return f"Limit {limit_mm:.2f} mm: within."
    if goes_mm > limit_mm:
        return f"Limit {limit_mm:.2f} mm: over, the flywheel is replaced."
    return f"Limit {limit_mm:.2f} mm: not settled, so stop and ask."


@exercise("measure.on-the-limit", lesson="measure", outcome=IS_SURE, minutes=2, title="Decide on the limit, or nearly")
def on_the_limit(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    return form.choice(draw, vehicle=car.id, car=car.name, **_near_limit(draw, car, form.key))


def _near_limit(draw: Draw, car: Vehicle, form: str) -> dict[str, Any]:
    """Return a limit of the car and what was found close to it, as the form speaks of them."""
    if form == "exactly-on-it":
        limit = car.clutch.plate_runout_limit_mm
        return {"limit": f"{limit:g}", "exact": f"{limit:.2f}", "tries": draw.integer(2, 4)}
    if form == "no-leaf-between":
        limit = car.flywheel.flatness_limit_mm
        goes, stops = f"{limit - 0.01:.2f}", f"{limit + 0.02:.2f}"
        return {"limit": f"{limit:.2f}", "goes": goes, "stops": stops}
    limit = car.flywheel.face_runout_limit_mm
    off = draw.integer(2, 4) if form == "over-by-thousandths" else -draw.integer(4, 8)
    return {"limit": f"{limit:.2f}", "limit_3": f"{limit:.3f}", "found": f"{limit + off / 1000:.3f}"}
