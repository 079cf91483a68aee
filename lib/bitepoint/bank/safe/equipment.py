"""Lesson 2, working safely: before anyone touches the car, and equipment that may be used."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.safe.common import LIFTS, SECURES, opened
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.workshop.tools import workshop

_AREA = needed("Others told; the area round the car kept free", "leaves the area open",
               "Something is missing. A person who walks in does not know that the car will move or go up.")  # fmt: skip
_CHOCK = needed("Chocks at the wheels that stay down", "leaves out the chocks",
                "Something is missing. A parking brake alone lets a car creep, and people have been rolled over.",
                critical=True)  # fmt: skip
_KEY = needed("Ignition off, key kept on you", "leaves the key in the car",
              "Something is missing. Whoever finds the key can start the engine while your hands are in it.",
              critical=True)  # fmt: skip
_LEVEL = needed("Level, firm floor; parking brake on", "takes any floor",
                "Something is missing. On a slope or a soft floor jack and stands tip.", critical=True)  # fmt: skip
_COOL = needed("Exhaust left to cool", "works at a hot exhaust",
               "Something is missing. After a road test the exhaust burns skin at a touch.")  # fmt: skip
_FIRST_GEAR = wrong("First gear engaged instead of chocks", "trusts a gear",
                    "A gear holds only as long as the clutch and shafts are there. You take both out.",
                    critical=True)  # fmt: skip
_KEY_IN_LOCK = wrong("Key left in its lock for the radio", "keeps the car awake",
                     "With the key there, anyone can start the engine. Hands are in it by then.", critical=True)  # fmt: skip
_GLOVES = wrong("Cloth gloves on, so that hands stay clean", "takes gloves for a safeguard",
                "They protect nothing that counts here. Near turning parts they pull the hand in.")  # fmt: skip


@exercise("safe.before-touching", lesson="safe", outcome=SECURES, minutes=1.5, title="Before you touch the car")
def before_touching(draw: Draw) -> Several:
    car, minutes = draw.vehicle(), draw.integer(5, 20)
    options, ask = (
        (
            (_AREA, _CHOCK, _KEY, _FIRST_GEAR, _GLOVES),
            f"{opened(car)} rolls in for its clutch, {minutes} minutes before the break. "
            "What is done before anyone touches it? Pick all.",
        ),
        (
            (_LEVEL, _KEY, _COOL, _KEY_IN_LOCK, _FIRST_GEAR),
            f"{opened(car)} comes back from a road test of {minutes} minutes. "
            "What is done before you open the bonnet? Pick all.",
        ),
    )[draw.form(2)]
    return Several.of(
        draw,
        options=options,
        ask=ask,
        why="It cannot roll, nobody can start it, and everyone near knows. Then the work begins.",
        step="Ask three things: can it roll, can someone start it, who else could be hurt?",
        solution="\n".join(o.text for o in options if o.right),
        source="hse-working-under-vehicles",
        vehicle=car.id,
    )


@exercise("safe.dead-car", lesson="safe", outcome=SECURES, minutes=2, title="Make the car dead")
def dead_car(draw: Draw) -> Order:
    car, form = draw.vehicle(), form_of(draw)
    return form.order(draw, vehicle=car.id, opened=opened(car), minutes=draw.integer(3, 30))


@exercise("safe.tags", lesson="safe", outcome=LIFTS, minutes=2, title="May it be used?")
def tags(draw: Draw) -> Choice:
    car, lift, form = draw.vehicle(), workshop().lift, form_of(draw)
    late = lift.interval_months + draw.integer(1, 3)
    jack = next(s for s in workshop().supports if s.id == "gearbox jack")
    months, height = draw.integer(2, 10), draw.integer(12, 18) / 10
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        opened=opened(car),
        late=late,
        interval=lift.interval_months,
        height=f"{height:g}",
        car_kg=f"{car.masses.vehicle_kg:g}",
        rated_kg=f"{lift.rated_kg:g}",
        months=months,
        jack_kg=f"{jack.rated_kg:g}",
        gearbox_kg=f"{car.masses.gearbox_kg:g}",
    )
