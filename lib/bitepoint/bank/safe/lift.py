"""Lesson 2, working safely: balance on the lift, axle stands, and what one person may lift."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.outcomes import LIFTS, STOPS
from bitepoint.mechanics.lifting import (
    LOAD_CONSTANT_KG,
    asymmetry_multiplier,
    coupling_multiplier,
    distance_multiplier,
    horizontal_multiplier,
    vertical_multiplier,
)
from bitepoint.mechanics.loads import centre_of_gravity_mm, centre_of_gravity_shift_mm, stand_rating_used_percent
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.vehicles import Vehicle


def _boot_kg(draw: Draw) -> int:
    """Mass in the boot; new tens with each turn. About 50 kg would put the balance of one car in its very middle."""
    return (20, 30, 60, 70)[draw.form(4)] + draw.integer(0, 9)


def _axles(car: Vehicle, boot_kg: int) -> tuple[tuple[str, str], ...]:
    return (
        ("What", "Figure"),
        ("Front axle", f"{car.masses.front_axle_kg:g} kg"),
        ("Rear axle, boot empty", f"{car.masses.rear_axle_kg:g} kg"),
        ("Load in the boot, above the rear axle", f"{boot_kg} kg"),
        ("Wheelbase", f"{car.masses.wheelbase_mm:g} mm"),
    )


@exercise("safe.balance-point", lesson="safe", outcome=LIFTS, minutes=3, title="Where the car balances")
def balance_point(draw: Draw) -> Number:
    car, boot = draw.vehicle(), _boot_kg(draw)
    front, rear, base = car.masses.front_axle_kg, car.masses.rear_axle_kg + boot, car.masses.wheelbase_mm
    right = centre_of_gravity_mm(front, rear_axle_kg=rear, wheelbase_mm=base)
    return Number(
        ask=f"{car.opening} is to go on the two-post lift. Its boot is not empty. "
        "How far behind the front axle does the car balance, in mm?",
        table=_axles(car, boot),
        answer=right,
        unit="mm",
        within=percent(0.5),
        decimals=0,
        mistakes=(
            Mistake(
                base * front / (front + rear),
                "counts from the wrong axle",
                "You worked out the distance from the rear axle. The heavy axle is the near one. "
                "Pads set by your figure leave the car front-heavy.",
            ),
            Mistake(
                base * car.masses.rear_axle_kg / (front + car.masses.rear_axle_kg),
                "forgets the load in the boot",
                "You left out the boot. It sits far behind and moves the balance. "
                "Once the gearbox is out as well, the car may tip to the rear.",
            ),
        ),
        why=f"It balances {right:.0f} mm behind the front axle. The pads must stay well in front of it and behind it.",
        step=f"Distance = wheelbase × rear load / whole load. The rear axle now carries {rear:g} kg.",
        solution=f"{base:g} × {rear:g} / ({front:g} + {rear:g}) = {right:.0f} mm.",
        source="derived",
        vehicle=car.id,
    )


@exercise("safe.stands", lesson="safe", outcome=LIFTS, minutes=2, title="Plate of the axle stands")
def stands(draw: Draw) -> Number:
    car, per = draw.vehicle(), ("pair", "each")[draw.form(2)]
    rated, front, whole = draw.pick(1500, 2000, 2500, 3000), car.masses.front_axle_kg, car.masses.vehicle_kg
    right = stand_rating_used_percent(front, rated_kg=rated, rated_per=per)
    other = stand_rating_used_percent(front, rated_kg=rated, rated_per="each" if per == "pair" else "pair")
    meant = "for the pair" if per == "pair" else "for each stand"
    both = rated if per == "pair" else 2 * rated
    return Number(
        ask=f"The front axle of {car.name} rests on two axle stands. Their plate says {rated} kg {meant}. "
        f"The front axle carries {front:g} kg, the whole car has {whole:g} kg. "
        "How much of what the two may carry is used, in %?",
        answer=right,
        unit="%",
        within=percent(1),
        decimals=1,
        mistakes=(
            Mistake(
                other,
                "mixes up pair and each",
                "You read the plate for the wrong number of stands. "
                "Who takes a pair's figure for one stand loads it with twice what it may carry.",
            ),
            Mistake(
                100 * whole / both,
                "takes the whole car",
                "You took the whole car. Two stands at the front carry the front axle only. "
                "Good stands would look too weak.",
            ),
        ),
        why=f"{right:.1f} % is used. A kept rating is one condition of several: pins in, level floor, push test.",
        step=f"The two together may carry {both} kg. Put the axle load over it.",
        solution=f"100 × {front:g} / {both} = {right:.1f} %.",
        source="hse-working-under-vehicles",
        vehicle=car.id,
    )


@exercise("safe.one-person", lesson="safe", outcome=LIFTS, minutes=3, beyond=True, title="What one adult may lift")
def one_person(draw: Draw) -> Number:
    car, form = draw.vehicle(), draw.form(3)
    part, mass = (
        ("flywheel", car.masses.dmf_kg or car.masses.flywheel_kg),
        ("gearbox", car.masses.gearbox_kg),
        ("clutch cover", car.masses.cover_kg),
    )[form]
    reach, height, way, twist = draw.integer(35, 50), draw.integer(10, 25), draw.integer(60, 90), draw.integer(4, 9) * 5
    rows = (
        ("reach", f"{reach} cm in front of the ankles", round(horizontal_multiplier(reach), 2)),
        ("height", f"{height} cm above the floor", round(vertical_multiplier(height), 2)),
        ("way up", f"{way} cm", round(distance_multiplier(way), 2)),
        ("twist", f"{twist}°", round(asymmetry_multiplier(twist), 2)),
        ("grip", "poor, nothing to hold", round(coupling_multiplier("poor", vertical_cm=height), 2)),
    )
    right = LOAD_CONSTANT_KG
    for _, _, factor in rows:
        right *= factor
    product = " × ".join(f"{factor:g}" for _, _, factor in rows)
    verdict = "more than that: use an aid" if mass > right else "less than that"
    return Number(
        ask=f"An adult lifts the {part} of {car.name} from the floor to the bench, a few times a day. "
        f"The best of all lifts allows {LOAD_CONSTANT_KG:g} kg. Each line of the table leaves a share of it. "
        "What mass does this lift allow, in kg?",
        table=(("what", "here", "leaves"), *((name, here, f"{factor:g}") for name, here, factor in rows)),
        answer=right,
        unit="kg",
        within=percent(3),
        decimals=1,
        mistakes=(
            Mistake(
                LOAD_CONSTANT_KG * rows[0][2],
                "stops after the reach",
                "You counted the reach only. Height, way, twist and grip each take their share too. "
                "Left out, they pay with your back.",
            ),
            Mistake(
                LOAD_CONSTANT_KG * sum(factor for _, _, factor in rows) / len(rows),
                "takes the mean of the shares",
                "You took the mean. Each share is of what the one before left, so they multiply. "
                "Your figure allows far too much, and a back does not heal quickly.",
            ),
        ),
        why=f"This lift allows {right:.1f} kg; the {part} has {mass:g} kg, {verdict}. "
        "Under 18 no figure is taken: the employer's rules come first.",
        step=f"Multiply one after the other. After the reach {LOAD_CONSTANT_KG * rows[0][2]:.1f} kg are left.",
        solution=f"{LOAD_CONSTANT_KG:g} × {product} = {right:.1f} kg.",
        source="niosh-94-110",
        vehicle=car.id,
    )


@exercise("safe.young", lesson="safe", outcome=STOPS, minutes=1.5, title="Under 18 and a heavy part")
def young(draw: Draw) -> Choice:
    car, age, form = draw.vehicle(), draw.pick(16, 17), form_of(draw)
    heavy = {"flywheel": car.masses.dmf_kg or car.masses.flywheel_kg, "gearbox": car.masses.gearbox_kg}[form.key]
    return form.choice(draw, vehicle=car.id, car=car.name, age=age, heavy=f"{heavy:g}")


@exercise("safe.balance-shift", lesson="safe", outcome=LIFTS, minutes=4, beyond=True, title="How the balance moves")
def balance_shift(draw: Draw) -> Number:
    car, boot = draw.vehicle(), _boot_kg(draw)
    front, rear, base = car.masses.front_axle_kg, car.masses.rear_axle_kg + boot, car.masses.wheelbase_mm
    part, ahead = car.masses.gearbox_kg, car.masses.gearbox_cg_ahead_of_front_axle_mm
    right = centre_of_gravity_shift_mm(
        part, part_behind_front_axle_mm=-ahead, front_axle_kg=front, rear_axle_kg=rear, wheelbase_mm=base
    )
    whole, balance = front + rear, centre_of_gravity_mm(front, rear_axle_kg=rear, wheelbase_mm=base)
    where = f"{ahead:g} mm in front of" if ahead > 0 else f"{-ahead:g} mm behind"
    return Number(
        ask=f"{car.opening} is on the two-post lift, something in its boot. The gearbox comes out. "
        "By how many mm does the balance of the rest move to the rear?",
        table=(*_axles(car, boot), ("Gearbox", f"{part:g} kg"), ("Its middle", f"{where} the front axle")),
        picture=Picture(
            "axle-loads",
            {
                "front_kg": front,
                "rear_kg": rear,
                "wheelbase_mm": base,
                "part_kg": part,
                "part_mm": -ahead,
                "to_work_out": True,
            },
        ),
        answer=right,
        unit="mm",
        within=percent(1),
        decimals=1,
        mistakes=(
            Mistake(
                part * (balance + ahead) / whole,
                "divides by the full mass",
                "You divided by the mass with the gearbox. It is no longer there. "
                "The balance moves a little further than you think.",
            ),
            Mistake(
                part * balance / (whole - part),
                "puts the gearbox on the axle line",
                "You set the gearbox right on the front axle. Mind where its middle sits. "
                "Otherwise the pads are placed for another car.",
            ),
        ),
        why=f"The balance moves {right:.1f} mm to the rear: the front gets lighter. Nobody pulls at the car then.",
        step=f"Shift = gearbox × its distance from the balance / what is left. The balance was at {balance:.0f} mm.",
        solution=f"{part:g} × ({balance:.0f} − ({-ahead:g})) / ({whole:g} − {part:g}) = {right:.1f} mm.",
        source="derived",
        vehicle=car.id,
    )
