"""Lesson 1, how a clutch carries torque: what it carries, its reserve, and oil on the facing."""

from bitepoint.bank.carry.common import CARRIES, table_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.clutch import friction_radius_mm, reserve_factor, torque_capacity_nm
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import capacity_nm


@exercise("carry.capacity", lesson="carry", title="What the clutch carries", outcome=CARRIES, minutes=4)
def capacity(draw: Draw) -> Number:
    car = draw.vehicle()
    outer, inner = round(car.clutch.plate_od_mm), round(car.clutch.plate_id_mm)
    mu = round(car.clutch.mu_design + draw.pick(-0.03, -0.02, -0.01, 0.01, 0.02), 2)
    load = round(car.clutch.clamp_load_new_n * draw.value(0.92, 1.08, 0.02) / 50) * 50
    rest = draw.pick(80, 85, 90) if draw.form(2) else 100
    held = load * rest / 100
    radius = friction_radius_mm(outer, inner_diameter_mm=inner)
    right = torque_capacity_nm(held, outer_diameter_mm=outer, inner_diameter_mm=inner, friction=mu)
    told = f"A new clutch for {car.name}, its cover measured on the bench." if rest == 100 else (
        f"On {car.name} the release bearing pushes all the time. Only {rest} % of the clamp load is left."
    )  # fmt: skip
    return Number(
        ask=f"{told} At which torque does it begin to slip? Take the middle of the ring as radius.",
        table=table_of(
            ("Clamp load", f"{load:g} N"),
            ("Friction value of the facing", f"{mu:g}"),
            ("Facing, outer diameter", f"{outer} mm"),
            ("Facing, inner diameter", f"{inner} mm"),
        ),
        answer=right,
        unit="N·m",
        within=percent(2),
        decimals=1,
        mistakes=(
            Mistake(
                right / 2,
                "counts one friction face",
                (
                    "You counted one face. The plate is gripped on both sides. Half the figure "
                    "would condemn a good clutch."
                ),
            ),
            Mistake(
                right * 2,
                "takes the diameter for the radius",
                "Torque is force times radius, not diameter. Twice the figure would pass a clutch that slips.",
            ),
            Mistake(
                right * outer / 2 / radius,
                "takes the outer radius",
                "The whole ring grips, not only its rim. With the rim's radius you expect more than it holds.",
            ),
        ),
        why=f"Two faces, each {mu:g} × {held:g} N, at {radius:g} mm: {right:.1f} N·m.",
        step=f"First the radius: ({outer} + {inner}) ÷ 4 = {radius:g} mm. Then one face: {mu:g} × {held:g} N.",
        solution=f"T = 2 × {mu:g} × {held:g} N × {radius / 1000:.4f} m = {right:.1f} N·m.",
        source="machine-elements-design",
        vehicle=car.id,
    )


