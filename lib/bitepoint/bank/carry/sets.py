"""Lesson 1, how a clutch carries torque: which flywheel, plate and bolts go together."""

from bitepoint.bank.carry.common import DAMPS, table_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.workshop.vehicles import vehicle


@exercise("carry.go-together", lesson="carry", title="What goes together", outcome=DAMPS, minutes=3)
def go_together(draw: Draw) -> Several:
    car = vehicle(draw.pick("B", "C"))
    dmf = car.flywheel.bolt_dmf
    assert dmf is not None
    own, other = f"{car.flywheel.bolt.thread}×{car.flywheel.bolt.length_mm:g}", f"{dmf.thread}×{dmf.length_mm:g}"
    rigid = draw.form(2) == 0
    asked = (
        "Tick every set that may be built in, if the maker approves it for this car."
        if rigid
        else "It stays with its dual-mass flywheel. Tick everything that is right for it."
    )
    return Several.of(
        draw,
        options=_whole_sets(own, other) if rigid else _dual_mass_parts(own, other),
        ask=f"Parts for {car.name} lie on the bench. {asked}",
        table=table_of(("Bolts of the rigid flywheel", own), ("Bolts of the dual-mass flywheel", other)),
        why="One soft part against the beats, never two and never none. And each flywheel has its own bolts.",
        step="Count the soft parts of each set. Then compare the bolts with the table.",
        solution="Rigid flywheel: long-travel plate and its own bolts. Dual-mass: rigid-hub plate and its own bolts.",
        source="common-practice",
        vehicle=car.id,
    )


_BOLTS_ONLY = "judges bolts by their thread"
_TOO_LONG = (
    "The thread is the same, the length is not. A bolt too long bottoms in the crankshaft and "
    "clamps nothing: "
    "the flywheel comes loose."
)


def _whole_sets(own: str, other: str) -> tuple[Option, ...]:
    return (
        needed(
            f"Rigid flywheel, long-travel plate, bolts {own}",
            "leaves out the rigid set",
            (
                "A soft damper sits in the plate, and the bolts are those of the flywheel. Left "
                "out, the customer has no choice."
            ),
        ),
        needed(
            f"Dual-mass flywheel, rigid-hub plate, bolts {other}",
            "leaves out the dual-mass set",
            "The soft springs sit in the flywheel, so the plate may be rigid. Left out, the customer has no choice.",
        ),
        wrong(
            f"Rigid flywheel, rigid-hub plate, bolts {own}",
            "leaves no damper at all",
            "Nothing soft is left. Gears rattle and splines wear until the drive fails on the road.",
        ),
        wrong(
            f"Dual-mass flywheel, long-travel plate, bolts {other}",
            "thinks that more damping is better",
            "Two soft parts in a row can swing against each other while driving, and the spring cage may touch.",
        ),
        wrong(f"Rigid flywheel, long-travel plate, bolts {other}", _BOLTS_ONLY, _TOO_LONG, critical=True),
    )


def _dual_mass_parts(own: str, other: str) -> tuple[Option, ...]:
    return (
        needed(
            "Plate with a rigid hub, approved for it",
            "leaves out the rigid-hub plate",
            "The flywheel has the springs, so this plate needs none. With the wrong one it swings.",
        ),
        needed(
            f"New bolts {other}",
            "leaves out the new bolts",
            "Bolts used once may be stretched or have lost their patch. Used again they can come loose.",
        ),
        wrong(
            "Plate with a long-travel damper",
            "thinks that more damping is better",
            "Two soft parts in a row can swing against each other while driving, and the spring cage may touch.",
        ),
        wrong(
            f"New bolts {own}",
            _BOLTS_ONLY,
            "The thread is the same, the length is not. Too short, only a few threads hold and can strip.",
            critical=True,
        ),
    )
