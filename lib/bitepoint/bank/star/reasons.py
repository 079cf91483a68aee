"""Lesson 8, star tightening: what the star does and what the stages do."""

from collections.abc import Sequence

from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import EXPLAINS, listed, spaced
from bitepoint.mechanics.circle import even_circle_deg
from bitepoint.mechanics.interaction import preloads_after
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise("star.why-star", lesson="star", outcome=EXPLAINS, minutes=2)
def why_star(draw: Draw) -> Choice:
    near, far = draw.integer(8, 12), draw.integer(2, 4)
    order = (1, 5, 3, 7, 2, 6, 4, 8)
    weakest = min(preloads_after([(order, 100.0)], 8, loss=[near / 100, far / 100]))
    form = draw.form(3)
    ask, best, others = (_what_it_does, _what_lifts, _circle_talk)[form](f"{weakest:.0f} %")
    return Choice.of(
        draw,
        ask=ask,
        right=best,
        wrong=others,
        why="Within one round the star only keeps the part level. "
        "Each later bolt still relaxes those before it. "
        "More stages and a second round bring that preload back.",
        step=f"After one round the weakest of eight bolts holds {weakest:.0f} % in our model, "
        "by star or by circle. "
        "So ask what differs: where the pull sits while you work.",
        solution=f"{best}. The stages and the second round bring the preload back, not the order.",
        source="derived",
    )


_LIFTS = Mistake(
    "It gives every bolt more preload",
    "thinks that the star lifts the preload",
    (
        "In one round the mean preload is the same in any order. Who trusts the order alone skips the "
        "second round, and bolts stay weak."
    ),
)


_EVENS = Mistake(
    "It makes all bolts equally tight",
    "thinks that the star evens the preload",
    (
        "In one round the first bolts end weaker than the last, in any order. Who trusts the order alone "
        "leaves weak bolts behind."
    ),
)


_NO_ROUND = Mistake(
    "It makes the second round needless",
    "thinks that the star replaces the second round",
    (
        "The second round finds the bolt that relaxed. Without it a weak bolt works loose, and a loose "
        "flywheel can break free."
    ),
    True,
)


def _what_it_does(weakest: str) -> tuple[str, str, list[Mistake]]:
    ask = f"Eight bolts, one round in a star. In our model the weakest bolt ends at {weakest}. What has the star done?"
    return ask, "It kept the part from being drawn down on one side", [_LIFTS, _EVENS, _NO_ROUND]


def _what_lifts(weakest: str) -> tuple[str, str, list[Mistake]]:
    ask = f"After one round the weakest of eight bolts holds {weakest} of its target. What brings it up?"
    others = [
        Mistake(
            "Another star, starting at another bolt",
            "thinks that the star lifts the preload",
            "Another order only picks other weak bolts. The mean stays the same, so the joint is no safer.",
        ),
        Mistake(
            "A higher wrench setting on the last bolts",
            "sets the wrench higher to make up",
            (
                "Setting the wrench above the sheet stretches those bolts and still leaves the first "
                "ones weak. They can break or let go."
            ),
            True,
        ),
        Mistake(
            "Nothing is needed: every bolt clicked",
            "trusts the click",
            (
                "The click tells what a bolt held at that moment. Later bolts took some of it away, so "
                "it can work loose."
            ),
            True,
        ),
    ]
    return ask, "More stages, then a second round after all bolts", others


def _circle_talk(weakest: str) -> tuple[str, str, list[Mistake]]:
    ask = (
        "A colleague says: “I go round the circle. The torque is the same in the end.” "
        f"One round leaves the weakest bolt at {weakest} either way. What do you answer?"
    )
    others = [
        Mistake(
            "“You are right, the order makes no difference”",
            "thinks that the order makes no difference",
            (
                "Round the circle one side is drawn down first. The flywheel can seat tilted and then "
                "runs out at the rim."
            ),
        ),
        Mistake(
            "“The circle leaves less preload on average”",
            "thinks that the star lifts the preload",
            (
                "On average both leave the same. Who looks for the gain there misses the tilt and skips "
                "the second round."
            ),
        ),
        Mistake(
            "“Round the circle is fine if you set the wrench higher”",
            "sets the wrench higher to make up",
            (
                "A higher setting does not level a tilted part. It stretches the bolts beyond the sheet, "
                "and they can break."
            ),
            True,
        ),
    ]
    return ask, "“The mean preload is the same, but one side is drawn down first”", others


@exercise("star.weakest-bolt", lesson="star", outcome=EXPLAINS, minutes=8, beyond=True)
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
