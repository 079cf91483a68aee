"""Lesson 1, how a clutch carries torque: release, lift, and the clamp load as the facing wears."""

from bitepoint.bank.carry.common import LIFTS, SPRINGS, table_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.clutch import clamp_load_for_torque_n
from bitepoint.mechanics.release import plate_lift_mm
from bitepoint.mechanics.wear import clamp_load_after_wear_n
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.figures import bearing_travel_mm
from bitepoint.workshop.vehicles import vehicle


@exercise("carry.lift", lesson="carry", title="Lift of the pressure plate", outcome=LIFTS, minutes=3)
def lift(draw: Draw) -> Number:
    car = draw.vehicle()
    ratio, lost = car.clutch.lever_ratio, draw.value(0.6, 1.2, 0.1)
    air = draw.form(2) == 1
    travel = round(bearing_travel_mm(car), 1) - (draw.pick(1, 1.2, 1.4) if air else 0)
    right = plate_lift_mm(travel, finger_ratio=ratio, lost_mm=lost)
    where = f"The pedal of {car.name} is down"
    told = f"{where}, but travel is missing. The release bearing" if air else f"{where}. The release bearing"
    return Number(
        ask=f"{told} pushes the finger tips by {travel:.1f} mm. How far does the pressure plate lift?",
        table=table_of(
            ("Lever ratio of the fingers", f"{ratio:g}"), ("Lost in bending cover and fingers", f"{lost:g} mm")
        ),
        answer=right,
        unit="mm",
        within=percent(2),
        decimals=2,
        mistakes=(
            Mistake(
                travel / ratio,
                "forgets what is lost in bending",
                (
                    "Cover and fingers bend before anything lifts. Who forgets it expects a free "
                    "plate where it still drags."
                ),
            ),
            Mistake(
                (travel - lost) * ratio,
                "multiplies by the lever ratio",
                "The fingers are the long arm: they move much, the plate little. Such a lift would burst the straps.",
            ),
        ),
        why=f"The fingers move {ratio:g} times as far as the plate. The sheet asks for "
        f"{car.clutch.plate_lift_required_mm:g} mm: {_enough(right, car.clutch.plate_lift_required_mm)}.",
        step=f"First take off what is lost: {travel:.1f} − {lost:g} mm. Then divide by the long arm.",
        solution=f"({travel:.1f} − {lost:g}) ÷ {ratio:g} = {right:.2f} mm.",
        source="invented",
        vehicle=car.id,
    )


def _enough(lift_mm: float, needed_mm: float) -> str:
    return "it frees" if lift_mm >= needed_mm else "it may drag"


@exercise("carry.travel-needed", lesson="carry", outcome=LIFTS, minutes=3)
def travel_needed(draw: Draw) -> Number:
    car = draw.vehicle()
    ratio, lost = car.clutch.lever_ratio, draw.value(0.6, 1.2, 0.1)
    asked = draw.form(2)
    wanted = car.clutch.plate_lift_required_mm if not asked else draw.pick(1.3, 1.4, 1.45, 1.55)
    right = wanted * ratio + lost
    whose = "The sheet asks for" if not asked else "The maker of another plate asks for"
    return Number(
        ask=f"Fingers as on {car.name}. {whose} a lift of {wanted:g} mm. "
        "How far must the release bearing push the finger tips for it?",
        table=table_of(
            ("Lever ratio of the fingers", f"{ratio:g}"), ("Lost in bending cover and fingers", f"{lost:g} mm")
        ),
        answer=right,
        unit="mm",
        within=percent(1.5),
        decimals=1,
        mistakes=(
            Mistake(
                wanted * ratio,
                "forgets what is lost in bending",
                "The first part of the travel only bends parts. Set so short, the clutch drags and the gears grate.",
            ),
            Mistake(
                wanted / ratio,
                "divides by the lever ratio",
                "The bearing pushes the long arm, so it needs more travel than the plate. So little frees nothing.",
            ),
            Mistake(
                (wanted + lost) * ratio,
                "multiplies what is lost as well",
                "The loss is measured at the bearing already. Too much travel bends the fingers past their stop.",
            ),
        ),
        why=f"The long arm makes {wanted:g} mm into {wanted * ratio:.2f} mm, and bending comes on top.",
        step=f"Turn the lift into travel at the fingers: {wanted:g} × {ratio:g}. Then think of the bending.",
        solution=f"{wanted:g} × {ratio:g} + {lost:g} = {right:.2f} mm.",
        source="invented",
        vehicle=car.id,
    )


