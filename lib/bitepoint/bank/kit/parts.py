"""Lesson 4, the right kit: the delivered parts against the list and against the old ones."""

from bitepoint.bank.kit.common import CHECKS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.kits import all_kits
from bitepoint.workshop.vehicles import Vehicle, vehicle

Line = tuple[str, str, str]
"""Part, what the list says, what lies in the box."""


@exercise("kit.contents", lesson="kit", outcome=CHECKS, minutes=3)
def contents(draw: Draw) -> Several:
    form = draw.form(3)
    car = vehicle("BCB"[form])
    lines, options = (_bolts_and_plate, _cover_and_grease, _slave_and_ring)[form](car)
    number = next(k.kit for k in all_kits() if k.engine_code == car.engine.code and k.flywheel == "rigid")
    return Several.of(
        draw,
        options=options,
        ask=f"Kit {number} for {car.name} has come, {draw.integer(1, 4)} boxes. You tick the list with each part "
        "in the hand. Which lines hold the job up? Pick all.",
        table=(("part", "list says", "in the box"), *draw.shuffle(lines)),
        why="Number, length, thread, splines, dowels: each line is ticked with the part in the hand. "
        "A fault found now costs a call, later it costs the lift.",
        step="Take one line at a time and compare every figure in it, not only the number of pieces.",
        solution="\n".join(o.text for o in options if o.right),
        source="invented",
        vehicle=car.id,
    )


def _good_lines(car: Vehicle) -> list[Line]:
    bolt, clutch = car.flywheel.bolt, car.clutch
    bolts = f"{car.flywheel.bolt_count} pieces M{bolt.d_mm:g}×{bolt.pitch_mm:g}×{bolt.length_mm:g}"
    plate = f"{clutch.plate_od_mm:g} mm, {clutch.splines} splines"
    ring = "with target ring" if car.id == "B" else f"{car.flywheel.ring_gear_teeth} teeth"
    return [
        ("rigid flywheel", ring, ring),
        ("driven plate", plate, plate),
        ("flywheel bolts", bolts, bolts),
        ("spline grease", "2 g", "2 g"),
        ("vehicle label", "1", "1"),
    ]


def _changed(lines: list[Line], **box: str) -> list[Line]:
    return [(part, says, box.get(part.replace(" ", "_"), there)) for part, says, there in lines]


_GOOD_FLYWHEEL = wrong(
    "The rigid flywheel",
    "doubts a line that agrees",
    "List and box agree there. Whoever sends good parts back waits for nothing.",
)
_LABEL_AGREES = wrong(
    "The vehicle label",
    "takes the label for a fault",
    "The label belongs in the kit: the next fitter orders by it. Its line agrees.",
)


def _bolts_and_plate(car: Vehicle) -> tuple[list[Line], list[Option]]:
    dmf = car.flywheel.bolt_dmf
    long = f"{car.flywheel.bolt_count} pieces M{dmf.d_mm:g}×{dmf.pitch_mm:g}×{dmf.length_mm:g}" if dmf else ""
    lines = _changed(
        _good_lines(car),
        flywheel_bolts=long,
        driven_plate=f"{car.clutch.plate_od_mm:g} mm, {car.clutch.splines + 3} splines",
    )
    lines.append(("reinforcing ring", "7.5 mm", "not there"))
    return lines, [
        needed(
            "The flywheel bolts",
            "counts the bolts only",
            "The number of pieces is not all. Bolts that are too long meet the end of the thread and clamp nothing.",
            critical=True,
        ),
        needed(
            "The driven plate",
            "takes the diameter for the plate",
            "Diameter alone is not the plate. With other splines it does not slide on the shaft, or it rocks.",
        ),
        needed(
            "The reinforcing ring",
            "overlooks a missing part",
            "One line of the list has no part. Without the ring the bolts reach too deep.",
            critical=True,
        ),
        _GOOD_FLYWHEEL,
        _LABEL_AGREES,
    ]


