"""Lesson 9, assembly: run-out, level fingers, the half-built clutch, what went wrong."""

from bitepoint.bank.assembly.flywheel import bolts_that_start
from bitepoint.bank.assembly.outcomes import JUDGES
from bitepoint.bank.forms import Form, form_of
from bitepoint.bank.measure.turn import turn_readings
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw

_AGAIN = "1 again"


def _turn(draw: Draw, swing_mm: float) -> list[float]:
    """Return eight readings of one turn [mm], one wave of exactly this swing, and place 1 once more."""
    lines = round(swing_mm * 100)
    turn = draw.until(
        lambda found: max(found) - min(found) == lines, lambda: turn_readings(draw, lines, draw.integer(-6, 2))
    )
    return [n / 100 for n in (*turn, turn[0])]


@exercise("assembly.run-out", lesson="assembly", outcome=JUDGES, minutes=2.5, title="Judge the run-out you measured")
def run_out(draw: Draw) -> Choice:
    car = draw.vehicle()
    limit = car.flywheel.face_runout_limit_mm
    swing = round(limit * (0.6, 1.5, 1.0)[draw.form(3)], 2)
    readings = _turn(draw, swing)
    right, wrong = ("off", "accept") if swing > limit else ("accept", "off")
    return form_of(draw).choice(
        draw,
        right=right,
        offers=[right, wrong, "halve", "pull-straight"],
        table=(("Place", *(str(i) for i in range(1, 9)), _AGAIN), ("mm", *(f"{r:+.2f}" for r in readings))),
        vehicle=car.id,
        car=car.name,
        limit=f"{limit:g}",
        swing=f"{swing:.2f}",
        highest=f"{max(readings):+.2f}",
        lowest=f"{min(readings):+.2f}",
    )


@exercise(
    "assembly.finger-level",
    lesson="assembly",
    outcome=JUDGES,
    beyond=True,
    minutes=2,
    title="Judge the level of the fingers",
)
def finger_level(draw: Draw) -> Choice:
    car, over = draw.vehicle(), draw.form(2) == 1
    limit = car.clutch.finger_coplanarity_limit_mm
    spread = round(limit * (1.6 if over else 0.5), 1)
    base = draw.value(38.0, 46.0, 0.1)
    heights = [round(base + n, 1) for n in draw.shuffle([0.0, spread, *(draw.pick(0.1, 0.2) for _ in range(4))])]
    right, wrong = ("slacken", "go-on") if over else ("go-on", "slacken")
    return form_of(draw).choice(
        draw,
        right=right,
        offers=[right, wrong, "bend" if over else "mean", "ask-first"],
        table=(("Finger", *(str(i) for i in range(1, 7))), ("mm", *(f"{h:.1f}" for h in heights))),
        vehicle=car.id,
        car=car.name,
        limit=f"{limit:g}",
        apart=f"{max(heights) - min(heights):.1f}",
        highest=f"{max(heights):.1f}",
        lowest=f"{min(heights):.1f}",
    )


@exercise("assembly.half-built", lesson="assembly", outcome=JUDGES, minutes=2, title="Judge a half-built clutch")
def half_built(draw: Draw) -> Several:
    return form_of(draw).several(draw, minutes=draw.integer(4, 20))


@exercise(
    "assembly.what-went-wrong",
    lesson="assembly",
    outcome=JUDGES,
    beyond=True,
    minutes=2,
    title="Say what went wrong",
)
def what_went_wrong(draw: Draw) -> Choice:
    form = form_of(draw)
    if form.key == "ratchet":
        return _ratchet(draw, form)
    figure = draw.integer(1, 6)
    return form.choice(draw, grams=figure + 4, gap=figure + 3)


def _ratchet(draw: Draw, form: Form) -> Choice:
    car = draw.cars(*form.needs)[0]
    limit = car.flywheel.face_runout_limit_mm
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        place=draw.integer(1, car.flywheel.bolt_count),
        run_out=f"{limit + 0.05:.2f}",
        limit=f"{limit:g}",
        **bolts_that_start(car),
    )
