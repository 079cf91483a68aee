"""Lesson 8, star tightening: the impact tool."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import JUDGES
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

_Form = tuple[str, str, list[Mistake], str]


@exercise("star.impact", lesson="star", outcome=JUDGES, minutes=1.5)
def impact(draw: Draw) -> Choice:
    turns, n = draw.integer(2, 4), draw.vehicle().flywheel.bolt_count
    ask, best, others, why = (_offered, _stiff, _cover)[draw.form(3)](turns, n)
    return Choice.of(
        draw,
        ask=ask,
        right=best,
        wrong=others,
        why=why,
        step=f"Ask what your fingers feel in the first {turns} turns, and what an impact tool lets you feel.",
        solution=f"{best}. {why}",
        source="common-practice",
    )


def _offered(turns: int, n: int) -> _Form:
    others = [
        Mistake(
            "Yes, but only until the heads touch",
            "runs bolts in with an impact tool",
            (
                "At that speed you feel no crossed thread, and the locking patch burns off. The bolt "
                "holds badly and works loose."
            ),
            True,
        ),
        Mistake(
            "Yes, on its lowest step, then the torque wrench",
            "thinks that the lowest step is gentle",
            (
                "Nobody knows what the lowest step does to one bolt. It may be past its torque before "
                "the wrench comes, and break later."
            ),
            True,
        ),
        Mistake(
            "Yes, for all bolts but the first two",
            "thinks that two bolts by hand are enough",
            (
                "Every thread can be crossed, not only the first two. A crossed bolt clamps nothing, and "
                "the flywheel works loose."
            ),
            True,
        ),
    ]
    why = (
        "Fingers feel a crossed thread in the first turns. An impact tool feels nothing and burns off "
        "the locking patch."
    )
    return (
        f"A colleague offers an impact wrench to run in the {n} new flywheel bolts faster. What do you say?",
        "No: by finger, then by hand tool",
        others,
        why,
    )


def _stiff(turns: int, n: int) -> _Form:
    others = [
        Mistake(
            "Help it in with the impact wrench",
            "forces a stiff thread",
            ("Forced in, a crossed bolt cuts the crankshaft thread. It clamps nothing, and the flywheel works loose."),
            True,
        ),
        Mistake(
            "Go on with a long ratchet, carefully",
            "forces a stiff thread with a long lever",
            ("A long lever hides the resistance as well. The crossed thread is cut, and the bolt will not hold."),
            True,
        ),
        Mistake(
            "Put oil on the thread and try again",
            "oils a bolt with a locking patch",
            (
                "Oil takes the grip from the patch and lets the same torque stretch the bolt much "
                "further. It can come loose or break."
            ),
            True,
        ),
    ]
    why = (
        "A locking patch drags evenly. A thread that stops hard is crossed, dirty or wrong, and only "
        "looking tells which."
    )
    return (
        f"A new flywheel bolt stops hard after {turns} turns by finger. What do you do?",
        "Turn it back out and look at bolt and hole",
        others,
        why,
    )


def _cover(turns: int, n: int) -> _Form:
    others = [
        Mistake(
            "Pull it down with the impact wrench, then finish by torque wrench",
            "pulls the cover down with an impact tool",
            (
                "One side goes down hard and bends the cover rim. The clutch then judders, and a bolt "
                "can be past its torque unseen."
            ),
            True,
        ),
        Mistake(
            "Run in every second bolt with the impact wrench",
            "thinks that some bolts may be run in by impact",
            (
                "Those bolts may be crossed or overstretched without anyone feeling it. They can let go "
                "with the clutch at speed."
            ),
            True,
        ),
        Mistake(
            "Tighten one bolt right down, then the next",
            "draws the cover down on one side",
            (
                "One side is down while the other stands off. The rim bends, and the pressure plate no "
                "longer lifts evenly."
            ),
        ),
    ]
    why = (
        "The spring stands against the bolts. Small, even steps bring it down level, and your hand feels every thread."
    )
    return (
        f"The clutch cover stands {turns} mm off the flywheel, held by its spring. How do you bring it down?",
        "By finger first, then crosswise in half turns by hand tool",
        others,
        why,
    )
