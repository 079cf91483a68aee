"""Lesson 2, working safely: the look round the bay, on the lift, with the gearbox coming out, before the engine runs."""

from collections.abc import Callable

from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.outcomes import CLEAN, LIFTS, RUNS
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.questions.region import Spot
from bitepoint.questions.spots import Spots
from bitepoint.workshop.scenes import LETTERS, Scene, scenes


def _spot(scene: Scene, index: int, wrong: frozenset[str]) -> Spot:
    """What is wrong must be marked; leaving out what could hurt someone is critical, marking too much never is."""
    place = scene.places[index]
    is_wrong = place.id in wrong
    name = place.overlooks if is_wrong else f"marks what is right: {place.name.split(',')[0]}"
    says = f"{place.danger}." if is_wrong else place.fine
    return Spot(LETTERS[index], place.name, is_wrong, name, says, place.hurts and is_wrong)


def _drawn(draw: Draw, scene: Scene, enough: Callable[[frozenset[str]], bool]) -> frozenset[str]:
    """Three to five places that are wrong, their number changing with each turn."""
    count = 3 + draw.form(3)
    return draw.until(enough, lambda: frozenset(draw.sample(scene.can_be_bad(), count)))


def _look_round(
    draw: Draw, id: str, *, ask: str, why: str, step: str, enough: Callable[[frozenset[str]], bool] = lambda _: True
) -> Spots:
    scene = scenes()[id]
    wrong = _drawn(draw, scene, enough)
    ids = [place.id for place in scene.places if place.id in wrong]
    return Spots(
        ask=ask,
        typed_as="Typed, the answer is the letters.",
        spots=tuple(_spot(scene, i, wrong) for i in range(len(scene.places))),
        picture=Picture(id, {"wrong": ids}),
        why=why,
        step=step,
        solution="\n".join(
            f"{LETTERS[i].upper()}, {place.name}: {place.danger}."
            for i, place in enumerate(scene.places)
            if place.id in wrong
        ),
        source=scene.source,
    )


@exercise("safe.lift-bay", lesson="safe", outcome=LIFTS, minutes=2.5, title="Look round: the car goes up")
def lift_bay(draw: Draw) -> Spots:
    return _look_round(
        draw,
        "bay-lifting",
        ask="Somebody presses the button, and the car goes up. Mark everything that could hurt somebody.",
        why="Tag, pads, boot, lock, and who stands where: each has brought a car down on somebody.",
        step="Go from the floor to the roof. At each letter ask: what could fall, tip or swing?",
    )


@exercise("safe.strip-bay", lesson="safe", outcome=CLEAN, minutes=2.5, title="Look round: the gearbox comes out")
def strip_bay(draw: Draw) -> Spots:
    return _look_round(
        draw,
        "bay-strip-down",
        ask="The gearbox comes out, and two people work here. Mark everything that must be put right first.",
        why="What holds the load, what lies underfoot, what gets into the air: settled before the next bolt.",
        step="At each letter ask: what could fall or roll? What lies underfoot? What is breathed?",
        enough=lambda wrong: bool(wrong & {"air-line", "dust-bag", "floor"}),
    )


@exercise("safe.run-bay", lesson="safe", outcome=RUNS, minutes=2.5, title="Look round: the engine is about to run")
def run_bay(draw: Draw) -> Spots:
    return _look_round(
        draw,
        "bay-engine-running",
        ask="The clutch is in; it sits just behind the front wheel. The engine is about to be started and revved in steps. "
        "Mark everything that must be put right first.",
        why="Gas, line of the clutch, chocks, neutral, loose things, a free way to the extinguisher: then the key turns.",
        step="At each letter ask: what could be breathed, fly, roll, jump or catch?",
    )
