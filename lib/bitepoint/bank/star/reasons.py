"""Lesson 8, star tightening: what the star does and what the stages do."""

from collections.abc import Sequence

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import EXPLAINS, listed, spaced
from bitepoint.mechanics.circle import even_circle_deg
from bitepoint.mechanics.interaction import preloads_after
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise("star.why-star", lesson="star", outcome=EXPLAINS, minutes=2, title="Explain what the star does")
def why_star(draw: Draw) -> Choice:
    near, far = draw.integer(8, 12), draw.integer(2, 4)
    order = (1, 5, 3, 7, 2, 6, 4, 8)
    weakest = min(preloads_after([(order, 100.0)], 8, loss=[near / 100, far / 100]))
    return form_of(draw).choice(draw, weakest=f"{weakest:.0f}")


@exercise("star.weakest-bolt", lesson="star", outcome=EXPLAINS, minutes=8, beyond=True, title="Find the weakest bolt")
def weakest_bolt(draw: Draw) -> Number:
    form = draw.form(4)
    near = draw.value(8, 14, 0.5)
    far = draw.value(2, 5, 0.5) if form < 2 else 0.0
    bolts = (8, 6, 4, 4)[form]
    order = tuple(range(1, bolts + 1)) if form == 1 else star_order(even_circle_deg(bolts))
    targets = ((100,), (100,), (30, 70, 100), (100, 100))[form]
    loss = [near / 100, far / 100] if far else [near / 100]
    loads = [preloads_after([(order, t) for t in targets[: i + 1]], bolts, loss=loss) for i in range(len(targets))]
    right = min(loads[-1])
    after = "\n".join(
        f"After {t} %: {', '.join(f'{f:.1f}' for f in load)}" for t, load in zip(targets, loads, strict=True)
    )
    return Number(
        ask=_weakest_ask(bolts, order, targets, near, far),
        answer=right,
        unit="%",
        within=plus_minus(0.1 if form == 3 else 0.3),
        decimals=1,
        mistakes=_weakest_mistakes(form, near, far, sum(loads[-1]) / bolts),
        why=f"The weakest bolt ends at {right:.1f} %. Each later bolt takes a little from those before it. "
        "More stages and a second round bring it back. The order alone does not.",
        step=(f"Follow the first bolt in the order, bolt {order[0]}. It loses each time a bolt near it is raised."),
        solution=f"Bolts 1 to {bolts}, in per cent of the target.\n{after}\nThe weakest ends at {right:.1f} %.",
        source="derived",
    )


def _weakest_ask(bolts: int, order: Sequence[int], targets: Sequence[int], near: float, far: float) -> str:
    rounds = {
        1: "one round at 100 %",
        2: "two rounds, both at 100 %",
        3: f"three rounds, at {listed(targets)} %",
    }[len(targets)]
    others = f"It takes {far:g} % from the next but one on each side." if far else "The others lose nothing."
    return (
        f"A model joint has {bolts} bolts on a ring. Raising one bolt takes {near:g} % of the rise from "
        f"each of its two neighbours. {others} Slack bolts have nothing to lose. "
        f"Order: {spaced(order)}, {rounds} of the target. "
        "What does the weakest bolt hold at the end, in per cent of the target? A table on paper does it."
    )


def _weakest_mistakes(form: int, near: float, far: float, mean: float) -> tuple[Mistake, ...]:
    stays = Mistake(
        100.0,
        "thinks that torque once set stays",
        "Torque once set does not stay. Each later bolt presses the "
        "joint and relaxes its neighbours. Left so, the first bolts work loose.",
    )
    average = Mistake(
        mean, "gives the mean", "That is the mean of all bolts. A joint lets go at its weakest bolt first."
    )
    if form < 2:
        near_only = Mistake(
            100 - 2 * near,
            "forgets the next but one",
            "You took the neighbours only. The next but one takes "
            "its share too, so the bolt holds less than you think.",
        )
        return stays, average, near_only
    single = Mistake(
        100 - 2 * near,
        "leaves out the other rounds",
        "That is what one round leaves. You left out the other "
        "rounds, so you see no use in them and skip them on the car.",
    )
    return (stays, average, single) if form == 2 else (stays, single)
