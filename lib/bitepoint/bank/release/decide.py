"""Lesson 10, the release system: what a pedal tells, and whether the work is finished."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.outcomes import DECIDES, FINDS
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.workshop.figures import foot_force_n


@exercise("release.firm-or-soft", lesson="release", outcome=FINDS, minutes=2, title="Tell firm, soft and sinking apart")
def firm_or_soft(draw: Draw) -> Choice:
    got, want, seconds = draw.integer(7, 10), draw.integer(13, 15), draw.integer(20, 50)
    return form_of(draw).choice(draw, got=got, want=want, seconds=seconds)


_FACTORS = {"too-heavy": (1.5, 1.8, 0.05), "as-the-sheet": (0.95, 1.08, 0.01), "too-light": (0.5, 0.65, 0.05)}
"""What is measured, as lowest and highest share of what the sheet gives, and the step between."""


_HYDRAULIC = ("rods-rub", "lost-in-the-line", "nipple")
_CABLE = ("cable-rubs", "lost-at-the-cable", "worn-pivot")
"""What rubs, where travel is lost, and what is blamed wrongly, by the way the foot reaches the bearing."""


@exercise("release.heavy-pedal", lesson="release", outcome=FINDS, minutes=2, title="Judge the force at the pedal")
def heavy_pedal(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    expected = foot_force_n(car)
    factors = {key: draw.value(*span) for key, span in _FACTORS.items()}
    measured = round(expected * factors[form.key] / 5) * 5
    hydraulic = car.release.master_bore_mm is not None
    rubs, lost, other = _HYDRAULIC if hydraulic else _CABLE
    offers = {
        "too-heavy": [rubs, "wears-in", other, "lighter-cover"],
        "as-the-sheet": ["nothing", "what-rubs", "lighter-cover", "ask-first"],
        "too-light": [lost, "nothing", "what-rubs", "bent-lever"],
    }
    return form.choice(
        draw,
        offers=offers[form.key],
        vehicle=car.id,
        car=car.name,
        expected=f"{expected:.0f}",
        measured=measured,
        ratio=f"{measured / expected:.2f}",
    )


@exercise(
    "release.bleed-log",
    lesson="release",
    outcome=DECIDES,
    minutes=2,
    title="Read the bleeding log",
    needs=("hydraulic release",),
)
def bleed_log(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    logs = {
        "all-good": (15, draw.integer(60, 66), 0, "none from stroke 9 on"),
        "sinks": (15, draw.integer(58, 66), draw.integer(12, 18), "none from stroke 12 on"),
        "bubbles": (18, draw.integer(36, 42), 0, "1, none, 1, none"),
        "no-play": (30, draw.integer(92, 98), 0, "none from stroke 6 on"),
    }
    start, after, hour, last = logs[form.key]
    late = after - hour - (1 if form.key == "all-good" else 0)
    free = "none" if form.key == "no-play" else f"{car.release.free_play_set_mm:g} mm"
    return form.choice(
        draw,
        table=(
            ("Line of the log", "Seen"),
            ("Bubbles at the end, of 20 strokes", last),
            ("Biting point before bleeding", f"{start} mm"),
            ("Biting point after bleeding", f"{after} mm"),
            ("Biting point after one hour", f"{late} mm"),
            ("Free play at the pedal", free),
        ),
        vehicle=car.id,
        car=car.name,
    )


@exercise(
    "release.no-play",
    lesson="release",
    outcome=DECIDES,
    minutes=1.5,
    title="Decide about the free play",
    others=(("free play set by hand",),),
)
def no_play(draw: Draw) -> Choice:
    form = form_of(draw)
    car = draw.cars(*form.needs)[0]
    low, high = car.release.free_play_mm
    much = form.key == "too-much-rod"
    play = draw.integer(int(high) + 8, int(high) + 16) if much else draw.integer(0, 2)
    return form.choice(draw, vehicle=car.id, car=car.name, play=play, low=f"{low:g}", high=f"{high:g}")


@exercise("release.always-new", lesson="release", outcome=DECIDES, minutes=1.5, title="Decide: new, or by finding")
def always_new(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, km=draw.integer(40, 95))