@exercise("carry.reserve", title="Reserve of a clutch", lesson="carry", outcome=CARRIES, minutes=3)
def reserve(draw: Draw) -> Number:
    car = draw.vehicle()
    clutch, engine = car.clutch, car.engine.max_torque_nm
    radius = friction_radius_mm(clutch.plate_od_mm, inner_diameter_mm=clutch.plate_id_mm)
    form = draw.form(2)

    def drawn() -> tuple[int, float]:
        share, more = draw.value(0.94, 1.08, 0.02), draw.pick(10, 15, 20)
        return round(clutch.clamp_load_new_n * share / 10) * 10, engine + more if form else engine

    def factor(given: tuple[int, float]) -> float:
        return reserve_factor(capacity_nm(car) * given[0] / clutch.clamp_load_new_n, engine_torque_nm=given[1])

    load, torque = draw.until(lambda given: _rounds_one_way(factor(given)), drawn)
    holds, right = capacity_nm(car) * load / clutch.clamp_load_new_n, factor((load, torque))
    told = (
        f"Someone changed the engine's program. The engine now gives {torque:g} N·m. "
        if form
        else f"The engine gives at most {torque:g} N·m. "
    )
    return Number(
        ask=f"A new cover for {car.name} presses with {load} N. {told}"
        "How many times this torque can the clutch carry? Two decimals; this is the reserve factor.",
        table=table_of(
            ("Friction value of the facing", f"{clutch.mu_design:g}"),
            ("Facing, outer diameter", f"{clutch.plate_od_mm:g} mm"),
            ("Facing, inner diameter", f"{clutch.plate_id_mm:g} mm"),
        ),
        answer=right,
        unit="",
        within=percent(1.5),
        decimals=2,
        mistakes=(
            Mistake(
                1 / right,
                "divides upside down",
                (
                    "You divided engine by clutch. Read so, a good clutch seems to slip, and it "
                    "gets changed for nothing."
                ),
            ),
            Mistake(
                right * 2,
                "takes the diameter for the radius",
                "That factor comes out of the diameter. Halve it first, or you trust a reserve that is not there.",
            ),
        ),
        why=f"The clutch carries {holds:.1f} N·m. New car clutches lie about 1.2 to 1.5 times the engine.",
        step=f"First what it carries: 2 × {clutch.mu_design:g} × {load} N × {radius / 1000:.4f} m.",
        solution=f"{holds:.1f} N·m ÷ {torque:g} N·m = {right:.2f}.",
        source="machine-elements-design",
        vehicle=car.id,
    )


def _rounds_one_way(value: float) -> bool:
    """Whether two decimals are not a matter of taste: 1.575 is 1.58 on paper and 1.57 for a computer."""
    return abs(value * 1000 % 10 - 5) > 0.2


@exercise("carry.oil", lesson="carry", title="Oil on the facing", outcome=CARRIES, minutes=3)
def oil(draw: Draw) -> Number:
    car = draw.vehicle()
    clutch, engine = car.clutch, car.engine.max_torque_nm
    mu = draw.value(0.1, 0.15, 0.01)
    dry = capacity_nm(car)
    right = dry * mu / clutch.mu_design
    what = ("Oil from a seal has reached the facing", "Spline grease was thrown onto the facing")[draw.form(2)]
    return Number(
        ask=f"{what} of {car.name}. The friction value falls from {clutch.mu_design:g} to {mu:g}. "
        "From which engine torque on does the clutch slip?",
        table=table_of(
            ("Clamp load", f"{clutch.clamp_load_new_n:g} N"),
            ("Facing, outer diameter", f"{clutch.plate_od_mm:g} mm"),
            ("Facing, inner diameter", f"{clutch.plate_id_mm:g} mm"),
            ("Greatest engine torque", f"{engine:g} N·m"),
        ),
        answer=right,
        unit="N·m",
        within=percent(2),
        decimals=1,
        mistakes=(
            Mistake(
                dry,
                "keeps the dry friction value",
                "That is the dry clutch. Who reckons so clears an oily one, and it burns at the next hill.",
            ),
            Mistake(
                right / 2,
                "counts one friction face",
                "You counted one face. Both faces still grip, only worse. Half the figure misleads the driver.",
            ),
            Mistake(
                engine,
                "answers with the engine torque",
                "The engine gives that much, but the oily facing no longer holds it. So it slips long before.",
            ),
        ),
        why=f"Only the friction value changed, so the torque falls in the same share: to {right:.1f} N·m. "
        "Oil means a new plate, and the leak comes first.",
        step=f"The same formula with the new friction value: 2 × {mu:g} × {clutch.clamp_load_new_n:g} N × radius.",
        solution=f"2 × {mu:g} × {clutch.clamp_load_new_n:g} N × "
        f"{(clutch.plate_od_mm + clutch.plate_id_mm) / 4000:.4f} m = {right:.1f} N·m.",
        source="machine-elements-design",
        vehicle=car.id,
    )
