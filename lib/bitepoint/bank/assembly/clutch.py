"""Lesson 9, assembly: the plate's side and its centre, the cover on its dowels, half-turns, the self-adjusting cover."""

from math import ceil

from bitepoint.bank.assembly.outcomes import CLUTCH
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise("assembly.plate-side", lesson="assembly", outcome=CLUTCH, minutes=1.5, title="The side of the plate")
def plate_side(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    away = car.clutch.mark_faces == "gearbox"
    pairs = {"mark": ("to-gearbox", "to-flywheel"), "seen-from-gearbox": ("right-way", "wrong-way")}
    right, wrong = pairs.get(form.key, ("", ""))[:: 1 if away else -1]
    others = [option.key for option in form.option if option.key not in (right, wrong)]
    return form.choice(
        draw,
        right=right,
        offers=[right, wrong, *others] if right else (),
        vehicle=car.id,
        car=car.name,
        mark=car.clutch.mark,
        spoken=car.clutch.mark.capitalize(),
        faces=car.clutch.mark_faces,
    )


@exercise("assembly.centring-tool", lesson="assembly", outcome=CLUTCH, minutes=1.5)
def centring_tool(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, bolts=draw.pick(6, 8, 9))


_TIMES = ("No", "One", "Two", "Three", "Four", "Five", "Six")


@exercise("assembly.cover-positions", lesson="assembly", outcome=CLUTCH, minutes=1.5, title="Positions of the cover")
def cover_positions(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    cover, positions = car.clutch.cover, car.clutch.cover.positions
    unseen, miscounted = (2 if positions == 1 else 1), (2 if positions > 2 else 3)
    counted = form.key == "how-many"
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        bolts=cover.n,
        dowels=cover.dowels_seen,
        positions=_TIMES[positions] if counted else _positions(positions),
        unseen=_TIMES[unseen],
        miscounted=_TIMES[miscounted],
    )


def _positions(count: int) -> str:
    return f"{_TIMES[count].lower()} position{'s' if count > 1 else ''}"


@exercise(
    "assembly.half-turns",
    lesson="assembly",
    outcome=CLUTCH,
    beyond=True,
    minutes=2,
    title="Rounds of half-turns",
    others=(("conventional cover",),),
)
def half_turns(draw: Draw) -> Number:
    form = draw.form(2)
    car = draw.pick(*draw.cars("conventional cover"))
    pitch = car.clutch.cover.pitch_mm
    gap, a_round = draw.until(
        lambda pair: 0.05 < (pair[0] / pair[1]) % 1 < 0.95 and (pair[0] / pitch * 2) > 6,
        lambda: (draw.value(4.0, 9.0, 0.1), pitch / (2 if form == 0 else 4)),
    )
    turn = ("half a turn", "a quarter turn")[form]
    right, whole = ceil(gap / a_round), ceil(gap / pitch)
    return Number(
        ask=f"The cover of {car.name} stands off by {gap:g} mm when its bolts first touch. "
        f"The bolts are {car.clutch.cover.thread}. Each round gives every bolt {turn}. "
        "How many rounds until the cover lies flat? Count a begun round.",
        answer=float(right),
        unit="",
        within=plus_minus(0.4),
        decimals=0,
        mistakes=(
            Mistake(
                float(whole),
                "reckons with a full turn a round",
                "You reckoned with a full turn. Pulled down so fast on one side, a cover bends for good.",
            ),
            Mistake(
                float(right * 2),
                "halves the turn once more",
                "You halved the way once more. Who counts too many rounds loses count and skips a bolt.",
            ),
        ),
        why=f"{right} rounds bring it down level. A cover that goes down askew bends, and the pedal pulses.",
        step=f"One turn moves a bolt by its pitch, {pitch:g} mm. So {turn} moves it by {a_round:g} mm.",
        solution=f"{gap:g} / {a_round:g} = {gap / a_round:.1f}, so {right} rounds.",
        source="derived",
        vehicle=car.id,
    )


@exercise(
    "assembly.self-adjusting",
    lesson="assembly",
    outcome=CLUTCH,
    minutes=1.5,
    title="Self-adjusting cover",
    needs=("self-adjusting cover",),
)
def self_adjusting(draw: Draw) -> Choice:
    car, height = draw.vehicle(), draw.integer(6, 12) * 10
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, height=height, gap=height // 10)