def _cover_and_grease(car: Vehicle) -> tuple[list[Line], list[Option]]:
    lines = _changed(_good_lines(car), spline_grease="not there")
    lines.append(("self-adjusting cover", "ring held in transport position", "ring has sprung, carton dented"))
    return lines, [
        needed(
            "The self-adjusting cover",
            "fits a cover that was dropped",
            "A ring that has let go holds the fingers wrong. The clutch may then not release.",
        ),
        needed(
            "The spline grease",
            "takes any grease from the shelf",
            "One line has no part. Another grease may fly off or swell the seal.",
        ),
        _GOOD_FLYWHEEL,
        wrong(
            "The flywheel bolts",
            "expects the bolts of the old flywheel",
            "They are shorter than the old ones, because the flywheel is thinner. List and box agree.",
        ),
        _LABEL_AGREES,
    ]


def _slave_and_ring(car: Vehicle) -> tuple[list[Line], list[Option]]:
    lines = _changed(_good_lines(car), rigid_flywheel="no target ring")
    short = f"{car.flywheel.bolt_count - 1} pieces"
    lines = _changed(lines, flywheel_bolts=short)
    lines.append(("concentric slave", "1, sealed bag", "1, sealed bag"))
    return lines, [
        needed(
            "The rigid flywheel",
            "overlooks the target ring",
            "Look for every word of the line on the part. Without speed signal the engine does not start.",
        ),
        needed(
            "The flywheel bolts",
            "makes do with an old bolt",
            "Count them. A used bolt among new ones can break, and the flywheel comes loose.",
            critical=True,
        ),
        wrong(
            "The concentric slave",
            "wants to use the old slave again",
            "It belongs in the kit and it is there. In a clutch job it is always new.",
        ),
        wrong(
            "The driven plate",
            "doubts the plate",
            "Diameter and splines agree with the list. Go on to the other lines.",
        ),
        _LABEL_AGREES,
    ]


@exercise("kit.finger-stack", lesson="kit", outcome=CHECKS, minutes=3, beyond=True)
def finger_stack(draw: Draw) -> Number:
    old_face, old_cover = draw.value(50.5, 54.0, 0.5), draw.value(46.5, 49.5, 0.5)
    thinner = draw.pick(1.5, 2.0, 2.5, 3.0)
    form = draw.form(3)
    new_face, new_cover = old_face - thinner, old_cover + thinner
    asked, given = (new_cover, new_face) if form < 2 else (new_face, new_cover)
    old_same, old_other = (old_cover, old_face) if form < 2 else (old_face, old_cover)
    what = "height of the new cover" if form < 2 else "distance from flange to face of the new flywheel"
    before = "You measured the new flywheel: flange to friction face"
    if form == 2:
        before = "You measured the new cover: height"
    closing = "Which figure puts the finger tips where they were?" if form != 1 else "What must it be?"
    return Number(
        ask=f"Rigid kit instead of dual-mass. Old parts: flange to friction face {old_face:.1f} mm, "
        f"cover height {old_cover:.1f} mm. {before} {given:.1f} mm. "
        f"Now for the {what}. {closing}",
        answer=asked,
        unit="mm",
        within=plus_minus(0.1),
        decimals=1,
        mistakes=(
            Mistake(
                old_same,
                "expects the same figure as before",
                "Single sizes may change with the flywheel type. "
                "Two parts stand on each other. If one changes and the other does not, the fingers sit wrong.",
            ),
            Mistake(
                2 * old_same - asked,
                "changes it the wrong way",
                "You went the wrong way. What one part loses, the other must gain, "
                "or the fingers are out by double, and the clutch drags or slips.",
            ),
            Mistake(
                old_face + old_cover,
                "gives the sum",
                "That is where the finger tips are. Take off the part that you know.",
            ),
        ),
        why=f"{old_face:.1f} + {old_cover:.1f} = {old_face + old_cover:.1f} mm before and after. "
        "So the fingers stand where the bearing meets them.",
        step=f"Add the two old sizes: {old_face:.1f} + {old_cover:.1f} mm. The two new ones must give the same.",
        solution=f"{old_face + old_cover:.1f} − {given:.1f} = {asked:.1f} mm.",
        source="common-practice",
    )
