"""Lesson 9, assembly: the plate's side and its centre, the cover on its dowels, half-turns, the self-adjusting cover."""

from math import ceil

from bitepoint.bank.assembly.outcomes import CLUTCH
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise("assembly.plate-side", lesson="assembly", outcome=CLUTCH, minutes=1.5, title="Turn the plate the right way")
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


@exercise(
    "assembly.centring-tool",
    lesson="assembly",
    outcome=CLUTCH,
    minutes=1.5,
    title="Prove that the plate is centred",
)
def centring_tool(draw: Draw) -> Choice:
    return form_of(draw).choice(draw, bolts=draw.pick(6, 9))


_TIMES = ("No", "One", "Two", "Three", "Four", "Five", "Six")


@exercise(
    "assembly.cover-positions", lesson="assembly", outcome=CLUTCH, minutes=1.5, title="Count the positions of a cover"
)
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
        dowels=cover.dowels_seen.replace(" deg", "°"),
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
    title="Count the rounds of half-turns",
    others=(("conventional cover",),),
)
def half_turns(draw: Draw) -> Number:
    under_way = draw.form(2) == 1
    car = draw.pick(*draw.cars("conventional cover"))
    pitch = car.clutch.cover.pitch_mm
    a_round = pitch / 2
    gap = draw.until(lambda mm: 0.05 < mm / a_round % 1 < 0.95, lambda: draw.value(4.5, 9.0, 0.1))
    done = draw.integer(2, 3) if under_way else 0
    left = gap - done * a_round
    right = ceil(left / a_round)
    told = (
        f"{done} rounds are done. How many more rounds, with the begun one, until it lies flat?"
        if done
        else "How many rounds until it lies flat? Count a begun round."
    )
    known = [
        (ceil(left / pitch), *_FULL_TURN),
        (right * 2, *_HALVED_TWICE),
        (right - 1, *_BEGUN_ROUND),
        *([(ceil(gap / a_round), *_FROM_THE_START)] if done else []),
    ]
    taken_off = f"{gap:g} − {done} × {a_round:g} = {left:g} mm. " if done else ""
    return Number(
        ask=f"The cover of {car.name} stands off by {gap:g} mm when its bolts first touch. "
        f"The bolts are {car.clutch.cover.thread}. Each round gives every bolt half a turn. {told}",
        answer=float(right),
        unit="",
        within=plus_minus(0.4),
        decimals=0,
        mistakes=tuple(Mistake(float(value), name, says) for value, name, says in known),
        why=f"After {right} rounds it lies flat and was level all the way. Then it gets its torque, in the same star.",
        step=f"One turn moves a bolt by its pitch, {pitch:g} mm. So half a turn moves it by {a_round:g} mm.",
        solution=f"{taken_off}{left:g} ÷ {a_round:g} = {left / a_round:.1f}, so {right} rounds.",
        source="derived",
        vehicle=car.id,
    )


_FULL_TURN = (
    "takes a full turn a round",
    "You took a full turn a round. Pulled down so fast on one side, a cover bends for good.",
)
_HALVED_TWICE = (
    "halves the turn once more",
    "You halved the way once more. Who waits for rounds that never come tightens a cover that is down already.",
)
_BEGUN_ROUND = (
    "leaves out the begun round",
    "You left out the round that is begun. The cover still stands off, and the torque would pull it down askew.",
)
_FROM_THE_START = (
    "counts from the start",
    "You counted from the start. The rounds that are done have moved the cover already.",
)


@exercise(
    "assembly.self-adjusting",
    lesson="assembly",
    outcome=CLUTCH,
    minutes=1.5,
    title="Fit a self-adjusting cover",
    needs=("self-adjusting cover",),
)
def self_adjusting(draw: Draw) -> Choice:
    car, height = draw.vehicle(), draw.integer(6, 12) * 10
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, height=height, gap=height // 20 + 2)