@exercise("carry.clamp-curve", lesson="carry", outcome=SPRINGS, minutes=2)
def clamp_curve(draw: Draw) -> Number:
    car = vehicle("A")
    new = car.clutch.clamp_load_new_n
    slip = clamp_load_for_torque_n(
        car.engine.max_torque_nm,
        outer_diameter_mm=car.clutch.plate_od_mm,
        inner_diameter_mm=car.clutch.plate_id_mm,
        friction=car.clutch.mu_design,
    )
    at_slip = slip / 1000

    def drawn() -> tuple[float, float, int]:
        return draw.pick(1.15, 1.2, 1.25), draw.value(0.8, 1.4, 0.1), draw.pick(500, 600, 700)

    def load_kn(place: float, wear: float) -> float:
        return (
            clamp_load_after_wear_n(
                wear, clamp_load_new_n=new, height_ratio=1.75, cone_height_mm=3, travel_ratio_new=place
            )
            / 1000
        )

    def coil_kn(wear: float, rate: int) -> float:
        return (new - rate * wear) / 1000

    place, wear, coil_rate = draw.until(lambda d: coil_kn(d[1], d[2]) - at_slip > 0.3, drawn)
    now, coil = load_kn(place, wear), coil_kn(wear, coil_rate)
    spare = draw.form(2) == 1
    base = at_slip if spare else 0.0
    asked = (
        "How far does its clamp load lie above the line where it slips?"
        if spare
        else "Which clamp load does it have there?"
    )
    return Number(
        ask=(
            "A cover with a diaphragm spring for training vehicle A. Its plate is worn as the dot "
            "in the picture "
            f"shows. {asked}"
        ),
        picture=Picture(
            "clamp-load-and-wear",
            {
                "to_read": True,
                "clamp_load_n": new,
                "slip_load_n": round(slip, 1),
                "travel_new": place,
                "coil_rate_n_per_mm": coil_rate,
                "wear_mm": wear,
                "allowed_mm": round(car.clutch.plate_thickness_new_mm - car.clutch.plate_thickness_min_mm, 2),
            },
        ),
        answer=now - base,
        unit="kN",
        within=plus_minus(0.12),
        decimals=2,
        mistakes=(
            Mistake(
                coil - base,
                "reads the curve of the coil springs",
                "That is the dashed line, of coil springs. Read so, a good diaphragm cover is thrown away.",
            ),
            _other_reading(spare, now, at_slip),
        ),
        why=f"The thick line stands at {now:.2f} kN there, above the new value. It falls only late, and then fast.",
        step=f"Go up from {wear:g} mm to the thick line, then level to the left scale. Read between the thin lines.",
        solution=f"{now:.2f} kN − {base:.2f} kN = {now - base:.2f} kN."
        if spare
        else f"The dot stands at {now:.2f} kN.",
        source="invented",
        vehicle="A",
    )


def _other_reading(spare: bool, now_kn: float, slip_kn: float) -> Mistake:
    if spare:
        return Mistake(
            now_kn,
            "gives the load, not what is to spare",
            "That is the whole load. What counts is how much of it is to spare, or you expect too much.",
        )
    return Mistake(
        slip_kn,
        "reads the slip line",
        "That is the line below which it slips. Taken as the load, it would condemn a clutch that holds.",
    )


_WEAR: tuple[tuple[str, str, tuple[Mistake, ...], str, str], ...] = (
    (
        (
            "A conventional diaphragm cover, the plate worn by about {worn:g} mm, half of what is "
            "allowed. How does it press?"
        ),
        "Harder than when it was new",
        (
            Mistake(
                "Less, because every spring tires with wear",
                "thinks of a coil spring",
                "So does a coil spring. Who expects it here changes a clutch at half its life.",
            ),
            Mistake(
                "Just as before, because it adjusts itself",
                "thinks of a self-adjusting cover",
                "A conventional cover has no adjuster. Who counts on one is surprised by the heavy pedal.",
            ),
        ),
        "Wear lets the spring move towards the top of its curve. Past the top it loses load, and then fast.",
        "A new spring sits past its peak. Which way does wear move it?",
    ),
    (
        (
            "A customer says: the pedal has become heavier over {km} thousand kilometres. "
            "Conventional cover, release parts in order. Why?"
        ),
        "The worn plate lets the spring sit higher on its curve",
        (
            Mistake(
                "The release bearing wears and needs more force",
                "blames the bearing for the force",
                "A worn bearing makes noise, not force. Changed alone, the pedal stays heavy.",
            ),
            Mistake(
                "The facing gets harder with age",
                "mixes up friction and force",
                "A hard facing grips worse but does not push back at the pedal. The worn plate stays unseen.",
            ),
        ),
        "The spring presses harder as the plate gets thinner, and the pedal has to overcome it.",
        "The pedal works against the spring. What changed the place of the spring?",
    ),
    (
        (
            "Training vehicle C has a self-adjusting cover. Its plate is worn by {worn:g} mm. "
            "What about clamp load and pedal force?"
        ),
        "Both stay nearly as they were when new",
        (
            Mistake(
                "Both rise, as with every diaphragm spring",
                "forgets the adjuster",
                "The ring takes up the wear, so the spring keeps its place. A heavy pedal here means a blocked ring.",
            ),
            Mistake(
                "Both fall from the first kilometre",
                "thinks of a coil spring",
                "No coil springs press here. Who expects a weak clutch overlooks oil as the cause of slip.",
            ),
        ),
        "The adjuster ring turns as the facing wears, so the spring works at the same place of its curve.",
        "Ask what the word self-adjusting says: what is it that is kept?",
    ),
)


@exercise("carry.wear", lesson="carry", title="Wear and clamp load", outcome=SPRINGS, minutes=2)
def wear_and_load(draw: Draw) -> Choice:
    form = draw.form(3)
    ask, best, others, why, step = _WEAR[form]
    return Choice.of(
        draw,
        ask=ask.format(worn=draw.value(0.6, 0.9, 0.1), km=draw.pick(80, 95, 110, 125)),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}.",
        source="machine-elements-design" if form == 0 else "common-practice",
        vehicle="C" if form == 2 else "",
    )
