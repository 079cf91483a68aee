"""Lesson 1, how a clutch carries torque: the clamp load as the facing wears."""

from bitepoint.bank.carry.common import SPRINGS
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.clutch import clamp_load_for_torque_n
from bitepoint.mechanics.wear import clamp_load_after_wear_n
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake, Picture

_CONVENTIONAL = ("conventional cover",)


@exercise(
    "carry.clamp-curve",
    title="Read the clamp load of a worn plate",
    lesson="carry",
    outcome=SPRINGS,
    minutes=2,
    others=(_CONVENTIONAL,),
)
def clamp_curve(draw: Draw) -> Number:
    car = draw.cars(*_CONVENTIONAL)[0]
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
            f"A cover with a diaphragm spring for {car.name}. Its plate is worn as the dot in the picture shows. {asked}"
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
        vehicle=car.id,
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


@exercise("carry.wear", lesson="carry", title="Wear and clamp load", outcome=SPRINGS, minutes=2)
def wear_and_load(draw: Draw) -> Choice:
    form = form_of(draw)
    car = draw.cars(*form.needs)[0] if form.needs else None
    return form.choice(
        draw,
        vehicle=car.id if car else "",
        opening=car.opening if car else "",
        worn=f"{draw.value(0.6, 0.9, 0.1):g}",
        km=draw.pick(80, 95, 110, 125),
    )
